// u is the unit vector of the housing's axis out of its mouth, turned with the body that holds the housing; P the force on the
// stud from the body that it is bolted to:
//
//   axial = P . u, positive pulls the stud out;    radial = |P - (P . u) u|.

import type { Diagnostic } from '../../diagnostic.ts';
import type { Point } from '../../linkage/drawing.ts';

/** How a ball joint is loaded. */
export interface BallJointLoad {
  /** Along the housing's axis, N: positive pulls the stud out of the housing. */
  readonly axial: number;
  /** Square to it, N. */
  readonly radial: number;
  readonly diagnostic: Diagnostic;
}

/** Load of a joint from the force on its stud and the housing's axis as drawn, turned by so many radians. */
export function ballJointLoad(joint: string, stud: Point, axis: Point, turn: number): BallJointLoad {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const length = Math.hypot(axis[0], axis[1]);
  const u: Point = [(c * axis[0] - s * axis[1]) / length, (s * axis[0] + c * axis[1]) / length];
  const axial = stud[0] * u[0] + stud[1] * u[1];
  const radial = Math.hypot(stud[0] - axial * u[0], stud[1] - axial * u[1]);
  const diagnostic: Diagnostic = {
    code: 'ballJointLoad',
    severity: 'note',
    path: `limits.ballJoints.${joint}`,
    values: { joint, axial, radial },
  };
  return { axial, radial, diagnostic };
}
