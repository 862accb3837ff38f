// What has been tried, in tests/mutation/state: a file for each campaign, with each declaration by the hash of its text.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';

const FOLDER = 'tests/mutation/state';

/**
 * Of a declaration: its file, its name, what became of each of its faults in their order (a letter each, see `LETTERS`), and those that
 * survived, with the line from its first on.
 * @typedef {{ file: string, name: string, tried: string, survivors: [line: number, mutator: string, replacement: string][] }} Tried
 * @typedef {Record<string, Tried>} State
 */

/** Killed; does not end; survived; survived the tests that ran in time; met by no test; met only while the code loads, and not tried. */
export const LETTERS = { killed: 'k', endless: 'e', survived: 's', passed: 'p', unmet: 'u', static: '-' };

/** The name of a declaration in a state. @param {{ file: string, hash: string }} declaration */
export const keyOf = ({ file, hash }) => `${file} ${hash}`;

/** @param {string} name @returns {State} */
export function readState(name) {
  const file = `${FOLDER}/${name}.json`;
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
}

/** @param {string} name @param {State} state */
export function writeState(name, state) {
  mkdirSync(FOLDER, { recursive: true });
  const rows = Object.entries(state)
    .sort(([a, { file: x }], [b, { file: y }]) => (x === y ? (a < b ? -1 : 1) : x < y ? -1 : 1))
    .map(([key, tried]) => `${JSON.stringify(key)}: ${JSON.stringify(tried)}`);
  writeFileSync(`${FOLDER}/${name}.json`, `{\n${rows.join(',\n')}\n}\n`);
}

/** Counts of what became of faults. @param {string} tried */
export function countsOf(tried) {
  const count = (/** @type {string} */ letter) => tried.split(letter).length - 1;
  const { killed, endless, survived, passed, unmet } = LETTERS;
  const caught = count(killed) + count(endless);
  const missed = count(survived) + count(passed) + count(unmet);
  return {
    injected: caught + missed,
    killed: count(killed),
    endless: count(endless),
    survived: count(survived) + count(passed),
    unmet: count(unmet),
    share: caught / (caught + missed),
  };
}
