// At a bifurcation (change point) a second branch crosses the solution curve: the Jacobian is rank-deficient, and the motion could continue
// either way. A step can pass such a place unnoticed, for the series is regular on both branches; but there the determinants of blocks of
// the Jacobian, bordered by a coordinate that the motion changes, change sign (numerics/bordered.ts). The sign is compared at both ends of a
// step. It also changes where that coordinate itself turns back: the rank tells the two apart.

import { type Bordered, differ, differOdd, isDeficient, marksOf } from '../numerics/bordered.ts';
import { residual } from './rows.ts';
import {
  factoriseAlong,
  factoriseBordered,
  poseAt,
  type Series,
  type TaylorExpansion,
  tangentAt,
} from './series.ts';
import { singularPose } from './singular-pose.ts';

/**
 * Where branches cross, rounding joins them by kinks of about its square root: a motion whose step length falls below this share of the
 * size has met such a place.
 */
export const BIFURCATION_STEP_FRACTION = 3e-7;
/** First distance, as a share of the size, at which full rank is looked for beyond a rank-deficient place. */
const NEARBY = 1e-9;
/** As far as it is looked for at the start of a branch. */
const FARTHEST = 1e-3;
/** Halvings that locate a place in a piece. */
const HALVINGS = 50;
/** Places in a piece at which signs change and no branch leaves, before what is left of it is taken to have none. */
const MOST_FALSE = 8;

/** In no more rows than these two blocks that change together are passed, on the branch of the series, unless another may be chosen. */
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

/** The signs just beyond the start of a series about a singular pose. */
export function signsBeyond(e: TaylorExpansion, series: Series, way: 1 | -1): Signs {
  for (let x = NEARBY; ; x *= 8) {
    poseAt(series, way * x, e.pose);
    tangentAt(series, way * x, e.along);
    residual(e, e.pose);
    const { jacobian, column } = factoriseAlong(e, e.along);
    const marks = marksOf(jacobian);
    if (!isDeficient(marks) || x > FARTHEST) return { bordered: jacobian, column, marks };
  }
}

/** The bifurcation nearest to x = 0 on the way to `end` in a piece whose signs at 0 are given; null if there is none. */
export function locateBifurcation(
  e: TaylorExpansion,
  series: Series,
  signs: Signs,
  end: number,
  isChosen: boolean,
): number | null {
  const { pose } = e;
  const marksAt = (x: number, { bordered, column }: Omit<Signs, 'marks'> = signs) => {
    poseAt(series, x, pose);
    residual(e, pose);
    e.gradient[column] = 1;
    factoriseBordered(e, bordered);
    return marksOf(bordered);
  };
  /** Whether two blocks change together there, bordered by a coordinate that does not turn back in the same place as well. */
  const isPassed = (near: number, far: number, before: string, after: string) => {
    if (isChosen || e.asListed.length > FEW_ROWS || differOdd(after, before)) return false;
    tangentAt(series, far, e.along);
    poseAt(series, far, pose);
    residual(e, pose);
    const { jacobian, column } = factoriseAlong(e, e.along);
    const own = { bordered: jacobian, column };
    return !differOdd(marksAt(far, own), marksAt(near, own));
  };
  let from = 0;
  let before = signs.marks;
  for (let found = 0; found < MOST_FALSE && from !== end; found++) {
    if (!differ(marksAt(end), before)) return null;
    // Near the place the Jacobian is rank-deficient for a little way: the place is in the middle of that.
    const near = lastOf((x) => !differ(marksAt(x), before), from, end);
    let beyond = end;
    for (let far = NEARBY; far < 1 && isDeficient(marksAt(beyond)); far *= 2)
      beyond = end + Math.sign(end) * far;
    const far = lastOf((x) => !isDeficient(marksAt(x)), beyond, near);
    const place = 0.5 * (near + far);
    const after = marksAt(far);
    if (!isPassed(near, far, before, after) && branches(e, series, place)) return place;
    if (Math.abs(far) >= Math.abs(end)) return null;
    from = far;
    before = after;
  }
  return null;
}

/** Whether a second branch of the motion leaves a place, or may do so. Redundant rows may forbid it: then the motion goes on as before. */
function branches(e: TaylorExpansion, series: Series, x: number): boolean {
  poseAt(series, x, e.pose);
  const singular = singularPose(e, e.pose);
  return singular !== null && (singular.hasFamily || singular.tangents?.length !== 1);
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
