// Where a limit is first met going outward from the drawn pose. Landmarks of its margins (their zeros, and where they
// turn near zero) cut the way into parts in which no margin changes sign: one look between two of them tells on which
// side of the limit the whole part lies, and a limit touched but not crossed is a landmark itself.

import { chebyshevPoints, landmarks } from '../../numerics/chebyshev.ts';
import { type Margin, marginOf, TOUCH } from './bound.ts';
import { type Pose, TRAVEL, type TravelPath } from './travel-path.ts';

/** Up, or down. */
export type Side = 'bump' | 'droop';

/** A limit met: the travel, signed, and the pose; `misfit` when the drawn pose is beyond it already. */
export interface Crossing {
  readonly travel: number;
  readonly pose: Pose;
  readonly misfit: boolean;
}

/** What a margin may be off by rounding: mm, or degrees. */
const NOISE = 1e-11;

/**
 * The first meeting with a limit of one way on one side, or null when the travel path ends before it. From a drawn pose beyond
 * the limit it must first come back inside by moving to that side; where it does not, it is met at travel 0.
 */
export function firstCrossing(travelPath: TravelPath, way: readonly Margin[], side: Side): Crossing | null {
  const { path, start, drawn } = travelPath;
  const out = side === 'bump' ? 1 : -1;
  const margin = (pose: Pose) => marginOf(way, pose);
  const here = margin(drawn);
  const misfit = here < -TOUCH;
  const atOnce: Crossing = { travel: 0, pose: drawn, misfit };
  /** Whether the way so far has come before the limit; from a drawn pose no farther from it than a touch it may not have. */
  let inside = here > TOUCH;
  let before = here;
  for (let p = start; p >= 0 && p < path.pieces.length; p += out) {
    const { lo, hi } = path.pieces[p];
    const [from, to] = out > 0 ? [0, hi] : [lo, 0];
    if (from === to) continue;
    const marginAt = (s: number) => margin(travelPath.poseAt(p, s));
    travelPath.readAhead(p, chebyshevPoints(from, to));
    const marks = marksOf(travelPath, p, way, from, to);
    if (out < 0) marks.reverse();
    for (let k = 1; k < marks.length; k++) {
      // Steadily nearer until it is inside, or at once.
      for (let j = 0; !inside && j < LOOKS.length; j++) {
        const now = marginAt(marks[k - 1] + LOOKS[j] * (marks[k] - marks[k - 1]));
        if (now > TOUCH) inside = true;
        else if (now < before) return atOnce;
        before = now;
      }
      if (inside && marginAt(marks[k]) <= TOUCH) {
        const pose = travelPath.poseAt(p, marks[k]);
        return { travel: pose[TRAVEL] + 0, pose, misfit: false };
      }
    }
  }
  return inside ? null : atOnce;
}

/** Shares of a part at which to look whether a pose beyond the limit comes nearer to it. */
const LOOKS = [1 / 65_536, ...Array.from({ length: 8 }, (_, k) => (2 * k + 1) / 16)];

function marksOf(
  travelPath: TravelPath,
  p: number,
  way: readonly Margin[],
  from: number,
  to: number,
): number[] {
  const each = way.map((margin) => landmarks((s) => margin(travelPath.poseAt(p, s)), from, to, TOUCH, NOISE));
  if (each.length === 1) return each[0];
  return [...new Set(each.flat())].sort((a, b) => a - b);
}
