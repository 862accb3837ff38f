import { Matrix, SingularValueDecomposition } from 'ml-matrix';

/** A singular value counts as zero below this share of the largest one. */
export const RANK_SHARE = 1e-9;

/** What the rows of a matrix determine: singular values, rank by relative size, and an orthonormal null space. */
export interface RankReport {
  readonly singularValues: number[];
  readonly rank: number;
  /** Orthonormal vectors x with A x = 0, each as long as a row. */
  readonly nullSpace: number[][];
}

/**
 * Rank and null space of a dense matrix of finite numbers, given by rows, each row scaled to length one first unless taken
 * `asGiven`. A singular value below `share` of the largest counts as zero.
 */
export function rankOf(
  rows: readonly (readonly number[])[],
  columns: number,
  { share = RANK_SHARE, asGiven = false } = {},
): RankReport {
  if (columns === 0) return { singularValues: [], rank: 0, nullSpace: [] };
  const scaled = rows.map((row) => {
    const length = asGiven ? 0 : Math.hypot(...row);
    return length === 0 ? [...row] : row.map((value) => value / length);
  });
  // Square by padding with zero rows: then the decomposition returns all right singular vectors.
  while (scaled.length < columns) scaled.push(new Array<number>(columns).fill(0));
  const svd = new SingularValueDecomposition(new Matrix(scaled), { autoTranspose: false });
  const singularValues = svd.diagonal;
  const rank = singularValues.filter((value) => value > share * (singularValues[0] ?? 0)).length;
  const right = svd.rightSingularVectors;
  const nullSpace = Array.from({ length: columns - rank }, (_, k) => right.getColumn(rank + k));
  return { singularValues: singularValues.slice(0, Math.min(rows.length, columns)), rank, nullSpace };
}

/** The solution of a linear system that is as small as can be, and what it leaves open. */
export interface LeastSolution {
  readonly x: number[];
  /** Largest entry of A x - b. */
  readonly residual: number;
  /** Orthonormal vectors that can be added to x. */
  readonly nullSpace: number[][];
}

/** Solves A x = b, dense, given by rows, in the least squares, each row scaled to length one first. */
export function solveLeast(
  rows: readonly (readonly number[])[],
  b: readonly number[],
  columns: number,
): LeastSolution {
  if (columns === 0) return { x: [], residual: Math.max(0, ...b.map(Math.abs)), nullSpace: [] };
  const lengths = rows.map((row) => Math.hypot(...row) || 1);
  const scaled = rows.map((row, i) => row.map((value) => value / lengths[i]));
  const right = b.map((value, i) => value / lengths[i]);
  while (scaled.length < columns) {
    scaled.push(new Array<number>(columns).fill(0));
    right.push(0);
  }
  const svd = new SingularValueDecomposition(new Matrix(scaled), { autoTranspose: false });
  const { diagonal, leftSingularVectors: left, rightSingularVectors: rightVectors } = svd;
  const rank = diagonal.filter((value) => value > RANK_SHARE * (diagonal[0] ?? 0)).length;
  const x = new Array<number>(columns).fill(0);
  for (let k = 0; k < rank; k++) {
    let along = 0;
    for (let i = 0; i < right.length; i++) along += left.get(i, k) * right[i];
    for (let j = 0; j < columns; j++) x[j] += (along / diagonal[k]) * rightVectors.get(j, k);
  }
  const residual = Math.max(
    0,
    ...rows.map((row, i) => Math.abs(row.reduce((sum, value, j) => sum + value * x[j], -b[i]))),
  );
  const nullSpace = Array.from({ length: columns - rank }, (_, k) => rightVectors.getColumn(rank + k));
  return { x, residual, nullSpace };
}
