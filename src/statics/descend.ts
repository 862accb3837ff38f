// From a pose to one in balance, by steps y along the freedoms within a trust radius (A. Conn, N. Gould, P. Toint, "Trust-Region Methods",
// 2000; from memory), each followed by a correction onto the rows. With K = U S R' the steps make least
//
//   stable   y'Ky/2 - Q'y        the potential falls at each step
//   any      |Q - K y|^2/2       the force left falls at each step: Newton's method

import { dot } from '../linkage/singular-pose.ts';
import { decompose, shortestLeast } from '../numerics/singular-values.ts';
import { trustStep } from '../numerics/trust-region.ts';
import { type Balance, balanceAt, closedNear, type Loaded, type Place, stepLength } from './balance.ts';

/** What is sought: a stable rest downhill, or whatever balance is near. */
export type Seek = 'stable' | 'any';

/** How a search ended. */
export type SearchStatus = 'balanced' | 'changePoint' | 'unbounded' | 'noValue' | 'notConverged';

/** Where a search ended; no balance where a load has no value. */
export interface Found {
  readonly status: SearchStatus;
  readonly balance: Balance | null;
  readonly place: Place;
}

/** First trust radius, and the largest, as shares of the size for each root of a free point; and the least, which ends a search. */
const FIRST = 0.05;
const LARGEST = 0.1;
const LEAST = 1e-15;
const STEPS = 400;
/** Force left over, in roundings of the forces and of the stiffness times the extent. */
const ROUNDINGS = 32;
/** Force left over, as a share of the forces, that counts as none where no step makes it less. */
const LITTLE = 1e-9;
/** Share of what a step promises that it has to keep, and from which on the radius grows. */
const KEPT = 0.1;
const GOOD = 0.75;
/** A point so many extents off has gone for good. */
const FAR = 30;
/** Steps of a balance that is found, as long as each halves the force that is left. */
const POLISH = 4;

/** The balance that is reached from a place whose rows are satisfied, with steps no longer than `longest` sizes. */
export function descend(task: Loaded, start: Place, seek: Seek, longest = LARGEST): Found {
  const { system } = task;
  const { size, extent } = system;
  const length = stepLength(system);
  let radius = Math.min(FIRST, longest) * length;
  const first = balanceAt(task, start);
  if (first === null) return { status: 'noValue', balance: null, place: start };
  let now = first;
  const ended = (status: SearchStatus): Found => ({ status, balance: now, place: now });
  if (now.isSingular) return ended('changePoint');
  for (let round = 0; round < STEPS && radius > LEAST * size; round++) {
    if (isBalanced(now, extent)) {
      now = polished(task, now);
      return ended(now.isSingular ? 'changePoint' : 'balanced');
    }
    if (now.pose.some((value) => Math.abs(value) > FAR * extent)) return ended('unbounded');
    const step = stepOf(now, seek, radius);
    const next = moved(task, now, step.y);
    if (next !== null && next.basis.length !== now.basis.length) {
      now = next;
      return ended('changePoint');
    }
    const kept = next === null ? -1 : keptBy(now, next, seek, step.gain, extent);
    if (next !== null && kept >= KEPT) now = next;
    if (kept < KEPT) radius = Math.min(radius, Math.hypot(...step.y)) / 4;
    else if (kept >= GOOD && step.isHeld) radius = Math.min(2 * radius, longest * length);
  }
  const isLittle = norm(now.Q) <= LITTLE * now.force;
  return ended(isLittle ? 'balanced' : 'notConverged');
}

/** The balance after a step along the freedoms, at a factor; null where the rows cannot be satisfied or a load has no value. */
export function moved(task: Loaded, from: Balance, y: readonly number[], c = from.c): Balance | null {
  const pose = Float64Array.from(from.pose, (value, i) => value + (c - from.c) * from.along[i]);
  from.basis.forEach((u, k) => {
    for (let i = 0; i < pose.length; i++) pose[i] += y[k] * u[i];
  });
  const closed = closedNear(task, pose, c);
  return closed === null ? null : balanceAt(task, { pose: closed, c, values: from.values });
}

/** The full step of Newton's method; along directions without stiffness nothing. */
export function newtonStep({ K, Q, stiffness }: Balance): number[] {
  return shortestLeast(K, Q, K.length, () => FLAT * stiffness);
}

/** Singular values of K below this share of what it is made of are none. */
const FLAT = 1e-12;

function norm(vector: readonly number[]): number {
  return Math.hypot(...vector);
}

/** What a force left over is small beside: all forces, and what they change by over the extent. */
export function sizeOf({ force, stiffness }: Balance, extent: number): number {
  return force + stiffness * extent;
}

/** Whether what is left of the force is rounding. */
export function isBalanced(balance: Balance, extent: number): boolean {
  return norm(balance.Q) <= ROUNDINGS * Number.EPSILON * sizeOf(balance, extent);
}

/** A balance after some steps more, as long as they pay. */
export function polished(task: Loaded, found: Balance): Balance {
  let best = found;
  for (let n = 0; n < POLISH && norm(best.Q) > 0; n++) {
    const next = moved(task, best, newtonStep(best));
    if (next === null || !(norm(next.Q) < 0.5 * norm(best.Q))) break;
    best = next;
  }
  return best;
}

function stepOf({ K, Q }: Balance, seek: Seek, radius: number) {
  const n = Q.length;
  if (seek === 'any') {
    const { values, left, right } = decompose(K, n);
    const step = trustStep(
      values.map((value) => value * value),
      values.map((value, k) => value * dot(left[k], Q)),
      radius,
    );
    return { ...step, y: combined(step.y, right) };
  }
  const { values, vectors } = principal(K);
  const step = trustStep(
    values,
    vectors.map((vector) => dot(vector, Q)),
    radius,
  );
  return { ...step, y: combined(step.y, vectors) };
}

function combined(factors: readonly number[], vectors: readonly (readonly number[])[]): number[] {
  return factors.map((_, j) => factors.reduce((sum, factor, k) => sum + factor * vectors[k][j], 0));
}

/** Principal values and directions of a symmetric matrix, from the largest down: by singular values of it and so much more on its diagonal. */
export function principal(K: Balance['K']) {
  const shift = K.reduce((most, row) => Math.max(most, Math.hypot(...row)), 0) * K.length;
  const { values, right } = decompose(
    K.map((row, i) => row.map((value, j) => 0.5 * (value + K[j][i]) + (i === j ? shift : 0))),
    K.length,
  );
  return { values: values.map((value) => value - shift), vectors: right };
}

/** How much of its promise a step keeps. */
function keptBy(now: Balance, next: Balance, seek: Seek, gain: number, extent: number): number {
  const [before, after] = [norm(now.Q), norm(next.Q)];
  if (seek === 'any' || now.potential === null || next.potential === null) {
    return (0.5 * (before * before - after * after)) / gain;
  }
  // What rounding hides of the potential, the force shows.
  const noise = ROUNDINGS * Number.EPSILON * (Math.abs(now.potential) + now.force * extent);
  if (gain <= noise) return after < before ? 1 : -1;
  return (now.potential - next.potential) / gain;
}
