// Writes docs/mutation.md from what `npm run mutation` has kept in out/mutation.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { campaigns } from './campaigns.mjs';

const FAULTS = ['Survived', 'NoCoverage'];
const CAUGHT = ['Killed', 'Timeout'];

/** @typedef {{ status: string, mutatorName: string }} Mutant */

/** @param {string} name */
function filesOf(name) {
  const kept = `out/mutation/${name}/incremental.json`;
  if (!existsSync(kept)) return [];
  const { files } = JSON.parse(readFileSync(kept, 'utf8'));
  return /** @type {[string, { mutants: Mutant[] }][]} */ (Object.entries(files)).map(
    ([file, { mutants }]) => ({
      file,
      mutants,
    }),
  );
}

/** @param {string} what @param {Mutant[]} mutants */
function row(what, mutants) {
  const count = (/** @type {string[]} */ statuses) =>
    mutants.filter(({ status }) => statuses.includes(status)).length;
  const [caught, missed] = [count(CAUGHT), count(FAULTS)];
  if (caught + missed === 0) return [];
  const figures = [
    caught + missed,
    count(['Killed']),
    count(['Timeout']),
    count(['Survived']),
    count(['NoCoverage']),
  ];
  return [`| ${[what, ...figures, `${((100 * caught) / (caught + missed)).toFixed(1)} %`].join(' | ')} |`];
}

const HEAD = [
  '| code | injected | killed | timed out | survived | not run by a test | caught |',
  '| --- | ---: | ---: | ---: | ---: | ---: | ---: |',
];
const tried = Object.keys(campaigns).map((name) => ({ name, files: filesOf(name) }));
const all = tried.flatMap(({ files }) => files);
const whole = (/** @type {typeof all} */ files) => files.flatMap(({ mutants }) => mutants);
const text = readFileSync('tests/mutation/words.md', 'utf8');
writeFileSync(
  'docs/mutation.md',
  text
    .replace(
      '<!-- by campaign -->',
      [
        ...HEAD,
        ...tried.flatMap(({ name, files }) => row(name, whole(files))),
        ...row('all', whole(all)),
      ].join('\n'),
    )
    .replace(
      '<!-- by file -->',
      [...HEAD, ...all.flatMap(({ file, mutants }) => row(`\`${file}\``, mutants))].join('\n'),
    ),
);
