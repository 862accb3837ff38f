/**
 * Where an axle ends over heave and roll. Judges: the poses of `sweepAxle`, on whose wheels' travels each limit must lie; swing axles of
 * equal length in closed form (elementary); and the mirror image.
 */

import * as fc from 'fast-check';
import { axle, axleLimits, doubleWishbone, InputError, limits, sweep, sweepAxle } from 'jounce';
import { describe, expect, it } from 'vitest';
import { wildCorners } from '../support/corners.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { BAR, CORNER } from './roadster.ts';

/** mm and degrees: a limit is found to 1e-9 mm, and a pose to rounding. */
const FOUND = 1e-7;
const DAMPER = { damper: { extendedLength: 376, compressedLength: 318 } };
const FIRM = { damper: { extendedLength: 371, compressedLength: 322 } };

/** A corner with a damper that ends its travel somewhere. */
const limited = fc
  .record({
    corner: wildCorners.map(doubleWishbone),
    bump: fc.double({ min: 25, max: 60, noNaN: true }),
    droop: fc.double({ min: 25, max: 60, noNaN: true }),
  })
  .map(({ corner, bump, droop }) => {
    const { end, at } = sweep(corner, { bump, droop });
    if (end.bump.status !== 'reached' || end.droop.status !== 'reached') return null;
    const lengths = [at(bump).shockLength, at(-droop).shockLength];
    const [compressedLength, extendedLength] = [Math.min(...lengths), Math.max(...lengths)];
    if (!(extendedLength > compressedLength + 1)) return null;
    return { corner, limits: limits(corner, { damper: { extendedLength, compressedLength } }) };
  })
  .filter((one) => one?.limits.bump != null && one.limits.droop != null)
  .map((one) => one!);
const rolls = fc.double({ min: -3, max: 3, noNaN: true });

describe('the limits of an axle', () => {
  it('lie where the sweep has that wheel at its limit, and the other within its own', () => {
    fc.assert(
      fc.property(limited, limited, rolls, (left, right, roll) => {
        const whole = axle({ left: left.corner, right: right.corner });
        const { ranges } = axleLimits(whole, { left: left.limits, right: right.limits, roll: [roll] });
        // Beyond the largest roll no pose is left.
        fc.pre(ranges[0].bump!.heave > ranges[0].droop!.heave);
        for (const way of ['bump', 'droop'] as const) {
          const limit = ranges[0][way]!;
          const alone = { left: left.limits[way]!.travel, right: right.limits[way]!.travel };
          const [row] = sweepAxle(whole, { heave: [limit.heave], roll: [roll] }).rows();
          expectWithin(row[`${limit.side!}Travel`], alone[limit.side!], FOUND);
          for (const side of ['left', 'right'] as const) {
            const past = Math.sign(alone[side]) * (row[`${side}Travel`] - alone[side]);
            expect(past).toBeLessThan(FOUND);
          }
        }
      }),
      { numRuns: 50 },
    );
  });

  it('meet at the largest roll, where each wheel is at the limit that it names', () => {
    const whole = axle({ left: CORNER, right: CORNER, bar: BAR });
    const alone = { left: limits(CORNER, DAMPER), right: limits(CORNER, FIRM) };
    const { leftUp, rightUp } = axleLimits(whole, alone);
    for (const [end, left, right] of [
      [leftUp!, alone.left.droop!, alone.right.bump!],
      [rightUp!, alone.left.bump!, alone.right.droop!],
    ] as const) {
      expectSame([end.left.cause, end.right.cause], [left.cause, right.cause]);
      const [row] = sweepAxle(whole, { heave: [end.heave], roll: [end.roll] }).rows();
      expectWithin(row.leftTravel, left.travel, FOUND);
      expectWithin(row.rightTravel, right.travel, FOUND);
      // There the heave left is nothing, and beyond it bump lies below droop.
      const [there, beyond] = axleLimits(whole, { ...alone, roll: [end.roll, end.roll * 1.01] }).ranges;
      expectWithin(there.bump!.heave, there.droop!.heave, FOUND);
      expect(beyond.bump!.heave).toBeLessThan(beyond.droop!.heave);
    }
    expect(leftUp!.roll).toBeGreaterThan(0);
    expect(rightUp!.roll).toBeLessThan(0);
  });

  it('of a mirrored axle are mirrored, to the bit', () => {
    const alone = limits(CORNER, DAMPER);
    const { ranges, leftUp, rightUp } = axleLimits(axle({ left: CORNER }), { left: alone, roll: [-2, 2] });
    expectSame(ranges[0].bump!.heave, ranges[1].bump!.heave);
    expectSame([ranges[0].bump!.side, ranges[1].bump!.side], ['left', 'right']);
    expectSame(leftUp!.roll, -rightUp!.roll);
    expectSame(leftUp!.heave, rightUp!.heave);
  });

  it('of arms that keep the track lie on z = e - y tan p', () => {
    // Level parallel arms as long: the half-track at a travel z is y - (r - sqrt(r^2 - z^2)).
    const [y, r] = [650, 400];
    const parallel = doubleWishbone({
      lowerArm: { inner: [y - r, 150], outer: [y, 150] },
      upperArm: { inner: [y - r, 350], outer: [y, 350] },
      wheel: { centre: [y, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [500, 150], chassisMount: [400, 480] },
    });
    const alone = limits(parallel, { damper: { extendedLength: 360, compressedLength: 320 } });
    const { leftUp, ranges } = axleLimits(axle({ left: parallel }), { left: alone, roll: [3] });
    const track = (z: number) => y - r + Math.sqrt(r * r - z * z);
    const [bump, droop] = [alone.bump!.travel, alone.droop!.travel];
    expectClose(ranges[0].bump!.heave, bump - track(bump) * Math.tan(Math.PI / 60), {
      times: 4096,
      scale: y,
    });
    expectClose(ranges[0].droop!.heave, droop + track(droop) * Math.tan(Math.PI / 60), {
      times: 4096,
      scale: y,
    });
    const most = (bump - droop) / (track(bump) + track(droop));
    expectClose(leftUp!.roll, (Math.atan(most) * 180) / Math.PI, { times: 4096, scale: 90 });
  });

  it('name the lever of a bar that comes over its centre before a wheel ends', () => {
    const short = { ...BAR, leverLength: 70 };
    const { ranges } = axleLimits(axle({ left: CORNER, bar: short }), { left: limits(CORNER), roll: [0] });
    const ends = sweepAxle(axle({ left: CORNER, bar: short }), { heave: [-190, 190], roll: [0] }).end.left;
    expectSame(ends.bump.status, 'leverOverCentre');
    expectSame(ranges[0].bump!.cause, 'leverOverCentre');
    expectWithin(ranges[0].bump!.heave, ends.bump.travel, FOUND);
  });

  it('refuse what is no limits of a corner', () => {
    const codes = (options: unknown) => {
      try {
        axleLimits(axle({ left: CORNER }), options as never);
      } catch (error) {
        if (error instanceof InputError) return error.issues.map(({ code, path }) => `${code} ${path}`);
        throw error;
      }
      return [];
    };
    expectSame(codes({}), ['notLimits left']);
    expectSame(codes({ left: limits(CORNER), right: 3, roll: [40] }), [
      'notLimits right',
      'rollTooLarge roll',
    ]);
    expectSame(codes(undefined), ['notOptions ']);
  });
});
