// A ball joint's articulation is the angle from the axis of its housing to that of its stud. Each turns with the body that
// holds it, so that from a, the angle as drawn,
//
//   angle = a + (turn of the stud's body) - (turn of the housing's body),   |angle| <= the most it can articulate.

import type { BallJoint } from '../../document/inputs.ts';
import type { Point } from '../../linkage/drawing.ts';
import { DEGREES } from '../../units.ts';
import type { CornerModel } from '../model.ts';
import type { Bound } from './bound.ts';
import { CHASSIS, sidesOf } from './joints.ts';
import type { CheckedOptions } from './options.ts';
import type { Ask, Pose } from './travel-path.ts';

/** Ball joints at the end of their articulation. */
export function articulationBounds(
  { ballJoints = {} }: CheckedOptions,
  model: CornerModel,
  ask: Ask,
): Bound<'ballJointArticulation'>[] {
  return Object.entries(ballJoints).flatMap(([name, joint]) => {
    if (joint === undefined) return [];
    const sides = sidesOf(model, name, joint.housing);
    const turnOf = (body: string) => (body === CHASSIS ? null : ask({ turn: body }));
    const [housing, stud] = [turnOf(sides.housing), turnOf(sides.stud)];
    const turned = (pose: Pose, body: number | null) => (body === null ? 0 : pose[body]);
    const drawn = drawnAngle(joint);
    const max = joint.maxArticulation;
    const angle = (pose: Pose) => drawn + (turned(pose, stud) - turned(pose, housing)) * DEGREES;
    return [
      {
        cause: 'ballJointArticulation',
        part: name,
        path: `ballJoints.${name}.maxArticulation`,
        ways: [[(pose) => max - angle(pose)], [(pose) => max + angle(pose)]],
        met: () => ({ joint: name, max }),
        misfit(pose) {
          const found = Math.abs(angle(pose));
          return { code: 'ballJointDoesNotFit', values: { joint: name, angle: found, by: found - max } };
        },
      },
    ];
  });
}

/** From the housing's axis to the stud's, degrees; 0 where one is not given. */
function drawnAngle({ housingAxis, studAxis }: BallJoint): number {
  if (housingAxis === undefined || studAxis === undefined) return 0;
  const [h, s]: readonly Point[] = [housingAxis, studAxis];
  return Math.atan2(h[0] * s[1] - h[1] * s[0], h[0] * s[0] + h[1] * s[1]) * DEGREES;
}
