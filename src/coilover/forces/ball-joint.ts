// u is the unit vector of the housing's axis out of its mouth, turned with the body that holds the housing; P the force on the
// stud from the body that it is bolted to:
//
//   axial = P . u, positive pulls the stud out;    radial = |P - (P . u) u|.

import type { Point } from '../../linkage/drawing.ts';
import { textIn, type Units } from '../../units.ts';

/** How a ball joint is loaded. */
export interface BallJointLoad {
  /** Along the housing's axis, N: positive pulls the stud out of the housing. */
  readonly axial: number;
  /** Square to it, N. */
  readonly radial: number;
  readonly sentence: string;
}

/** Less than this share of the whole force is no pull and no push. */
const NOTHING = 1e-9;

/** Load of a joint from the force on its stud and the housing's axis as drawn, turned by so many radians; `units` are those of the sentence. */
export function ballJointLoad(
  name: string,
  stud: Point,
  axis: Point,
  turn: number,
  units: Units,
): BallJointLoad {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const length = Math.hypot(axis[0], axis[1]);
  const u: Point = [(c * axis[0] - s * axis[1]) / length, (s * axis[0] + c * axis[1]) / length];
  const axial = stud[0] * u[0] + stud[1] * u[1];
  const radial = Math.hypot(stud[0] - axial * u[0], stud[1] - axial * u[1]);
  const whole = Math.hypot(axial, radial);
  const size = textIn(Math.abs(axial), 'force', units);
  const way =
    Math.abs(axial) <= NOTHING * whole
      ? 'neither pulls the stud out of its housing nor pushes it in'
      : axial > 0
        ? `pulls the stud out of its housing with ${size}`
        : `pushes the stud into its housing with ${size}`;
  return {
    axial,
    radial,
    sentence: `The load ${way} at the ${name}, and shears it with ${textIn(radial, 'force', units)}.`,
  };
}
