/** The list of checks, the tests and the page agree: what is renamed, left out or added is told here. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { namesOf } from './check.ts';
import { SECTIONS, WITHOUT } from './sections.ts';
import { SOURCES } from './sources.ts';

const all = SECTIONS.flatMap(({ checks }) => checks);
const isThere = new Set(
  readdirSync('tests', { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => name.endsWith('.test.ts')),
);

/** First arguments that are texts: the titles of groups and tests, with what stands for a value cut off. */
function titlesOf(file: string): string[] {
  const text = readFileSync(`tests/${file}`, 'utf8');
  return [...text.matchAll(/\(\s*(['"`])((?:\\.|(?!\1)[^\\])*)\1\s*,/g)].map(([, , title]) =>
    title.replaceAll(/\\(.)/g, '$1'),
  );
}

/** Whether a test of a title can have a name that begins so. */
function canBegin(title: string, start: string): boolean {
  const fixed = title.split(/%[sdi]|\$\{|\$[a-z]/)[0];
  if (fixed === title || start.length <= fixed.length) return title.startsWith(start);
  return fixed !== '' && start.startsWith(fixed);
}

describe('the list of checks', () => {
  it('names tests that there are', () => {
    const titles = new Map([...isThere].map((file) => [file, titlesOf(file)]));
    const missing = all.flatMap((check) =>
      namesOf(check)
        .flat()
        .filter((start) => !titles.get(check.file)?.some((title) => canBegin(title, start)))
        .map((start) => `${check.file}: ${start}`),
    );
    expect(missing).toEqual([]);
  });

  it('has each file of tests, in a check or among those without figures', () => {
    const listed = new Set([...all.map(({ file }) => file), ...WITHOUT]);
    expect([...listed].sort()).toEqual([...isThere].sort());
  });

  it('calls each source by its name', () => {
    const unnamed = Object.keys(SOURCES).filter((name) => !all.some(({ against }) => against.includes(name)));
    expect(unnamed).toEqual([]);
  });

  it('says of each source that was not read in whole, and of no other, why', () => {
    const wanting = all.filter(
      ({ known, unread }) =>
        (known === 'from memory' || known === 'read in part') !== (unread !== undefined && unread !== ''),
    );
    expect(wanting.map(({ what }) => what)).toEqual([]);
  });

  it('is that of the page; if not: npm run validation', () => {
    const rows = readFileSync('docs/validation.md', 'utf8')
      .split('\n')
      .filter((line) => /^\| (?!what \||---)/.test(line))
      .map((line) => line.slice(2, -2).split(' | '))
      .filter((cells) => cells.at(-1)?.endsWith('.test.ts`'));
    expect(rows.map((cells) => [...cells.slice(0, 2), cells.at(-1)])).toEqual(
      all.map(({ what, against, file }) => [what, against, `\`${file}\``]),
    );
  });
});
