// @ts-check
// npm run demo, or npm run demo -- my-car.json: the command `order`, on the example or on a file of yours. What is written goes to the folder
// `out` of the project. More words go to the command: npm run demo -- my-car.json --out my-folder
//
// The car in car.json is made up: a light roadster, built once, in a barn. A file of yours has the same shape.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const project = new URL('../../', import.meta.url);
const path = (/** @type {string} */ name) => fileURLToPath(new URL(name, project));
const [file = path('docs/examples/car.json'), ...more] = process.argv.slice(2);
const out = more.includes('--out') ? [] : ['--out', path('out')];
const words = [path('dist/command/main.js'), 'order', file, ...out, ...more];
// npm itself goes to the folder of the project; the file is named from where the reader stands.
const { status } = spawnSync(process.execPath, words, { cwd: process.env.INIT_CWD, stdio: 'inherit' });
process.exitCode = status ?? 1;
