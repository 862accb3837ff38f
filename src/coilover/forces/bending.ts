// An arm as a straight beam from its inner joint to its outer one. A force at a point of the arm acts at that point's foot on
// the line, with its offset from the line as a lever for what it has along it. Going outward, shear V and moment M are the
// sums over all forces passed (counter-clockwise positive, as on the part already passed):
//
//   V(s) = sum F_n,    M(s) = sum (s - s_i) F_n,i + e_i F_t,i
//
// with F_n square to the line, to the left of the way outward, F_t along it, e_i the offset to the left. Between forces M is
// straight, so that its largest value stands just before or after one of them.

import type { Point } from '../../linkage/drawing.ts';

/** Bending of an arm. */
export interface Bending {
  readonly body: string;
  /** Largest bending moment, N mm, either sign. */
  readonly moment: number;
  /** Where, mm from the inner joint along the line to the outer one. */
  readonly at: number;
  /** Largest shear force, N. */
  readonly shear: number;
}

/** The largest moment and shear in a body from one joint to another, with the forces on it by point. */
export function bendingOf(
  body: string,
  inner: Point,
  outer: Point,
  loads: readonly { readonly place: Point; readonly force: Point }[],
): Bending {
  const [dx, dy] = [outer[0] - inner[0], outer[1] - inner[1]];
  const length = Math.hypot(dx, dy);
  const [tx, ty] = [dx / length, dy / length];
  const sorted = loads
    .map(({ place: [x, y], force: [fx, fy] }) => {
      const [px, py] = [x - inner[0], y - inner[1]];
      return {
        s: px * tx + py * ty,
        offset: py * tx - px * ty,
        across: fy * tx - fx * ty,
        along: fx * tx + fy * ty,
      };
    })
    .sort((a, b) => a.s - b.s);
  let [moment, shear, at, most, steepest] = [0, 0, 0, 0, 0];
  let before = sorted[0]?.s ?? 0;
  const look = (s: number) => {
    if (Math.abs(moment) > Math.abs(most)) [most, at] = [moment, s];
  };
  sorted.forEach(({ s, offset, across, along }, k) => {
    moment += shear * (s - before);
    before = s;
    look(s);
    shear += across;
    moment += offset * along;
    // Behind the last force nothing is left but rounding.
    if (k === sorted.length - 1) return;
    look(s);
    steepest = Math.max(steepest, Math.abs(shear));
  });
  return { body, moment: most, at, shear: steepest };
}
