/**
 * The library against poses computed with 50 digits (tests/fixtures).
 *
 * The fixture's ratio and slope are derivatives by the coordinate that drives its sweep. The library's are by
 * contact-patch travel z whatever the axis t is; in the sweeps over the wheel centre the fixture's are turned into
 * those by the chain rule, z_t and z_tt taken from the fixture's own positions:
 *
 *     R = R_t / z_t,   R' = (R_t' - R z_tt) / z_t²
 */
import { doubleWishbone, type Pose, sweep } from 'jounce';
import { describe, it } from 'vitest';
import type { CornerInput, TravelReference } from '../judges/circle-intersection.ts';
import { type FixturePose, fixtureCorners } from '../judges/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { carriedByUpright, conditioning, magnitude } from './geometry.ts';

/** Roundings of a position or a length; times the size of the drawing and its conditioning. */
const PLACE = 8;
/** Roundings of an angle in degrees: those of a place, over a distance of some 200 mm, times 180/pi. */
const ANGLE = 2;
/** What ratio (1) and slope (1/mm) may be off. */
const RATIO = 1e-10;

const sweeps = fixtureCorners.flatMap(({ name, input, sweeps: all }) =>
  all.map(({ travelReference, poses }) => ({ name, input: deepFreeze(input), travelReference, poses })),
);

function ratioByContactPatch(input: CornerInput, pose: FixturePose, travelReference: TravelReference) {
  const { installationRatio, installationRatioSlope } = pose;
  if (travelReference === 'contactPatch') return { installationRatio, installationRatioSlope };
  const axis = carriedByUpright(input, pose, pose.wheelCentre);
  const patch = carriedByUpright(input, pose, pose.contactPatch);
  const [t1, t2, z1, z2] = [axis.first[1], axis.second[1], patch.first[1], patch.second[1]];
  const first = z1 / t1;
  const second = (z2 - first * t2) / (t1 * t1);
  const ratio = installationRatio / first;
  return {
    installationRatio: ratio,
    installationRatioSlope: (installationRatioSlope - ratio * second) / (first * first),
  };
}

describe.each(sweeps)('$name over $travelReference', ({ input, travelReference, poses }) => {
  const travels = poses.map(({ travel }) => travel);
  const swept = sweep(doubleWishbone(input), {
    bump: Math.max(...travels),
    droop: -Math.min(...travels),
    travelReference,
  });

  it('stands where 50 digits say', () => {
    for (const pose of poses) {
      const row: Pose = swept.at(pose.travel);
      const scale = magnitude(input) * conditioning(input, pose, travelReference);
      const place = { times: PLACE, scale };
      for (const [name, [y, z]] of Object.entries({
        lowerOuter: pose.lowerOuter,
        upperOuter: pose.upperOuter,
        wheelCentre: pose.wheelCentre,
        contactPatch: pose.contactPatch,
        shockMount: pose.mount,
      })) {
        expectClose(row[`${name}Y`], y, place);
        expectClose(row[`${name}Z`], z, place);
      }
      expectClose(row.shockLength, pose.shockLength, place);
      expectClose(row.camber, pose.camber, { times: ANGLE, scale });
    }
  });

  it('has the ratio and its slope, by contact-patch travel', () => {
    for (const pose of poses) {
      const row = swept.at(pose.travel);
      const expected = ratioByContactPatch(input, pose, travelReference);
      expectWithin(row.installationRatio, expected.installationRatio, RATIO);
      expectWithin(row.installationRatioSlope, expected.installationRatioSlope, RATIO);
    }
  });
});
