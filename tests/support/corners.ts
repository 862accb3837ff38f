/** Random double wishbones for the tests of laws: those of jounce/testing, deeply frozen. */
import * as fc from 'fast-check';
import { doubleWishbones } from 'jounce/testing';
import type { CornerInput } from '../judges/circle-intersection.ts';
import { deepFreeze } from './freeze.ts';

/** Random corners, deeply frozen. */
export const wildCorners: fc.Arbitrary<CornerInput> = doubleWishbones(fc).map(deepFreeze);

/**
 * Those whose arms are not equal and parallel. Such arms come to lie flat on their way, and can go on in two ways
 * from there.
 */
export const unlikeArms: fc.Arbitrary<CornerInput> = wildCorners.filter(({ lowerArm, upperArm }) =>
  [0, 1].some((axis) => {
    const lower = lowerArm.outer[axis] - lowerArm.inner[axis];
    const upper = upperArm.outer[axis] - upperArm.inner[axis];
    return Math.abs(lower - upper) > 0.05;
  }),
);
