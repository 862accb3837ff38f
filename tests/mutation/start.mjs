// Mutation testing: small faults are planted in src, one by one, and the tests must fail.
//
//   npm run mutation                            all campaigns below: many hours
//   npm run mutation -- numerics                one of them
//   npm run mutation -- linkage 1/12            a twelfth of it: every twelfth declaration from the first
//   npm run mutation -- src/linkage/path.ts     some files
//
// Code is judged by the tests of its own concern, with few runs of each law and without the slowest: a fault that these let pass
// may still be caught elsewhere. What has been tried is kept in out/mutation, and tried again only where the code or its tests
// have changed, so that parts add up. `npm run mutation:report` makes docs/mutation.md of it.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import ts from 'typescript';
import { campaigns } from './campaigns.mjs';

/** @typedef {import('./campaigns.mjs').Campaign} Campaign */

/** @param {Campaign} campaign */
function filesOf({ code, but = [] }) {
  return code.flatMap((one) =>
    one.endsWith('.ts')
      ? [one]
      : readdirSync(one, { recursive: true, encoding: 'utf8' })
          .filter((file) => file.endsWith('.ts') && !but.includes(file))
          .map((file) => `${one}/${file}`)
          .sort(),
  );
}

/** The lines of every so many-th declaration of some files, from one of them on. */
function linesOf(/** @type {string[]} */ files, /** @type {number} */ part, /** @type {number} */ parts) {
  const lines = files.flatMap((file) => {
    const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest);
    const line = (/** @type {number} */ at) => source.getLineAndCharacterOfPosition(at).line + 1;
    return source.statements
      .filter((statement) => !ts.isImportDeclaration(statement) && !ts.isInterfaceDeclaration(statement))
      .map((statement) => `${file}:${line(statement.getStart(source))}-${line(statement.end)}`);
  });
  return lines.filter((_, k) => k % parts === part - 1);
}

const given = process.argv.slice(2);
const [, part, parts] =
  given.map((name) => /^(\d+)\/(\d+)$/.exec(name)).find((found) => found !== null) ?? [];
const wantedFiles = given.filter((name) => name.startsWith('src/'));
const named = given.filter((name) => name in campaigns);
const unknown = given.filter(
  (name) => !/^\d+\/\d+$/.test(name) && !name.startsWith('src/') && !(name in campaigns),
);
if (unknown.length > 0)
  throw new Error(`${unknown.join(', ')}: not one of ${Object.keys(campaigns).join(', ')}`);

let failed = false;
for (const [name, campaign] of Object.entries(campaigns)) {
  const all = filesOf(campaign);
  const own = wantedFiles.filter((file) => all.includes(file));
  if (
    given.length > 0 &&
    own.length === 0 &&
    !named.includes(name) &&
    (named.length > 0 || wantedFiles.length > 0)
  ) {
    continue;
  }
  const files = own.length > 0 ? own : all;
  const out = `out/mutation/${name}`;
  mkdirSync(out, { recursive: true });
  const settings = {
    ...JSON.parse(readFileSync('tests/mutation/stryker.config.json', 'utf8')),
    ...(campaign.warm ? { testRunner: 'warm', plugins: ['./tests/mutation/warm-runner.mjs'] } : {}),
    mutate: part === undefined ? files : linesOf(files, Number(part), Number(parts)),
    incrementalFile: `${out}/incremental.json`,
    tempDirName: `${out}/sandbox`,
    htmlReporter: { fileName: `${out}/index.html` },
    jsonReporter: { fileName: `${out}/mutation.json` },
  };
  writeFileSync(`${out}/settings.json`, JSON.stringify(settings, null, 2));
  const { status } = spawnSync('node_modules/.bin/stryker', ['run', `${out}/settings.json`], {
    stdio: 'inherit',
    env: {
      FC_RUNS: '5',
      ...process.env,
      JUDGES: campaign.judges.join(','),
      WITHOUT: (campaign.without ?? []).join(','),
    },
  });
  failed ||= status !== 0;
}
process.exitCode = failed ? 1 : 0;
