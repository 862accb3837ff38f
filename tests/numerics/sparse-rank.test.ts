/** Null spaces and least solutions of sparse matrices against the dense decomposition (ml-matrix). */
import { type Arbitrary, array, assert, boolean, double, integer, property, record, tuple } from 'fast-check';
import { Matrix, pseudoInverse } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { RANK_SHARE, rankOf } from '../../src/numerics/singular-values.ts';
import { nullSpaces, type Sparse, solveSparse, sparse } from '../../src/numerics/sparse-rank.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectSame } from '../support/tolerance.ts';

type Rows = readonly (readonly number[])[];

/** The matrix without its zeros. */
const sparsely = (rows: Rows, columns: number): Sparse =>
  sparse(
    rows.map((row) => new Map([...row.entries()].filter(([, value]) => value !== 0))),
    columns,
  );
const transpose = (rows: Rows, columns: number) =>
  Array.from({ length: columns }, (_, j) => rows.map((row) => row[j]));
const unit = (rows: Rows) =>
  rows.map((row) => {
    const length = Math.hypot(...row) || 1;
    return row.map((value) => value / length);
  });
const dot = (x: ArrayLike<number>, y: ArrayLike<number>) =>
  Array.from(x).reduce((sum, value, i) => sum + value * y[i], 0);

const thousandth = integer({ min: -1000, max: 1000 }).map((n) => n / 1000);
const matrix = (rows: number, columns: number) =>
  array(array(thousandth, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });

/** Products of a tall and a wide matrix: rank at most `rank`. */
const products = tuple(
  integer({ min: 1, max: 6 }),
  integer({ min: 1, max: 6 }),
  integer({ min: 1, max: 6 }),
).chain(([rows, columns, inner]) => {
  const rank = Math.min(rows, columns, inner);
  return tuple(matrix(rows, rank), matrix(rank, columns)).map(([tall, flat]) => ({
    columns,
    atMost: rank,
    rows: deepFreeze(
      tall.map((row) => flat[0].map((_, c) => row.reduce((sum, value, k) => sum + value * flat[k][c], 0))),
    ),
  }));
});

const times = (rows: Rows, x: ArrayLike<number>) => rows.map((row) => dot(row, x));

const entry = double({ min: -1, max: 1, noNaN: true }).map((value) => value + (value < 0 ? -0.1 : 0.1));
const size = integer({ min: 1, max: 10 });

/** Matrices with an entry in two places of five, some rows being sums of two others. */
const matrices: Arbitrary<{ rows: number[][]; columns: number }> = size.chain((m) =>
  size.chain((columns) => {
    const place = record({ there: integer({ min: 0, max: 4 }), entry });
    const row = array(
      place.map((one) => (one.there < 2 ? one.entry : 0)),
      { minLength: columns, maxLength: columns },
    );
    return record({
      rows: array(row, { minLength: m, maxLength: m }),
      repeats: boolean(),
    }).map(({ rows, repeats }) => ({
      rows: repeats && m > 2 ? [...rows, rows[0].map((value, j) => value + rows[m - 1][j])] : rows,
      columns,
    }));
  }),
);

/** Smallest singular value that is none of rounding, by the largest; null where the rank cannot be told. */
function clearness(rows: Rows, columns: number): number | null {
  const { singularValues: values } = rankOf(rows, columns);
  const shares = values.map((value) => value / values[0]).filter((share) => share > 1e-13);
  return shares.every((share) => share > 1e-4) ? Math.min(1, ...shares) : null;
}

describe('null spaces', () => {
  it('are those of the singular values, orthonormal, on both sides', () => {
    assert(
      property(matrices, ({ rows, columns }) => {
        const clear = clearness(rows, columns);
        if (clear === null) return;
        const { nullSpace, leftNullSpace } = nullSpaces(sparsely(rows, columns));
        const scaled = unit(rows);
        const wanted = [
          rankOf(scaled, columns).nullSpace,
          rankOf(transpose(scaled, columns), rows.length, { asGiven: true }).nullSpace,
        ];
        [nullSpace, leftNullSpace].forEach((vectors, side) => {
          expectSame(vectors.length, wanted[side].length);
          vectors.forEach((x, k) => {
            vectors.forEach((y, l) => expectClose(dot(x, y), k === l ? 1 : 0, { times: 64, scale: 1 }));
            // All of it lies in the other's space.
            const along = Math.hypot(...wanted[side].map((y) => dot(x, y)));
            expectClose(along, 1, { times: 256 / clear, scale: 1 });
          });
        });
      }),
      { numRuns: 300 },
    );
  });

  it('count a dependence by the singular values where elimination leaves it in doubt', () => {
    for (const [share, nullity] of [
      [4 * RANK_SHARE, 1],
      [0.1 * RANK_SHARE, 2],
    ]) {
      // Two unit rows an angle apart: singular values sqrt(2) and angle / sqrt(2).
      const rows = [
        [1, 0, 0],
        [Math.cos(2 * share), Math.sin(2 * share), 0],
      ];
      const found = nullSpaces(sparsely(rows, 3));
      expectSame([found.nullSpace.length, found.leftNullSpace.length], [nullity, nullity - 1]);
      expectSame(solveSparse(sparsely(rows, 3), [1, 1]).nullSpace.length, nullity);
    }
  });

  it('are told of matrices without rows, columns or entries', () => {
    const sizes = (rows: Rows, columns: number) => {
      const { nullSpace, leftNullSpace } = nullSpaces(sparsely(rows, columns));
      return [nullSpace.length, leftNullSpace.length];
    };
    expect(sizes([], 2)).toEqual([2, 0]);
    expect(sizes([[], []], 0)).toEqual([0, 2]);
    expect(sizes([[0, 0, 0]], 3)).toEqual([3, 1]);
  });
});

describe('a least solution', () => {
  const right = array(thousandth, { minLength: 6, maxLength: 6 });
  /** Whether the rank can be told at all: no singular value between these shares of the largest one. */
  const isClear = (values: readonly number[]) =>
    values.every((value) => value > 1e-3 * values[0] || value < 1e-13 * values[0]);

  it('solves what can be solved, by the shortest x, whatever the scale of a row', () => {
    const powers = array(integer({ min: -6, max: 6 }), { minLength: 6, maxLength: 6 });
    assert(
      property(products, right, powers, ({ rows, columns }, some, power) => {
        const { singularValues, rank } = rankOf(rows, columns);
        if (!isClear(singularValues)) return;
        const sized = rows.map((row, i) => row.map((value) => value * 10 ** power[i]));
        // A right-hand side that some x has, and that x as seen from the rows.
        const any = some.slice(0, columns);
        const { x, residual, nullSpace } = solveSparse(
          sparsely(sized, columns),
          deepFreeze(times(sized, any)),
        );
        expect(x).toHaveLength(columns);
        expect(nullSpace).toHaveLength(columns - rank);
        const largest = Math.max(0, ...sized.flat().map(Math.abs));
        expectClose(residual, 0, { times: 1e5, scale: largest });
        times(unit(rows), x).forEach((value, i) => {
          expectClose(value, dot(unit(rows)[i], any), { times: 1e5, scale: 1 });
        });
        for (const open of nullSpace) {
          expectClose(dot(open, x), 0, { times: 1e5, scale: 1 });
          for (const row of unit(rows)) expectClose(dot(open, row), 0, { times: 1e5, scale: 1 });
        }
      }),
    );
  });

  it('is that of the pseudo-inverse, where the rows contradict each other', () => {
    assert(
      property(products, right, ({ rows, columns }, some) => {
        if (!isClear(rankOf(rows, columns).singularValues)) return;
        const b = some.slice(0, rows.length);
        const { x, residual } = solveSparse(sparsely(rows, columns), b);
        // Each row scaled to length one, and its right-hand side with it.
        const scaled = b.map((value, i) => value / (Math.hypot(...rows[i]) || 1));
        const wanted = pseudoInverse(new Matrix(unit(rows)), 1e-9).mmul(Matrix.columnVector(scaled));
        const scale = 1e3 * Math.hypot(...scaled);
        x.forEach((value, j) => {
          expectClose(value, wanted.get(j, 0), { times: 1e5, scale });
        });
        const off = Math.max(...times(rows, x).map((value, i) => Math.abs(value - b[i])));
        expectClose(residual, off, { times: 16, scale: 8 * scale });
      }),
    );
  });

  it('is nothing where nothing is asked, or nothing can be given', () => {
    const found = (rows: Rows, b: readonly number[], columns: number) => {
      const { x, residual, nullSpace } = solveSparse(sparsely(rows, columns), b);
      return [[...x], residual, nullSpace.length];
    };
    expect(found([], [], 2)).toEqual([[0, 0], 0, 2]);
    expect(found([[0, 0]], [-3], 2)).toEqual([[0, 0], 3, 2]);
    expect(found([[]], [3], 0)).toEqual([[], 3, 0]);
  });
});

describe('a long chain', () => {
  const n = 4000;

  it.each([
    ['in its order', (i: number) => i],
    ['in any order', (i: number) => (i * 1777) % n],
  ])('is solved %s: the second difference of a parabola', (_, place) => {
    const rows: Map<number, number>[] = [];
    const b: number[] = [];
    for (let i = 0; i < n; i++) {
      rows[place(i)] = new Map([
        [place(i), -2],
        ...(i > 0 ? [[place(i - 1), 1] as const] : []),
        ...(i < n - 1 ? [[place(i + 1), 1] as const] : []),
      ]);
      b[place(i)] = -2;
    }
    const { x, nullSpace, leftNullSpace } = solveSparse(sparse(rows, n), b);
    expectSame([nullSpace.length, leftNullSpace.length], [0, 0]);
    // x_i = (i + 1)(n - i), condition 4 n^2 / pi^2.
    for (let i = 0; i < n; i += 97) {
      expectClose(x[place(i)], (i + 1) * (n - i), { times: n * n, scale: (n * n) / 4 });
    }
  });

  it('has one vector beside its differences, all ones', () => {
    const rows = Array.from(
      { length: n - 1 },
      (_, i) =>
        new Map([
          [i, 1],
          [i + 1, -1],
        ]),
    );
    const { nullSpace, leftNullSpace } = nullSpaces(sparse(rows, n));
    expectSame([nullSpace.length, leftNullSpace.length], [1, 0]);
    for (let i = 0; i < n; i += 97)
      expectClose(Math.abs(nullSpace[0][i]), 1 / Math.sqrt(n), { times: 16, scale: 1 });
  });
});
