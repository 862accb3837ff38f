/** Rank and null space by singular values, on matrices whose rank is known by construction. */
import { array, assert, integer, property, tuple } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RANK_SHARE, rankOf } from '../../src/numerics/singular-values.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose } from '../support/tolerance.ts';

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

  it('counts rows as one that differ by less than the relative bound, and as two by more', () => {
    const near = (off: number) => [
      [1, 0, 0],
      [1, off, 0],
    ];
    expect(rankOf(near(0.5 * RANK_SHARE), 3).rank).toBe(1);
    expect(rankOf(near(8 * RANK_SHARE), 3).rank).toBe(2);
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
