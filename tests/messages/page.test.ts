/** The page of messages lists every code, once, under its heading. */

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SENTENCES } from '../../src/sentences/worded.ts';
import { codesByHeading, TABLES } from './tables.ts';

describe('docs/messages.md', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/messages.md'), 'utf8');

  it('lists every code under its heading; if not: npm run messages', () => {
    const listed = page
      .split(/^## /m)
      .slice(1)
      .map((section): [string, string[]] => {
        const codes = [...section.matchAll(/^\| `(\w+)` \| \S/gm)].map(([, code]) => code);
        return [section.slice(0, section.indexOf('\n')), codes];
      });
    expect(listed).toEqual([...codesByHeading()]);
  });

  it('has the codes of every diagnostic that the library words', () => {
    const known = new Set(TABLES.flatMap(([, table]) => Object.keys(table)));
    expect(Object.keys(SENTENCES).filter((code) => !known.has(code))).toEqual([]);
  });
});
