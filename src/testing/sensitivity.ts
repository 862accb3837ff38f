// How much a motion depends on its drawing is learnt from a second one, drawn a little differently. Two motions that
// should be the same may differ, in units of the size, of radians and of the driver, by
//     allowed = a (1 + rate + change),    rate = max |dm/dt|,    change = max |m - m_nudged| / nudge
// where a is what a place may be off by.

import { type CheckedDrawing, InputError, type Point } from '../linkage/index.ts';
import type { TracedMotion } from './setting.ts';

/** Share of the size by which points are displaced. */
const NUDGE = 1e-7;

/** The motion of a drawing with every point displaced a little; null if that locks, as a redundant linkage does. */
export function nudged(
  drawing: CheckedDrawing,
  size: number,
  trace: (drawing: CheckedDrawing) => TracedMotion,
): TracedMotion | null {
  const by = NUDGE * size;
  const points = Object.entries(drawing.points).map(([name, [x, y]], k): [string, Point] => [
    name,
    [x + by * Math.sin(12.9898 * k + 1), y + by * Math.sin(78.233 * k + 2)],
  ]);
  try {
    const motion = trace({ ...drawing, points: Object.fromEntries(points) });
    return motion.low.status === 'locked' || motion.high.status === 'locked' ? null : motion;
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Change of some numbers, in their units, per share of the size that the drawing changes by. */
export function changeOf(drawn: readonly number[], other: readonly number[] | null): number {
  return other === null ? 0 : Math.max(...drawn.map((value, k) => Math.abs(other[k] - value))) / NUDGE;
}

/** Largest of some numbers, whatever their signs. */
export function largest(numbers: readonly number[]): number {
  return Math.max(...numbers.map(Math.abs));
}

/** Whether a value of the driver is in a motion's range; in that of no motion everything is. */
export function reaches(motion: TracedMotion | null, at: number): boolean {
  return motion === null || (at >= motion.low.at && at <= motion.high.at);
}
