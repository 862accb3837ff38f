// The installed package on every version of Node that it is made for: each job of the command in an empty folder, and a program that
// prints all digits of what is to be the same on each.

import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { run } from '../support/run.ts';

/** Major versions of Node. */
export const VERSIONS = [20, 22, 24];

/** The executable of a version of Node: the one that runs this, or the newest that the npm registry has, installed into a folder. */
export async function nodeOf(version: number, folder: string): Promise<string> {
  if (process.versions.node.startsWith(`${version}.`)) return process.execPath;
  const name = `node-${process.platform}-${process.arch}`;
  const home = join(folder, `node-${version}`);
  mkdirSync(home, { recursive: true });
  const quiet = ['--no-save', '--prefer-offline', '--no-audit', '--no-fund', '--loglevel=error'];
  await run('npm', ['install', '--prefix', home, ...quiet, `${name}@${version}`], home);
  return join(home, 'node_modules', name, 'bin/node');
}

/** Each job of the command as a user types it, by a name; `start` writes the file that others read. */
const JOBS: Readonly<Record<string, readonly string[]>> = {
  help: ['--help'],
  version: ['--version'],
  start: ['start', 'started.json', '--units', 'imperial'],
  order: ['order', 'started.json', '--out', 'papers'],
  'order as data': ['order', 'car.json', '--json'],
  corner: ['corner', 'car.json', '--out', 'papers'],
  'corner as data': ['corner', 'front-corner.json', '--json'],
  axle: ['axle', 'car.json', '--roll', '0,1,2', '--out', 'papers'],
  survey: ['survey', 'survey.json', '--into', 'car.json', '--corner', 'front', '--out', 'surveyed.json'],
  compare: ['compare', 'car.json', 'surveyed.json'],
  design: ['design', 'car.json', 'goals.json', '--out', 'papers'],
  migrate: ['migrate', 'started.json', '--out', 'migrated.json'],
  schema: ['schema', 'car'],
};

const EXAMPLES = ['car.json', 'front-corner.json', 'goals.json', 'survey.json'];

/** A program that prints the bits of the example files, on any engine. */
export function printBits(): string {
  const texts = ['car.json', 'front-corner.json'].map((name) =>
    JSON.stringify(readFileSync(join('docs/examples', name), 'utf8')),
  );
  return `import { bits } from './bits.mjs';\nconsole.log(bits(${texts.join(', ')}));\n`;
}

/**
 * What a version of Node prints and writes for each job, in a folder that has the examples alone; and under `bits` what the program of that name
 * prints. `project` is where the package is installed.
 *
 * @throws Error with what a job printed when it does not end with 0.
 */
export async function written(node: string, project: string): Promise<Record<string, string>> {
  const folder = mkdtempSync(join(project, 'empty-'));
  for (const name of EXAMPLES) cpSync(join('docs/examples', name), join(folder, name));
  const command = join(project, 'node_modules/.bin/jounce');
  const found: Record<string, string> = {};
  for (const [name, words] of Object.entries(JOBS))
    found[name] = await run(node, [command, ...words], folder);
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' }))
    if (/\.\w+$/.test(file) && !EXAMPLES.includes(file))
      found[file] = readFileSync(join(folder, file), 'utf8');
  cpSync('tests/package/bits.mjs', join(project, 'bits.mjs'));
  const program = join(project, 'print-bits.mjs');
  writeFileSync(program, printBits());
  found.bits = (await run(node, [program], folder)).trim();
  return found;
}
