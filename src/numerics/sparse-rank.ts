// Null space and least solution of a sparse matrix A by elimination (elimination.ts), its rows scaled to length one and taken in a
// static order: breadth-first along shared columns from a row far out, so that a chain of many loops has a narrow band (E. Cuthill,
// J. McKee, Proc. 24th ACM Conf., 1969; from memory). Cost and storage are in proportion to the length of a chain.
//
// With N and L orthonormal, A N = 0 and A' L = 0, the least x of |A x - b| solves A x = b - L L'b, made least itself by taking N N'x out.
//
// A pivot that is neither rounding nor clear of it leaves the rank in doubt: the singular values of the dense matrix decide.

import { type Elimination, eliminate, elimination, nullVector, type Pattern, solve } from './elimination.ts';
import { type LeastSolution, rankOf, solveLeast } from './singular-values.ts';

/** A matrix by its pattern and entries. */
export interface Sparse {
  readonly pattern: Pattern;
  readonly value: Float64Array;
}

/** What elimination leaves of a row of length one is rounding below the first, and clear of it above the second. */
const ROUNDING = 1e-11;
const CLEAR = 1e-6;

/** A sparse matrix from the entries of each row by column; entries of one column add up. */
export function sparse(rows: readonly ReadonlyMap<number, number>[], columns: number): Sparse {
  const start = [0];
  const column: number[] = [];
  const value: number[] = [];
  for (const row of rows) {
    for (const [c, entry] of row) {
      column.push(c);
      value.push(entry);
    }
    start.push(column.length);
  }
  return { pattern: { columns, start, column }, value: Float64Array.from(value) };
}

/** Orthonormal null spaces of a matrix and of its transpose; rows are scaled to length one first. */
export interface NullSpaces {
  readonly nullSpace: readonly ArrayLike<number>[];
  readonly leftNullSpace: readonly ArrayLike<number>[];
}

/** Null spaces of a sparse matrix of finite numbers. */
export function nullSpaces(matrix: Sparse): NullSpaces {
  const unit = unitRows(matrix).matrix;
  const found = bySparse(unit);
  if (found !== null) return found;
  const rows = dense(unit);
  const { columns } = unit.pattern;
  const across = Array.from({ length: columns }, (_, j) => rows.map((row) => row[j]));
  return {
    nullSpace: rankOf(rows, columns, { asGiven: true }).nullSpace,
    leftNullSpace: rankOf(across, rows.length, { asGiven: true }).nullSpace,
  };
}

/** The least solution of A x = b, as `solveLeast` of the dense matrix. */
export function solveSparse(
  matrix: Sparse,
  b: readonly number[],
): Omit<LeastSolution, 'nullSpace'> & NullSpaces {
  const { matrix: unit, lengths } = unitRows(matrix);
  const found = bySparse(unit);
  const { columns } = unit.pattern;
  if (found === null) return { ...solveLeast(dense(matrix), b, columns), leftNullSpace: [] };
  const { e, order, nullSpace, leftNullSpace } = found;
  const right = Float64Array.from(b, (value, i) => value / lengths[i]);
  for (const vector of leftNullSpace) takeOut(right, vector);
  const x = new Float64Array(columns);
  const correction = new Float64Array(columns);
  const left = new Float64Array(right.length);
  // The second round takes out what rounding of the first one left.
  for (let round = 0; round < 2; round++) {
    const product = times(unit, x);
    order.forEach((i, k) => {
      left[k] = right[i] - product[i];
    });
    solve(e, left, correction);
    for (let j = 0; j < columns; j++) x[j] += correction[j];
  }
  for (const vector of nullSpace) takeOut(x, vector);
  let residual = 0;
  times(matrix, x).forEach((value, i) => {
    residual = Math.max(residual, Math.abs(value - b[i]));
  });
  return { x: Array.from(x), residual, nullSpace, leftNullSpace };
}

/** The matrix eliminated with its null spaces; null where the rank is in doubt. */
function bySparse(unit: Sparse): (NullSpaces & Eliminated) | null {
  const own = eliminated(unit);
  const across = eliminated(transposed(unit));
  if (own === null || across === null || own.e.rank !== across.e.rank) return null;
  const leftNullSpace = nullSpaceOf(across.e);
  return { ...own, nullSpace: nullSpaceOf(own.e), leftNullSpace };
}

interface Eliminated {
  readonly e: Elimination;
  /** Rows in the order of elimination. */
  readonly order: readonly number[];
}

function eliminated({ pattern, value }: Sparse): Eliminated | null {
  const order = bandOrder(pattern);
  const start = [0];
  const column: number[] = [];
  const entries: number[] = [];
  for (const i of order) {
    for (let q = pattern.start[i]; q < pattern.start[i + 1]; q++) {
      column.push(pattern.column[q]);
      entries.push(value[q]);
    }
    start.push(column.length);
  }
  const e = elimination({ columns: pattern.columns, start, column });
  e.share = ROUNDING;
  eliminate(
    e,
    Float64Array.from(entries),
    order.map(() => 1),
  );
  const inDoubt = order.some((_, k) => e.pivotColumn[k] >= 0 && Math.abs(e.inversePivot[k]) > 1 / CLEAR);
  return inDoubt ? null : { e, order };
}

/** Orthonormal vectors of the null space, by Gram and Schmidt, twice each. */
function nullSpaceOf(e: Elimination): Float64Array[] {
  const found: Float64Array[] = [];
  e.pivotRow.forEach((row, column) => {
    if (row >= 0) return;
    const vector = new Float64Array(e.pattern.columns);
    nullVector(e, column, vector);
    for (let round = 0; round < 2; round++) {
      for (const before of found) takeOut(vector, before);
      const length = norm(vector);
      for (let j = 0; j < vector.length; j++) vector[j] /= length;
    }
    found.push(vector);
  });
  return found;
}

/** Rows breadth-first along the columns that they share, each connected part from a row far from where a first walk began. */
function bandOrder(pattern: Pattern): number[] {
  const rows = pattern.start.length - 1;
  const across = acrossOf(pattern);
  const reached = new Int32Array(rows);
  const walk = (first: number, round: number): number[] => {
    const order = [first];
    reached[first] = round;
    // The list grows while it is walked along.
    for (const i of order) {
      for (let q = pattern.start[i]; q < pattern.start[i + 1]; q++) {
        const c = pattern.column[q];
        if (seen[c] === round) continue;
        seen[c] = round;
        for (let r = across.start[c]; r < across.start[c + 1]; r++) {
          const j = across.column[r];
          if (reached[j] === round) continue;
          reached[j] = round;
          order.push(j);
        }
      }
    }
    return order;
  };
  const seen = new Int32Array(pattern.columns);
  const order: number[] = [];
  for (let i = 0; i < rows; i++) {
    if (reached[i] !== 0) continue;
    const there = walk(i, 1);
    for (const j of walk(there[there.length - 1], 2)) order.push(j);
  }
  return order;
}

/** The pattern of the transpose; `from` is where each of its entries stands in the pattern. */
function acrossOf({ columns, start, column }: Pattern): Pattern & { readonly from: Int32Array } {
  const first = new Array<number>(columns + 1).fill(0);
  for (const c of column) first[c + 1]++;
  for (let c = 0; c < columns; c++) first[c + 1] += first[c];
  const next = [...first];
  const rows = new Array<number>(column.length);
  const from = new Int32Array(column.length);
  for (let i = 0; i + 1 < start.length; i++) {
    for (let q = start[i]; q < start[i + 1]; q++) {
      const to = next[column[q]]++;
      rows[to] = i;
      from[to] = q;
    }
  }
  return { columns: start.length - 1, start: first, column: rows, from };
}

function transposed({ pattern, value }: Sparse): Sparse {
  const across = acrossOf(pattern);
  return { pattern: across, value: Float64Array.from(across.from, (q) => value[q]) };
}

/** Each row over its length, and the lengths; a row of zeros has length one. */
function unitRows({ pattern, value }: Sparse): { matrix: Sparse; lengths: Float64Array } {
  const { start } = pattern;
  const scaled = value.slice();
  const lengths = new Float64Array(start.length - 1);
  for (let i = 0; i < lengths.length; i++) {
    lengths[i] = norm(value.subarray(start[i], start[i + 1])) || 1;
    for (let q = start[i]; q < start[i + 1]; q++) scaled[q] /= lengths[i];
  }
  return { matrix: { pattern, value: scaled }, lengths };
}

function norm(x: Float64Array): number {
  let largest = 0;
  for (const value of x) largest = Math.max(largest, Math.abs(value));
  if (largest === 0) return 0;
  let square = 0;
  for (const value of x) square += (value / largest) ** 2;
  return largest * Math.sqrt(square);
}

function times({ pattern, value }: Sparse, x: Float64Array): Float64Array {
  const { start, column } = pattern;
  const product = new Float64Array(start.length - 1);
  for (let i = 0; i < product.length; i++) {
    for (let q = start[i]; q < start[i + 1]; q++) product[i] += value[q] * x[column[q]];
  }
  return product;
}

/** Takes out of x its part along a unit vector. */
function takeOut(x: Float64Array, unit: ArrayLike<number>): void {
  let along = 0;
  for (let j = 0; j < x.length; j++) along += x[j] * unit[j];
  for (let j = 0; j < x.length; j++) x[j] -= along * unit[j];
}

function dense({ pattern, value }: Sparse): number[][] {
  return Array.from({ length: pattern.start.length - 1 }, (_, i) => {
    const row = new Array<number>(pattern.columns).fill(0);
    for (let q = pattern.start[i]; q < pattern.start[i + 1]; q++) row[pattern.column[q]] = value[q];
    return row;
  });
}
