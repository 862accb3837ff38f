// u is the unit vector of the housing's axis out of its mouth, turned with the body that holds the housing; P the force on the
// stud from the body that it is bolted to:
//
//   axial = P . u, positive pulls the stud out;    radial = |u x P|.

import type { Diagnostic } from '../../diagnostic.ts';
import type { Point } from '../../linkage/drawing.ts';
import { cross, dot } from '../../numerics/plane.ts';

/** A force on a stud, along and across the axis of its housing. */
export interface AxialLoad {
  /** Along the housing's axis, N: positive pulls the stud out of the housing. */
  readonly axial: number;
  /** Square to it, N. */
  readonly radial: number;
}

/** How a ball joint is loaded. */
export interface BallJointLoad extends AxialLoad {
  readonly diagnostic: Diagnostic;
}

/** Load of a joint from the force on its stud and the axis out of the mouth of its housing. */
export function axialLoad(stud: Point, axis: Point): AxialLoad {
  const length = Math.hypot(axis[0], axis[1]);
  return { axial: dot(stud, axis) / length, radial: Math.abs(cross(axis, stud)) / length };
}

/** Load of a joint from the force on its stud and the housing's axis as drawn, turned by so many radians. */
export function ballJointLoad(joint: string, stud: Point, axis: Point, turn: number): BallJointLoad {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const load = axialLoad(stud, [c * axis[0] - s * axis[1], s * axis[0] + c * axis[1]]);
  const diagnostic: Diagnostic = {
    code: 'ballJointLoad',
    severity: 'note',
    path: `limits.ballJoints.${joint}`,
    values: { joint, ...load },
  };
  return { ...load, diagnostic };
}
