// Writes docs/validation.md from a run of the tests that notes what each comparison met.
//
//   npm run validation

import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { CAMPAIGNS } from '../campaigns/campaigns.ts';
import { readFigures } from '../campaigns/figures.ts';
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
  const { what, against, known, unread, unit, file } = check;
  const own = metBy(check);
  const { off, within } = own.reduce((a, b) => (isNearer(b, a) ? b : a));
  const allowed = within === 0 ? 'none' : short(within);
  return `| ${[
    what,
    against,
    ...(known === undefined ? [] : [unread === undefined ? known : `${known}: ${unread}`]),
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

/** A campaign with its figures so far, and the command that runs it. */
function campaignRow([name, { what, against, cases }]: [string, (typeof CAMPAIGNS)[string]]): string {
  const found = readFigures()[name];
  const done = found === undefined ? '0' : thousands(found.cases);
  return `| ${[
    what,
    against,
    `${done} of ${thousands(cases)}`,
    found?.failures.length ?? '',
    found?.slowest ?? '',
    found === undefined ? '' : (found.growth / 1e6).toFixed(1),
    found === undefined ? '' : `${found.date}, ${found.node}`,
    `\`npm run campaign -- ${name}\``,
  ].join(' | ')} |`;
}

const page = `# Validation

\`npm run validation\` writes this page from a run of the tests. The run made ${thousands(total(outside))} comparisons with something outside the library, in ${rows} rows. It also
made ${thousands(total([laws]))} comparisons for laws that need no outside figure.

Each row is one thing checked, and what it is **held against**. **Checks** counts its comparisons. The row shows the comparison nearest to its
tolerance: the **error**, and what was **allowed** there. Both are **in** the given unit, or in that of the figure if a row holds several. "None" is
allowed where counts, verdicts or exact figures must be equal. A printed figure allows half of its last digit, or what a recomputation with more
digits leaves. A closed form allows some roundings of its input, and more close to a dead point. A sample allows some standard errors, as stated.
Random geometry has the default seed; \`FC_SEED\` sets another. Files are those under \`tests/\`.

The column **known** says how the figures are known:

- *read*: the source, a copy or a transcript was seen.
- *read in part*: the rest is from memory, or follows from what was read; the row says which part, or what is wanting.
- *from memory*: the source is named but was not seen; figures that follow from a formula are recomputed, and the others are only as good as
  that memory. The row says why it was not read.
- *derived*: the tests have their own code for a closed form, a theorem or a definition; other figures of the library may enter,
  if the row says so.
- *another program*: a program that is not part of what is checked computed them.

Sources are listed in full [below](#sources). Many tests use closed forms (the judges), which are checked [themselves](#the-judges-themselves).

Nothing outside checks the following:

- that a real corner moves as its drawing does: there is no measured car, and no other program for suspensions;
- how an axle's load transfer is parted between both axles of a car that leans: of the example that was read, only the parts without
  lean are compared;
- the perches and the cross weight of a weighed car, other than by the library's own equilibrium;
- inclined pivot axes, except on the swing arm of [the planar model](planar-model.md);
- parts that bend, bushings, friction, tyres under load, and dampers and bump stops beyond their tables;
- strength, which the library does not compute;
- whether a frequency, a damping ratio or a stroke is a good choice.

Tests check sheets, tables and pictures with their own rules: well-formed for a strict reader, nothing cut off or overprinted. They check errors and
notes word for word. They check the package by installing and running it. No figure of another source enters these.

${SECTIONS.map((section) => `## ${section.title}\n\n${head(section)}\n${section.checks.map(row).join('\n')}\n`).join('\n')}
## Campaigns

Longer searches for faults, with other cases at each run. Figures are of the runs so far. Faults that earlier runs found are mended ([changes](changelog.md)), and those campaigns were begun anew. **Slowest** is the longest case, on a machine of two cores with other
work on it; **memory** is the largest growth within a part of thousands of cases, after collection of garbage.

| what | held against | cases | failures | slowest, ms | memory, MB | last run | command |
| --- | --- | ---: | ---: | ---: | ---: | --- | --- |
${Object.entries(CAMPAIGNS).map(campaignRow).join('\n')}

A campaign goes on where it stopped; \`--minutes 30\` ends it sooner, \`--seed 7\` runs one part again. How often intervals of simulated surveys hold the
truth: \`node benchmarks/start.mjs tests/campaigns/survey-coverage.ts\`.

## Run it again

In a clone, after \`npm ci\`, on Debian for all but the first four:

| claim | command | takes |
| --- | --- | --- |
| a row of this page | \`npm test -- tests/linkage/andrews.test.ts\`, with the file of the row | seconds |
| the same with other random geometry, and more of it | \`FC_SEED=7 FC_RUNS=1000 npm test -- tests/corner/laws.test.ts\` | seconds to minutes |
| every test; this page | \`npm test\`; \`npm run validation\` | minutes |
| speed against rivals, [as published](benchmarks.md) | \`npm run bench\` | 6 minutes |
| the same bytes on Node 20, 22 and 24, Chromium to 1e-9, sizes, licences of bundled code, types, the installed command | \`npm run test:package\` (chromium, GNU parallel) | 2 minutes |
| a worker killed in mid-job loses nothing | \`npm run test:queue\` (redis-server) | 1 minute |
| guides, live figures and accessibility of the site | \`npm ci --prefix docs/site && npm run build && npm run test:site\` (chromium) | minutes |
| notebooks say what they show | \`npm run notebooks\` (python3-nbclient) | minutes |
| the tests find planted faults, [as published](mutation.md) | \`npm run mutation -- --minutes 60\`, then \`npm run mutation:report\` | hours in all |
| the campaigns above | \`npm run campaign -- all\` | hours in all |

## Sources

${Object.entries(SOURCES)
  .map(([name, full]) => `- ${name}: ${full}.`)
  .join('\n')}

## Test files without a check of these

These test words, refusals and layout, or test the tests themselves: ${WITHOUT.map((file) => `\`${file}\``).join(', ')}.
`;
writeFileSync('docs/validation.md', page);
