import { readdirSync } from 'node:fs';

/** The test files that judge a campaign. @param {import('./campaigns.mjs').Campaign} campaign */
export function judgeFiles({ judges, without = [] }) {
  const all = readdirSync('tests', { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.test.ts'))
    .sort();
  const found = judges.flatMap((name) => {
    const files = all.filter((file) => file === name || file.startsWith(`${name}/`));
    if (files.length === 0) throw new Error(`no test is called ${name}`);
    return files;
  });
  const left = without.map((name) => `${name}.test.ts`);
  return [...new Set(found)].filter((file) => !left.includes(file)).map((file) => `tests/${file}`);
}
