// A linkage of any degrees of freedom in one pose z under loads, and how its balance changes. With J the Jacobian of the rows f(z) = s(c),
// N an orthonormal basis of its null space, V the potential and c a factor that grows,
//
//   Q = -N' grad V,   J' mu + N y = -grad V,   K = N' (V'' + sum_rows mu f'') N
//
// are the force along the freedoms, the multipliers, and the stiffness: Q = 0 in balance, and K is then the matrix of second derivatives of V
// along the freedoms (J. Nocedal, S. Wright, "Numerical Optimization", 2006, sec. 12.3; from memory). A follower force has no V, and its
// own share of K, which is not symmetric. As c grows, with J p = ds/dc,
//
//   K y + h = 0,   h = N' ((V'' + sum mu f'') p + d grad V / dc).

import type { BoundMeasure } from '../linkage/measure.ts';
import { EMPTY, fillJacobian, residual } from '../linkage/rows.ts';
import { type TaylorExpansion, taylorExpansion } from '../linkage/series.ts';
import { bilinear, dot } from '../linkage/singular-pose.ts';
import type { System } from '../linkage/system.ts';
import { eliminate, solve } from '../numerics/elimination.ts';
import { nullSpaces, type Sparse, solveSparse, sparse } from '../numerics/sparse-rank.ts';
import { type MeasureRates, measureRates } from './measure-rates.ts';
import type { BoundLoads, Term } from './motion-loads.ts';

/** A linkage under loads. */
export interface Loaded {
  readonly system: System;
  readonly measures: readonly BoundMeasure[];
  readonly terms: readonly LoadTerm[];
  /** Bars whose length grows: the row that keeps it, and the length at a factor. */
  readonly bars: readonly GrowingBar[];
}

/** A load by its place in the list of measures; whether the factor multiplies it. */
export interface LoadTerm {
  readonly term: Term;
  readonly isGrowing: boolean;
}

/** A bar of a length that is `drawn + by c`. */
export interface GrowingBar {
  readonly row: number;
  readonly drawn: number;
  readonly by: number;
}

/** A linkage under loads, and others times a factor. */
export function loaded(
  system: System,
  constant: BoundLoads,
  growing: BoundLoads = { measures: [], terms: [] },
  bars: readonly GrowingBar[] = [],
): Loaded {
  const first = constant.measures.length;
  const shifted = (term: Term): Term =>
    'law' in term
      ? { ...term, i: term.i + first }
      : { ...term, x: term.x + first, y: term.y + first, turn: term.turn + first };
  return {
    system,
    measures: [...constant.measures, ...growing.measures],
    terms: [
      ...constant.terms.map((term) => ({ term, isGrowing: false })),
      ...growing.terms.map((term) => ({ term: shifted(term), isGrowing: true })),
    ],
    bars,
  };
}

/** A pose of the unknowns at a factor, with the values of the measures, by which angles go on. */
export interface Place {
  readonly pose: Float64Array;
  readonly c: number;
  readonly values: readonly number[];
}

/** What steps of all free points together are measured by: the size, for each root of a free point. */
export function stepLength({ size, structure }: System): number {
  return size * Math.sqrt(Math.max(1, structure.freePoints.length));
}

/** Largest residual of the rows at a pose; the Jacobian there is filled. */
function missing({ system, bars }: Loaded, e: TaylorExpansion, pose: Float64Array, c: number): number {
  residual(e, pose);
  for (const { row, drawn, by } of bars) e.residuals[row] -= by * c * (drawn + 0.5 * by * c);
  fillJacobian(e);
  return e.residuals.reduce((worst, one, i) => Math.max(worst, Math.abs(one) / system.scale[i]), 0);
}

/** Corrections of a pose, and the share of the size below which a residual is rounding. */
const CORRECTIONS = 12;
const ROUNDING = 4 * Number.EPSILON;
const CLOSED = 1e-11;

/** The pose near another one in which the rows are satisfied; null if none is found. */
export function closedNear(task: Loaded, near: Float64Array, c: number): Float64Array | null {
  const { system } = task;
  const e = taylorExpansion(system);
  const pose = near.slice();
  let before = Number.POSITIVE_INFINITY;
  for (let round = 0; round < CORRECTIONS; round++) {
    const worst = missing(task, e, pose, c);
    if (worst <= ROUNDING * system.size) return pose;
    if (!(worst < before)) return before <= CLOSED * system.size ? pose : null;
    before = worst;
    eliminate(e.elimination, e.jacobian, system.scale);
    for (let i = 0; i < e.residuals.length; i++) e.rhs[i] = -e.residuals[i];
    solve(e.elimination, e.rhs, e.x);
    for (let i = 0; i < pose.length; i++) pose[i] += e.x[i];
  }
  return before <= CLOSED * system.size ? pose : null;
}

/** The balance of a linkage in a place. */
export interface Balance extends Place {
  /** Orthonormal directions of its freedoms. */
  readonly basis: readonly Float64Array[];
  readonly Q: readonly number[];
  readonly K: readonly (readonly number[])[];
  /** How much force, and stiffness, there is without signs: what Q and K are small beside. */
  readonly force: number;
  readonly stiffness: number;
  /** Null where a load turns with a body. */
  readonly potential: number | null;
  /** Of the rows; null where the others leave one open. */
  readonly multipliers: readonly (number | null)[];
  /** Whether second-order terms of rows that depend on each other take freedoms away: a change point, or a shaky linkage. */
  readonly isSingular: boolean;
  /** h and p. */
  readonly growth: readonly number[];
  readonly along: Float64Array;
}

/** Second-order terms of dependent rows below this share of the rows, times the size, are rounding. */
const SECOND_ORDER = 1e-6;
/** A null vector of the transpose below this has nothing of a row. */
const NONE = 1e-7;

/** The balance in a pose that is closed; null where a load has no value. */
export function balanceAt(task: Loaded, { pose, c, values }: Place): Balance | null {
  const { system, measures, terms, bars } = task;
  const e = taylorExpansion(system);
  const rates = measures.map((one, i) => measureRates(one, pose, values[i]));
  missing(task, e, pose, c);
  const { pattern } = e.elimination;
  const J: Sparse = { pattern, value: e.jacobian.slice() };
  const lengths = system.scale.map((scale, i) => {
    const row = J.value.subarray(pattern.start[i], pattern.start[i + 1]);
    const length = Math.hypot(...row);
    if (length < EMPTY * scale) row.fill(0);
    return length || 1;
  });
  const { nullSpace, leftNullSpace } = nullSpaces(J);
  const basis = nullSpace.map((vector) => Float64Array.from(vector));

  const own = forcesOf(terms, rates, c, system.unknowns);
  if (!own.isFinite) return null;
  const multipliers = multipliersOf(J, basis, own.total);
  const along = new Float64Array(system.unknowns);
  if (bars.length > 0) {
    const right = lengths.map(() => 0);
    for (const { row, drawn, by } of bars) right[row] += by * (drawn + by * c);
    along.set(solveSparse(J, right).x);
  }
  const directions = bars.length > 0 ? [...basis, along] : basis;
  const { K, size } = stiffnessOf(terms, rates, c, directions);
  if (!Number.isFinite(size.value)) return null;
  let isSingular = false;
  directions.forEach((u, i) => {
    for (let j = 0; j <= i; j++) {
      bilinear(e, u, directions[j]);
      const bent = Array.from(lengths, (_, row) => multipliers[row] * 2 * e.rhs[row]);
      const value = bent.reduce((sum, one) => sum + one, 0);
      K[i][j] += value;
      if (i !== j) K[j][i] += value;
      size.value = Math.max(size.value, ...bent.map(Math.abs));
      if (i >= basis.length) continue;
      for (const left of leftNullSpace) {
        const lacking = lengths.reduce((sum, length, row) => sum + (left[row] * e.rhs[row]) / length, 0);
        if (Math.abs(lacking) * system.size > SECOND_ORDER) isSingular = true;
      }
    }
  });
  const growth = basis.map((u, i) => (bars.length > 0 ? K[i][basis.length] : 0) - dot(own.growing, u));
  return {
    pose,
    c,
    values: rates.map(({ value }) => value),
    basis,
    Q: basis.map((u) => dot(own.total, u)),
    K: basis.map((_, i) => K[i].slice(0, basis.length)),
    force: own.size,
    stiffness: size.value,
    potential: potentialOf(terms, rates, c),
    multipliers: Array.from(multipliers, (mu, row) =>
      leftNullSpace.some((vector) => Math.abs(vector[row]) > NONE) ? null : mu,
    ),
    isSingular,
    growth,
    along,
  };
}

/** mu of J' mu + N y = Q, which is so for some mu and y whatever Q. */
function multipliersOf(
  { pattern, value }: Sparse,
  basis: readonly Float64Array[],
  Q: Float64Array,
): Float64Array {
  const rows = pattern.start.length - 1;
  const across = Array.from(Q, (_, j) => new Map(basis.map((u, k) => [rows + k, u[j]])));
  for (let i = 0; i < rows; i++) {
    for (let q = pattern.start[i]; q < pattern.start[i + 1]; q++) {
      const column = across[pattern.column[q]];
      column.set(i, (column.get(i) ?? 0) + value[q]);
    }
  }
  return solveSparse(sparse(across, rows + basis.length), Array.from(Q)).x.subarray(0, rows);
}

/** How much of a load there is at a factor. */
function shareOf({ isGrowing }: LoadTerm, c: number): number {
  return isGrowing ? c : 1;
}

/** A force that turns with a body, there. */
function turned(
  { turn, force: [fx, fy] }: Extract<Term, { turn: number }>,
  rates: readonly MeasureRates[],
): readonly [number, number] {
  const [cos, sin] = [Math.cos(rates[turn].value), Math.sin(rates[turn].value)];
  return [cos * fx - sin * fy, sin * fx + cos * fy];
}

/** The forces of loads on the unknowns. */
function forcesOf(terms: readonly LoadTerm[], rates: readonly MeasureRates[], c: number, unknowns: number) {
  const total = new Float64Array(unknowns);
  const growing = new Float64Array(unknowns);
  let size = 0;
  for (const one of terms) {
    const { term, isGrowing } = one;
    const share = shareOf(one, c);
    const pull = (i: number, F: number) => {
      let square = 0;
      for (const [unknown, rate] of rates[i].gradient) {
        total[unknown] += share * F * rate;
        if (isGrowing) growing[unknown] += F * rate;
        square += rate * rate;
      }
      size += Math.abs(share * F) * Math.sqrt(square);
    };
    if ('law' in term) pull(term.i, term.law.force(rates[term.i].value));
    else {
      const [fx, fy] = turned(term, rates);
      pull(term.x, fx);
      pull(term.y, fy);
    }
  }
  return { total, growing, size, isFinite: Number.isFinite(size) };
}

/** -dQ along directions, by the loads alone, and how much of it there is without signs. */
function stiffnessOf(
  terms: readonly LoadTerm[],
  rates: readonly MeasureRates[],
  c: number,
  directions: readonly Float64Array[],
) {
  const K = directions.map(() => directions.map(() => 0));
  const size = { value: 0 };
  const along = (i: number, u: Float64Array) =>
    rates[i].gradient.reduce((sum, [unknown, rate]) => sum + rate * u[unknown], 0);
  const add = (i: number, j: number, value: number) => {
    K[i][j] += value;
    size.value = Math.max(size.value, Math.abs(value));
  };
  for (const one of terms) {
    const { term } = one;
    const share = shareOf(one, c);
    const bend = (m: number, F: number) => {
      rates[m].second(directions).forEach((row, i) => {
        row.forEach((value, j) => {
          add(i, j, -share * F * value);
        });
      });
    };
    if ('law' in term) {
      const { value } = rates[term.i];
      bend(term.i, term.law.force(value));
      const first = directions.map((u) => along(term.i, u));
      const rate = term.law.rate(value);
      first.forEach((a, i) => {
        first.forEach((b, j) => {
          add(i, j, -share * rate * a * b);
        });
      });
      continue;
    }
    const [fx, fy] = turned(term, rates);
    bend(term.x, fx);
    bend(term.y, fy);
    const [x, y, turn] = [term.x, term.y, term.turn].map((m) => directions.map((u) => along(m, u)));
    // dQ_i along u_j.
    directions.forEach((_, i) => {
      directions.forEach((__, j) => {
        add(i, j, -share * turn[j] * (fx * y[i] - fy * x[i]));
      });
    });
  }
  return { K, size };
}

function potentialOf(terms: readonly LoadTerm[], rates: readonly MeasureRates[], c: number): number | null {
  let sum = 0;
  for (const one of terms) {
    const { term } = one;
    if (!('law' in term)) return null;
    sum += shareOf(one, c) * term.law.potential(rates[term.i].value);
  }
  return sum;
}
