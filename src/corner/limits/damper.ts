// Length of the coilover between its end eyes, with d the line between them in the plane and x their fore-aft distance:
// L^2 = |d|^2 + x^2. Margins use squares, which have no kink where a length comes to nothing:
//
//   before a greatest length M:  (M^2 - L^2) / 2M,    before a least one m:  (L^2 - m^2) / 2m
//
// both of which are the missing mm at the limit.

import type { CornerModel } from '../model.ts';
import { type Bound, type Margin, over } from './bound.ts';
import type { CheckedOptions } from './options.ts';
import type { Ask, Pose } from './travel-path.ts';
import type { Words } from './words.ts';

/** Where the line between the end eyes stands in a pose. */
export interface Eyes {
  /** Places in a pose of y and z of the inner and the outer eye. */
  readonly inner: readonly [number, number];
  readonly outer: readonly [number, number];
  readonly foreAftOffset: number;
}

export function askEyes({ shock }: CornerModel, ask: Ask): Eyes {
  return {
    inner: [ask({ x: shock.inner }), ask({ y: shock.inner })],
    outer: [ask({ x: shock.outer }), ask({ y: shock.outer })],
    foreAftOffset: shock.foreAftOffset,
  };
}

/** Line from the inner eye to the outer one, in the plane. */
export function lineOf({ inner, outer }: Eyes, pose: Pose): readonly [y: number, z: number] {
  return [pose[outer[0]] - pose[inner[0]], pose[outer[1]] - pose[inner[1]]];
}

function squareOf(eyes: Eyes, pose: Pose): number {
  const [y, z] = lineOf(eyes, pose);
  return y * y + z * z + eyes.foreAftOffset * eyes.foreAftOffset;
}

/** Length between the end eyes, in space. */
export function lengthOf(eyes: Eyes, pose: Pose): number {
  return Math.sqrt(squareOf(eyes, pose));
}

/** Before a length, to first order in mm: a greatest one, or a least one. */
export function marginToLength(eyes: Eyes, length: number, greatest: boolean): Margin {
  const way = greatest ? -1 : 1;
  return (pose) => way * over(length, squareOf(eyes, pose));
}

export type DamperCause = 'damperExtended' | 'damperCompressed' | 'bumpStopSolid';

/** Damper open, bump stop solid, damper closed; and the first contact with the stop, which is no limit. */
export function damperBounds(
  { damper, bumpStop }: CheckedOptions,
  eyes: Eyes,
  words: Words,
): { limits: Bound<DamperCause>[]; contact: Bound<'bumpStopContact'>[] } {
  if (damper === undefined) return { limits: [], contact: [] };
  const { extendedLength, compressedLength } = damper;
  const ride = (pose: Pose) =>
    `at the drawn ride height the end eyes are ${words.length(lengthOf(eyes, pose))} apart`;
  const between = (length: number) => `${words.length(length)} between the end eyes`;
  const shorter = (pose: Pose, length: number) => words.length(length - lengthOf(eyes, pose));
  const limits: Bound<DamperCause>[] = [
    {
      cause: 'damperExtended',
      part: '',
      ways: [[marginToLength(eyes, extendedLength, true)]],
      met: (where) => `The damper is fully extended ${where} (${between(extendedLength)}).`,
      misfit: (pose) =>
        `The damper is too short: ${ride(pose)}, ${words.length(lengthOf(eyes, pose) - extendedLength)} more than its extended length of ${words.length(extendedLength)}.`,
    },
  ];
  const contact: Bound<'bumpStopContact'>[] = [];
  if (bumpStop !== undefined) {
    const solid = compressedLength + bumpStop.solidHeight;
    const touched = compressedLength + bumpStop.height;
    if (bumpStop.solidHeight > 0) {
      limits.push({
        cause: 'bumpStopSolid',
        part: '',
        ways: [[marginToLength(eyes, solid, false)]],
        met: (where) => `The bump stop is solid ${where} (${between(solid)}).`,
        misfit: (pose) =>
          `The bump stop is too high: ${ride(pose)}, ${shorter(pose, solid)} less than the ${words.length(solid)} at which it is solid.`,
      });
    }
    contact.push({
      cause: 'bumpStopContact',
      part: '',
      ways: [[marginToLength(eyes, touched, false)]],
      met: (where) => `The bump stop makes contact ${where} (${between(touched)}).`,
      misfit: (pose) =>
        lengthOf(eyes, pose) < compressedLength + bumpStop.solidHeight
          ? 'At the drawn ride height the bump stop is already pressed in as far as it goes.'
          : `At the drawn ride height the bump stop is already pressed in by ${shorter(pose, touched)}.`,
    });
  }
  limits.push({
    cause: 'damperCompressed',
    part: '',
    ways: [[marginToLength(eyes, compressedLength, false)]],
    met: (where) => `The damper is fully compressed ${where} (${between(compressedLength)}).`,
    misfit: (pose) =>
      `The damper is too long: ${ride(pose)}, ${shorter(pose, compressedLength)} less than its compressed length of ${words.length(compressedLength)}.`,
  });
  return { limits, contact };
}
