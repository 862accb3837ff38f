// A matrix J with one more row g, its border, that makes it square. In block triangular order (block-triangular.ts) it falls into
// small systems - for a chain of loops, one a loop - that are solved one after the other.
//
// Where J loses rank along a motion, one diagonal block or several are singular, each by itself. As a rule the determinant of each
// passes through zero there: one sign a block, compared at both ends of a part of the motion, finds also what leaves the sign
// of the whole determinant as it was.

import { blockTriangular } from './block-triangular.ts';
import { type Elimination, eliminate, elimination, type Pattern } from './elimination.ts';

/** A bordered matrix and its workspace. */
export interface Bordered {
  readonly elimination: Elimination;
  /** The row at each place of the order; BORDER for the border. */
  readonly rowAt: Int32Array;
  readonly borderAt: number;
  /** Blocks: from place `blockStart[k]` to before `blockStart[k + 1]`; what is behind is structurally redundant. */
  readonly blockStart: readonly number[];
  /** Place of each column in the order. */
  readonly columnAt: Int32Array;
  /** For each entry in order that of the matrix, or -1 - c for that of the border in column c. */
  readonly source: Int32Array;
  readonly value: Float64Array;
  readonly scale: Float64Array;
  /** Workspace of `marksOf`. */
  readonly order: Int32Array;
}

const BORDER = -1;

/** A matrix of the pattern, bordered by a row that has entries in some columns. */
export function bordered(pattern: Pattern, border: readonly number[]): Bordered {
  const rows = pattern.start.length - 1;
  // The border comes first, and gets its column whatever else there is.
  const whole = {
    columns: pattern.columns,
    start: [0, ...pattern.start.map((at) => at + border.length)],
    column: [...border, ...pattern.column],
  };
  const { rowOrder, columnOrder, blockStart, unmatchedRows, unmatchedColumns } = blockTriangular(whole);
  // In a block rows stay as listed, neighbours beside each other, and the border comes last: a large one fills up less.
  const listed = (row: number) => (row === 0 ? rows : row - 1);
  const order = [...rowOrder];
  for (let k = 0; k + 1 < blockStart.length; k++) {
    const [from, end] = [blockStart[k], blockStart[k + 1]];
    order.splice(from, end - from, ...order.slice(from, end).sort((i, j) => listed(i) - listed(j)));
  }
  order.push(...unmatchedRows);
  const ordered = { columns: whole.columns, start: [0], column: [] as number[] };
  const source: number[] = [];
  for (const row of order) {
    for (let q = whole.start[row]; q < whole.start[row + 1]; q++) {
      ordered.column.push(whole.column[q]);
      source.push(row === 0 ? -1 - whole.column[q] : q - border.length);
    }
    ordered.start.push(source.length);
  }
  const columnAt = new Int32Array(whole.columns);
  [...columnOrder, ...unmatchedColumns].forEach((c, at) => {
    columnAt[c] = at;
  });
  return {
    elimination: elimination(ordered),
    rowAt: Int32Array.from(order, (row) => row - 1),
    borderAt: order.indexOf(0),
    blockStart,
    columnAt,
    source: Int32Array.from(source),
    value: new Float64Array(source.length),
    scale: new Float64Array(rows + 1),
    order: new Int32Array(whole.columns),
  };
}

/** Eliminates the matrix with the given entries, bordered by a row, one number a column; `scale` and `share` as for `eliminate`. */
export function eliminateBordered(
  b: Bordered,
  entries: Float64Array,
  border: Float64Array,
  rowScale: ArrayLike<number>,
  share: number,
): void {
  const { source, value, scale, rowAt } = b;
  for (let q = 0; q < source.length; q++) {
    value[q] = source[q] < 0 ? border[-1 - source[q]] : entries[source[q]];
  }
  for (let at = 0; at < rowAt.length; at++) scale[at] = rowAt[at] === BORDER ? 0 : rowScale[rowAt[at]];
  b.elimination.share = share;
  eliminate(b.elimination, value, scale);
}

/**
 * The signs of the diagonal blocks at the last elimination, one character each, `0` where a block is rank-deficient. Where rows are
 * set aside that need not be, or others are not, the sign of the whole determinant and the places of those that are: `=+ 3 7`.
 */
export function marksOf(b: Bordered): string {
  const { elimination, blockStart, columnAt, order } = b;
  const { pivotColumn, inversePivot, rank } = elimination;
  const blocks = blockStart.length - 1;
  const matched = blockStart[blocks];
  let marks = '';
  for (let k = 0; k < blocks; k++) {
    const from = blockStart[k];
    const end = blockStart[k + 1];
    let sign = 1;
    for (let at = from; at < end; at++) {
      const column = pivotColumn[at];
      if (column < 0) {
        sign = 0;
        continue;
      }
      const place = columnAt[column];
      if (place < from || place >= end) return wholeMark(b);
      order[at - from] = place - from;
      if (inversePivot[at] < 0) sign = -sign;
    }
    if (sign !== 0) sign *= parity(order, end - from);
    marks += sign > 0 ? '+' : sign < 0 ? '-' : '0';
  }
  return rank > matched ? wholeMark(b) : marks;
}

function wholeMark({ elimination, columnAt, order }: Bordered): string {
  const { pivotColumn, inversePivot, rank, pattern } = elimination;
  let sign = 1;
  let dependent = '';
  let count = 0;
  for (let at = 0; at < pivotColumn.length; at++) {
    if (pivotColumn[at] < 0) {
      dependent += ` ${at}`;
      continue;
    }
    order[count++] = columnAt[pivotColumn[at]];
    if (inversePivot[at] < 0) sign = -sign;
  }
  if (rank < pattern.columns) return `=0${dependent}`;
  return `=${sign * parity(order, count) > 0 ? '+' : '-'}${dependent}`;
}

/** Sign of a permutation, which is undone: each cycle of even length turns it. */
function parity(order: Int32Array, count: number): number {
  let sign = 1;
  for (let i = 0; i < count; i++) {
    while (order[i] !== i) {
      const to = order[i];
      order[i] = order[to];
      order[to] = to;
      sign = -sign;
    }
  }
  return sign;
}

/** Whether a block is rank-deficient. */
export function isDeficient(marks: string): boolean {
  return marks.includes('0');
}

/** Whether some block is rank-deficient or has changed its sign; undecidable, hence false, if different rows were set aside. */
export function differ(marks: string, before: string): boolean {
  if (marks === before) return isDeficient(marks);
  if (isDeficient(marks)) return true;
  if (marks[0] !== '=' && before[0] !== '=') return true;
  return marks[0] === before[0] && marks.slice(2) === before.slice(2);
}

/** The same of the whole determinant. */
export function differOdd(marks: string, before: string): boolean {
  const negative = (of: string) => of.split('-').length & 1;
  return differ(marks, before) && (isDeficient(marks) || negative(marks) !== negative(before));
}
