// Writes docs/linkages.md: the linkages solved, from a run of their tests that notes what each comparison met.
//
//   npm run validation

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Met } from '../support/met.ts';
import { SOLVED, type Solved } from './linkages.ts';

const folder = join('out', 'met');
rmSync(folder, { recursive: true, force: true });
const files = [...new Set(SOLVED.map(({ file }) => `tests/${file}`))];
const { status } = spawnSync('npx', ['vitest', 'run', '--config', 'tests/vitest.config.ts', ...files], {
  stdio: ['ignore', 'ignore', 'inherit'],
  env: { ...process.env, MET: folder },
});
if (status !== 0) throw new Error('the tests of the linkages do not pass: run npm test');
const met = readdirSync(folder).flatMap(
  (name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as Met[],
);

function row({ linkage, file, tests, source }: Solved): string {
  const own = met.filter((one) => one.file === `tests/${file}` && one.test.startsWith(tests));
  const checks = own.reduce((sum, one) => sum + one.checks, 0);
  if (checks === 0) throw new Error(`no comparison in tests/${file} under "${tests}"`);
  const worst = own.reduce((a, b) => (b.off * a.within > a.off * b.within ? b : a));
  return `| ${linkage} | ${checks} | ${short(worst.off)} | ${short(worst.within)} | ${source} | \`${file}\` |`;
}

function short(value: number): string {
  return value === 0 ? '0' : value.toExponential(1);
}

const table = [
  '| linkage | checks | error | allowed | held against | tests |',
  '| --- | ---: | ---: | ---: | --- | --- |',
  ...SOLVED.map(row),
];
writeFileSync(
  'docs/linkages.md',
  `# Linkages solved

Made by \`npm run validation\` from a run of the tests. Of each linkage's comparisons the one is shown that came nearest to
its tolerance: its error, and what was allowed there, in the unit of that comparison (length of the drawing, radian or degree, a
rate). Printed figures allow half of their last digit; closed forms some roundings of the numbers that went in. "Read" means
that the source was seen, "from memory" that it was not.

${table.join('\n')}
`,
);
