// A symmetric matrix without negative eigenvalues as A = sum_k f_k f_k': the columns of its Cholesky factor, one after the
// other. A column whose pivot is rounding beside the diagonal is zero, as what is left of A is then zero there too; where that
// is not so, or a pivot is negative, A has a negative eigenvalue (G. H. Golub, C. F. Van Loan, "Matrix Computations", sec. 4.2;
// from memory).

/** A pivot below this share of its diagonal entry is rounding. */
const ROUNDING = 1e-10;

/** The columns f_k of a symmetric matrix, given by rows; null where it has a negative eigenvalue. */
export function choleskyColumns(matrix: readonly (readonly number[])[]): number[][] | null {
  const left = matrix.map((row) => [...row]);
  const diagonal = matrix.map((row, j) => row[j]);
  const isRounding = (value: number, i: number, j: number) =>
    Math.abs(value) <= ROUNDING * Math.sqrt(Math.abs(diagonal[i] * diagonal[j]));
  const columns: number[][] = [];
  for (let k = 0; k < left.length; k++) {
    const pivot = left[k][k];
    if (isRounding(pivot, k, k)) {
      // Beside a pivot of ROUNDING an entry of its root may stand.
      const rest = left.slice(k + 1).map((row) => row[k]);
      const most = Math.sqrt(ROUNDING);
      const zero = rest.every(
        (value, i) => Math.abs(value) <= most * Math.sqrt(Math.abs(diagonal[k] * diagonal[k + 1 + i])),
      );
      if (!zero) return null;
      columns.push(left.map(() => 0));
      continue;
    }
    if (pivot < 0) return null;
    const root = Math.sqrt(pivot);
    const column = left.map((row, i) => (i < k ? 0 : i === k ? root : row[k] / root));
    for (let i = k; i < left.length; i++) {
      for (let j = k; j < left.length; j++) left[i][j] -= column[i] * column[j];
    }
    columns.push(column);
  }
  return columns;
}
