// A = L L^T of a symmetric positive definite matrix, row by row (A.-L. Cholesky, 1910; G. Golub, C. Van Loan, "Matrix
// Computations", 2013, sec. 4.2; from memory).

/** The lower factor L; a pivot that rounding has made 0 or less counts as rounding of the diagonal. */
export function cholesky(A: readonly (readonly number[])[]): number[][] {
  const L: number[][] = [];
  A.forEach((row, i) => {
    L.push(new Array<number>(A.length).fill(0));
    for (let j = 0; j <= i; j++) {
      let sum = row[j];
      for (let k = 0; k < j; k++) sum -= L[i][k] * L[j][k];
      L[i][j] = i === j ? Math.sqrt(Math.max(sum, Number.EPSILON * row[i])) : sum / L[j][j];
    }
  });
  return L;
}

/** x of L x = b. */
export function lowerSolve(L: readonly (readonly number[])[], b: readonly number[]): number[] {
  const x = [...b];
  for (let i = 0; i < x.length; i++) {
    for (let k = 0; k < i; k++) x[i] -= L[i][k] * x[k];
    x[i] /= L[i][i];
  }
  return x;
}

/** x of L^T x = b. */
export function upperSolve(L: readonly (readonly number[])[], b: readonly number[]): number[] {
  const x = [...b];
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i] -= L[k][i] * x[k];
    x[i] /= L[i][i];
  }
  return x;
}

/** A pivot below this share of its diagonal entry is rounding. */
const ROUNDING = 1e-10;

/**
 * The columns f_k of a factor of a matrix without negative eigenvalues, A = sum_k f_k f_k', given by rows; null where it has one. A column
 * whose pivot is rounding beside the diagonal is zero, as what is left of A is then zero there too.
 */
export function choleskyColumns(matrix: readonly (readonly number[])[]): number[][] | null {
  const left = matrix.map((row) => [...row]);
  const diagonal = matrix.map((row, j) => row[j]);
  const isBelow = (share: number, value: number, i: number, j: number) =>
    Math.abs(value) <= share * Math.sqrt(Math.abs(diagonal[i] * diagonal[j]));
  const columns: number[][] = [];
  for (let k = 0; k < left.length; k++) {
    const pivot = left[k][k];
    if (isBelow(ROUNDING, pivot, k, k)) {
      // Beside a pivot of ROUNDING an entry of its root may stand.
      if (!left.every((row, i) => isBelow(Math.sqrt(ROUNDING), row[k], i, k))) return null;
      columns.push(left.map(() => 0));
      continue;
    }
    if (pivot < 0) return null;
    const root = Math.sqrt(pivot);
    const column = left.map((row, i) => (i < k ? 0 : row[k] / root));
    for (let i = k; i < left.length; i++) {
      for (let j = k; j < left.length; j++) left[i][j] -= column[i] * column[j];
    }
    columns.push(column);
  }
  return columns;
}
