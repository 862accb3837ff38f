// Gaussian elimination of a sparse matrix A (m rows, n columns, m <= n as a rule), row by row in the given
// order, each row choosing its largest remaining entry as pivot, or one near it (partial pivoting of the transpose):
//
//   row_i <- row_i - sum_{j<i} l_ij row_j,   l_ij = row_i[p_j] / d_j,   d_i = row_i[p_i] = max |row_i|
//
// A row of which nothing remains depends on the rows before it and is set aside; a column that no row chose is
// free. Cost and storage follow the fill, so that a chain of many loops stays linear in its length.

/** `share` unless it is set: what rounding leaves of a dependent row. */
export const DEPENDENT_SHARE = 1e-10;

/**
 * In a matrix of more columns than these the first column with an entry of no less than this share of the largest becomes the
 * pivot: what is near stays near, and little fills up.
 */
const LARGE = 16;
const THRESHOLD = 0.1;

/** Where a matrix may have entries: row i holds columns `column[start[i]] .. column[start[i + 1] - 1]`. */
export interface Pattern {
  readonly columns: number;
  readonly start: readonly number[];
  readonly column: readonly number[];
}

/** An elimination and its workspace; `eliminate` overwrites it, the solves read it. */
export interface Elimination {
  readonly pattern: Pattern;
  /** Column on which a row pivots, -1 for a dependent row. */
  readonly pivotColumn: Int32Array;
  /** Row that pivots on a column, -1 for a free column. */
  readonly pivotRow: Int32Array;
  readonly inversePivot: Float64Array;
  readonly lowerStart: Int32Array;
  readonly upperStart: Int32Array;
  lowerRow: Int32Array;
  lowerValue: Float64Array;
  upperColumn: Int32Array;
  upperValue: Float64Array;
  /** Number of independent rows. */
  rank: number;
  readonly work: Float64Array;
  readonly touched: Int32Array;
  readonly mark: Int32Array;
  readonly rowWork: Float64Array;
  /** A row counts as dependent when elimination leaves less of it than this share of its size. */
  share: number;
}

/** Workspace for matrices of one pattern. */
export function elimination(pattern: Pattern): Elimination {
  const rows = pattern.start.length - 1;
  const { columns } = pattern;
  const room = 2 * pattern.column.length;
  return {
    pattern,
    pivotColumn: new Int32Array(rows),
    pivotRow: new Int32Array(columns),
    inversePivot: new Float64Array(rows),
    lowerStart: new Int32Array(rows + 1),
    upperStart: new Int32Array(rows + 1),
    lowerRow: new Int32Array(room),
    lowerValue: new Float64Array(room),
    upperColumn: new Int32Array(room),
    upperValue: new Float64Array(room),
    rank: 0,
    work: new Float64Array(columns),
    touched: new Int32Array(columns),
    mark: new Int32Array(columns),
    rowWork: new Float64Array(rows),
    share: DEPENDENT_SHARE,
  };
}

/**
 * Eliminates the matrix with the given entries, in the order of the pattern. `scale[i]`, if given, is the size that
 * entries of row i have as a rule: a row of nothing but rounding is recognised by it.
 */
export function eliminate(e: Elimination, value: Float64Array, scale?: ArrayLike<number>): void {
  const { start, column, columns } = e.pattern;
  const { pivotColumn, pivotRow, inversePivot, lowerStart, upperStart, work, touched, mark } = e;
  const rows = start.length - 1;
  pivotRow.fill(-1);
  mark.fill(-1);
  let lowerCount = 0;
  let upperCount = 0;
  e.rank = 0;
  for (let i = 0; i < rows; i++) {
    lowerStart[i] = lowerCount;
    upperStart[i] = upperCount;
    if (lowerCount + i > e.lowerRow.length) growLower(e, lowerCount + i);
    if (upperCount + columns > e.upperColumn.length) growUpper(e, upperCount + columns);
    const { lowerRow, lowerValue, upperColumn, upperValue } = e;
    let count = 0;
    let largest = scale?.[i] ?? 0;
    let first = i;
    for (let q = start[i]; q < start[i + 1]; q++) {
      const c = column[q];
      mark[c] = i;
      touched[count++] = c;
      work[c] = value[q];
      largest = Math.max(largest, Math.abs(value[q]));
      const j = pivotRow[c];
      if (j >= 0 && j < first) first = j;
    }
    for (let j = first; j < i; j++) {
      const p = pivotColumn[j];
      if (p < 0 || mark[p] !== i || work[p] === 0) continue;
      const factor = work[p] * inversePivot[j];
      work[p] = 0;
      lowerRow[lowerCount] = j;
      lowerValue[lowerCount++] = factor;
      for (let q = upperStart[j]; q < upperStart[j + 1]; q++) {
        const c = upperColumn[q];
        if (mark[c] !== i) {
          mark[c] = i;
          touched[count++] = c;
          work[c] = 0;
        }
        work[c] -= factor * upperValue[q];
      }
    }
    // What was pivoted on before is zero by now.
    let pivot = -1;
    let most = e.share * largest;
    for (let q = 0; q < count; q++) {
      const c = touched[q];
      if (Math.abs(work[c]) > most) {
        most = Math.abs(work[c]);
        pivot = c;
      }
    }
    if (pivot >= 0 && columns > LARGE) {
      const enough = THRESHOLD * most;
      for (let q = 0; q < count; q++) {
        const c = touched[q];
        if (c < pivot && Math.abs(work[c]) >= enough) pivot = c;
      }
    }
    pivotColumn[i] = pivot;
    if (pivot < 0) continue;
    pivotRow[pivot] = i;
    inversePivot[i] = 1 / work[pivot];
    e.rank++;
    for (let q = 0; q < count; q++) {
      const c = touched[q];
      if (c === pivot || work[c] === 0) continue;
      upperColumn[upperCount] = c;
      upperValue[upperCount++] = work[c];
    }
  }
  lowerStart[rows] = lowerCount;
  upperStart[rows] = upperCount;
}

/** Solves A x = b on the independent rows, free columns zero; `b` of a dependent row is not looked at. */
export function solve(e: Elimination, b: Float64Array, x: Float64Array): void {
  const { lowerStart, lowerRow, lowerValue, rowWork: y } = e;
  for (let i = 0; i < y.length; i++) {
    let sum = b[i];
    for (let q = lowerStart[i]; q < lowerStart[i + 1]; q++) sum -= lowerValue[q] * y[lowerRow[q]];
    y[i] = sum;
  }
  x.fill(0);
  backSubstitute(e, y, x);
}

/** The vector with A x = 0 that is 1 in the given free column and 0 in every other free one. */
export function nullVector(e: Elimination, freeColumn: number, x: Float64Array): void {
  x.fill(0);
  x[freeColumn] = 1;
  e.rowWork.fill(0);
  backSubstitute(e, e.rowWork, x);
}

function backSubstitute(e: Elimination, y: Float64Array, x: Float64Array): void {
  const { pivotColumn, inversePivot, upperStart, upperColumn, upperValue } = e;
  for (let i = pivotColumn.length - 1; i >= 0; i--) {
    const p = pivotColumn[i];
    if (p < 0) continue;
    let sum = y[i];
    for (let q = upperStart[i]; q < upperStart[i + 1]; q++) sum -= upperValue[q] * x[upperColumn[q]];
    x[p] = sum * inversePivot[i];
  }
}

function growLower(e: Elimination, room: number): void {
  e.lowerRow = enlarged(e.lowerRow, new Int32Array(2 * room));
  e.lowerValue = enlarged(e.lowerValue, new Float64Array(2 * room));
}

function growUpper(e: Elimination, room: number): void {
  e.upperColumn = enlarged(e.upperColumn, new Int32Array(2 * room));
  e.upperValue = enlarged(e.upperValue, new Float64Array(2 * room));
}

function enlarged<T extends Int32Array | Float64Array>(from: T, to: T): T {
  to.set(from);
  return to;
}
