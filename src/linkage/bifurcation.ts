// At a bifurcation (change point) a second branch crosses the solution curve: the Jacobian is rank-deficient, and the motion could continue
// either way. A step can pass such a place unnoticed, for the series is regular on both branches; but there the determinants of blocks of
// the Jacobian, bordered by a coordinate that the motion changes, change sign (numerics/bordered.ts). The sign is compared at both ends of a
// step. It also changes where that coordinate itself turns back: the rank tells the two apart.

import { type Bordered, differ, differOdd, isDeficient, marksOf } from '../numerics/bordered.ts';
import { rankOf } from '../numerics/singular-values.ts';
import { applyForms } from './form.ts';
import { factorise, jacobianRows, residual } from './rows.ts';
import {
  factoriseAlong,
  factoriseBordered,
  poseAt,
  type Series,
  type TaylorExpansion,
  tangentAt,
} from './series.ts';

/**
 * Where branches cross, rounding joins them by kinks of about its square root: a motion whose step length falls below this share of the
 * size has met such a place.
 */
export const BIFURCATION_STEP_FRACTION = 3e-7;
/** First distance, as a share of the size, at which full rank is looked for beyond a rank-deficient place. */
const NEARBY = 1e-9;
/** Halvings that locate a place in a piece. */
const HALVINGS = 50;
/** Places in a piece at which signs change and no branch leaves, before what is left of it is taken to have none. */
const MOST_FALSE = 8;

/** In no more rows than these two blocks that change together are passed, on the branch of the series. */
const FEW_ROWS = 8;

/** What is compared along a piece: the signs at its start, with the border that they belong to. */
export interface Signs {
  readonly bordered: Bordered;
  readonly column: number;
  readonly marks: string;
}

/** The signs at the pose of the last expansion by arc length. */
export function signsAtStart(e: TaylorExpansion): Signs {
  const { jacobian, column } = factoriseAlong(e, e.tangent);
  return { bordered: jacobian, column, marks: marksOf(jacobian) };
}

/** The bifurcation nearest to x = 0 on the way to `end` in a piece whose signs at 0 are given; null if there is none. */
export function locateBifurcation(
  e: TaylorExpansion,
  series: Series,
  signs: Signs,
  end: number,
): number | null {
  const { pose } = e;
  const marksAt = (x: number) => {
    poseAt(series, x, pose);
    residual(e, pose);
    e.gradient[signs.column] = 1;
    factoriseBordered(e, signs.bordered);
    return marksOf(signs.bordered);
  };
  const compare = e.asListed.length > FEW_ROWS ? differ : differOdd;
  let from = 0;
  let before = signs.marks;
  for (let found = 0; found < MOST_FALSE && from !== end; found++) {
    if (!compare(marksAt(end), before)) return null;
    // Near the place the Jacobian is rank-deficient for a little way: the place is in the middle of that.
    const near = lastOf((x) => !compare(marksAt(x), before), from, end);
    let beyond = end;
    for (let far = NEARBY; far < 1 && isDeficient(marksAt(beyond)); far *= 2)
      beyond = end + Math.sign(end) * far;
    const far = lastOf((x) => !isDeficient(marksAt(x)), beyond, near);
    const place = 0.5 * (near + far);
    if (branches(e, series, place)) return place;
    if (Math.abs(far) >= Math.abs(end)) return null;
    from = far;
    before = marksAt(far);
  }
  return null;
}

/** Pivots and singular values below this share of the largest are none at a place that is known to about its root only. */
const NEARLY = 1e-5;
/** The same for the squares of pairs of second-order terms. */
const ONE_LINE = 1e-8;

/**
 * Whether a second branch of the motion leaves a place where the Jacobian is rank-deficient. With the motion's tangent t and the other
 * null vector n, v = a t + b n must satisfy l . Q(v, v) = 0 for every l with l J = 0 (Q the rows' second-order terms; t does
 * so by itself): 2 a l.Q(t, n) + b l.Q(n, n) = 0 for all l at once. Redundant rows may leave no such v: then the motion
 * goes on as before.
 */
function branches(e: TaylorExpansion, series: Series, x: number): boolean {
  const { pose, along: tangent, elimination } = e;
  const { unknowns } = e.system;
  poseAt(series, x, pose);
  tangentAt(series, x, tangent);
  const { share } = elimination;
  elimination.share = NEARLY;
  factorise(e, pose);
  elimination.share = share;
  const degreesOfFreedom = unknowns - elimination.rank;
  if (degreesOfFreedom !== 2) return degreesOfFreedom > 2;
  const matrix = jacobianRows(e, pose);
  const { nullSpace } = rankOf(matrix, unknowns, { share: NEARLY });
  if (nullSpace.length !== 2) return nullSpace.length > 2;
  // In the plane of the null vectors, the one across the tangent.
  const [c0, c1] = nullSpace.map((vector) => vector.reduce((sum, x, i) => sum + x * tangent[i], 0));
  const across = Float64Array.from(nullSpace[0], (x, i) => c1 * x - c0 * nullSpace[1][i]);
  const transposed = Array.from({ length: unknowns }, (_, j) => matrix.map((row) => row[j]));
  const { nullSpace: twice } = rankOf(transposed, matrix.length, { share: NEARLY, asGiven: true });
  const mixed = secondOrder(e, tangent, across);
  const square = secondOrder(e, across, across);
  let [xx, xy, yy] = [0, 0, 0];
  for (const l of twice) {
    const x = l.reduce((sum, value, i) => sum + 2 * value * mixed[i], 0);
    const y = l.reduce((sum, value, i) => sum + value * square[i], 0);
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  // Only where all (x, y) lie on one line is there a v.
  return xx * yy - xy * xy <= ONE_LINE * (xx + yy) ** 2;
}

/** Second-order terms of all rows, over their scale: Re(k (conj(w_a(u)) w_b(v) + conj(w_a(v)) w_b(u))) / 2. */
function secondOrder(e: TaylorExpansion, u: Float64Array, v: Float64Array): number[] {
  const { forms, structure, scale, further } = e.system;
  const parts = [u, v].map((vector) => {
    const x = new Float64Array(forms.count);
    const y = new Float64Array(forms.count);
    applyForms(forms, vector, 1, 0, 0, x, y);
    return { x, y };
  });
  const terms = structure.rows.map(({ a, b, re, im }, i) => {
    let sum = 0;
    for (const [p, q] of [parts, [parts[1], parts[0]]]) {
      // The constant of form 0 has no variable part.
      sum += re * (p.x[a] * q.x[b] + p.y[a] * q.y[b]) - im * (p.x[a] * q.y[b] - p.y[a] * q.x[b]);
    }
    return sum / (2 * scale[i]);
  });
  if (further !== undefined) terms.splice(further.first, terms.length, ...further.secondOrder(e, u, v));
  return terms;
}

/** The end of the part from `from` towards `to` in which something holds, as it does at `from`, by halving. */
function lastOf(holds: (x: number) => boolean, from: number, to: number): number {
  let inside = from;
  let outside = to;
  for (let round = 0; round < HALVINGS; round++) {
    const middle = 0.5 * (inside + outside);
    if (holds(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}
