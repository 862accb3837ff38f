// Writes docs/mutation.md from what `npm run mutation` has kept in tests/mutation/state, and prints what survived with --survivors.
import { readFileSync, writeFileSync } from 'node:fs';
import { campaigns } from './campaigns.mjs';
import { withFaults } from './faults.mjs';
import { countsOf, keyOf, readState } from './state.mjs';

/** @typedef {{ file: string, faults: number, tried: string }} Row */

const HEAD = [
  '| code | faults | tried | killed | endless | survived | met by no test | caught |',
  '| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |',
];

/** @param {string} what @param {readonly Row[]} rows */
function line(what, rows) {
  const faults = rows.reduce((sum, row) => sum + row.faults, 0);
  const { injected, killed, endless, survived, unmet, share } = countsOf(
    rows.map(({ tried }) => tried).join(''),
  );
  if (injected === 0) return [];
  const cells = [what, faults, injected, killed, endless, survived, unmet, `${(100 * share).toFixed(1)} %`];
  return [`| ${cells.join(' | ')} |`];
}

/** @type {Map<string, Row[]>} */
const found = new Map();
for (const [name, campaign] of Object.entries(campaigns)) {
  const state = readState(name);
  const { declarations } = await withFaults(campaign);
  const rows = declarations.map((one) => {
    const known = state[keyOf(one)];
    for (const [at, mutator, replacement] of known?.survivors ?? [])
      if (process.argv.includes('--survivors'))
        console.log(`${one.file}:${one.line + at + 1} ${mutator}: ${replacement.replaceAll(/\s+/g, ' ')}`);
    return { file: one.file, faults: one.faults.length, tried: known?.tried ?? '' };
  });
  found.set(name, rows);
}
const all = [...found.values()].flat();
const files = [...new Set(all.map(({ file }) => file))];
const text = readFileSync('tests/mutation/words.md', 'utf8');
writeFileSync(
  'docs/mutation.md',
  text
    .replace(
      '<!-- by campaign -->',
      [...HEAD, ...[...found].flatMap(([name, rows]) => line(name, rows)), ...line('all', all)].join('\n'),
    )
    .replace(
      '<!-- by file -->',
      [
        ...HEAD,
        ...files.flatMap((file) =>
          line(
            `\`${file}\``,
            all.filter((row) => row.file === file),
          ),
        ),
      ].join('\n'),
    ),
);
