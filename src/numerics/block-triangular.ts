// Block triangular form of a sparse pattern: rows and columns in an order in which a system falls into small systems that
// are solved one after the other (I. S. Duff, J. K. Reid, ACM TOMS 4, 1978; A. Pothen, C.-J. Fan, ACM TOMS 16, 1990; from memory).
//
// 1. Matching: each row gets a column of its own, along augmenting paths; a row that gets none is structurally dependent.
// 2. Row i depends on row j if i has an entry in j's column. The strongly connected components of this graph (R. Tarjan,
//    SIAM J. Comput. 1, 1972) are the blocks; a component is complete only after all that it depends on.
//
// Both are depth-first searches on explicit stacks, so that a chain of thousands of rows needs no recursion.

import type { Pattern } from './elimination.ts';

/**
 * The order: entries of a block's rows lie in the matched columns of that block and of earlier ones, so that the matrix is
 * block lower triangular with a full diagonal. Entries in unmatched columns are left out of account.
 */
export interface BlockTriangular {
  /** Matched rows; block k has those from `blockStart[k]` to before `blockStart[k + 1]`. */
  readonly rowOrder: readonly number[];
  /** The column matched to each of them. */
  readonly columnOrder: readonly number[];
  readonly blockStart: readonly number[];
  /** Structurally dependent rows: each could get a column only from a row before it. */
  readonly unmatchedRows: readonly number[];
  /** As many as the pattern leaves free. */
  readonly unmatchedColumns: readonly number[];
}

/** The block triangular form of a pattern, square or not. */
export function blockTriangular(pattern: Pattern): BlockTriangular {
  const { columnOf, rowOf } = maximumMatching(pattern);
  const rowOrder: number[] = [];
  const blockStart = [0];
  for (const block of components(pattern, columnOf, rowOf)) {
    for (const row of block) rowOrder.push(row);
    blockStart.push(rowOrder.length);
  }
  return {
    rowOrder,
    columnOrder: rowOrder.map((row) => columnOf[row]),
    blockStart,
    unmatchedRows: unmatched(columnOf),
    unmatchedColumns: unmatched(rowOf),
  };
}

function unmatched(partner: Int32Array): number[] {
  return Array.from(partner, (_, k) => k).filter((k) => partner[k] < 0);
}

/** Rows and columns of a largest matching, -1 where there is none; earlier rows come first. */
export interface Matching {
  readonly columnOf: Int32Array;
  readonly rowOf: Int32Array;
}

/** A largest matching of rows to columns in which they have an entry. */
export function maximumMatching({ columns, start, column }: Pattern): Matching {
  const rows = start.length - 1;
  const columnOf = new Int32Array(rows).fill(-1);
  const rowOf = new Int32Array(columns).fill(-1);
  // The last search that saw a column; what a vain search saw leads to no free column later either.
  const seen = new Int32Array(columns).fill(-1);
  // Up to here no column of a row is free: none becomes free again.
  const nextFree = Int32Array.from(start);
  const next = new Int32Array(rows);
  const path = new Int32Array(rows);
  for (let root = 0; root < rows; root++) {
    const visited: number[] = [];
    let depth = 0;
    let end = -1;
    path[0] = root;
    next[root] = start[root];
    while (depth >= 0) {
      const i = path[depth];
      while (nextFree[i] < start[i + 1] && rowOf[column[nextFree[i]]] >= 0) nextFree[i]++;
      if (nextFree[i] < start[i + 1]) {
        end = column[nextFree[i]];
        break;
      }
      while (next[i] < start[i + 1] && seen[column[next[i]]] >= root) next[i]++;
      if (next[i] === start[i + 1]) {
        depth--;
        continue;
      }
      const c = column[next[i]];
      seen[c] = root;
      visited.push(c);
      path[++depth] = rowOf[c];
      next[rowOf[c]] = start[rowOf[c]];
    }
    if (end < 0) for (const c of visited) seen[c] = rows;
    else {
      for (let d = depth; d >= 0; d--) {
        const i = path[d];
        const before = columnOf[i];
        columnOf[i] = end;
        rowOf[end] = i;
        end = before;
      }
    }
  }
  return { columnOf, rowOf };
}

/** Strongly connected components of the matched rows, each after those that it depends on. */
function components({ start, column }: Pattern, columnOf: Int32Array, rowOf: Int32Array): number[][] {
  const rows = columnOf.length;
  const number = new Int32Array(rows).fill(-1);
  // The lowest number that is reached; beyond all numbers once the component is complete.
  const low = new Int32Array(rows);
  const next = new Int32Array(rows);
  const path: number[] = [];
  const pending: number[] = [];
  const found: number[][] = [];
  let count = 0;
  const enter = (i: number) => {
    number[i] = low[i] = count++;
    next[i] = start[i];
    path.push(i);
    pending.push(i);
  };
  for (let root = 0; root < rows; root++) {
    if (columnOf[root] < 0 || number[root] >= 0) continue;
    enter(root);
    while (path.length > 0) {
      const i = path[path.length - 1];
      if (next[i] < start[i + 1]) {
        const j = rowOf[column[next[i]]];
        if (j >= 0 && number[j] < 0) {
          enter(j);
          continue;
        }
        next[i]++;
        if (j >= 0 && low[j] < low[i]) low[i] = low[j];
        continue;
      }
      path.pop();
      if (low[i] < number[i]) continue;
      const block = pending.splice(pending.lastIndexOf(i));
      for (const j of block) low[j] = rows;
      found.push(block);
    }
  }
  return found;
}
