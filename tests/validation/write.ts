// Writes docs/validation.md: what holds the figures, from a run of the tests that notes what each comparison met.
//
//   npm run validation

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isNearer, type Met } from '../support/met.ts';
import { type Check, namesOf } from './check.ts';
import { laws } from './laws.ts';
import { SECTIONS, WITHOUT } from './sections.ts';
import { SOURCES } from './sources.ts';

const folder = join('out', 'met');
rmSync(folder, { recursive: true, force: true });
const files = [...new Set(SECTIONS.flatMap(({ checks }) => checks.map(({ file }) => `tests/${file}`)))];
const { status } = spawnSync('npx', ['vitest', 'run', '--config', 'tests/vitest.config.ts', ...files], {
  stdio: ['ignore', 'ignore', 'inherit'],
  env: { ...process.env, MET: folder },
});
if (status !== 0) throw new Error('the tests do not pass: run npm test');
const met = readdirSync(folder).flatMap(
  (name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as Met[],
);

/** Comparisons of a check, and of each of its names; there must be some under every one. */
function metBy(check: Check): Met[] {
  const own = met.filter(({ file, checks }) => file === `tests/${check.file}` && checks > 0);
  return namesOf(check).flatMap((parts) => {
    const found = own.filter(({ test }) => {
      const titles = test.split(' > ');
      return parts.every((part, k) => titles[k]?.startsWith(part));
    });
    if (found.length === 0)
      throw new Error(`no comparison in tests/${check.file} under "${parts.join(' > ')}"`);
    return found;
  });
}

const count = (all: readonly Met[]) => all.reduce((sum, { checks }) => sum + checks, 0);
const thousands = (value: number) => value.toLocaleString('en-US');
const short = (value: number) => (value === 0 ? '0' : value.toExponential(1));

function row(check: Check): string {
  const { what, against, known, unit, file } = check;
  const own = metBy(check);
  const { off, within } = own.reduce((a, b) => (isNearer(b, a) ? b : a));
  const allowed = within === 0 ? 'none' : short(within);
  return `| ${[
    what,
    against,
    ...(known === undefined ? [] : [known]),
    thousands(count(own)),
    short(off),
    allowed,
    unit,
    `\`${file}\``,
  ].join(' | ')} |`;
}

const outside = SECTIONS.filter((section) => section !== laws);
const total = (sections: typeof SECTIONS) =>
  count([...new Set(sections.flatMap(({ checks }) => checks.flatMap(metBy)))]);
const rows = outside.reduce((sum, { checks }) => sum + checks.length, 0);

const head = (section: (typeof SECTIONS)[number]) =>
  section === laws
    ? '| what | held against | checks | error | allowed | in | tests |\n| --- | --- | ---: | ---: | ---: | --- | --- |'
    : '| what | held against | known | checks | error | allowed | in | tests |\n| --- | --- | --- | ---: | ---: | ---: | --- | --- |';

const page = `# What holds the figures

Made by \`npm run validation\` from a run of the tests, which writes every figure: ${thousands(total(outside))} comparisons with something outside
the library in ${rows} rows, and ${thousands(total([laws]))} of laws that need no outside figure.

A row is one thing checked, and what it is **held against**. **Checks** counts its comparisons; of them the one is shown that came
nearest to its tolerance: its **error** and what was **allowed** there, both counted **in** the unit given, or in that of the figure compared
where a row holds several. "None" is allowed where counts, verdicts or exact figures must be equal. A figure printed in a book allows half of its last
digit, or what its recomputation with more digits leaves; a closed form some roundings of the numbers that went in, more where the linkage is close to a
dead point; a sample some standard errors, as said. Random geometry is that of the default seed; other seeds are tried with \`FC_SEED\`. Files are those under \`tests/\`.

How the figures are **known**: *read*, the source or a copy or transcript of it was seen; *read in part*, the rest is from memory or follows from what was
read; *from memory*, the source is named but was not seen, so that its figures are no better than that memory, recomputed wherever they follow from a formula;
*derived*, a closed form, a theorem or a definition written down in the tests by code of their own, into which other figures of the library may go where the row
speaks of them; *another program*, one that is no part of what is checked computed them. Sources stand in full [below](#sources). Closed
forms that many tests use (the judges) are checked [themselves](#the-judges-themselves).

What is **not** checked against anything outside: that a real corner moves as its drawing does (no measured car, no other program for suspensions); axes that lean,
but for the swing arm of [the planar model](planar-model.md); parts that bend, bushings, friction, tyres under load, what dampers and bump stops do beyond the tables
given; strength, of which nothing is said; and whether a frequency, a damping ratio or a stroke is a good one. Sheets, tables and pictures are
checked by their own rules (well-formed by a strict reader of the tests, nothing cut off or written over), refusals and notes by their words, the package by
installing and running it: no figure of another source comes into those.

${SECTIONS.map((section) => `## ${section.title}\n\n${head(section)}\n${section.checks.map(row).join('\n')}\n`).join('\n')}
## Sources

${Object.entries(SOURCES)
  .map(([name, full]) => `- ${name}: ${full}.`)
  .join('\n')}

## Test files without a check of these

Words, refusals, layout, and the tests of what is for testing: ${WITHOUT.map((file) => `\`${file}\``).join(', ')}.
`;
writeFileSync('docs/validation.md', page);
