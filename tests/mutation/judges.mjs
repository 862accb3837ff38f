import { readdirSync } from 'node:fs';

const named = (/** @type {string} */ variable) =>
  (process.env[variable] ?? '').split(',').filter((name) => name !== '');

/** The test files that judge: those of the folders and files under tests/ that JUDGES names, but for those of WITHOUT. */
export function judgeFiles() {
  const all = readdirSync('tests', { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.test.ts'))
    .sort();
  const found = named('JUDGES').flatMap((name) =>
    all.filter((file) => file === name || file.startsWith(`${name}/`)),
  );
  const without = named('WITHOUT').map((name) => `${name}.test.ts`);
  return [...new Set(found)].filter((file) => !without.includes(file)).map((file) => `tests/${file}`);
}
