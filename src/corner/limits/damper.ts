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

/** Damper topped out, bump stop solid, damper bottomed out; and the first contact with the stop, which is no limit. */
export function damperBounds(
  { damper, bumpStop }: CheckedOptions,
  eyes: Eyes,
): { limits: Bound<DamperCause>[]; contact: Bound<'bumpStopContact'>[] } {
  if (damper === undefined) return { limits: [], contact: [] };
  const { extendedLength, compressedLength } = damper;
  const bound = <Cause>(
    cause: Cause,
    path: string,
    length: number,
    misfit: Bound<Cause>['misfit'],
    greatest = false,
  ): Bound<Cause> => {
    const ways = [[marginToLength(eyes, length, greatest)]];
    return { cause, part: '', path, ways, met: () => ({ length }), misfit };
  };
  /** How far the length in a pose is from one that it may not pass. */
  const off = (pose: Pose, than: number) => {
    const length = lengthOf(eyes, pose);
    return { length, than, by: Math.abs(length - than) };
  };
  const tooShort = (pose: Pose) => ({ code: 'damperTooShort', values: off(pose, extendedLength) });
  const tooLong = (pose: Pose) => ({ code: 'damperTooLong', values: off(pose, compressedLength) });
  const limits = [
    bound<DamperCause>('damperExtended', 'damper.extendedLength', extendedLength, tooShort, true),
  ];
  const contact: Bound<'bumpStopContact'>[] = [];
  if (bumpStop !== undefined) {
    const solid = compressedLength + bumpStop.solidHeight;
    const touched = compressedLength + bumpStop.height;
    if (bumpStop.solidHeight > 0) {
      const tooHigh = (pose: Pose) => ({ code: 'bumpStopTooHigh', values: off(pose, solid) });
      limits.push(bound<DamperCause>('bumpStopSolid', 'bumpStop.solidHeight', solid, tooHigh));
    }
    const compressed = (pose: Pose) =>
      lengthOf(eyes, pose) < solid
        ? { code: 'bumpStopSolidAtRide', values: {} }
        : { code: 'bumpStopCompressed', values: { by: off(pose, touched).by } };
    contact.push(bound('bumpStopContact', 'bumpStop.height', touched, compressed));
  }
  limits.push(bound<DamperCause>('damperCompressed', 'damper.compressedLength', compressedLength, tooLong));
  return { limits, contact };
}
