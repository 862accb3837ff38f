// Long searches for faults, in parts: what has been run is kept in figures.json, and the next run goes on with other seeds.
//
//   npm run campaign                                   what there is, and how far each has come
//   npm run campaign -- corners                        one of them, to its end
//   npm run campaign -- corners --minutes 30           for half an hour
//   npm run campaign -- all --minutes 60               all of them, the least complete first
//   npm run campaign -- corners --seed 7               the part of that seed alone, without keeping its figures
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { CAMPAIGNS, type Laws } from './campaigns.ts';
import { noFigures, readFigures, writeFigures } from './figures.ts';

declare const gc: () => void;

/** Cases of a part of a campaign by its seed. Each says what is wrong, or null. */
type Cases = (seed: number, cases: number) => Iterable<() => string | null>;

/** Those that judge their cases by themselves; the others run laws of the suite. */
const CASES: Readonly<Record<string, () => Promise<Cases>>> = {
  corners: async () => (await import('./corners.ts')).corners,
  gaps: async () => (await import('./gaps.ts')).gaps,
  documents: async () => (await import('./documents.ts')).documents,
  arguments: async () => (await import('./arguments.ts')).spoiltCalls,
};

interface Part {
  readonly cases: number;
  readonly slowest: number;
  readonly growth: number;
  readonly failures: readonly string[];
}

const { values, positionals } = parseArgs({
  options: { minutes: { type: 'string' }, seed: { type: 'string' } },
  allowPositionals: true,
});
const names = Object.keys(CAMPAIGNS);
const unknown = positionals.filter((name) => name !== 'all' && !names.includes(name));
if (unknown.length > 0) throw new Error(`${unknown.join(', ')}: not one of ${names.join(', ')}`);
const named = positionals.includes('all') ? names : positionals;
const until = Date.now() + 60_000 * Number(values.minutes ?? Number.POSITIVE_INFINITY);
const figuresOf = (name: string) => readFigures()[name] ?? noFigures();
const shareOf = (name: string) => figuresOf(name).cases / CAMPAIGNS[name].cases;

if (named.length === 0) for (const name of names) console.log(line(name));
if (values.seed !== undefined) {
  for (const name of named) {
    const { failures, ...part } = await runPart(name, Number(values.seed));
    console.log(name, part);
    for (const failure of failures) console.log(failure);
  }
} else {
  for (;;) {
    const [next] = named.filter((name) => shareOf(name) < 1).sort((a, b) => shareOf(a) - shareOf(b));
    if (next === undefined || Date.now() >= until) break;
    const figures = figuresOf(next);
    const seed = figures.parts + 1;
    const { cases, slowest, growth, failures } = await runPart(next, seed);
    writeFigures(next, {
      ...figures,
      parts: seed,
      cases: figures.cases + cases,
      slowest: Math.max(figures.slowest, slowest),
      growth: Math.max(figures.growth, growth),
      failures: [...figures.failures, ...failures.map((said) => ({ seed, said: said.slice(0, 1000) }))],
    });
    console.log(line(next));
  }
}
process.exitCode = named.some((name) => figuresOf(name).failures.length > 0) ? 1 : 0;

function line(name: string): string {
  const { cases, slowest, growth, failures } = figuresOf(name);
  const count = (value: number) => value.toLocaleString('en-US');
  return `${name}: ${count(cases)} of ${count(CAMPAIGNS[name].cases)} cases, ${failures.length} failures, slowest ${Math.round(slowest)} ms, memory grows by ${count(growth)} bytes`;
}

async function runPart(name: string, seed: number): Promise<Part> {
  const { part, laws } = CAMPAIGNS[name];
  return laws === undefined ? casesOf((await CASES[name]())(seed, part), part) : lawsOf(laws, part, seed);
}

function inUse(): number {
  gc();
  return process.memoryUsage().heapUsed;
}

function casesOf(cases: Iterable<() => string | null>, expected: number): Part {
  let [count, slowest, early] = [0, 0, 0];
  const failures: string[] = [];
  for (const run of cases) {
    // All code is warm by then.
    if (count === Math.ceil(expected / 5)) early = inUse();
    const begun = performance.now();
    const fault = run();
    slowest = Math.max(slowest, performance.now() - begun);
    count++;
    if (fault !== null) failures.push(fault);
  }
  return { cases: count, slowest, growth: Math.max(0, inUse() - early), failures };
}

/** Laws of the suite with other seeds and more runs, in a process of vitest. */
function lawsOf({ files, named: only }: Laws, runs: number, seed: number): Part {
  const folder = mkdtempSync(join(tmpdir(), 'campaign-'));
  const { status, stdout, stderr } = spawnSync(
    'npx',
    [
      ...['vitest', 'run', '--config', 'tests/campaigns/vitest.config.ts', '--root', '.'],
      ...['--reporter', 'default', '--no-color', ...files.map((file) => `tests/${file}.test.ts`)],
      ...(only === undefined ? [] : ['-t', only.join('|')]),
    ],
    {
      encoding: 'utf8',
      env: { ...process.env, FC_RUNS: String(runs), FC_SEED: String(seed), CAMPAIGN: folder },
      maxBuffer: 2 ** 28,
    },
  );
  const parts = readdirSync(folder).map(
    (file) => JSON.parse(readFileSync(join(folder, file), 'utf8')) as Omit<Part, 'failures'>,
  );
  rmSync(folder, { recursive: true });
  const said = `${stdout}${stderr}`.match(/FAIL .*|\{ seed: .*\}|(Assertion)?Error: .*/g) ?? [
    stdout.slice(-500),
  ];
  return {
    cases: parts.reduce((sum, { cases }) => sum + cases, 0),
    slowest: Math.max(0, ...parts.map(({ slowest }) => slowest)),
    growth: Math.max(0, ...parts.map(({ growth }) => Math.round(growth))),
    failures: status === 0 ? [] : [said.slice(0, 8).join(' ')],
  };
}
