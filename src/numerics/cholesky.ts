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
