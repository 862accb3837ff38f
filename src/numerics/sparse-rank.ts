// Null space and least solution of a sparse matrix A by elimination (elimination.ts), its rows scaled to length one and taken in a
// static order: breadth-first along shared columns from a row far out, so that a chain of many loops has a narrow band (E. Cuthill,
// J. McKee, Proc. 24th ACM Conf., 1969; from memory). Cost and storage are in proportion to the length of a chain.
//
// Rows without a clear pivot are set aside: A_c x = b_c of the others leaves x = x_0 + N y open, N orthonormal. What the rows A_a that
// are set aside say of y,
//
//   S y = b_a - A_a x_0,   S = A_a N,
//
// is a small system. Where S is more than rounding the rank is in doubt, and the singular values of S decide.
//
// With A N = 0 and A' L = 0, both orthonormal, the least x of |A x - b| solves A x = b - L L'b, made least by taking N N'x out.

import { type Elimination, eliminate, elimination, nullVector, type Pattern, solve } from './elimination.ts';
import { type Decomposition, decompose, RANK_SHARE } from './singular-values.ts';

/** A matrix by its pattern and entries. */
export interface Sparse {
  readonly pattern: Pattern;
  readonly value: Float64Array;
}

/** A pivot of a row of length one is clear above this. */
const CLEAR = 1e-6;
/** Entries of S below this are rounding. */
const ROUNDING = 1e-11;
/** A singular value of S counts as zero below this: two rows an angle a apart have sqrt(2) and a/sqrt(2), and S is a. */
const DEPENDENT = 2 * RANK_SHARE;

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
  return spacesOf(factored(unitRows(matrix).matrix));
}

/** The smallest solution of a sparse linear system, and the null spaces of its matrix. */
export interface LeastSolution extends NullSpaces {
  readonly x: Float64Array;
  /** Largest entry of A x - b. */
  readonly residual: number;
}

/** Solves A x = b in the least squares, each row scaled to length one first. */
export function solveSparse(matrix: Sparse, b: readonly number[]): LeastSolution {
  const { matrix: unit, lengths } = unitRows(matrix);
  const f = factored(unit);
  const { nullSpace, leftNullSpace } = spacesOf(f);
  const right = Float64Array.from(b, (value, i) => value / lengths[i]);
  for (const vector of leftNullSpace) takeOut(right, vector);
  const x = new Float64Array(unit.pattern.columns);
  // The second round takes out what rounding of the first one left.
  for (let round = 0; round < 2; round++) {
    const product = times(unit, x);
    const left = right.map((value, i) => value - product[i]);
    add(x, 1, solution(f, left));
  }
  for (const vector of nullSpace) takeOut(x, vector);
  let residual = 0;
  times(matrix, x).forEach((value, i) => {
    residual = Math.max(residual, Math.abs(value - b[i]));
  });
  return { x, residual, nullSpace, leftNullSpace };
}

interface Factored {
  readonly unit: Sparse;
  readonly e: Elimination;
  /** Rows in the order of elimination, and those set aside. */
  readonly order: readonly number[];
  readonly aside: readonly number[];
  /** N. */
  readonly open: readonly Float64Array[];
  /** Of S; null where it is rounding. */
  readonly small: Decomposition | null;
}

function factored(unit: Sparse): Factored {
  const { pattern, value } = unit;
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
  e.share = CLEAR;
  eliminate(
    e,
    Float64Array.from(entries),
    order.map(() => 1),
  );
  const aside = order.filter((_, k) => e.pivotColumn[k] < 0);
  const open = openVectors(e);
  const products = open.map((vector) => times(unit, vector));
  const S = aside.map((i) => products.map((product) => product[i]));
  const inDoubt = S.some((row) => row.some((entry) => Math.abs(entry) > ROUNDING));
  return { unit, e, order, aside, open, small: inDoubt ? decompose(S, open.length) : null };
}

/** Rank of S. */
function smallRank({ small }: Factored): number {
  return small === null ? 0 : small.values.filter((value) => value > DEPENDENT).length;
}

function spacesOf(f: Factored): NullSpaces {
  // As it is: a column of next to nothing must not become a row of its own.
  const across = factored(transposed(f.unit));
  const rank = f.e.rank + smallRank(f);
  return { nullSpace: nullSpaceOf(f, rank), leftNullSpace: nullSpaceOf(across, rank) };
}

/** What a matrix of a known rank leaves open. */
function nullSpaceOf({ e, open, small }: Factored, rank: number): Float64Array[] {
  const from = Math.max(0, rank - e.rank);
  if (small === null) return open.slice(from);
  return small.right.slice(from).map((y) => combined(open, y, e.pattern.columns));
}

/** A solution of A x = b where there is one. */
function solution(f: Factored, b: Float64Array): Float64Array {
  const { unit, e, order, aside, open, small } = f;
  const x = new Float64Array(unit.pattern.columns);
  solve(
    e,
    Float64Array.from(order, (i) => b[i]),
    x,
  );
  if (small === null) return x;
  const product = times(unit, x);
  const y = open.map(() => 0);
  for (let j = 0; j < smallRank(f); j++) {
    const along = aside.reduce((sum, i, k) => sum + small.left[j][k] * (b[i] - product[i]), 0);
    small.right[j].forEach((value, k) => {
      y[k] += (along / small.values[j]) * value;
    });
  }
  add(x, 1, combined(open, y, x.length));
  return x;
}

function combined(vectors: readonly Float64Array[], y: readonly number[], length: number): Float64Array {
  const sum = new Float64Array(length);
  vectors.forEach((vector, k) => {
    add(sum, y[k], vector);
  });
  return sum;
}

/** Orthonormal vectors that the rows with a pivot leave open, by Gram and Schmidt, twice each. */
function openVectors(e: Elimination): Float64Array[] {
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
  add(x, -along, unit);
}

function add(x: Float64Array, factor: number, vector: ArrayLike<number>): void {
  for (let j = 0; j < x.length; j++) x[j] += factor * vector[j];
}
