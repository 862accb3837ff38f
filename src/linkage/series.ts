// The motion near a pose as a power series of the arc length s (asymptotic numerical method: B. Cochelin, "A
// path-following technique via an asymptotic-numerical method", Computers & Structures 53, 1994; L. Guillot,
// A. Lazarus, O. Thomas, C. Vergez, B. Cochelin, "A Taylor series-based continuation method for solutions of
// dynamical systems", Nonlinear Dynamics 98, 2019).
//
// With z(s) = sum_k Z_k s^k the rows Re(k conj(W_a) W_b) = constant give, order by order,
//
//   J Z_1 = 0,   |Z_1| = 1,
//   J Z_k = - Re(k sum_{j=1..k-1} conj(w_{a,j}) w_{b,k-j}),   Z_1 . Z_k = 0     (k >= 2)
//
// with one factorised Jacobian J for all orders. s is the length along the tangent Z_1, in the drawing's unit.

import { type Elimination, eliminate, elimination, nullVector, solve } from '../numerics/elimination.ts';
import { horner } from '../numerics/polynomial.ts';
import { applyForms } from './form.ts';
import type { Structure } from './structure.ts';
import type { System } from './system.ts';

/** Highest power kept. */
export const ORDER = 24;
/** Coefficients of one unknown. */
export const STRIDE = ORDER + 1;
/** Truncation error allowed at the end of a piece, as a share of the system's size. */
const TRUNCATION = 1e-14;
/** Residual allowed at the end of a piece, as a share of the system's size: what rounding leaves, with room. */
const RESIDUAL = 1e-12;
/** A pose is corrected until its residual is below this share of the size, or stops shrinking. */
const ROUNDING = 4 * Number.EPSILON;
/**
 * A piece is at most this many sizes long, for so many free points: then even the straightest motion is checked now and then.
 * Arc length counts all points, and grows with the root of their number.
 */
const LONGEST = 2;
const POINTS = 8;
/** Rows up to which a system is small enough for its whole solution matrix to pay. */
const SMALL = 8;
/** Halvings before a piece is given up. */
const HALVINGS = 24;

/** A Jacobian entry pair (x, y) of a row: its free point, and the entries of forms a and b behind it, -1 for none. */
interface JacobianPair {
  readonly free: number;
  entryA: number;
  entryB: number;
}

/** Workspace for expanding the motion of a system; made once for a structure, and overwritten at every use. */
export interface Expander {
  /** The system it works on at present. */
  system: System;
  readonly elimination: Elimination;
  /** Jacobian: the pairs of row i are `pairs[start[i]] .. pairs[start[i + 1] - 1]`, pair q's entries 2q and 2q + 1. */
  readonly start: readonly number[];
  readonly pairs: readonly JacobianPair[];
  readonly jacobian: Float64Array;
  readonly rhs: Float64Array;
  readonly x: Float64Array;
  readonly tangent: Float64Array;
  /** Workspace of `fillAnswer`, null for systems that are not small. */
  readonly answer: Float64Array | null;
  /** The coefficients of the last expansion, contiguous per unknown. */
  readonly z: Float64Array;
  readonly formX: Float64Array;
  readonly formY: Float64Array;
  readonly wholeX: Float64Array;
  readonly wholeY: Float64Array;
  /** Row with the largest residual of the last `residual` call. */
  worstRow: number;
}

const expanders = new WeakMap<Structure, Expander>();

/** The workspace of the system's structure, turned to the system; good until the next call. */
export function expander(system: System): Expander {
  const before = expanders.get(system.structure);
  if (before !== undefined) {
    before.system = system;
    return before;
  }
  const { unknowns, forms, structure } = system;
  const { start, pairs } = jacobianPairs(system);
  const e: Expander = {
    system,
    elimination: elimination({
      columns: unknowns,
      start: start.map((pair) => 2 * pair),
      column: pairs.flatMap(({ free }) => [2 * free, 2 * free + 1]),
    }),
    start,
    pairs,
    jacobian: new Float64Array(2 * pairs.length),
    rhs: new Float64Array(structure.rows.length),
    x: new Float64Array(unknowns),
    tangent: new Float64Array(unknowns),
    answer: structure.rows.length <= SMALL ? new Float64Array(unknowns * structure.rows.length) : null,
    z: new Float64Array(unknowns * STRIDE),
    formX: new Float64Array(forms.count * STRIDE),
    formY: new Float64Array(forms.count * STRIDE),
    wholeX: new Float64Array(forms.count),
    wholeY: new Float64Array(forms.count),
    worstRow: -1,
  };
  expanders.set(structure, e);
  return e;
}

function jacobianPairs({ forms, structure }: System): { start: number[]; pairs: JacobianPair[] } {
  const start = [0];
  const pairs: JacobianPair[] = [];
  for (const { a, b } of structure.rows) {
    const row: JacobianPair[] = [];
    for (let q = forms.start[b]; q < forms.start[b + 1]; q++) {
      row.push({ free: forms.free[q], entryA: -1, entryB: q });
    }
    for (let q = forms.start[a]; q < forms.start[a + 1]; q++) {
      const pair = row.find(({ free }) => free === forms.free[q]);
      if (pair === undefined) row.push({ free: forms.free[q], entryA: q, entryB: -1 });
      else pair.entryA = q;
    }
    pairs.push(...row);
    start.push(pairs.length);
  }
  return { start, pairs };
}

/**
 * Expands the motion about a pose, which is first corrected to rounding.
 *
 * `along` gives the sense: the tangent is taken so that its product with it is positive. Returns the number of
 * freedoms of the pose; only with 1 is `e.z` an expansion.
 */
export function expand(e: Expander, pose: Float64Array, along: Float64Array | null): number {
  const { system, elimination, tangent, z, x, rhs } = e;
  const { unknowns, size } = system;
  let left = factorise(e, pose);
  const freedoms = unknowns - elimination.rank;
  if (freedoms !== 1) return freedoms;
  nullVector(elimination, elimination.pivotRow.indexOf(-1), tangent);
  let square = 0;
  let sense = 0;
  for (let i = 0; i < unknowns; i++) {
    square += tangent[i] * tangent[i];
    if (along !== null) sense += tangent[i] * along[i];
  }
  const norm = (sense < 0 ? -1 : 1) / Math.sqrt(square);
  for (let i = 0; i < unknowns; i++) tangent[i] *= norm;

  for (let round = 0; round < 3 && left > ROUNDING * size; round++) {
    for (let i = 0; i < rhs.length; i++) rhs[i] = -rhs[i];
    solve(elimination, rhs, x);
    offTangent(x, tangent);
    for (let i = 0; i < unknowns; i++) pose[i] += x[i];
    const now = residual(e, pose);
    if (now >= 0.5 * left) break;
    left = now;
  }

  for (let i = 0; i < unknowns; i++) {
    z[i * STRIDE] = pose[i];
    z[i * STRIDE + 1] = tangent[i];
  }
  applyForms(system.forms, z, STRIDE, 1, 1, e.formX, e.formY);
  const answer = e.answer === null ? null : fillAnswer(e, e.answer);
  for (let k = 2; k <= ORDER; k++) {
    convolve(e, k);
    if (answer === null) {
      solve(elimination, rhs, x);
      offTangent(x, tangent);
      for (let i = 0; i < unknowns; i++) z[i * STRIDE + k] = x[i];
    } else {
      for (let i = 0, q = 0; i < unknowns; i++) {
        let sum = 0;
        for (let j = 0; j < rhs.length; j++) sum += answer[q++] * rhs[j];
        z[i * STRIDE + k] = sum;
      }
    }
    applyForms(system.forms, z, STRIDE, k, k, e.formX, e.formY);
  }
  return 1;
}

/**
 * The matrix that takes right-hand sides to solutions off the tangent, row by row. Of a small system it costs as much
 * as a few solves, and there are ORDER of them.
 */
function fillAnswer({ elimination, tangent, rhs, x }: Expander, answer: Float64Array): Float64Array {
  const rows = rhs.length;
  for (let j = 0; j < rows; j++) {
    rhs.fill(0);
    rhs[j] = 1;
    solve(elimination, rhs, x);
    offTangent(x, tangent);
    for (let i = 0; i < x.length; i++) answer[i * rows + j] = elimination.pivotColumn[j] < 0 ? 0 : x[i];
  }
  return answer;
}

/** Eliminates the Jacobian at a pose; returns the largest residual there. */
export function factorise(e: Expander, pose: Float64Array): number {
  const largest = residual(e, pose);
  fillJacobian(e);
  eliminate(e.elimination, e.jacobian, e.system.scale);
  return largest;
}

/** How far from its pose the last expansion is good, from its last three orders and those of the measure `t`. */
export function reach(e: Expander, t: Float64Array | null): number {
  const { z, system } = e;
  const allowed = TRUNCATION * system.size;
  const points = Math.max(1, system.unknowns / 2 / POINTS);
  let s = LONGEST * Math.sqrt(points) * system.size;
  for (let k = ORDER - 2; k <= ORDER; k++) {
    let largest = t === null ? 0 : Math.abs(t[k]);
    for (let i = k; i < z.length; i += STRIDE) largest = Math.max(largest, Math.abs(z[i]));
    if (largest > 0) s = Math.min(s, (allowed / largest) ** (1 / k));
  }
  return s;
}

/** What redundant rows may miss by: which rows they were where a series began, and how far, as lengths. */
export interface Slack {
  readonly redundant: Uint8Array;
  readonly tolerance: number;
}

/** The rows that the last elimination set aside. */
export function redundantRows({ elimination }: Expander): Uint8Array {
  return Uint8Array.from(elimination.pivotColumn, (column) => (column < 0 ? 1 : 0));
}

/**
 * The part of a step s (either sign) of a series at whose end every row holds, found by halving; 0 when none does.
 * On return `pose` is the end and `e.worstRow` the row that held least at the last attempt.
 */
export function accept(e: Expander, z: Float64Array, s: number, slack: Slack, pose: Float64Array): number {
  let step = s;
  for (let halving = 0; halving <= HALVINGS; halving++) {
    poseAt(z, step, pose);
    residual(e, pose);
    if (holds(e, slack)) return step;
    step *= 0.5;
  }
  return 0;
}

/** The redundant row that holds least at a pose, by name. */
export function worstRow(e: Expander, { redundant }: Slack, pose: Float64Array): string {
  residual(e, pose);
  const { rhs, system } = e;
  let worst = 0;
  for (let i = 1; i < rhs.length; i++) {
    const miss = (k: number) => (redundant[k] * Math.abs(rhs[k])) / system.scale[k];
    if (miss(i) > miss(worst)) worst = i;
  }
  return system.structure.rows[worst].name;
}

/** Whether the residuals of all rows are within what is allowed them; `e.worstRow` is the row farthest beyond. */
function holds(e: Expander, { redundant, tolerance }: Slack): boolean {
  const { rhs, system } = e;
  const allowed = RESIDUAL * system.size;
  let worst = 1;
  for (let i = 0; i < rhs.length; i++) {
    const share = Math.abs(rhs[i]) / system.scale[i] / (redundant[i] === 1 ? tolerance : allowed);
    if (share > worst) {
      worst = share;
      e.worstRow = i;
    }
  }
  return worst <= 1;
}

/** The unknowns at local arc length s. */
export function poseAt(z: Float64Array, s: number, pose: Float64Array): void {
  for (let i = 0; i < pose.length; i++) pose[i] = horner(z, i * STRIDE, ORDER, s);
}

/** The tangent dz/ds at local arc length s. */
export function tangentAt(z: Float64Array, s: number, tangent: Float64Array): void {
  for (let i = 0; i < tangent.length; i++) {
    let slope = 0;
    for (let k = ORDER; k >= 1; k--) slope = slope * s + k * z[i * STRIDE + k];
    tangent[i] = slope;
  }
}

/** Largest residual of all rows at a pose, as a length; the residuals themselves go to `e.rhs`. */
export function residual(e: Expander, pose: Float64Array): number {
  const { system, rhs, wholeX, wholeY } = e;
  const { forms, scale, structure } = system;
  const { d } = forms;
  const { rows } = structure;
  applyForms(forms, pose, 1, 0, 0, wholeX, wholeY);
  let worst = -1;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i];
    const { a, b } = row;
    const ax = wholeX[a];
    const ay = wholeY[a];
    const bx = wholeX[b];
    const by = wholeY[b];
    // conj(d_a) w_b + conj(w_a) (d_b + w_b)
    const dx = d[2 * a];
    const dy = d[2 * a + 1];
    const fullX = d[2 * b] + bx;
    const fullY = d[2 * b + 1] + by;
    const re = dx * bx + dy * by + ax * fullX + ay * fullY;
    const im = dx * by - dy * bx + ax * fullY - ay * fullX;
    rhs[i] = row.re * re - row.im * im;
    const length = Math.abs(rhs[i]) / scale[i];
    if (length > worst) {
      worst = length;
      e.worstRow = i;
    }
  }
  for (let f = 0; f < forms.count; f++) {
    wholeX[f] += d[2 * f];
    wholeY[f] += d[2 * f + 1];
  }
  return worst;
}

/** Entries of the Jacobian from the whole forms W: d/dz of Re(k conj(W_a) W_b). */
function fillJacobian(e: Expander): void {
  const { system, start, pairs, jacobian, wholeX, wholeY } = e;
  const { c } = system.forms;
  const { rows } = system.structure;
  for (let i = 0; i < rows.length; i++) {
    const { a, b, re, im } = rows[i];
    // Re(gB c_b z) with gB = k conj(W_a); Re(gA c_a z) with gA = conj(k) conj(W_b)
    const gBx = re * wholeX[a] + im * wholeY[a];
    const gBy = im * wholeX[a] - re * wholeY[a];
    const gAx = re * wholeX[b] - im * wholeY[b];
    const gAy = -im * wholeX[b] - re * wholeY[b];
    for (let q = start[i]; q < start[i + 1]; q++) {
      const { entryA, entryB } = pairs[q];
      let hx = 0;
      let hy = 0;
      if (entryB >= 0) {
        hx += gBx * c[2 * entryB] - gBy * c[2 * entryB + 1];
        hy += gBx * c[2 * entryB + 1] + gBy * c[2 * entryB];
      }
      if (entryA >= 0) {
        hx += gAx * c[2 * entryA] - gAy * c[2 * entryA + 1];
        hy += gAx * c[2 * entryA + 1] + gAy * c[2 * entryA];
      }
      jacobian[2 * q] = hx;
      jacobian[2 * q + 1] = -hy;
    }
  }
}

/** A row of the Jacobian, divided by its scale, is empty below this. */
const EMPTY = 1e-12;

/** The Jacobian at a pose as a dense matrix, each row divided by its scale. */
export function jacobianRows(e: Expander, pose: Float64Array): number[][] {
  const { system, start, pairs, jacobian } = e;
  residual(e, pose);
  fillJacobian(e);
  return system.structure.rows.map((_, i) => {
    const row = new Array<number>(system.unknowns).fill(0);
    for (let q = start[i]; q < start[i + 1]; q++) {
      row[2 * pairs[q].free] = jacobian[2 * q] / system.scale[i];
      row[2 * pairs[q].free + 1] = jacobian[2 * q + 1] / system.scale[i];
    }
    return Math.hypot(...row) < EMPTY ? row.fill(0) : row;
  });
}

/** Right-hand sides of order k: - Re(k sum_{j=1..k-1} conj(w_{a,j}) w_{b,k-j}). */
function convolve(e: Expander, k: number): void {
  const { rows } = e.system.structure;
  const { rhs, formX, formY } = e;
  const half = k >> 1;
  for (let i = 0; i < rows.length; i++) {
    const row = rows[i];
    const a = row.a * STRIDE;
    const b = row.b * STRIDE;
    let re = 0;
    let im = 0;
    if (a === b) {
      // Symmetric: twice the first half, and the middle term once; the imaginary part cancels.
      for (let p = a + 1, q = a + k - 1; p < q; p++, q--) re += formX[p] * formX[q] + formY[p] * formY[q];
      re *= 2;
      if (half + half === k) re += formX[a + half] * formX[a + half] + formY[a + half] * formY[a + half];
    } else if (a !== 0) {
      for (let p = a + 1, q = b + k - 1; q > b; p++, q--) {
        re += formX[p] * formX[q] + formY[p] * formY[q];
        im += formX[p] * formY[q] - formY[p] * formX[q];
      }
    }
    rhs[i] = row.im * im - row.re * re;
  }
}

function offTangent(x: Float64Array, tangent: Float64Array): void {
  let along = 0;
  for (let i = 0; i < x.length; i++) along += x[i] * tangent[i];
  for (let i = 0; i < x.length; i++) x[i] -= along * tangent[i];
}
