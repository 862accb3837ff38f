/**
 * The bar for a roll angle or a split. Judges: `equilibrium` of the car with the bar; and of an axle with level parallel arms, whose roll
 * centres lie on the ground, the sum of moments: (2 k (t/2)^2 + B) phi = m g h (a + sin phi), a in g.
 */

import * as fc from 'fast-check';
import { axle, type CarOnAxles, chooseBar, doubleWishbone, equilibrium } from 'jounce';
import { describe, expect, it } from 'vitest';
import { refusedFor } from '../support/refused.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR } from './car.ts';
import { CORNER } from './roadster.ts';

const PLAIN = { ...CAR, front: { ...CAR.front, linkage: axle({ left: CORNER }) } } satisfies CarOnAxles;
const { rear: _, ...FRONT_ONLY } = PLAIN;
const RADIAN = Math.PI / 180;

describe('the bar for a car', () => {
  it('gives the roll angle, or the split, that was asked for', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('front' as const, 'rear' as const),
        fc.double({ min: 20, max: 900, noNaN: true }),
        fc.double({ min: 0.2, max: 0.6, noNaN: true }),
        fc.constantFrom('proportional' as const, 'equal' as const),
        (name, stiffness, lateralAcceleration, lateralSplit) => {
          const loads = { lateralAcceleration, lateralSplit };
          const withBar = (antiRollBarStiffness: number) =>
            equilibrium({ ...PLAIN, [name]: { ...PLAIN[name], antiRollBarStiffness } }, loads);
          const known = withBar(stiffness);
          if (known.status !== 'rests') return;
          const { roll, frontTransferFraction } = known;
          for (const target of [{ roll }, { frontTransferFraction: frontTransferFraction! }]) {
            const found = chooseBar(PLAIN, { axle: name, ...target, ...loads });
            if (found.status !== 'found') expect.fail('no bar');
            const { equilibrium: there } = found;
            if ('roll' in target) expectWithin(there.roll, roll, 1e-9);
            else expectWithin(there.frontTransferFraction!, frontTransferFraction!, 1e-9);
            const again = withBar(found.stiffness);
            if (again.status !== 'rests') expect.fail(again.cause);
            expectWithin(again.roll, there.roll, 1e-9);
            // Where the wheels stay on the ground and off their stops there is one such bar.
            if (lateralAcceleration < 0.4) expectWithin(found.stiffness / stiffness, 1, 1e-6);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('is what moments say of an axle that rolls about the ground', () => {
    // Level parallel arms of equal length, and a shock that goes straight up: the wheel moves with its arm, the patch straight up at first.
    const left = doubleWishbone({
      lowerArm: { inner: [300, 150], outer: [640, 150] },
      upperArm: { inner: [300, 350], outer: [640, 350] },
      wheel: { centre: [705, 300], camber: 0 },
      coilover: { on: 'upright', mount: [640, 250], chassisMount: [640, 640] },
    });
    const [springRate, sprungMass, height, roll] = [40, 300, 400, 0.05];
    const half = 705;
    const car: CarOnAxles = {
      front: { linkage: axle({ left }), sprungMass, unsprungMass: 1e-6, left: { springRate } },
      sprungCentreOfGravityHeight: height,
    };
    const lateralAcceleration = 0.05;
    const found = chooseBar(car, { axle: 'front', lateralAcceleration, roll });
    if (found.status !== 'found') expect.fail('no bar');
    // N mm: moment of lateral force and of the centre of gravity that goes aside; at so small an angle springs are linear.
    const moment = sprungMass * 9.80665 * height * (lateralAcceleration + Math.sin(roll * RADIAN));
    const springs = 2 * springRate * half * half;
    const bar = (moment / (roll * RADIAN) - springs) * (RADIAN / 1000);
    expectWithin(found.stiffness / bar, 1, 2e-3);
  });

  it('says between what any bar brings a car where none reaches it', () => {
    const loads = { axle: 'front', lateralAcceleration: 0.5 } as const;
    const free = equilibrium(PLAIN, { lateralAcceleration: 0.5 });
    if (free.status !== 'rests') expect.fail(free.cause);
    const more = chooseBar(PLAIN, { ...loads, roll: free.roll + 0.1 });
    if (more.status !== 'outOfReach') expect.fail('a bar that lets a car roll more');
    expectWithin(more.reached!.max, free.roll, 1e-9);
    expect(more.reached!.min).toBeLessThan(free.roll / 2);
    expectSame(chooseBar(PLAIN, { ...loads, roll: -1 }).status, 'outOfReach');
    const tall = chooseBar({ ...PLAIN, sprungCentreOfGravityHeight: 5000 }, { ...loads, roll: 1 });
    expectSame(tall, { status: 'outOfReach', reached: null });
  });

  it('refuses a turn without acceleration, no target or two, an axle with a bar and one that is not there', () => {
    const codes = (car: CarOnAxles, options: object) =>
      refusedFor(() => chooseBar(car, options as Parameters<typeof chooseBar>[1])).map(
        (one) => one.split(' ')[0],
      );
    const turn = { axle: 'front', lateralAcceleration: 0.5 };
    expectSame(codes(PLAIN, { ...turn, lateralAcceleration: 0, roll: 1 }), ['turnMissing']);
    expectSame(codes(PLAIN, turn), ['oneTarget']);
    expectSame(codes(PLAIN, { ...turn, roll: 1, frontTransferFraction: 0.5 }), ['oneTarget']);
    expectSame(codes(CAR, { ...turn, roll: 1 }), ['barThere']);
    expectSame(codes(FRONT_ONLY, { ...turn, axle: 'rear', roll: 1 }), ['axleMissing']);
    expectSame(codes(FRONT_ONLY, { ...turn, frontTransferFraction: 0.5 }), ['oneAxleOnly']);
    expectSame(codes(PLAIN, { ...turn, axle: 'middle', roll: Number.NaN }), ['unknownChoice', 'notFinite']);
    expectSame(codes(PLAIN, { ...turn, rol: 1 }), ['unknownOption']);
  });
});
