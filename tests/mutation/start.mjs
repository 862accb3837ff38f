// Mutation testing: small faults are planted in src, one by one, and the tests must fail.
//
//   npm run mutation                            goes on with all campaigns, the least complete first: hours
//   npm run mutation -- --minutes 60            for an hour
//   npm run mutation -- linkage                 one of them
//   npm run mutation -- src/linkage/path.ts     some files
//   npm run mutation -- corner --survivors      once more those that survived, with all their tests
//
// Code is judged by the tests of its own concern, with few runs of each law and without the slowest: a fault that these let pass may
// still be caught elsewhere. What has been tried is kept in tests/mutation/state by the text of each declaration, and tried again only
// where that text has changed: so it may be stopped at any time, and goes on another night. `npm run mutation:report` makes
// docs/mutation.md of it.
import { mkdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { campaigns } from './campaigns.mjs';
import { bundle, withFaults } from './faults.mjs';
import { countsOf, keyOf, LETTERS, readState, writeState } from './state.mjs';
import { Thread } from './thread.mjs';

/** Milliseconds that tests may take for one fault: beyond, it counts as survived until `--survivors`. */
const BUDGET = 1500;
/** For one that survived. */
const WHOLE_BUDGET = 60_000;
/** Milliseconds between two notes of what has been tried. */
const NOTE_EVERY = 20_000;

const { values, positionals } = parseArgs({
  options: {
    minutes: { type: 'string' },
    survivors: { type: 'boolean' },
    workers: { type: 'string', default: String(availableParallelism()) },
  },
  allowPositionals: true,
});
const until = Date.now() + 60_000 * Number(values.minutes ?? Number.POSITIVE_INFINITY);
const files = positionals.filter((name) => name.startsWith('src/'));
const named = positionals.filter((name) => !name.startsWith('src/'));
const unknown = named.filter((name) => !(name in campaigns));
if (unknown.length > 0)
  throw new Error(`${unknown.join(', ')}: not one of ${Object.keys(campaigns).join(', ')}`);
process.env.FC_RUNS ??= '5';

for (const name of named.length > 0 ? named : Object.keys(campaigns)) {
  if (Date.now() < until) await run(name);
}

/** Tries what has not been tried of a campaign. */
async function run(/** @type {string} */ name) {
  const campaign = campaigns[name];
  const { switched, declarations } = await withFaults(campaign);
  const before = readState(name);
  /** What is kept: of declarations that are as they were. @type {import('./state.mjs').State} */
  const state = {};
  for (const one of declarations) {
    const known = before[keyOf(one)];
    if (known?.tried.length === one.faults.length) state[keyOf(one)] = known;
  }
  const wanted = files.length === 0 ? declarations : declarations.filter(({ file }) => files.includes(file));
  const { survived, passed, unmet } = LETTERS;
  const again = new RegExp(`[${survived}${passed}${unmet}]`);
  const due = wanted.filter((one) => {
    const known = state[keyOf(one)];
    return values.survivors ? again.test(known?.tried ?? '') : known === undefined;
  });
  writeState(name, state);
  const total = due.reduce((sum, { faults }) => sum + faults.length, 0);
  console.log(`${name}: ${due.length} of ${declarations.length} declarations, ${total} faults`);
  if (due.length === 0) return;

  const folder = resolve('out/mutation');
  mkdirSync(folder, { recursive: true });
  const outfile = `${folder}/${name}.mjs`;
  await bundle(campaign, switched, declarations, outfile);
  const first = new Thread(pathToFileURL(outfile).href);
  const { measured, atLoad } = await first.ask({ task: 'measure' });
  const loaded = new Set(atLoad);
  for (const { id, failure } of measured)
    if (failure !== null) console.log(`left out, fails by itself: ${id}: ${failure}`);
  /** @type {Map<number, { id: string, cost: number, turns: number }[]>} */
  const judges = new Map();
  for (const { id, cost, failure, met } of measured) {
    if (failure !== null) continue;
    for (const [fault, turns] of met) {
      const own = judges.get(fault) ?? [];
      own.push({ id, cost, turns });
      judges.set(fault, own);
    }
  }
  const costs = measured.reduce(
    (/** @type {number} */ sum, /** @type {{ cost: number }} */ { cost }) => sum + cost,
    0,
  );
  console.log(`${name}: ${measured.length} tests, ${(costs / 1000).toFixed(1)} s`);

  const queue = [...due];
  let tried = 0;
  let noted = Date.now();
  const note = () => {
    writeState(name, state);
    noted = Date.now();
    const all = Object.values(state)
      .map((one) => one.tried)
      .join('');
    const { injected, share } = countsOf(all);
    console.log(
      `${name}: ${tried} of ${total} now; ${injected} in all, ${(100 * share).toFixed(1)} % caught`,
    );
  };
  const work = async (/** @type {Thread} */ thread) => {
    for (let one = queue.shift(); one !== undefined && Date.now() < until; one = queue.shift()) {
      const known = state[keyOf(one)]?.tried ?? '';
      let letters = '';
      for (const [k, { id }] of one.faults.entries()) {
        if (values.survivors && !again.test(known[k] ?? '')) {
          letters += known[k];
          continue;
        }
        const own = judges.get(id);
        if (own !== undefined)
          letters += await letterOf(thread, id, own, values.survivors ? WHOLE_BUDGET : BUDGET);
        else letters += loaded.has(id) ? LETTERS.static : LETTERS.unmet;
        tried++;
      }
      const { file, name: called, faults } = one;
      state[keyOf(one)] = {
        file,
        name: called,
        tried: letters,
        survivors: faults.flatMap(({ line: at, mutator, replacement }, k) =>
          again.test(letters[k]) ? [[at, mutator, replacement.slice(0, 120)]] : [],
        ),
      };
      if (Date.now() - noted > NOTE_EVERY) note();
    }
    await thread.end();
  };
  const threads = [first];
  while (threads.length < Number(values.workers)) threads.push(new Thread(first.bundle));
  await Promise.all(threads.map(work));
  note();
}

/** What becomes of a fault. @returns {Promise<string>} */
async function letterOf(
  /** @type {Thread} */ thread,
  /** @type {number} */ id,
  /** @type {{ id: string, cost: number, turns: number }[]} */ judges,
  /** @type {number} */ budget,
) {
  const { status, whole } = await thread.ask({ task: 'try', id, judges, budget });
  if (status === 'killed') return LETTERS.killed;
  if (status === 'endless') return LETTERS.endless;
  return whole ? LETTERS.survived : LETTERS.passed;
}
