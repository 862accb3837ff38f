// A second branch of the motion crosses this one where rank is missing. A piece can step over such a place unseen, for it
// is regular on both branches; but the determinant of the Jacobian bordered by the tangent changes its sign there (when
// one freedom is gained, to odd order). Signs are compared at both ends of a piece with the same rows set aside. Where several
// loops lie flat together the sign may stay: there the smallest pivot tells.

import { borderedSign } from '../numerics/elimination.ts';
import { rankOf } from '../numerics/singular-values.ts';
import { applyForms } from './form.ts';
import { type Expander, factorise, jacobianRows, poseAt, tangentAt } from './series.ts';

/**
 * Where branches cross, rounding joins them by kinks of about its root: a motion whose series reaches no farther than
 * this share of the size has met such a place.
 */
export const KINK = 3e-7;
/** First distance, as a share of the size, at which rank is looked for beyond a place where it is missing. */
const NEARBY = 1e-9;
/** Halvings that locate a bifurcation in a piece. */
const LOCATING = 50;

/**
 * Where in a piece, between local 0 and `stop`, the bordered determinant changes its sign: there a second branch of the
 * motion crosses this one (a bifurcation), and how it goes on is not determined. `mark` is that of local 0;
 * `pose` and `along` are workspace.
 */
export function turnedIn(
  e: Expander,
  z: Float64Array,
  mark: string,
  stop: number,
  pose: Float64Array,
  along: Float64Array,
): number | null {
  if (stop === 0) return null;
  const markAt = (s: number) => {
    poseAt(z, s, pose);
    tangentAt(z, s, along);
    factorise(e, pose);
    return markOf(e, along);
  };
  if (!opposite(markAt(stop), mark)) return dipIn(e, z, stop, pose);
  // Near the place rank is missing for a little way: the place is in the middle of that.
  const near = lastOf((s) => !opposite(markAt(s), mark), 0, stop);
  let beyond = stop;
  for (let far = NEARBY; far < 1 && markAt(beyond)[0] === '0'; far *= 2) {
    beyond = stop + Math.sign(stop) * far * e.system.size;
  }
  const far = lastOf((s) => markAt(s)[0] !== '0', beyond, near);
  return 0.5 * (near + far);
}

/** Singular values below this share of the largest are none at a place that is known to about its root only. */
const NEARLY = 1e-5;
/** The same for the squares of pairs of second-order terms. */
const ONE_LINE = 1e-8;

/**
 * Whether a second branch of the motion leaves a place where rank is missing. With the motion's tangent t and the other
 * null vector n, v = a t + b n must satisfy l . Q(v, v) = 0 for every l with l J = 0 (Q the rows' second-order terms; t does
 * so by itself): 2 a l.Q(t, n) + b l.Q(n, n) = 0 for all l at once. Redundant rows may leave no such v: then the motion
 * goes on as before.
 */
export function branches(
  e: Expander,
  z: Float64Array,
  s: number,
  pose: Float64Array,
  tangent: Float64Array,
): boolean {
  poseAt(z, s, pose);
  tangentAt(z, s, tangent);
  const matrix = jacobianRows(e, pose);
  const { unknowns } = e.system;
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
function secondOrder({ system }: Expander, u: Float64Array, v: Float64Array): number[] {
  const { forms, structure, scale } = system;
  const parts = [u, v].map((vector) => {
    const x = new Float64Array(forms.count);
    const y = new Float64Array(forms.count);
    applyForms(forms, vector, 1, 0, 0, x, y);
    return { x, y };
  });
  return structure.rows.map(({ a, b, re, im }, i) => {
    let sum = 0;
    for (const [p, q] of [parts, [parts[1], parts[0]]]) {
      // The constant of form 0 has no variable part.
      sum += re * (p.x[a] * q.x[b] + p.y[a] * q.y[b]) - im * (p.x[a] * q.y[b] - p.y[a] * q.x[b]);
    }
    return sum / (2 * scale[i]);
  });
}

/** Rows beyond which several loops may lose rank at one place: to even order, then, without a change of sign. */
const LOOPS = 8;
/** Places in a piece at which the smallest pivot is looked at, and pivots over their scale that may be near a zero. */
const LOOKS = 8;
const LOW = 0.3;
/** Steps of the search for where it is least, and what it is there where rank is missing. */
const SEARCH = 60;
const GONE = 1e-7;

/**
 * Where several freedoms are gained at once the determinant may keep its sign; but the smallest pivot comes down to nothing
 * there as |s - s_0| does. The first such place in a piece, or null.
 */
function dipIn(e: Expander, z: Float64Array, stop: number, pose: Float64Array): number | null {
  if (e.rhs.length <= LOOPS) return null;
  const smallest = (s: number) => {
    poseAt(z, s, pose);
    factorise(e, pose);
    const { pivotColumn, inversePivot } = e.elimination;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < pivotColumn.length; i++) {
      if (pivotColumn[i] >= 0) least = Math.min(least, 1 / Math.abs(inversePivot[i] * e.system.scale[i]));
    }
    return e.elimination.rank < e.system.unknowns - 1 ? 0 : least;
  };
  const seen = Array.from({ length: LOOKS + 1 }, (_, k) => smallest((k / LOOKS) * stop));
  for (let k = 0; k <= LOOKS; k++) {
    if (seen[k] > LOW || seen[k] > (seen[k - 1] ?? LOW) || seen[k] > (seen[k + 1] ?? LOW)) continue;
    let [low, high] = [Math.max(0, (k - 1) / LOOKS) * stop, Math.min(1, (k + 1) / LOOKS) * stop];
    for (let step = 0; step < SEARCH; step++) {
      const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
      if (smallest(a) <= smallest(b)) high = b;
      else low = a;
    }
    const place = 0.5 * (low + high);
    if (smallest(place) <= GONE) return place;
  }
  return null;
}

/** The end of the part from `from` towards `to` in which something holds, as it does at `from`, by halving. */
function lastOf(holds: (s: number) => boolean, from: number, to: number): number {
  let inside = from;
  let outside = to;
  for (let round = 0; round < LOCATING; round++) {
    const middle = 0.5 * (inside + outside);
    if (holds(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}

/** The dependent rows of the last elimination and the sign of the determinant bordered by the tangent: `+ 3 7`. */
export function markOf({ elimination }: Expander, tangent: Float64Array): string {
  let mark = ['-', '0', '+'][borderedSign(elimination, tangent) + 1];
  const { pivotColumn } = elimination;
  for (let i = 0; i < pivotColumn.length; i++) if (pivotColumn[i] < 0) mark += ` ${i}`;
  return mark;
}

/** Whether the sign has changed; between different dependent rows it can't be told. */
function opposite(mark: string, before: string): boolean {
  if (mark[0] === '0') return true;
  return mark[0] !== before[0] && mark.slice(1) === before.slice(1);
}
