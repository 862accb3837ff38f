// The installation ratio R = -dL/dz is zero where dL/ds is, s the arc length (up to a dead point dz/ds is not). With
// d the line between the end eyes and ' by s,  (L^2)' = 2 d . d'.  The margin d . d' / L0, L0 the drawn length, has the
// sign that makes it positive as drawn; unlike R it is smooth at dead points, and where L comes to nothing.

import { type Bound, TOUCH } from './bound.ts';
import type { Course, Pose } from './course.ts';
import { type Eyes, lengthOf, lineOf } from './damper.ts';

/** Rate of half the squared length by arc length. */
function rateOf(eyes: Eyes, pose: Pose): number {
  const { inner, outer } = eyes;
  const [y, z] = lineOf(eyes, pose);
  return y * (pose[outer[0] + 1] - pose[inner[0] + 1]) + z * (pose[outer[1] + 1] - pose[inner[1] + 1]);
}

/** Sign of the ratio as drawn: 1 where bump shortens the coilover, -1 where it lengthens it, 0 where neither. */
export function drawnSense(eyes: Eyes, { drawn }: Course): number {
  const rate = rateOf(eyes, drawn) / lengthOf(eyes, drawn);
  return Math.abs(rate) <= TOUCH ? 0 : -Math.sign(rate);
}

/** The ratio at zero. Drawn there, it is met at once to both sides. */
export function ratioBound(eyes: Eyes, course: Course): Bound<'ratioThroughZero'> {
  const sense = drawnSense(eyes, course);
  const scale = -sense / lengthOf(eyes, course.drawn);
  return {
    cause: 'ratioThroughZero',
    part: '',
    ways: [[sense === 0 ? () => 0 : (pose) => scale * rateOf(eyes, pose)]],
    met: (where) =>
      `The installation ratio is zero ${where}: the wheel moves there without moving the coilover, and beyond it the coilover goes the other way.`,
    misfit: () => 'The installation ratio is zero at the drawn ride height.',
  };
}
