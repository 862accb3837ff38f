// The motion near a pose as a power series of a local parameter x (asymptotic numerical method: B. Cochelin, "A
// path-following technique via an asymptotic-numerical method", Computers & Structures 53, 1994; L. Guillot,
// A. Lazarus, O. Thomas, C. Vergez, B. Cochelin, "A Taylor series-based continuation method for solutions of
// dynamical systems", Nonlinear Dynamics 98, 2019).
//
// With z(x) = sum_k Z_k x^k the rows Re(k conj(W_a) W_b) = constant give, order by order,
//
//   J Z_1 = 0,   J Z_k = - Re(k sum_{j=1..k-1} conj(w_{a,j}) w_{b,k-j})     (k >= 2)
//
// with one factorised Jacobian J for all orders, and one row more that says what x is:
//
//   arc length   |Z_1| = h,  Z_1 . Z_k = 0:  h x is the length along the tangent Z_1, h the system's size
//   driver       closing.ts: h x is how far the driver is from its value at the pose, h how far it is to go
//
// By h the unit of length drops out: x runs from -1 to 1, or so.

import { type Bordered, bordered, eliminateBordered } from '../numerics/bordered.ts';
import { nullVector, solve } from '../numerics/elimination.ts';
import { horner } from '../numerics/polynomial.ts';
import { anyPower } from '../numerics/power.ts';
import { smallArray } from '../numerics/small-array.ts';
import { type Closing, closingOrder, takeGradient, takeOrder } from './closing.ts';
import { applyForms } from './form.ts';
import { factorise, fillJacobian, type Rows, residual, rowsOf } from './rows.ts';
import type { Structure } from './structure.ts';
import type { System } from './system.ts';

/** Highest power of a series by the driver, and of one by arc length: 1e11 to it, beside a length of nearly nothing, is a number. */
const MAX_ORDER = 30;
export const ARC_ORDER = 27;
/** Coefficients of one unknown. */
export const STRIDE = MAX_ORDER + 1;
/** Truncation error allowed at the end of a piece by the driver and by arc length, as a share of the system's size. */
const DRIVER_TRUNCATION = 2e-15;
const ARC_TRUNCATION = 1e-14;
/** So many last orders are to be below it. */
const LAST = 3;
/** Residual allowed at the end of a piece, as a share of the system's size: what rounding leaves, with room. */
const RESIDUAL = 1e-12;
/** A pose is corrected until its residual is below this share of the size, or stops shrinking. */
const ROUNDING = 4 * Number.EPSILON;
const CORRECTIONS = 3;
/**
 * A piece by arc length is at most this many sizes long, for so many free points: then even the straightest motion is checked now
 * and then. Arc length counts all points, and grows with the root of their number; and those of a long chain go as far as it is long.
 */
const LONGEST = 2;
const POINTS = 8;
/** The driver is too flat a local parameter below this rate along the tangent, as a share of its gradient. */
const STEEP = 0.02;
/** Rows up to which a system is small enough for its whole solution matrix to pay. */
const SMALL = 8;
/** Halvings before a step is given up. */
const HALVINGS = 24;

/** Workspace for expanding the motion of a system; made once for a structure, and overwritten at every use. */
export interface TaylorExpansion extends Rows {
  /** Right-hand sides in the order of an elimination, and a solution. */
  readonly rhs: Float64Array;
  readonly x: Float64Array;
  /** The tangent at the pose, of length 1. */
  readonly tangent: Float64Array;
  /** Workspace of `fillInverse`, null for systems that are not small. */
  readonly inverse: Float64Array | null;
  /** The coefficients of the last expansion, contiguous per unknown, and its highest power. */
  readonly z: Float64Array;
  order: number;
  /** The rows that it set aside, 1 for each. */
  redundant: Uint8Array;
  /** Series of the rows' forms. */
  readonly formX: Float64Array;
  readonly formY: Float64Array;
  /** Workspace: a pose, a direction, a border, the series of a driver's form. */
  readonly pose: Float64Array;
  readonly along: Float64Array;
  readonly gradient: Float64Array;
  readonly wx: Float64Array;
  readonly wy: Float64Array;
  /** Rows as listed, and no row set aside. */
  readonly asListed: Int32Array;
  readonly none: Uint8Array;
  /** Bordered Jacobians, each by what its border has entries in. */
  readonly bordered: {
    readonly free: readonly number[];
    readonly column: number;
    readonly jacobian: Bordered;
  }[];
}

const expansions = new WeakMap<Structure, TaylorExpansion>();

/** The workspace of the system's structure, turned to the system; good until the next call. */
export function taylorExpansion(system: System): TaylorExpansion {
  const before = expansions.get(system.structure);
  if (before !== undefined) {
    before.system = system;
    return before;
  }
  const { unknowns, forms, structure } = system;
  const rows = structure.rows.length;
  const e: TaylorExpansion = {
    ...rowsOf(system),
    rhs: new Float64Array(rows + 1),
    x: new Float64Array(unknowns),
    tangent: new Float64Array(unknowns),
    inverse: rows <= SMALL ? new Float64Array(unknowns * (rows + 1)) : null,
    z: new Float64Array(unknowns * STRIDE),
    order: 0,
    redundant: new Uint8Array(rows),
    formX: new Float64Array(forms.count * STRIDE),
    formY: new Float64Array(forms.count * STRIDE),
    pose: new Float64Array(unknowns),
    along: new Float64Array(unknowns),
    gradient: new Float64Array(unknowns),
    wx: new Float64Array(STRIDE),
    wy: new Float64Array(STRIDE),
    asListed: Int32Array.from({ length: rows }, (_, i) => i),
    none: new Uint8Array(rows),
    bordered: [],
  };
  expansions.set(structure, e);
  return e;
}

/** The Jacobian bordered in the columns of some free points, or in one column, made once. */
function borderedIn(e: TaylorExpansion, free: readonly number[], column = ALL): Bordered {
  const { bordered: known } = e;
  for (const one of known) if (one.column === column && isSame(one.free, free)) return one.jacobian;
  const columns = column === ALL ? free.flatMap((j) => [2 * j, 2 * j + 1]) : [column];
  const jacobian = bordered(e.elimination.pattern, columns);
  known.unshift({ free, column, jacobian });
  return jacobian;
}

const ALL = -1;

function isSame(a: readonly number[], b: readonly number[]): boolean {
  if (a.length !== b.length) return false;
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false;
  return true;
}

/** What solves the equations of an order: an elimination, its rows in order, and where the border is among them, or -1. */
type Solver = Pick<Bordered, 'elimination' | 'rowAt' | 'borderAt'>;

/** A coordinate serves as border if its rate is this share of the greatest: the first that does, so that few are needed. */
const FAST = 0.5;

/** Eliminates the Jacobian at the pose of the last `residual`, bordered by a coordinate that changes along a direction. */
export function factoriseAlong(
  e: TaylorExpansion,
  along: Float64Array,
): { jacobian: Bordered; column: number } {
  let greatest = 0;
  for (let i = 0; i < along.length; i++) greatest = Math.max(greatest, Math.abs(along[i]));
  const column = along.findIndex((rate) => Math.abs(rate) >= FAST * greatest);
  const jacobian = borderedIn(e, [], column);
  e.gradient[column] = 1;
  factoriseBordered(e, jacobian);
  return { jacobian, column };
}

/** Eliminates the Jacobian at the pose of the last `residual`, bordered by `e.gradient`. */
export function factoriseBordered(e: TaylorExpansion, b: Bordered): void {
  fillJacobian(e);
  eliminateBordered(b, e.jacobian, e.gradient, e.system.scale, e.elimination.share);
}

/**
 * Expands the motion by arc length about a pose, which is first corrected to rounding.
 *
 * `along` gives the sense: the tangent is taken so that its product with it is positive. Returns the degrees of
 * freedom of the pose; `e.z` is an expansion only with 1.
 */
export function expandByArcLength(
  e: TaylorExpansion,
  pose: Float64Array,
  along: Float64Array | null,
): number {
  const { system, elimination, tangent, z } = e;
  const { unknowns, size } = system;
  const left = factorise(e, pose);
  const degreesOfFreedom = unknowns - elimination.rank;
  if (degreesOfFreedom !== 1) return degreesOfFreedom;
  const solver = { elimination, rowAt: e.asListed, borderAt: -1 };
  nullVector(elimination, elimination.pivotRow.indexOf(-1), tangent);
  normalise(tangent);
  if (along !== null && dot(tangent, along) < 0) for (let i = 0; i < unknowns; i++) tangent[i] = -tangent[i];
  correct(e, solver, pose, left, true);
  for (let i = 0; i < unknowns; i++) {
    z[i * STRIDE] = pose[i];
    z[i * STRIDE + 1] = tangent[i] * size;
  }
  fillOrders(e, solver, null, size, ARC_ORDER);
  e.redundant = redundantRows(e, solver);
  return 1;
}

/**
 * Expands the motion by the driver about a pose, x = 1 being so much of the driver. Returns the bordered Jacobian, eliminated at the
 * pose; null where the driver does not determine the motion, or hardly.
 */
export function expandByDriver(
  e: TaylorExpansion,
  by: Closing,
  pose: Float64Array,
  unit: number,
): Bordered | null {
  const { system, tangent, z, rhs } = e;
  const { unknowns } = system;
  const b = borderedIn(e, by.measure.form.free);
  const left = residual(e, pose);
  const gradient = takeGradient(by, pose);
  factoriseBordered(e, b);
  if (b.elimination.rank !== unknowns) return null;
  rhs.fill(0);
  rhs[b.borderAt] = 1;
  solve(b.elimination, rhs, tangent);
  const perDriver = normalise(tangent);
  if (!(perDriver * gradient * STEEP <= 1)) return null;
  correct(e, b, pose, left, false);
  takeGradient(by, pose);
  for (let i = 0; i < unknowns; i++) {
    z[i * STRIDE] = pose[i];
    z[i * STRIDE + 1] = tangent[i] * (perDriver * unit);
  }
  fillOrders(e, b, by, unit, MAX_ORDER);
  e.redundant = redundantRows(e, b);
  return b;
}

/** Newton steps with the one Jacobian, off the tangent or with the driver as it is. */
function correct(
  e: TaylorExpansion,
  solver: Solver,
  pose: Float64Array,
  residualBefore: number,
  offTheTangent: boolean,
): void {
  const { residuals, rhs, x, tangent } = e;
  let left = residualBefore;
  for (let round = 0; round < CORRECTIONS && left > ROUNDING * e.system.size; round++) {
    for (let at = 0; at < solver.rowAt.length; at++)
      rhs[at] = solver.rowAt[at] < 0 ? 0 : -residuals[solver.rowAt[at]];
    solve(solver.elimination, rhs, x);
    if (offTheTangent) offTangent(x, tangent);
    for (let i = 0; i < pose.length; i++) pose[i] += x[i];
    const now = residual(e, pose);
    if (now >= 0.5 * left) break;
    left = now;
  }
}

/** Orders 2 and up, as many as are needed for the truncation allowed at x = 1. */
function fillOrders(
  e: TaylorExpansion,
  solver: Solver,
  by: Closing | null,
  unit: number,
  highest: number,
): void {
  const { system, z, x, rhs, tangent, formX, formY } = e;
  const { unknowns, size, forms, further } = system;
  const { elimination, rowAt, borderAt } = solver;
  const inverse = e.inverse === null ? null : fillInverse(e, solver, by === null, e.inverse);
  const allowed = DRIVER_TRUNCATION * size;
  applyForms(forms, z, STRIDE, 1, 1, formX, formY);
  further?.begin(e, z);
  if (by !== null) takeOrder(by, z, STRIDE, 1);
  let small = 0;
  let k = 2;
  for (; k <= highest; k++) {
    convolve(e, rowAt, k);
    if (borderAt >= 0) rhs[borderAt] = by === null ? 0 : closingOrder(by, k, unit);
    let largest = 0;
    if (inverse === null) {
      solve(elimination, rhs, x);
      if (by === null) offTangent(x, tangent);
      for (let i = 0; i < unknowns; i++) {
        z[i * STRIDE + k] = x[i];
        largest = Math.max(largest, Math.abs(x[i]));
      }
    } else {
      const rows = rowAt.length;
      for (let i = 0, q = 0; i < unknowns; i++) {
        let sum = 0;
        for (let j = 0; j < rows; j++) sum += inverse[q++] * rhs[j];
        z[i * STRIDE + k] = sum;
        largest = Math.max(largest, Math.abs(sum));
      }
    }
    small = largest <= allowed ? small + 1 : 0;
    if (k === highest || (by !== null && small === LAST)) break;
    applyForms(forms, z, STRIDE, k, k, formX, formY);
    further?.take(k, z, formX, formY);
    if (by !== null) takeOrder(by, z, STRIDE, k);
  }
  e.order = k;
}

/**
 * The matrix that takes right-hand sides to solutions, row by row, off the tangent where required. Of a small system it
 * costs as much as a few solves, and there are as many of them as orders.
 */
function fillInverse(
  { tangent, rhs, x }: TaylorExpansion,
  { elimination, rowAt }: Solver,
  offTheTangent: boolean,
  inverse: Float64Array,
): Float64Array {
  const rows = rowAt.length;
  for (let j = 0; j < rows; j++) {
    rhs.fill(0);
    rhs[j] = 1;
    solve(elimination, rhs, x);
    if (offTheTangent) offTangent(x, tangent);
    const counts = elimination.pivotColumn[j] >= 0;
    for (let i = 0; i < x.length; i++) inverse[i * rows + j] = counts ? x[i] : 0;
  }
  return inverse;
}

/** Right-hand sides of order k, row by row in an order: - Re(k sum_{j=1..k-1} conj(w_{a,j}) w_{b,k-j}). */
export function convolve(
  { system, rhs, formA, formB, re, im, turns, formX, formY }: TaylorExpansion,
  rowAt: Int32Array,
  k: number,
): void {
  for (let at = 0; at < rowAt.length; at++) {
    const row = rowAt[at];
    if (row < 0) continue;
    const a = formA[row] * STRIDE;
    const b = formB[row] * STRIDE;
    let real = 0;
    let imaginary = 0;
    if (turns[row] === 1) {
      // With the weights j/k (measure-rows.ts), the terms j and k - j together.
      for (let p = a + 1, q = a + k - 1; p < q; p++, q--)
        imaginary += ((q - p) / k) * (formX[p] * formY[q] - formY[p] * formX[q]);
    } else if (a === b) {
      // Symmetric: twice the first half, and the middle term once; the imaginary part cancels.
      let p = a + 1;
      let q = a + k - 1;
      for (; p < q; p++, q--) {
        real += formX[p] * formX[q];
        imaginary += formY[p] * formY[q];
      }
      real = 2 * (real + imaginary);
      if (p === q) real += formX[p] * formX[p] + formY[p] * formY[p];
      imaginary = 0;
    } else if (a !== 0) {
      for (let p = a + 1, q = b + k - 1; q > b; p++, q--) {
        real += formX[p] * formX[q] + formY[p] * formY[q];
        imaginary += formX[p] * formY[q] - formY[p] * formX[q];
      }
    }
    rhs[at] = im[row] * imaginary - re[row] * real;
  }
  const { further } = system;
  if (further === undefined) return;
  const lower = further.order(k, formX, formY);
  for (let at = 0; at < rowAt.length; at++)
    if (rowAt[at] >= further.first) rhs[at] = -lower[rowAt[at] - further.first];
}

/** The greatest length of a piece by arc length, in sizes. */
export function longestStep({ unknowns, size, extent }: System): number {
  const points = Math.max(1, unknowns / 2 / POINTS);
  return LONGEST * Math.max(1, Math.min(points, extent / size)) * Math.sqrt(points);
}

/**
 * How far from its pose the last expansion is good, in x: from its last orders and those of the measure `t`, as shares of the
 * system's size and of `scale`. By arc length a piece has a greatest length besides.
 */
export function stepLength(
  { z, order, system }: TaylorExpansion,
  t: Float64Array | null,
  scale: number,
  allowed = ARC_TRUNCATION,
): number {
  const { size } = system;
  let step = longestStep(system);
  for (let k = order - LAST + 1; k <= order; k++) {
    let largest = 0;
    for (let i = k; i < z.length; i += STRIDE) largest = Math.max(largest, Math.abs(z[i]));
    largest /= size;
    if (t !== null) largest = Math.max(largest, Math.abs(t[k]) / scale);
    if (largest !== 0) step = Math.min(step, anyPower(allowed / largest, 1 / k));
  }
  return step;
}

/** The same for a series by the driver. */
export function driverStepLength(e: TaylorExpansion): number {
  return stepLength(e, null, 1, DRIVER_TRUNCATION);
}

/** How far redundant constraints may be violated: the rows that are redundant where a series begins, and a length. */
export interface RedundancyTolerance {
  readonly redundant: Uint8Array;
  readonly tolerance: number;
}

/** The rows that the last elimination set aside, 1 for each. */
function redundantRows({ none }: TaylorExpansion, { elimination, rowAt }: Solver): Uint8Array {
  const { pivotColumn, rank } = elimination;
  if (rank === pivotColumn.length) return none;
  const redundant = new Uint8Array(none.length);
  for (let at = 0; at < rowAt.length; at++)
    if (rowAt[at] >= 0 && pivotColumn[at] < 0) redundant[rowAt[at]] = 1;
  return redundant;
}

/** Reverses the sense of the last expansion. */
export function reverse({ z, tangent }: TaylorExpansion): void {
  for (let q = 0; q < z.length; q += STRIDE) for (let k = 1; k < STRIDE; k += 2) z[q + k] = -z[q + k];
  for (let i = 0; i < tangent.length; i++) tangent[i] = -tangent[i];
}

/** A power series of the motion: coefficients contiguous per unknown. */
export interface Series {
  readonly z: Float64Array;
  readonly order: number;
}

/** The coefficients of the last expansion, kept. */
export function keptCoefficients({ z, order, system }: TaylorExpansion): Float64Array {
  const width = order + 1;
  const kept = smallArray(system.unknowns * width);
  for (let i = 0, q = 0; i < system.unknowns; i++)
    for (let k = i * STRIDE; k < i * STRIDE + width; k++) kept[q++] = z[k];
  return kept;
}

/**
 * The part of a step (either sign) of a series at whose end every row holds, found by so many halvings; 0 when none does.
 * On return `pose` is the end and `e.worstRow` the row with the largest violation at the last attempt.
 */
export function acceptStep(
  e: TaylorExpansion,
  series: Series,
  step: number,
  allowed: RedundancyTolerance,
  pose: Float64Array,
  halvings = HALVINGS,
): number {
  let end = step;
  for (let halving = 0; halving <= halvings; halving++) {
    poseAt(series, end, pose);
    residual(e, pose);
    if (holds(e, allowed, pose)) return end;
    end *= 0.5;
  }
  return 0;
}

/** The redundant row with the largest violation at a pose. */
export function worstRow(e: TaylorExpansion, { redundant }: RedundancyTolerance, pose: Float64Array): number {
  residual(e, pose);
  const { residuals, system } = e;
  let worst = 0;
  for (let i = 1; i < residuals.length; i++) {
    const violation = (k: number) => (redundant[k] * Math.abs(residuals[k])) / system.scale[k];
    if (violation(i) > violation(worst)) worst = i;
  }
  return worst;
}

/** Whether the residuals of all rows are within their tolerances; `e.worstRow` is the row farthest beyond. */
function holds(
  e: TaylorExpansion,
  { redundant, tolerance }: RedundancyTolerance,
  pose: Float64Array,
): boolean {
  const { residuals, system, start, beside, column } = e;
  let worst = 1;
  for (let i = 0; i < residuals.length; i++) {
    let size = system.size;
    for (let q = beside[i]; q < start[i + 1]; q++) size = Math.max(size, Math.abs(pose[column[q]]));
    const allowed = redundant[i] === 1 ? tolerance : RESIDUAL * size;
    const share = Math.abs(residuals[i]) / system.scale[i] / allowed;
    if (share > worst) {
      worst = share;
      e.worstRow = i;
    }
  }
  return worst <= 1;
}

/** The unknowns at x. */
export function poseAt({ z, order }: Series, x: number, pose: Float64Array): void {
  for (let i = 0; i < pose.length; i++) pose[i] = horner(z, i * (order + 1), order, x);
}

/** Their derivative by x there. */
export function tangentAt({ z, order }: Series, x: number, tangent: Float64Array): void {
  for (let i = 0; i < tangent.length; i++) {
    let slope = 0;
    for (let k = order; k >= 1; k--) slope = slope * x + k * z[i * (order + 1) + k];
    tangent[i] = slope;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/** Makes the length of a vector 1; returns what it was. */
function normalise(x: Float64Array): number {
  const length = Math.sqrt(dot(x, x));
  for (let i = 0; i < x.length; i++) x[i] /= length;
  return length;
}

/** Takes from a vector its part along the tangent. */
export function offTangent(x: Float64Array, tangent: Float64Array): void {
  const along = dot(x, tangent);
  for (let i = 0; i < x.length; i++) x[i] -= along * tangent[i];
}
