/** What holds for every double wishbone, over random ones, beside the laws of all corners. */

import * as fc from 'fast-check';
import { doubleWishbone, type Sweep, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import {
  circleCorner,
  drawnContactPatch,
  type Point,
  type TravelReference,
} from '../judges/circle-intersection.ts';
import { unlikeArms, wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose } from '../support/tolerance.ts';
import { direction, magnitude, meetingOfArms } from './geometry.ts';
import { conditioningOf, moved, wishbone } from './kinds.ts';
import { expectSameRow, placesOf } from './rows.ts';

/** Shares of the way to the end of a sweep, on both sides. */
const SHARES = [-0.9, -0.5, -0.1, 0, 0.2, 0.6, 0.9];

const travelOfs = fc.constantFrom<TravelReference[]>('contactPatch', 'wheelCentre');

function travelsOf({ end }: Sweep): number[] {
  return SHARES.map((share) => share * (share > 0 ? end.bump.travel : -end.droop.travel));
}

describe('definitions', () => {
  /** Roundings of an angle or a length got from the places of a row. */
  const AGAIN = 8;
  /** Roundings of a rate got from the places of a row, which were rounded each for itself. */
  const RATE = 256;

  it('hold for the angles, lengths and changes of every pose, from its points', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelReference) => {
        const corner = doubleWishbone(input);
        const swept = sweep(corner, { travelReference });
        for (const t of travelsOf(swept)) {
          const row = swept.at(t);
          const { lowerOuter, upperOuter, wheelCentre, contactPatch, shockMount } = placesOf(row);
          const { lowerArm, upperArm, coilover } = input;
          const place = { times: AGAIN, scale: magnitude(input) };
          expectClose(row.lowerArmAngle, direction(lowerArm.inner, lowerOuter), place);
          expectClose(row.upperArmAngle, direction(upperArm.inner, upperOuter), place);
          expectClose(row.kingpinInclination, direction(lowerOuter, upperOuter) - 90, place);
          // A thin disc's centre stands over its contact patch, leaning by the camber.
          expectClose(row.camber, 90 - direction(contactPatch, wheelCentre), place);
          expectClose(row.shockInclination, direction(shockMount, coilover.chassisMount) - 90, place);
          const planar = Math.hypot(
            shockMount[0] - coilover.chassisMount[0],
            shockMount[1] - coilover.chassisMount[1],
          );
          expectClose(row.shockLength, Math.hypot(planar, coilover.foreAftOffset ?? 0), place);
          expectClose(row.halfTrackChange, contactPatch[0] - drawnContactPatch(input)[0], place);
          const driven = travelReference === 'contactPatch' ? contactPatch : wheelCentre;
          const drawn = travelReference === 'contactPatch' ? drawnContactPatch(input) : input.wheel.centre;
          expectClose(t, driven[1] - drawn[1], place);
        }
      }),
    );
  });

  it('put the instant centre where the arms meet, and the roll centre on its line to the contact patch', () => {
    fc.assert(
      fc.property(wildCorners, travelOfs, (input, travelReference) => {
        const swept = sweep(doubleWishbone(input), { travelReference });
        for (const t of travelsOf(swept)) {
          const row = swept.at(t);
          const places = placesOf(row);
          const [y, z] = places.contactPatch;
          const c = conditioningOf(wishbone, input, places);
          const meeting = meetingOfArms(input, {
            lowerOuter: places.lowerOuter,
            upperOuter: places.upperOuter,
          });
          // The patch goes square to its line to the instant centre; with parallel arms, square to the arms.
          const [dy, dz] =
            meeting === null
              ? [
                  places.lowerOuter[0] - input.lowerArm.inner[0],
                  places.lowerOuter[1] - input.lowerArm.inner[1],
                ]
              : [y - meeting[0], z - meeting[1]];
          const rate = { times: RATE, scale: (magnitude(input) * c ** 2) / 100 };
          expectClose((row.rollCentreHeight ?? Number.NaN) / y, -dz / dy, rate);
          if (meeting === null) {
            expect(row.instantCentreY).toBeNull();
            expect(row.instantCentreZ).toBeNull();
          } else {
            const far = Math.hypot(dy, dz);
            const inverse = { times: rate.times, scale: rate.scale / 100 };
            const curvature = row.instantCentreCurvature ?? Number.NaN;
            expectClose(Math.abs(curvature), 1 / far, inverse);
            expect(Math.sign(curvature)).toBe(Math.sign(dy));
            // In units of the distance squared, as an error of the inverse distance has it.
            const unit = far * Math.max(far, 100);
            expectClose((row.instantCentreY ?? Number.NaN) / unit, meeting[0] / unit, inverse);
            expectClose((row.instantCentreZ ?? Number.NaN) / unit, meeting[1] / unit, inverse);
          }
        }
      }),
    );
  });

  it('take the given camber where the contact patch is given too', () => {
    fc.assert(
      fc.property(wildCorners, fc.integer({ min: -50, max: 50 }), (input, tenths) => {
        const camber = tenths / 10;
        const wheel = { centre: input.wheel.centre, contactPatch: drawnContactPatch(input), camber };
        const given = doubleWishbone(deepFreeze({ ...input, wheel }));
        const derived = doubleWishbone(input);
        expect(given.wheel.camber).toBe(camber);
        const [a, b] = [given, derived].map((corner) => sweep(corner, { bump: 10, droop: 10 }));
        for (const t of travelsOf(a)) {
          const [there, here] = [a.at(t), b.at(t)];
          expectClose(there.camber - camber, here.camber - derived.wheel.camber, {
            times: AGAIN,
            scale: 100,
          });
        }
      }),
    );
  });
});

describe('a corner', () => {
  it('on the right-hand side has no negative zero, which JSON would lose', () => {
    const input = fc.sample(wildCorners, 1)[0];
    const right = moved(wishbone, input, ([y, z]) => [-y, z]);
    const centred = deepFreeze({
      ...right,
      coilover: { ...right.coilover, chassisMount: [0, 480] as Point },
    });
    const corner = doubleWishbone(centred);
    expect(corner.coilover.chassisMount).toEqual([0, 480]);
    expect(JSON.parse(JSON.stringify(corner))).toEqual(corner);
  });
});

describe('a coilover', () => {
  it.each([
    ['lower ball joint', 'lowerArm'],
    ['upper ball joint', 'upperArm'],
  ] as const)('at the %s is the same on the arm and on the upright', (_, arm) => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const mount = input[arm].outer;
        const [onArm, onUpright] = [arm, 'upright' as const].map((on) =>
          sweep(doubleWishbone(deepFreeze({ ...input, coilover: { ...input.coilover, on, mount } }))),
        );
        expect(onUpright.columns.travel).toEqual(onArm.columns.travel);
        for (const t of travelsOf(onArm))
          expectSameRow(onUpright.at(t), onArm.at(t), onArm.info, wishbone, input);
      }),
    );
  });

  it('at an inner pivot keeps its length', () => {
    fc.assert(
      fc.property(wildCorners, fc.constantFrom('lowerArm' as const, 'upperArm' as const), (input, on) => {
        const mount = input[on].inner;
        const { columns } = sweep(
          doubleWishbone(deepFreeze({ ...input, coilover: { ...input.coilover, on, mount } })),
        );
        for (const length of columns.shockLength) expect(length).toBe(columns.shockLength[0]);
        for (const ratio of columns.installationRatio) expect(Math.abs(ratio)).toBe(0);
      }),
    );
  });
});

describe('a sweep', () => {
  it('stops at the dead point however far beyond it is asked to go', () => {
    fc.assert(
      fc.property(unlikeArms, (input) => {
        const corner = doubleWishbone(input);
        const { bump, droop } = circleCorner(input).deadPoints();
        const [near, far] = [1, 1000].map((more) =>
          sweep(corner, { bump: bump.travel + more, droop: more - droop.travel, step: 100 }),
        );
        expect(near.end).toEqual(far.end);
      }),
    );
  });

  const tenths = (max: number) => fc.nat({ max: 10 * max }).map((n) => n / 10);

  describe('has rows', () => {
    const corner = doubleWishbone(fc.sample(wildCorners, { numRuns: 1, seed: 1 })[0]);
    const rowsOver = (bump: number, droop: number, step: number) =>
      sweep(corner, { bump, droop, step, columns: [] }).columns.travel;
    const steps = fc.integer({ min: 1, max: 80 }).map((n) => n / 10);
    const holds = (check: (travel: Float64Array, bump: number, droop: number, step: number) => void) =>
      fc.assert(
        fc.property(tenths(20), tenths(20), steps, (bump, droop, step) =>
          check(rowsOver(bump, droop, step), bump, droop, step),
        ),
        { numRuns: 500 },
      );

    it('at both ends and, between, at all multiples of the step', () => {
      holds((travel, bump, droop, step) => {
        expect(travel[0]).toBe(0 - droop);
        expect(travel[travel.length - 1]).toBe(bump);
        for (const t of travel.subarray(1, -1)) {
          expectClose(t, step * Math.round(t / step), { times: 1, scale: 20 });
        }
        for (let i = 1; i < travel.length; i++) {
          expect(travel[i] - travel[i - 1]).toBeLessThan(step * (1 + 1e-9));
        }
      });
    });

    it('at the drawn pose once, and not as negative zero', () => {
      holds((travel) => {
        expect([...travel].filter((t) => t === 0)).toEqual([0]);
      });
    });

    it('nowhere twice, up to rounding', () => {
      holds((travel) => {
        for (let i = 1; i < travel.length; i++) {
          expect(travel[i] - travel[i - 1]).toBeGreaterThan(1e-6);
        }
      });
    });
  });
});
