/** Tables of the guides that say what the code has: names of points, units of files. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { KINDS } from '../../src/corner/kinds.ts';
import { type Quantity, unitName } from '../../src/units.ts';

const QUANTITIES: Readonly<Record<Quantity, string>> = {
  length: 'lengths, travel, coordinates',
  mass: 'masses',
  force: 'forces',
  rate: 'spring, tyre and wheel rates',
  damping: 'damping',
  angle: 'angles',
  speed: 'speed of the car',
  shaftSpeed: 'shaft speed',
  pressure: 'gas pressure',
  moment: 'moments',
  rollStiffness: 'roll stiffness',
  rollGradient: 'roll gradient',
  frequency: 'frequency',
};

/** The rows of the table under a head. */
function rowsUnder(head: string): string[] {
  const lines = readFileSync('docs/definitions.md', 'utf8').split('\n');
  const begin = lines.indexOf(head) + 2;
  expect(begin).toBeGreaterThan(1);
  return lines.slice(
    begin,
    lines.findIndex((line, k) => k >= begin && line === ''),
  );
}

it('the definitions give the unit of every quantity of a file', () => {
  const rows = Object.entries(QUANTITIES).map(
    ([quantity, what]) =>
      `| ${what} | ${unitName(quantity as Quantity, 'metric')} | ${unitName(quantity as Quantity, 'imperial')} |`,
  );
  expect(rowsUnder('| quantity | metric | imperial |')).toEqual(rows);
});

it('the definitions give the name of every hardpoint of a file', () => {
  const kinds = Object.values(KINDS).map(({ input }) => input);
  const paths = new Map(kinds.flatMap(({ points }) => Object.entries(points)));
  const rows = [...paths].map(([path, name]) => {
    const having = kinds.filter(({ points }) => Object.hasOwn(points, path)).map(({ kind }) => `\`${kind}\``);
    return `| \`${path}\` | \`${name}\` | ${having.length === kinds.length ? 'all' : having.join(', ')} |`;
  });
  expect(rowsUnder('| point of a file or input | name | kinds |')).toEqual(rows);
});
