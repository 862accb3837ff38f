/** Perches for a wanted pose and cross weight. Judge: `equilibrium` of the car with its seats moved. */

import * as fc from 'fast-check';
import { type CarOnAxles, equilibrium, perchMoves } from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR, COILOVER } from './car.ts';

/** As drawn on springs that do not suit it, heavier on the left. */
const UNEVEN = {
  ...CAR,
  front: {
    ...CAR.front,
    left: { ...COILOVER, springForce: 3600 },
    right: { ...COILOVER, springForce: 3100 },
  },
  rear: {
    ...CAR.rear,
    left: { ...COILOVER, springForce: 3900 },
    right: { ...COILOVER, springForce: 3700, springRate: 61 },
  },
  sprungCentreOfGravityY: 19,
} satisfies CarOnAxles;

describe('perch moves', () => {
  it('bring a car to the wanted heaves, roll and cross weight', () => {
    const mm = fc.double({ min: -12, max: 12, noNaN: true });
    fc.assert(
      fc.property(
        mm,
        mm,
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        fc.double({ min: 0.47, max: 0.53, noNaN: true }),
        (front, rear, roll, crossWeight) => {
          const { status, wheels } = perchMoves(UNEVEN, {
            heave: { front, rear },
            roll,
            crossWeight,
            threadPitch: 1.5,
          });
          expectSame(status, 'found');
          const moved = (name: 'front' | 'rear') => ({
            ...UNEVEN[name],
            left: { ...UNEVEN[name].left, perchMove: wheels[`${name}Left`]!.move },
            right: { ...UNEVEN[name].right, perchMove: wheels[`${name}Right`]!.move },
          });
          const found = equilibrium({ ...UNEVEN, front: moved('front'), rear: moved('rear') });
          if (found.status !== 'rests') expect.fail(found.cause);
          expectWithin(found.axles.front!.heave, front, 1e-9);
          expectWithin(found.axles.rear!.heave, rear, 1e-9);
          expectWithin(found.roll, roll, 1e-10);
          expectWithin(found.crossWeight, crossWeight, 1e-11);
          expectWithin(found.axles.rear!.left.springForce, wheels.rearLeft!.springForce, 1e-7);
          expectSame(wheels.rearLeft!.turns, wheels.rearLeft!.move / 1.5);
        },
      ),
    );
  });

  it('are none where the car stands as wanted, on one axle too', () => {
    const { wheels } = perchMoves(CAR);
    for (const { move, turns } of Object.values(wheels)) {
      expectWithin(move, 0, 1e-10);
      expectSame(turns, null);
    }
    const { rear: _rear, ...single } = CAR;
    const { wheels: front } = perchMoves(single);
    expectSame(Object.keys(front), ['frontLeft', 'frontRight']);
    expectWithin(front.frontLeft!.move, 0, 1e-10);
  });

  it('are out of reach past an end of the damper, and where a wheel would have to pull', () => {
    expectSame(perchMoves(CAR, { heave: { rear: 150 } }), {
      status: 'outOfReach',
      wheel: 'rearLeft',
      wheels: {},
    });
    const { status, wheel } = perchMoves(CAR, { crossWeight: 1 });
    expectSame([status, wheel], ['outOfReach', 'frontLeft']);
  });
});
