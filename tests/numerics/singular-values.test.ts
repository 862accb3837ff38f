/** Singular values and what they solve, on matrices whose rank is known by construction, and against ml-matrix. */
import { array, assert, integer, property, tuple } from 'fast-check';
import { LuDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { dampedLeast, decompose, RANK_SHARE, rankOf } from '../../src/numerics/singular-values.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const dot = (u: readonly number[], v: readonly number[]) =>
  u.reduce((sum, value, k) => sum + value * v[k], 0);

const entry = integer({ min: -1000, max: 1000 }).map((n) => n / 1000);
const matrix = (rows: number, columns: number) =>
  array(array(entry, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });

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

describe('a decomposition', () => {
  it('is the matrix again, by orthonormal vectors', () => {
    assert(
      property(products, ({ rows, columns }) => {
        const { values, left, right } = decompose(rows, columns);
        for (const list of [values, left, right]) expect(list).toHaveLength(columns);
        rows.forEach((row, i) => {
          row.forEach((value, j) => {
            const sum = values.reduce((total, s, k) => total + s * left[k][i] * right[k][j], 0);
            expectClose(sum, value, { times: 64, scale: values[0] });
          });
        });
        left.forEach((u, k) => {
          expect(u).toHaveLength(rows.length);
          if (values[k] <= RANK_SHARE * values[0]) return;
          left.forEach((v, l) => {
            // Orthogonal to rounding of the largest value beside its own.
            if (values[l] > RANK_SHARE * values[0]) expectWithin(dot(u, v), k === l ? 1 : 0, 1e-6);
          });
        });
      }),
    );
    expect(decompose([], 0)).toEqual({ values: [], left: [], right: [] });
    expect(decompose([[], []], 0)).toEqual({ values: [], left: [], right: [] });
  });
});

describe('damped least squares', () => {
  it("solve the normal equations (A'A + lambda) x = A'b", () => {
    const lambdas = integer({ min: -3, max: 3 }).map((power) => 10 ** power);
    const right = array(entry, { minLength: 6, maxLength: 6 });
    assert(
      property(products, right, lambdas, ({ rows, columns }, some, lambda) => {
        const b = deepFreeze(some.slice(0, rows.length));
        const x = dampedLeast(rows, b, columns, lambda);
        expect(x).toHaveLength(columns);
        const A = new Matrix(rows.map((row) => [...row]));
        const AA = A.transpose().mmul(A);
        const normal = Matrix.add(AA, Matrix.eye(columns).mul(lambda));
        const wanted = new LuDecomposition(normal).solve(A.transpose().mmul(Matrix.columnVector([...b])));
        // The condition number of the normal equations is below (trace + lambda) / lambda, |x| below |b| / sqrt(lambda) / 2.
        const condition = (AA.trace() + lambda) / lambda;
        const scale = Math.hypot(...b) / Math.sqrt(lambda);
        x.forEach((value, j) => {
          expectClose(value, wanted.get(j, 0), { times: 64 * condition, scale });
        });
      }),
    );
    expect(dampedLeast([], [], 2, 1).map(Math.abs)).toEqual([0, 0]);
    expect(dampedLeast([[]], [1], 0, 1)).toEqual([]);
  });
});

describe('rankOf', () => {
  it('finds no more than was put in, and a null space that is orthonormal and annulled by every row', () => {
    assert(
      property(products, ({ rows, columns, atMost }) => {
        const { rank, nullSpace, singularValues } = rankOf(rows, columns);
        expect(rank).toBeLessThanOrEqual(atMost);
        expect(nullSpace).toHaveLength(columns - rank);
        expect(singularValues).toHaveLength(Math.min(rows.length, columns));
        expect([...singularValues].sort((u, v) => v - u)).toEqual(singularValues);
        for (const [i, x] of nullSpace.entries()) {
          expect(x).toHaveLength(columns);
          for (const [j, y] of nullSpace.entries()) {
            expectClose(dot(x, y), i === j ? 1 : 0, { times: 64, scale: 1 });
          }
          for (const row of rows) {
            // A direction whose singular value is below the bound counts as annulled.
            const scale = Math.hypot(...row);
            expect(Math.abs(dot(row, x))).toBeLessThanOrEqual(
              2 * RANK_SHARE * Math.sqrt(rows.length) * scale,
            );
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it('has the squares of its singular values sum up to the number of rows that are not zero', () => {
    assert(
      property(products, ({ rows, columns }) => {
        const { singularValues } = rankOf(rows, columns);
        const count = rows.filter((row) => Math.hypot(...row) > 0).length;
        expectClose(dot(singularValues, singularValues), count, { times: 64, scale: 8 });
      }),
    );
  });

  it('does not depend on the scale of a row', () => {
    const rows = [
      [1, 2, 0, 0],
      [0, 1, 1, 0],
      [1, 3, 1, 0],
    ];
    const scaled = rows.map((row, i) => row.map((value) => value * [1e-120, 1, 1e120][i]));
    for (const of of [rows, scaled]) {
      const { rank, nullSpace } = rankOf(deepFreeze(of), 4);
      expect(rank).toBe(2);
      expect(nullSpace).toHaveLength(2);
    }
  });

  it('taken as given does not depend on the scale of all of it, but on that of a row', () => {
    for (const scale of [1e-150, 1e-9, 1, 1e9, 1e150]) {
      const rows = (small: number) =>
        deepFreeze([
          [scale, 0],
          [0, small * scale],
        ]);
      expect(rankOf(rows(2 * RANK_SHARE), 2, { asGiven: true }).rank).toBe(2);
      expect(rankOf(rows(0.5 * RANK_SHARE), 2, { asGiven: true }).rank).toBe(1);
      expect(rankOf(rows(1e-2), 2, { asGiven: true, share: 2e-2 }).rank).toBe(1);
    }
  });

  it('counts rows as one that differ by less than the relative bound, and as two by more', () => {
    const near = (off: number) => [
      [1, 0, 0],
      [1, off, 0],
    ];
    // Singular values sqrt(2) and off / sqrt(2).
    for (const [times, rank] of [
      [0.5, 1],
      [1.9, 1],
      [2.1, 2],
      [8, 2],
    ]) {
      const rows = near(times * RANK_SHARE);
      expect(rankOf(rows, 3).rank).toBe(rank);
    }
  });

  it('knows matrices with nothing in them', () => {
    expect(rankOf([[0, 0, 0]], 3)).toMatchObject({ rank: 0, singularValues: [0] });
    expect(rankOf([[0, 0, 0]], 3).nullSpace).toHaveLength(3);
    expect(rankOf([], 2)).toMatchObject({ rank: 0, singularValues: [] });
    expect(rankOf([], 2).nullSpace).toHaveLength(2);
    expect(rankOf([], 0)).toEqual({ rank: 0, singularValues: [], nullSpace: [] });
  });

  it('has the rank of the identity, and of more rows than columns', () => {
    expect(
      rankOf(
        [
          [1, 0],
          [0, 1],
        ],
        2,
      ),
    ).toMatchObject({ rank: 2, singularValues: [1, 1], nullSpace: [] });
    expect(
      rankOf(
        [
          [1, 0],
          [0, 1],
          [3, 4],
        ],
        2,
      ),
    ).toMatchObject({ rank: 2, nullSpace: [] });
  });
});
