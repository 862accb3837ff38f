// npm test: types, lint and format, then the tests. Each of the first two counts as one test; the last line is
// `N passed, N failed`. Arguments go to vitest, e.g. `npm test -- tests/architecture.test.ts`.
import { spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * @typedef {{ status: string, fullName: string }} Assertion
 * @typedef {{ name: string, status: string, message: string, assertionResults: Assertion[] }} File
 * @typedef {{ code: number | null, output: string }} Ended
 */

const root = fileURLToPath(new URL('..', import.meta.url));
const reportFile = join(root, 'out', 'vitest.json');

/**
 * Runs a tool of node_modules, and gives its exit code and what it printed.
 * @param {string} tool
 * @param {string[]} args
 * @param {boolean} [live] print while it runs
 * @returns {Promise<Ended>}
 */
function run(tool, args, live = false) {
  return new Promise((resolve) => {
    const child = spawn(join(root, 'node_modules', '.bin', tool), args, {
      cwd: root,
      stdio: live ? ['ignore', 'inherit', 1] : ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    for (const stream of [child.stdout, child.stderr]) stream?.on('data', (text) => (output += text));
    child.on('error', (error) => resolve({ code: 1, output: `${output}${error.message}\n` }));
    child.on('close', (code) => resolve({ code, output }));
  });
}

let passed = 0;
/** @type {string[]} */
const failures = [];

/**
 * A step that counts as one test: silent if it is good, all that it printed if it is not.
 * @param {string} name
 * @param {[tool: string, args: string[]][]} commands run at the same time
 */
async function step(name, commands) {
  const start = performance.now();
  const ends = await Promise.all(commands.map(([tool, args]) => run(tool, args)));
  const bad = ends.filter(({ code }) => code !== 0);
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  console.log(`${bad.length === 0 ? 'ok    ' : 'FAILED'} ${name} (${seconds} s)`);
  for (const { output } of bad) console.log(output);
  if (bad.length === 0) passed += 1;
  else failures.push(name);
}

await step('types', [
  ['tsc', ['-p', 'src/tsconfig.json']],
  ['tsc', ['-p', 'src/command/tsconfig.json']],
  ['tsc', ['-p', 'tsconfig.json']],
]);
await step('lint and format', [['biome', ['ci', '--error-on-warnings', '--colors=off']]]);

rmSync(reportFile, { force: true });
const { code } = await run(
  'vitest',
  [
    ...['run', '--config', 'tests/vitest.config.ts', '--root', '.'],
    ...['--reporter', 'default', '--reporter', 'json', `--outputFile.json=${reportFile}`],
    ...process.argv.slice(2),
  ],
  true,
);

const failedSteps = failures.length;
let ran = 0;
let skipped = 0;
try {
  /** @type {{ testResults: File[] }} */
  const { testResults } = JSON.parse(readFileSync(reportFile, 'utf8'));
  for (const file of testResults) {
    const path = relative(root, file.name);
    const before = failures.length;
    for (const { status, fullName } of file.assertionResults) {
      if (status === 'passed') passed += 1;
      else if (status === 'failed') failures.push(`${path} > ${fullName}`);
      else skipped += 1;
      if (status === 'passed' || status === 'failed') ran += 1;
    }
    // The file itself: it does not load, or a hook of it fails.
    if (file.status === 'failed' && failures.length === before) failures.push(path);
  }
} catch (error) {
  failures.push(`vitest left no report: ${error}`);
}
if (code !== 0 && failures.length === failedSteps) failures.push(`vitest ended with ${code}`);
if (ran === 0) failures.push('no test ran');

if (failures.length > 0) console.log(`Failed:\n${failures.map((name) => `  ${name}\n`).join('')}`);
if (skipped > 0) console.log(`${skipped} skipped`);
console.log(`${passed} passed, ${failures.length} failed`);
process.exitCode = failures.length === 0 ? 0 : 1;
