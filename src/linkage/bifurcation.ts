// A second branch of the motion crosses this one where rank is missing. A piece can step over such a place unseen, for it
// is regular on both branches; but the determinant of the Jacobian bordered by the tangent changes its sign there (when
// one freedom is gained, to odd order). Signs are compared at both ends of a piece with the same rows set aside.

import { borderedSign } from '../numerics/elimination.ts';
import { type Expander, factorise, poseAt, tangentAt } from './series.ts';

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
  if (!opposite(markAt(stop), mark)) return null;
  // Near the place rank is missing for a little way: the place is in the middle of that.
  const near = lastOf((s) => !opposite(markAt(s), mark), 0, stop);
  let beyond = stop;
  for (let far = NEARBY; far < 1 && markAt(beyond)[0] === '0'; far *= 2) {
    beyond = stop + Math.sign(stop) * far * e.system.size;
  }
  const far = lastOf((s) => markAt(s)[0] !== '0', beyond, near);
  return 0.5 * (near + far);
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
