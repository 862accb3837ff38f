// A ball of diameter d_K and width B in a housing of width C misaligns until the housing's face meets the flat of the ball:
//
//   angle = asin(B / d_K) - asin(C / d_K)
//
// the angle at the ball's centre between the edge of its flat and the edge of the housing.

import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/corner.ts';
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
  const { ballDiameter, ballWidth, housingWidth } = { ...bearing };
  const faults: Diagnostic[] = [];
  const check = (path: string, value: unknown, most: number, below: string | null) => {
    if (typeof value === 'number' && value > 0 && value < most) return;
    faults.push(fault('bearingSizeOutOfRange', path, { below, got: show(value) }));
  };
  check('ballDiameter', ballDiameter, Number.POSITIVE_INFINITY, null);
  check('ballWidth', ballWidth, ballDiameter, 'ballDiameter');
  check('housingWidth', housingWidth, ballWidth, 'ballWidth');
  refuse('spherical bearing', faults);
  return (Math.asin(ballWidth / ballDiameter) - Math.asin(housingWidth / ballDiameter)) * DEGREES;
}
