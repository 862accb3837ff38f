// Both wheels move alike, so that the ground stays level and under the contact patches: at the travel t it lies t above
// where it was drawn, and a chassis point that was drawn h above it is met at t = h.

import type { CornerModel } from '../model.ts';
import type { Bound } from './bound.ts';
import type { CheckedOptions } from './options.ts';
import { TRAVEL } from './travel-path.ts';

/** Low points of the chassis, each met by the ground. */
export function groundBounds(
  { chassisLowPoints = [] }: CheckedOptions,
  { drawing: { points }, contactPatch }: CornerModel,
): Bound<'groundContact'>[] {
  return chassisLowPoints.map((point, k) => {
    const height = point[1] - points[contactPatch][1];
    const part = `chassisLowPoints[${k}]`;
    const values = { part, y: point[0], z: point[1] };
    return {
      cause: 'groundContact',
      part,
      path: part,
      ways: [[(pose) => height - pose[TRAVEL]]],
      met: () => values,
      misfit: () => ({ code: 'chassisBelowGround', values: { ...values, by: -height } }),
    };
  });
}
