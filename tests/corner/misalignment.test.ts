/** Misalignment that end bearings use: an arm that turns about its pivot, and the extremes of random corners by dense steps. */
import * as fc from 'fast-check';
import { doubleWishbone, type Row, sweep } from 'jounce';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { bearingUses } from '../../src/corner/limits/misalignment.ts';
import { wildCorners } from '../support/corners.ts';
import { expectWithin } from '../support/tolerance.ts';

const DEGREES = 180 / Math.PI;
/** Degrees; a flat extreme is known to the square of the place's rounding. */
const ANGLE = 1e-9;

/** Equal level arms of 400 mm: the lower one turns by asin(travel / 400). The mount stands 300 mm out on it. */
const levelArms = (chassisMount: [number, number], foreAftOffset = 0) =>
  modelOf(
    doubleWishbone({
      lowerArm: { inner: [250, 150], outer: [650, 150] },
      upperArm: { inner: [240, 370], outer: [640, 370] },
      wheel: { centre: [720, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [550, 150], chassisMount, foreAftOffset },
    }),
  );
const turnAt = (travel: number) => Math.asin(travel / 400);
/** From the chassis mount to the mount, in the plane. */
const lineAt = ([y, z]: readonly [number, number], travel: number) => {
  const turn = turnAt(travel);
  return [250 + 300 * Math.cos(turn) - y, 150 + 300 * Math.sin(turn) - z] as const;
};
const directionAt = (chassisMount: readonly [number, number], travel: number) => {
  const [y, z] = lineAt(chassisMount, travel);
  return Math.atan2(z, y);
};
const inPlane = { boltAxis: 'inPlane', maxMisalignment: 14 } as const;
const longitudinal = { boltAxis: 'longitudinal', maxMisalignment: 12 } as const;
const TRAVEL = { droop: -80, bump: 80 };

describe('a bolt in the transverse plane', () => {
  it('at the chassis takes the whole swing, whose extreme is where the coilover stands square to the arm', () => {
    const at = [500, 550] as const;
    const { chassis } = bearingUses(levelArms([...at]), { chassis: inPlane }, TRAVEL);
    const ride = directionAt(at, 0);
    // Tangent from the chassis mount to the mount's circle; met at 52 mm of bump, inside the travel.
    const far = Math.hypot(250, 400);
    const pivot = Math.atan2(150 - 550, 250 - 500);
    const swing = pivot + Math.asin(300 / far) - ride;
    expect(swing).toBeGreaterThan(directionAt(at, 80) - ride);
    expectWithin(chassis?.misalignment.max ?? null, swing * DEGREES, ANGLE);
    expectWithin(chassis?.misalignment.min ?? null, (directionAt(at, -80) - ride) * DEGREES, ANGLE);
    expect(chassis?.rating).toBe(14);
  });

  it('on the arm turns with it: the swing less the turn of the arm', () => {
    const at = [480, 560] as const;
    const { mount } = bearingUses(levelArms([...at]), { mount: inPlane }, TRAVEL);
    const used = (travel: number) =>
      (directionAt(at, travel) - directionAt(at, 0) - turnAt(travel)) * DEGREES;
    expectWithin(mount?.misalignment.min ?? null, used(80), ANGLE);
    expectWithin(mount?.misalignment.max ?? null, used(-80), ANGLE);
  });

  it('of a coilover with a fore-aft offset: the sine is the part across over the length in space', () => {
    const at = [500, 550] as const;
    const { chassis } = bearingUses(levelArms([...at], 90), { chassis: inPlane }, TRAVEL);
    const [y, z] = lineAt(at, -80);
    const across = Math.hypot(y, z) * Math.sin(directionAt(at, -80) - directionAt(at, 0));
    expectWithin(
      chassis?.misalignment.min ?? null,
      Math.asin(across / Math.hypot(y, z, 90)) * DEGREES,
      ANGLE,
    );
  });
});

describe('a longitudinal bolt', () => {
  it('takes no swing, and the lean out of the plane alone, most where the coilover is shortest', () => {
    const at = [500, 550] as const;
    const none = bearingUses(levelArms([...at]), { mount: longitudinal }, TRAVEL).mount;
    expect(none).toEqual({ misalignment: { min: 0, max: 0 }, rating: 12 });
    const { mount } = bearingUses(levelArms([...at], 90), { mount: longitudinal }, TRAVEL);
    const lean = (travel: number) => Math.atan(90 / Math.hypot(...lineAt(at, travel))) * DEGREES;
    expectWithin(mount?.misalignment.min ?? null, lean(-80), ANGLE);
    expectWithin(mount?.misalignment.max ?? null, lean(80), ANGLE);
  });
});

describe('on corners of every shape', () => {
  it('the interval holds the swing at every step of the travel and is met at one of them', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const corner = doubleWishbone(input);
        const curves = sweep(corner, { bump: 60, droop: 60, step: 0.25 });
        // At a dead point the angle runs too steep for steps of the travel.
        fc.pre(curves.end.droop.status === 'reached' && curves.end.bump.status === 'reached');
        const [droop, bump] = [curves.end.droop.travel, curves.end.bump.travel];
        const model = modelOf(corner);
        const { outer, inner } = model.shock;
        const chassis = model.drawing.points[inner];
        const directions = curves.rows().map((row: Row) => {
          const [y, z] = [row[`${outer}Y`] as number, row[`${outer}Z`] as number];
          return Math.atan2(z - chassis[1], y - chassis[0]);
        });
        const [y0, z0] = model.drawing.points[outer];
        const ride = Math.atan2(z0 - chassis[1], y0 - chassis[0]);
        const used = curves.rows().map(({ shockLength }, k) => {
          const planar = Math.sqrt(shockLength ** 2 - model.shock.foreAftOffset ** 2);
          return Math.asin((planar * Math.sin(directions[k] - ride)) / shockLength) * DEGREES;
        });
        const { misalignment } = bearingUses(model, { chassis: inPlane }, { droop, bump }).chassis as {
          misalignment: { min: number; max: number };
        };
        // Between two steps of 0.25 mm the angle curves by less than this.
        expectWithin(misalignment.max, Math.max(...used), 2e-3);
        expectWithin(misalignment.min, Math.min(...used), 2e-3);
        expect(misalignment.max).toBeGreaterThanOrEqual(Math.max(...used) - 1e-9);
        expect(misalignment.min).toBeLessThanOrEqual(Math.min(...used) + 1e-9);
      }),
      { numRuns: 25 },
    );
  });
});
