// Writes docs/messages.md from a run of the tests that notes what each code says.
//
//   npm run messages

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { line } from '../../src/sentences/line.ts';
import type { Words } from '../../src/sentences/plain.ts';
import type { Say } from '../../src/sentences/say.ts';
import { type Quantity, unitName } from '../../src/units.ts';
import { isBefore } from './record.ts';
import { codesByHeading, TABLES } from './tables.ts';

const PRINTED: readonly Quantity[] = [
  'length',
  'mass',
  'force',
  'rate',
  'damping',
  'pressure',
  'speed',
  'shaftSpeed',
  'frequency',
  'rollStiffness',
  'rollGradient',
  'angle',
];
const UNITS = PRINTED.map((quantity) => unitName(quantity, 'metric')).join(', ');

const folder = join('out', 'messages');
rmSync(folder, { recursive: true, force: true });
// Whether they pass is the matter of `npm test`: notes of what is said get in the way of tests of the tables themselves.
spawnSync('npx', ['vitest', 'run', '--config', 'tests/vitest.config.ts', '--exclude', 'tests/messages/**'], {
  stdio: 'ignore',
  env: { ...process.env, MESSAGES: folder },
});

const said = new Map<string, string>();
for (const name of readdirSync(folder)) {
  for (const [code, text] of JSON.parse(readFileSync(join(folder, name), 'utf8')) as [string, string][]) {
    const before = said.get(code);
    if (before === undefined || isBefore(text, before)) said.set(code, text);
  }
}

/** What a code says with the names of its values in their places, for those that no test puts into words. */
function inNames(code: string): string {
  const sentence = TABLES.map(([, table]) => table[code]).find((one) => one !== undefined);
  const named = (name: string) => `[${name}]`;
  const say = new Proxy({} as Say, {
    get: (_, what) => {
      if (what === 'has' || what === 'is') return () => true;
      if (what === 'list') return (name: string) => [named(name)];
      return what === 'number' ? () => 1 : named;
    },
  });
  const text = line(typeof sentence === 'function' ? sentence(say) : (sentence as Words));
  // Words chosen by the value of a name.
  return text.replaceAll('undefined', '[...]');
}

function row(code: string): string {
  const text = said.get(code) ?? inNames(code);
  return `| \`${code}\` | ${text.replaceAll('|', '\\|').replaceAll('<', '\\<').replaceAll(/\s+/g, ' ')} |`;
}

const sections = [...codesByHeading()].map(
  ([heading, codes]) =>
    `## ${heading}\n\n| code | for example |\n| --- | --- |\n${codes.map(row).join('\n')}\n`,
);

writeFileSync(
  join('docs', 'messages.md'),
  `# Messages

\`npm run messages\` writes this page from a run of the tests.

A diagnostic is \`{ code, severity, path, values }\`. \`error.issues\` of an \`InputError\` has them with severity \`error\`. Results have them with
severity \`conflict\` (it cannot be made or will not work), \`check\` (an input that looks wrong) or \`note\`. \`path\` is the place in the input. \`values\`
are names, and numbers in the library's units (${UNITS};
a shear modulus in N/mm²). From 1.0 on, codes are stable; wording is not.

\`sentence(diagnostic, units)\` and \`describeIssue(diagnostic, units)\` put a diagnostic into words. The examples below are what tests met, in the units
of that test. Names in square brackets are names of values, where no test has put a code into words.

${sections.join('\n')}`,
);
