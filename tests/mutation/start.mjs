// Mutation testing: small faults are planted in src, one by one, and the tests must fail.
//
//   npm run mutation                            all of the folders below: hours
//   npm run mutation -- numerics                one of them
//   npm run mutation -- src/linkage/path.ts     some files of one of them
//
// Each folder is judged by the tests of its own concern, with few runs of each law: a fault that these let pass may still
// be caught elsewhere. Reports are in out/mutation/FOLDER; what has been tried before is tried again only where the file or
// its tests have changed. Ends with an error where a score is below the threshold of stryker.config.json.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';

/** What is mutated, and the folders of tests that judge it. */
const JUDGES = {
  numerics: ['numerics'],
  linkage: ['linkage', 'testing'],
  corner: ['corner', 'document'],
  coilover: ['coilover'],
};

const given = process.argv.slice(2);
const files = given.filter((name) => name.startsWith('src/'));
const folders = given.length === 0 ? Object.keys(JUDGES) : given.filter((name) => !files.includes(name));
for (const file of files) folders.push(file.split('/')[1]);

let failed = false;
for (const folder of new Set(folders)) {
  const judges = JUDGES[/** @type {keyof typeof JUDGES} */ (folder)];
  if (judges === undefined) throw new Error(`no such folder: ${folder} (${Object.keys(JUDGES).join(', ')})`);
  const own = files.filter((file) => file.startsWith(`src/${folder}/`));
  const out = `out/mutation/${folder}`;
  mkdirSync(out, { recursive: true });
  const settings = {
    ...JSON.parse(readFileSync('tests/mutation/stryker.config.json', 'utf8')),
    mutate: own.length > 0 ? own : [`src/${folder}/**/*.ts`],
    incrementalFile: `${out}/incremental.json`,
    tempDirName: `${out}/sandbox`,
    htmlReporter: { fileName: `${out}/index.html` },
    jsonReporter: { fileName: `${out}/mutation.json` },
  };
  writeFileSync(`${out}/settings.json`, JSON.stringify(settings, null, 2));
  const { status } = spawnSync('node_modules/.bin/stryker', ['run', `${out}/settings.json`], {
    stdio: 'inherit',
    env: { FC_RUNS: '20', ...process.env, JUDGES: judges.join(',') },
  });
  failed ||= status !== 0;
}
process.exitCode = failed ? 1 : 0;
