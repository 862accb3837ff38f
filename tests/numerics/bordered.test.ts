/** Signs of the blocks of bordered matrices against dense determinants (ml-matrix), over random sparse matrices. */
import { type Arbitrary, array, assert, double, integer, pre, property, record } from 'fast-check';
import { determinant, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  type Bordered,
  bordered,
  differ,
  differOdd,
  eliminateBordered,
  isDeficient,
  marksOf,
} from '../../src/numerics/bordered.ts';
import { DEPENDENT_SHARE, solve } from '../../src/numerics/elimination.ts';
import { expectClose, expectSame } from '../support/tolerance.ts';

/** A matrix by its rows, with null where it has no entry. */
type Sparse = readonly (readonly (number | null)[])[];

const entry = double({ min: -1, max: 1, noNaN: true }).map((value) => value + (value < 0 ? -0.1 : 0.1));
const line = (columns: number, often: number): Arbitrary<(number | null)[]> =>
  array(
    record({ there: integer({ min: 0, max: 9 }), entry }).map((one) =>
      one.there < often ? one.entry : null,
    ),
    { minLength: columns, maxLength: columns },
  );
/** Matrices with a row fewer than columns, and a border. */
const borderedMatrices = integer({ min: 1, max: 8 }).chain((n) =>
  record({ rows: array(line(n + 1, 4), { minLength: n, maxLength: n }), border: line(n + 1, 3) }),
);

const dense = (rows: Sparse) => new Matrix(rows.map((row) => row.map((value) => value ?? 0)));

function eliminated(rows: Sparse, border: readonly (number | null)[], from?: Bordered): Bordered {
  const start = [0];
  const column: number[] = [];
  const value: number[] = [];
  for (const row of rows) {
    row.forEach((one, c) => {
      if (one === null) return;
      column.push(c);
      value.push(one);
    });
    start.push(column.length);
  }
  const places = border.flatMap((one, c) => (one === null ? [] : [c]));
  const b = from ?? bordered({ columns: border.length, start, column }, places);
  const gradient = Float64Array.from(border, (one) => one ?? 0);
  eliminateBordered(
    b,
    Float64Array.from(value),
    gradient,
    rows.map(() => 1),
    DEPENDENT_SHARE,
  );
  return b;
}

/** Whether the determinant is far enough from zero to have a sign. */
function isClear(matrix: Matrix): boolean {
  const values = new SingularValueDecomposition(matrix).diagonal;
  return values[values.length - 1] > 1e-4 * values[0];
}

const parity = (marks: string) => (marks.split('-').length & 1 ? 1 : -1);

describe('the signs of the blocks', () => {
  it('multiply to the sign of the dense determinant, for any values of one pattern', () => {
    let [told, blocks] = [0, 0];
    assert(
      property(
        borderedMatrices,
        array(entry, { minLength: 90, maxLength: 90 }),
        ({ rows, border }, other) => {
          const changed = [...rows, border].map((row, i) => row.map((one, c) => one && other[9 * i + c]));
          const [one, two] = [dense([...rows, border]), dense(changed)];
          pre(isClear(one) && isClear(two));
          const b = eliminated(rows, border);
          const before = marksOf(b);
          eliminated(changed.slice(0, -1), changed[changed.length - 1], b);
          const after = marksOf(b);
          const isOdd = determinant(one) * determinant(two) < 0;
          expectSame(parity(before) !== parity(after), isOdd);
          expect(differOdd(after, before)).toBe(isOdd);
          expect(differ(after, before)).toBe(after !== before);
          told++;
          blocks += before.length;
        },
      ),
      { numRuns: 400 },
    );
    expect(blocks).toBeGreaterThan(1.2 * told);
  });

  it('tell a block that changes its sign by its place, and two that change together', () => {
    // Two unknowns fixed one after the other by rows of their own; the border fixes the first.
    const rows = (a: number, b: number): Sparse => [
      [1, a, null],
      [null, 0.5, b],
    ];
    const b = eliminated(rows(1, 1), [1, null, null]);
    const marks = (one: number, two: number) => marksOf(eliminated(rows(one, two), [1, null, null], b));
    const start = marks(1, 1);
    expect(start).toHaveLength(3);
    expect([differ(marks(-1, 1), start), differOdd(marks(-1, 1), start)]).toEqual([true, true]);
    expect([differ(marks(-1, -1), start), differOdd(marks(-1, -1), start)]).toEqual([true, false]);
    expect(isDeficient(marks(0, 1))).toBe(true);
    expect(differ(marks(1, 1), start)).toBe(false);
  });

  it('do not look at a row that repeats others, and compare only what sets the same rows aside', () => {
    const row = [1, 2, null];
    const rows: Sparse = [row, [null, 1, 1], row.map((one) => one && 2 * one)];
    const marks = marksOf(eliminated(rows, [1, null, null]));
    expect(isDeficient(marks)).toBe(false);
    expect(differ('=+ 3', '=- 4')).toBe(false);
    expect(differ('=+ 3', '=- 3')).toBe(true);
    expect(differ('=+ 3', '+-')).toBe(false);
  });
});

describe('a solution', () => {
  it('satisfies the rows and the border, whatever their order', () => {
    assert(
      property(borderedMatrices, array(entry, { minLength: 9, maxLength: 9 }), ({ rows, border }, right) => {
        const whole = dense([...rows, border]);
        pre(isClear(whole));
        const b = eliminated(rows, border);
        const rhs = Float64Array.from(b.rowAt, (row) => right[row < 0 ? rows.length : row]);
        const x = new Float64Array(border.length);
        solve(b.elimination, rhs, x);
        const product = whole.mmul(Matrix.columnVector([...x])).to1DArray();
        product.forEach((value, i) => expectClose(value, right[i], { times: 2 ** 20, scale: 1 }));
      }),
      { numRuns: 200 },
    );
  });
});
