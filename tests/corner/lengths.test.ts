/** Arms screwed in and out: what was asked is there, nothing else has changed, and back again is home. */
import * as fc from 'fast-check';
import { changeArmLengths, type DoubleWishbone, doubleWishbone, InputError } from 'jounce';
import { describe, expect, it } from 'vitest';
import { wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectWithin } from '../support/tolerance.ts';

/** mm; a few hundred roundings of a corner's size. */
const CLOSE = 1e-10;

type Pair = readonly [readonly [number, number], readonly [number, number]];
const apart = ([a, b]: Pair) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Distances that say what the parts are, but for the arms' own lengths. */
function parts({ lowerArm, upperArm, wheel, coilover }: DoubleWishbone): Record<string, number> {
  const pairs: Record<string, Pair> = {
    upright: [lowerArm.outer, upperArm.outer],
    lowerToCentre: [lowerArm.outer, wheel.centre],
    upperToCentre: [upperArm.outer, wheel.centre],
    lowerToPatch: [lowerArm.outer, wheel.contactPatch],
    upperToPatch: [upperArm.outer, wheel.contactPatch],
  };
  if (coilover.on === 'upright') pairs.mount = [lowerArm.outer, coilover.mount];
  else pairs.mount = [coilover.on === 'lowerArm' ? lowerArm.inner : upperArm.inner, coilover.mount];
  return Object.fromEntries(Object.entries(pairs).map(([name, pair]) => [name, apart(pair)]));
}

const lengthsOf = ({ lowerArm, upperArm }: DoubleWishbone) => ({
  lowerArm: apart([lowerArm.inner, lowerArm.outer]),
  upperArm: apart([upperArm.inner, upperArm.outer]),
});

const screw = fc.record({
  lowerArm: fc.double({ min: -8, max: 8, noNaN: true }),
  upperArm: fc.double({ min: -8, max: 8, noNaN: true }),
});

describe('arms screwed in or out', () => {
  it('have the lengths asked for, at the same ride height, with every other part as it was', () => {
    fc.assert(
      fc.property(wildCorners, screw, (input, by) => {
        const corner = deepFreeze(doubleWishbone(input));
        const drawn = lengthsOf(corner);
        const wanted = { lowerArm: drawn.lowerArm + by.lowerArm, upperArm: drawn.upperArm + by.upperArm };
        const { corner: changed, shortfall } = changeArmLengths(corner, deepFreeze(wanted));
        const now = lengthsOf(changed);
        for (const arm of ['lowerArm', 'upperArm'] as const)
          expectWithin(now[arm] + shortfall[arm], wanted[arm], CLOSE);
        expectWithin(changed.wheel.contactPatch[1], corner.wheel.contactPatch[1], CLOSE);
        const [before, after] = [parts(corner), parts(changed)];
        for (const name of Object.keys(before)) expectWithin(after[name], before[name], CLOSE);
        expect(changed.lowerArm.inner).toEqual(corner.lowerArm.inner);
        expect(changed.upperArm.inner).toEqual(corner.upperArm.inner);
      }),
    );
  });

  it('come home when they are screwed back', () => {
    fc.assert(
      fc.property(wildCorners, screw, (input, by) => {
        const corner = doubleWishbone(input);
        const drawn = lengthsOf(corner);
        const there = changeArmLengths(corner, { upperArm: drawn.upperArm + by.upperArm });
        fc.pre(there.shortfall.upperArm === 0);
        const home = changeArmLengths(there.corner, { upperArm: drawn.upperArm }).corner;
        for (const axis of [0, 1]) {
          expectWithin(home.wheel.centre[axis], corner.wheel.centre[axis], 1e-8);
          expectWithin(home.coilover.mount[axis], corner.coilover.mount[axis], 1e-8);
        }
        expectWithin(home.wheel.camber, corner.wheel.camber, 1e-8);
      }),
    );
  });

  it('say how much is missing of a length that cannot be', () => {
    const corner = doubleWishbone({
      lowerArm: { inner: [250, 150], outer: [650, 150] },
      upperArm: { inner: [300, 350], outer: [600, 350] },
      wheel: { centre: [700, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [500, 150], chassisMount: [400, 500] },
    });
    const { shortfall, corner: nearest } = changeArmLengths(corner, { upperArm: 2000 });
    expect(shortfall.upperArm).toBeGreaterThan(1000);
    expectWithin(lengthsOf(nearest).upperArm + shortfall.upperArm, 2000, CLOSE);
    expect(changeArmLengths(corner, {}).corner).toEqual(corner);
  });

  it('carry the other end of a coilover that stands on the arm', () => {
    const corner = doubleWishbone({
      lowerArm: { inner: [250, 150], outer: [650, 150] },
      upperArm: { inner: [300, 350], outer: [600, 360] },
      wheel: { centre: [700, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [540, 160], otherEnd: { on: 'upperArm', mount: [400, 352] } },
    });
    const { corner: longer } = changeArmLengths(corner, { upperArm: lengthsOf(corner).upperArm + 10 });
    const fromPivot = ({ upperArm: { inner }, coilover: { otherEnd } }: typeof corner) => {
      const [y, z] = otherEnd?.mount ?? [Number.NaN, Number.NaN];
      return Math.hypot(y - inner[0], z - inner[1]);
    };
    expect(longer.coilover.otherEnd).not.toEqual(corner.coilover.otherEnd);
    expectWithin(fromPivot(longer), fromPivot(corner), CLOSE);
  });

  it('must be arms, and lengths', () => {
    const corner = doubleWishbone({
      lowerArm: { inner: [250, 150], outer: [650, 150] },
      upperArm: { inner: [300, 350], outer: [600, 350] },
      wheel: { centre: [700, 300], camber: 0 },
      coilover: { on: 'lowerArm', mount: [500, 150], chassisMount: [400, 500] },
    });
    expect(() => changeArmLengths(corner, { upperArm: -1 })).toThrow(InputError);
    expect(() => changeArmLengths(corner, { rod: 100 } as never)).toThrow(
      'invalid lengths\n  rod: unknown body, got "rod" (allowed: lowerArm, upperArm, upright); correct the name or add the body to the drawing',
    );
  });
});
