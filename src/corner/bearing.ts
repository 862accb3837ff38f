// A ball of diameter d_K and width B in a housing of width C misaligns until the housing's face meets the flat of the ball:
//
//   angle = asin(B / d_K) - asin(C / d_K)
//
// the angle at the ball's centre between the edge of its flat and the edge of the housing.

import { InputError, type Issue, show } from '../errors.ts';
import { DEGREES } from '../units.ts';

/** A spherical bearing or rod end; mm. */
export interface SphericalBearing {
  readonly ballDiameter: number;
  /** Width of the ball, over its flats. */
  readonly ballWidth: number;
  /** Width of the housing, or head, at the ball. */
  readonly housingWidth: number;
}

/**
 * Largest misalignment of a spherical bearing either way from straight, degrees, with the bolt and spacers no wider than the
 * flat of the ball. Makers round it down.
 *
 * @throws InputError unless 0 < housingWidth < ballWidth < ballDiameter.
 */
export function bearingMisalignment(bearing: SphericalBearing): number {
  const { ballDiameter, ballWidth, housingWidth } = bearing;
  const issues: Issue[] = [];
  const check = (path: string, value: unknown, above: number, below: number, allowed: string) => {
    if (typeof value === 'number' && value > above && value < below) return;
    issues.push({ path, problem: 'out of range', got: show(value), allowed });
  };
  check('ballDiameter', ballDiameter, 0, Number.POSITIVE_INFINITY, 'mm, more than 0');
  check('ballWidth', ballWidth, 0, ballDiameter, 'mm, between 0 and the diameter of the ball');
  check('housingWidth', housingWidth, 0, ballWidth, 'mm, between 0 and the width of the ball');
  if (issues.length > 0) throw new InputError('spherical bearing', issues);
  return (Math.asin(ballWidth / ballDiameter) - Math.asin(housingWidth / ballDiameter)) * DEGREES;
}
