// Laws of the tests over far more random cases than the suite draws, in parts: what has been run is kept in figures.json, and the next run
// goes on with other seeds.
//
//   node tests/campaigns/laws.mjs                     all campaigns to their ends: many hours
//   node tests/campaigns/laws.mjs --minutes 30        for half an hour, the least complete campaign first
//   node tests/campaigns/laws.mjs corners             one of them
//   node tests/campaigns/laws.mjs corners --anew      without what was run before
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';

/**
 * What is drawn, how many cases there should be, in which files the laws stand, their names (all of the files if none), and the runs of a law in one part.
 * @typedef {{ what: string, cases: number, files: string[], laws?: string[], runs: number }} Campaign
 */

/** @type {Record<string, Campaign>} */
const CAMPAIGNS = {
  corners: {
    what: 'random corners of three kinds against closed forms',
    cases: 1_000_000,
    files: ['corner/closed-form', 'corner/pushrod', 'corner/strut'],
    laws: ['any corner, by circle', 'any corner with rod and rocker, by circle', 'any strut corner'],
    runs: 2_000,
  },
  linkages: {
    what: 'random linkages of up to ten bars: laws of any motion',
    cases: 100_000,
    files: ['linkage/laws', 'linkage/invariance', 'linkage/layers'],
    runs: 200,
  },
  'joints and drivers': {
    what: 'random linkages with sliders, couplings and several drivers: places and forces',
    cases: 100_000,
    files: ['linkage/couplings', 'linkage/drivers', 'linkage/excavator', 'linkage/joints', 'linkage/statics'],
    runs: 200,
  },
  'change points': {
    what: 'linkages at and close by their change points',
    cases: 100_000,
    files: ['linkage/change-points', 'linkage/driven-change-points', 'linkage/close-passes'],
    runs: 500,
  },
};

const FIGURES = 'tests/campaigns/figures.json';

/**
 * Parts that have been run, their cases, the longest case (ms), the largest growth of memory within a part (bytes), and the failures.
 * @typedef {{ parts: number, cases: number, slowest: number, growth: number, failures: { seed: number, said: string }[] }} Figures
 */

const { values, positionals } = parseArgs({
  options: { minutes: { type: 'string' }, anew: { type: 'boolean' } },
  allowPositionals: true,
});
const unknown = positionals.filter((name) => !(name in CAMPAIGNS));
if (unknown.length > 0)
  throw new Error(`${unknown.join(', ')}: not one of ${Object.keys(CAMPAIGNS).join(', ')}`);
const named = positionals.length > 0 ? positionals : Object.keys(CAMPAIGNS);
const until = Date.now() + 60_000 * Number(values.minutes ?? Number.POSITIVE_INFINITY);

/** @type {Record<string, Figures>} */
const figures = existsSync(FIGURES) ? JSON.parse(readFileSync(FIGURES, 'utf8')) : {};
for (const name of named) {
  if (values.anew || figures[name] === undefined) {
    figures[name] = { parts: 0, cases: 0, slowest: 0, growth: 0, failures: [] };
  }
}

const shareOf = (/** @type {string} */ name) => figures[name].cases / CAMPAIGNS[name].cases;
for (;;) {
  const [next] = named.filter((name) => shareOf(name) < 1).sort((a, b) => shareOf(a) - shareOf(b));
  if (next === undefined || Date.now() >= until) break;
  runPart(next);
  writeFileSync(FIGURES, `${JSON.stringify(figures, null, 2)}\n`);
}
process.exitCode = named.some((name) => figures[name].failures.length > 0) ? 1 : 0;

/** Runs the next part of a campaign, with its number as the seed. */
function runPart(/** @type {string} */ name) {
  const { files, laws, runs, cases: all } = CAMPAIGNS[name];
  const own = figures[name];
  const seed = own.parts + 1;
  const folder = mkdtempSync(join(tmpdir(), 'campaign-'));
  const { status, stdout, stderr } = spawnSync(
    'npx',
    [
      ...['vitest', 'run', '--config', 'tests/campaigns/vitest.config.ts', '--root', '.'],
      ...['--reporter', 'default', '--no-color', ...files.map((file) => `tests/${file}.test.ts`)],
      ...(laws === undefined ? [] : ['-t', laws.join('|')]),
    ],
    {
      encoding: 'utf8',
      env: { ...process.env, FC_RUNS: String(runs), FC_SEED: String(seed), CAMPAIGN: folder },
      maxBuffer: 2 ** 28,
    },
  );
  for (const file of readdirSync(folder)) {
    const { cases, slowest, growth } = JSON.parse(readFileSync(join(folder, file), 'utf8'));
    own.cases += cases;
    own.slowest = Math.max(own.slowest, Math.round(slowest));
    own.growth = Math.max(own.growth, Math.round(growth));
  }
  rmSync(folder, { recursive: true });
  if (status !== 0) {
    const said = `${stdout}${stderr}`.match(/FAIL .*|\{ seed: .*\}|(Assertion)?Error: .*/g) ?? [
      stdout.slice(-500),
    ];
    own.failures.push({ seed, said: said.slice(0, 6).join(' ') });
  }
  own.parts = seed;
  const count = (/** @type {number} */ value) => value.toLocaleString('en-US');
  console.log(
    `${name}: ${count(own.cases)} of ${count(all)} cases, ${own.failures.length} failures, slowest ${own.slowest} ms, memory grows by ${count(own.growth)} bytes`,
  );
}
