/** Factors against their own products, and against the eigenvalues and the factor of ml-matrix. */
import { array, assert, integer, property, tuple } from 'fast-check';
import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { cholesky, choleskyColumns, lowerSolve, upperSolve } from '../../src/numerics/cholesky.ts';
import { deepFreeze } from '../support/freeze.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

const entry = integer({ min: -1000, max: 1000 }).map((n) => n / 1000);
const matrix = (rows: number, columns: number) =>
  array(array(entry, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows });
const sizes = integer({ min: 1, max: 6 });

/** G G'. */
const product = (G: readonly (readonly number[])[]) =>
  G.map((row) => G.map((other) => row.reduce((sum, value, k) => sum + value * other[k], 0)));

/** S A S with a diagonal S of powers of ten, which no sign of an eigenvalue depends on. */
const sized = (A: readonly (readonly number[])[], powers: readonly number[]) =>
  A.map((row, i) => row.map((value, j) => value * 10 ** (powers[i] + powers[j])));
const powers = array(integer({ min: -6, max: 6 }), { minLength: 6, maxLength: 6 });

/** Expects equal matrices, each entry up to roundings of the diagonal entries beside it. */
function expectSame(
  actual: readonly (readonly number[])[],
  A: readonly (readonly number[])[],
  times: number,
) {
  A.forEach((row, i) => {
    row.forEach((value, j) => {
      expectClose(actual[i][j], value, { times, scale: Math.sqrt(A[i][i] * A[j][j]) });
    });
  });
}

/** Positive definite: a product, and some of the identity. */
const definite = tuple(sizes, powers).chain(([n, scale]) =>
  matrix(n, n).map((G) =>
    sized(
      product(G).map((row, i) => row.map((value, j) => value + (i === j ? 0.1 : 0))),
      scale,
    ),
  ),
);

describe('a lower factor', () => {
  it('is that of ml-matrix, its product the matrix', () => {
    assert(
      property(definite, (A) => {
        const L = cholesky(deepFreeze(A));
        expectSame(product(L), A, 64);
        const wanted = new CholeskyDecomposition(new Matrix(A)).lowerTriangularMatrix.to2DArray();
        wanted.forEach((row, i) => {
          row.forEach((value, j) => {
            // Its condition number, at unit scale, is at most 6.1 / 0.1.
            expectClose(L[i][j], value, { times: 4096, scale: Math.sqrt(A[i][i]) });
            if (j > i) expect(L[i][j]).toBe(0);
          });
        });
      }),
    );
  });

  it('solves from above and from below', () => {
    assert(
      property(definite, array(entry, { minLength: 6, maxLength: 6 }), (A, right) => {
        const b = deepFreeze(right.slice(0, A.length));
        const L = deepFreeze(cholesky(A));
        const [below, above] = [lowerSolve(L, b), upperSolve(L, b)];
        b.forEach((value, i) => {
          const scale = (x: readonly number[], of: (j: number) => number) =>
            x.reduce((sum, one, j) => sum + Math.abs(of(j) * one), Math.abs(value));
          for (const [x, of] of [
            [below, (j: number) => L[i][j]],
            [above, (j: number) => L[j][i]],
          ] as const) {
            const sum = x.reduce((total, one, j) => total + of(j) * one, 0);
            expectClose(sum, value, { times: 32, scale: scale(x, of) });
          }
        });
      }),
    );
  });

  it('takes a pivot that is nothing as rounding, at any scale', () => {
    for (const scale of [1e-12, 1, 1e12]) {
      const A = [
        [scale, 2 * scale],
        [2 * scale, 4 * scale],
      ];
      const L = cholesky(A);
      expectSame(product(L), A, 4);
      expect(L[1][1]).toBeGreaterThan(0);
    }
  });
});

describe('columns of a factor', () => {
  /** The sum of f f', or null. */
  const summed = (A: readonly (readonly number[])[]) => {
    const columns = choleskyColumns(deepFreeze(A));
    return columns && A.map((row, i) => row.map((_, j) => columns.reduce((sum, f) => sum + f[i] * f[j], 0)));
  };

  it('have the matrix as the sum of their products, whatever its rank and scale', () => {
    assert(
      property(
        tuple(sizes, sizes).chain(([n, rank]) => matrix(n, rank)),
        powers,
        (G, scale) => {
          // Entries in steps of 1/8 have pivots that are exactly nothing, or much.
          const A = sized(product(G.map((row) => row.map((value) => Math.round(8 * value) / 8))), scale);
          const back = summed(A);
          expect(back).not.toBeNull();
          // A column that counts as nothing leaves the root of that share behind.
          A.forEach((row, i) => {
            row.forEach((value, j) => {
              expectWithin(back?.[i][j] ?? null, value, 1e-9 * Math.sqrt(A[i][i] * A[j][j]));
            });
          });
        },
      ),
      { numRuns: 300 },
    );
  });

  it('are right to rounding where no eigenvalue is near zero, and a lower triangle', () => {
    assert(
      property(definite, (A) => {
        expectSame(summed(A) ?? [], A, 64);
        choleskyColumns(A)?.forEach((column, k) => {
          for (let i = 0; i < k; i++) expect(column[i]).toBe(0);
        });
      }),
    );
  });

  it('are none where an eigenvalue is negative, whatever the scale', () => {
    assert(
      property(
        sizes.chain((n) => matrix(n, n)),
        powers,
        integer({ min: -10, max: 30 }),
        (G, scale, shift) => {
          const n = G.length;
          const S = G.map((row, i) => row.map((value, j) => value + G[j][i] + (i === j ? shift / 10 : 0)));
          const values = new EigenvalueDecomposition(new Matrix(S)).realEigenvalues;
          const least = Math.min(...values);
          // Too near to zero to have a sign.
          if (Math.abs(least) < 1e-3) return;
          const columns = choleskyColumns(sized(S, scale));
          if (least < 0) expect(columns).toBeNull();
          else expect(columns).toHaveLength(n);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('are none beside a diagonal entry of zero, unless all of its row is', () => {
    expect(
      choleskyColumns([
        [0, 1],
        [1, 1],
      ]),
    ).toBeNull();
    expect(
      choleskyColumns([
        [0, 0],
        [0, 4],
      ]),
    ).toEqual([
      [0, 0],
      [0, 2],
    ]);
    // An entry beside a pivot that elimination has left nothing of.
    expect(
      choleskyColumns([
        [1, 1, 0],
        [1, 1, 0.5],
        [0, 0.5, 1],
      ]),
    ).toBeNull();
    expect(choleskyColumns([[-1]])).toBeNull();
    expect(choleskyColumns([])).toEqual([]);
  });

  it('forgive what rounding makes of a correlation of one', () => {
    // Two quantities that are one, printed to twelve digits: the least eigenvalue is -1e-12.
    const back = summed([
      [1, 1 + 1e-12],
      [1 + 1e-12, 1],
    ]);
    expectWithin(back?.[1][1] ?? null, 1, 1e-10 + EPS);
  });
});
