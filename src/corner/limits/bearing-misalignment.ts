// Misalignment of the bearing at an end of the coilover. u is the unit vector along the coilover in space, b the bolt's axis; the
// coilover is free to turn about u, so that the bearing's axis, square to u, comes as near to b as it can:
//
//   sin(angle) = |b . u|,    L u = (d, x):  d the line between the eyes in the plane, x their fore-aft distance
//
// Bolt fore-aft: b . u = x/L, whatever the swing: tan(angle) = |x| / |d|. Met where |d| = q = |x| / tan(most).
// Bolt in the plane, square to d as drawn: with n the drawn direction of d turned with the body that the eye is bolted
// to, L (b . u) = n x d. Met where |n x d| = L sin(most).

import type { Bearing } from '../../document/inputs.ts';
import { DEGREES } from '../../units.ts';
import { type CornerModel, carrierOf } from '../model.ts';
import { type Bound, type Margin, over } from './bound.ts';
import { type Eyes, lengthOf, lineOf } from './damper.ts';
import type { CheckedOptions } from './options.ts';
import type { Ask, Pose } from './travel-path.ts';

/** The eye at each end. */
const EYES = { mount: 'outer', chassis: 'inner', otherEnd: 'inner' } as const;

/** Bearings of the coilover at their largest misalignment. */
export function misalignmentBounds(
  { bearings = {} }: CheckedOptions,
  model: CornerModel,
  eyes: Eyes,
  ask: Ask,
): Bound<'bearingMisalignment'>[] {
  return (['mount', 'chassis', 'otherEnd'] as const).flatMap((part) => {
    const end = bearings[part];
    if (end === undefined) return [];
    const body = carrierOf(model, model.shock[EYES[part]]);
    const turn = body === null ? null : ask({ turn: body });
    const { ways, sine } =
      end.boltAxis === 'longitudinal' ? boltForeAft(end, eyes) : boltInPlane(end, model, eyes, turn);
    const max = end.maxMisalignment;
    return [
      {
        cause: 'bearingMisalignment',
        part,
        path: `bearings.${part}.maxMisalignment`,
        ways,
        met: () => ({ end: part, max }),
        misfit(pose) {
          const angle = Math.asin(Math.min(1, sine(pose))) * DEGREES;
          return { code: 'bearingDoesNotFit', values: { end: part, angle, by: angle - max } };
        },
      },
    ];
  });
}

interface Misaligning {
  readonly ways: readonly (readonly Margin[])[];
  readonly sine: (pose: Pose) => number;
}

function boltForeAft({ maxMisalignment }: Bearing, eyes: Eyes): Misaligning {
  const x = Math.abs(eyes.foreAftOffset);
  const q = x / Math.tan(maxMisalignment / DEGREES);
  const margin: Margin = (pose) => {
    const [y, z] = lineOf(eyes, pose);
    return over(q, y * y + z * z);
  };
  return { ways: x === 0 ? [] : [[margin]], sine: (pose) => x / lengthOf(eyes, pose) };
}

function boltInPlane(
  { maxMisalignment }: Bearing,
  { drawing: { points }, shock }: CornerModel,
  eyes: Eyes,
  turn: number | null,
): Misaligning {
  const [inner, outer] = [points[shock.inner], points[shock.outer]];
  const drawn = Math.atan2(outer[1] - inner[1], outer[0] - inner[0]);
  const across = (pose: Pose) => {
    const [y, z] = lineOf(eyes, pose);
    const angle = drawn + (turn === null ? 0 : pose[turn]);
    return Math.cos(angle) * z - Math.sin(angle) * y;
  };
  const sine = Math.sin(maxMisalignment / DEGREES);
  return {
    ways: [
      [(pose) => lengthOf(eyes, pose) * sine - across(pose)],
      [(pose) => lengthOf(eyes, pose) * sine + across(pose)],
    ],
    sine: (pose) => Math.abs(across(pose)) / lengthOf(eyes, pose),
  };
}
