import { Matrix, QrDecomposition, SingularValueDecomposition } from 'ml-matrix';

/** A singular value counts as zero below this share of the largest one. */
export const RANK_SHARE = 1e-9;

/** The singular value decomposition A = sum_k values_k left_k right_k'. */
export interface Decomposition {
  /** From the largest down, one a column. */
  readonly values: readonly number[];
  /** Left singular vectors, each as long as A has rows. */
  readonly left: readonly (readonly number[])[];
  /** Right singular vectors, one a column of A, orthonormal also where the value is zero. */
  readonly right: readonly (readonly number[])[];
}

/** Decomposes a dense matrix of finite numbers, given by rows; not finite numbers would come out as NaN or never. */
export function decompose(rows: readonly (readonly number[])[], columns: number): Decomposition {
  if (columns === 0) return { values: [], left: [], right: [] };
  const padded = rows.map((row) => [...row]);
  // Square by padding with zero rows: then the decomposition returns all right singular vectors.
  while (padded.length < columns) padded.push(new Array<number>(columns).fill(0));
  const svd = new SingularValueDecomposition(new Matrix(padded));
  const { leftSingularVectors, rightSingularVectors } = svd;
  const each = Array.from({ length: columns }, (_, k) => k);
  return {
    values: svd.diagonal,
    left: each.map((k) => leftSingularVectors.getColumn(k).slice(0, rows.length)),
    right: each.map((k) => rightSingularVectors.getColumn(k)),
  };
}

/** The shortest x that makes |A x - b| least, for a dense matrix given by rows; singular values up to `none` count as zero. */
export function shortestLeast(
  rows: readonly (readonly number[])[],
  b: readonly number[],
  columns: number,
  none: (largest: number) => number,
): number[] {
  const { values, left, right } = decompose(rows, columns);
  const x = new Array<number>(columns).fill(0);
  for (let k = 0; k < Math.min(rows.length, columns); k++) {
    if (values[k] <= none(values[0])) continue;
    const share = left[k].reduce((sum, value, i) => sum + value * b[i], 0) / values[k];
    right[k].forEach((value, j) => {
      x[j] += share * value;
    });
  }
  return x;
}

/** What the rows of a matrix determine: singular values, rank by relative size, and an orthonormal null space. */
export interface RankReport {
  readonly singularValues: readonly number[];
  readonly rank: number;
  /** Orthonormal vectors x with A x = 0, each as long as a row. */
  readonly nullSpace: readonly (readonly number[])[];
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
  const scaled = rows.map((row) => {
    const length = asGiven ? 0 : Math.hypot(...row);
    return length === 0 ? row : row.map((value) => value / length);
  });
  const { values, right } = decompose(scaled, columns);
  const rank = values.filter((value) => value > share * values[0]).length;
  return {
    singularValues: values.slice(0, Math.min(rows.length, columns)),
    rank,
    nullSpace: right.slice(rank),
  };
}

/**
 * The x that makes |A x - b|^2 + lambda |x|^2 least, lambda above 0, for a dense matrix of finite numbers given by rows: by
 * orthogonal reflections of the rows of A with those of sqrt(lambda) I below them.
 */
export function dampedLeast(
  rows: readonly (readonly number[])[],
  b: readonly number[],
  columns: number,
  lambda: number,
): number[] {
  if (columns === 0) return [];
  const root = Math.sqrt(lambda);
  const stacked = Matrix.zeros(rows.length + columns, columns);
  const right = Matrix.zeros(rows.length + columns, 1);
  rows.forEach((row, i) => {
    row.forEach((value, j) => {
      stacked.set(i, j, value);
    });
    right.set(i, 0, b[i]);
  });
  for (let j = 0; j < columns; j++) stacked.set(rows.length + j, j, root);
  return new QrDecomposition(stacked).solve(right).getColumn(0);
}
