// Both wheels move alike, so that the ground stays level and under the contact patches: at the travel t it lies t above
// where it was drawn, and a chassis point that was drawn h above it is met at t = h.

import type { CornerModel } from '../model.ts';
import { type Bound, TOUCH } from './bound.ts';
import type { CheckedOptions } from './options.ts';
import { TRAVEL } from './travel-path.ts';
import type { Words } from './words.ts';

/** Low points of the chassis, each met by the ground. */
export function groundBounds(
  { chassisLowPoints = [] }: CheckedOptions,
  { drawing: { points }, contactPatch }: CornerModel,
  words: Words,
): Bound<'groundContact'>[] {
  return chassisLowPoints.map((point, k) => {
    const height = point[1] - points[contactPatch][1];
    const name = `chassisLowPoints[${k}], ${words.point(point)},`;
    return {
      cause: 'groundContact',
      part: `chassisLowPoints[${k}]`,
      ways: [[(pose) => height - pose[TRAVEL]]],
      met: (where) => `The chassis is on the ground with ${name} ${where}.`,
      misfit: () =>
        `The chassis is in the ground: at the drawn ride height ${name} lies ${words.length(Math.max(TOUCH, -height))} below it.`,
    };
  });
}
