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
