/** Names that 1.0 has given up stay gone: an old one must not come back with another meaning. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { AXLE_FIGURES, CAR_WIDE_FIGURES } from '../src/coilover/sizing/numbers.ts';

const read = (path: string) => readFileSync(new URL(`../${path}`, import.meta.url), 'utf8');

/** Rows of the two tables of names in the changelog: exports, types and columns; figures. */
const [, names] = read('docs/changelog.md').split('### Names of `jounce`');
const [kinds, figures] = names
  .split('\n## ')[0]
  .split('| --- | --- |')
  .slice(1)
  .map((table) => [...table.matchAll(/^\| (.*) \| (.*) \|$/gm)].filter(([, old]) => old !== 'old'));

describe('an old name', () => {
  it('is exported no more, unless the table keeps it and renames its fields only', () => {
    const exported = [...read('src/index.ts').replace(/'.*'/g, '').matchAll(/\w+/g)].map(([name]) => name);
    const before = kinds.flatMap(([, old, now]) => {
      const renamed = old.replace(/\{[^}]*\}/g, '');
      return now.startsWith('{') ? [] : [...renamed.matchAll(/`(\w+)`/g)].map(([, name]) => name);
    });
    const kept = [
      'CaseTravel',
      'Objective',
      'MonteCarlo',
      'HandMethod',
      'LoadState',
      'Station',
      'Survey',
      'SurveyedReading',
      'sheetData',
    ];
    expect(before.length).toBeGreaterThan(60);
    expect(before.filter((name) => exported.includes(name) && !kept.includes(name))).toEqual([]);
  });

  it('of a figure names none, and each new one is there', () => {
    const known = [...Object.keys(AXLE_FIGURES), ...Object.keys(CAR_WIDE_FIGURES)];
    const bare = (cell: string) => cell.replaceAll('`', '');
    expect(figures.length).toBeGreaterThan(40);
    expect(figures.map(([, old]) => bare(old)).filter((name) => known.includes(name))).toEqual([]);
    expect(figures.map(([, , now]) => bare(now)).filter((name) => !known.includes(name))).toEqual([]);
  });
});
