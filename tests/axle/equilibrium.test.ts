/**
 * A car at rest. Judges: the sums of forces and of moments of the rolled pose, from the poses of `sweepAxle` and `sweep` and the masses
 * alone; the energy of springs, bars, tyres and weights by central differences; the mirror image; the rest of one corner; closed forms of
 * swing axles and parallel arms; and textbook formulas of load transfer and roll in the limit of small accelerations.
 */

import * as fc from 'fast-check';
import {
  axle,
  type CarOnAxles,
  type Equilibrium,
  equilibrium,
  sweep,
  sweepAxle,
  type WheelRest,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';
import { CAR, REAR_CORNER } from './car.ts';
import { CORNER } from './roadster.ts';

const DEGREE = Math.PI / 180;
const G = 9.80665;
const CORNERS = { front: CORNER, rear: REAR_CORNER };

/** The rest, which there has to be. */
function rest(car: CarOnAxles, loads = {}): Equilibrium {
  const found = equilibrium(car, loads);
  if (found.status !== 'rests') expect.fail(`${found.cause} at ${found.lateralAcceleration}`);
  return found;
}

const lateral = fc.double({ min: -1.3, max: 1.3, noNaN: true });

/** Axles with their names and wheels, left first. */
function axlesOf(found: Equilibrium) {
  return (['front', 'rear'] as const).flatMap((name) => {
    const one = found.axles[name];
    return one === undefined
      ? []
      : [{ name, ...one, wheels: [one.left, one.right] as [WheelRest, WheelRest] }];
  });
}

describe('a car at rest', () => {
  it('has the weights on its wheels, and the moments of all masses in the rolled pose', () => {
    fc.assert(
      fc.property(lateral, fc.constantFrom('proportional' as const, 'equal' as const), (a, lateralSplit) => {
        const car = { ...CAR, sprungCentreOfGravityY: 23 };
        const found = rest(car, {
          lateralAcceleration: a,
          lateralSplit,
          downforce: { front: 300, rear: 420 },
        });
        const [sin, cos] = [Math.sin(found.roll * DEGREE), Math.cos(found.roll * DEGREE)];
        const sprung = car.front.sprungMass + car.rear.sprungMass;
        let [moved, wanted, height] = [0, 0, 0];
        for (const { name, heave, wheels } of axlesOf(found)) {
          const { sprungMass, unsprungMass } = car[name];
          const h = -heave * cos;
          height += (sprungMass / sprung) * h;
          const load = wheels[0].load.total + wheels[1].load.total;
          const weight = (sprungMass + 2 * unsprungMass) * G + (name === 'front' ? 300 : 420);
          expectClose(load, weight, { times: 1e3, scale: weight });
          const force = wheels[0].lateralForce + wheels[1].lateralForce;
          expectClose(force, a * (sprungMass + 2 * unsprungMass) * G, { times: 1e3, scale: weight });
          wheels.forEach((wheel, w) => {
            const side = w === 0 ? 1 : -1;
            const pose = sweep(CORNERS[name], { bump: 120, droop: 120 }).at(wheel.travel);
            const across = (y: number, z: number) => side * y * cos - z * sin;
            moved += wheel.load.total * across(pose.contactPatchY, wheel.travel);
            const [y, z] = [pose.wheelCentreY, pose.wheelCentreZ];
            const up = h + side * y * sin + z * cos;
            wanted += unsprungMass * G * (across(y, z) - a * up);
          });
        }
        const [y, z] = [23, car.sprungCentreOfGravityHeight];
        wanted += sprung * G * (y * cos - z * sin - a * (height + y * sin + z * cos));
        expectClose(moved, wanted, { times: 1e5, scale: sprung * G * 100 });
      }),
    );
  });

  it('has its contact patches on the ground, as deep as the tyres give', () => {
    fc.assert(
      fc.property(lateral, (a) => {
        const found = rest(CAR, { lateralAcceleration: a });
        const [sin, cos] = [Math.sin(found.roll * DEGREE), Math.cos(found.roll * DEGREE)];
        for (const { name, heave, wheels } of axlesOf(found)) {
          const still = rest(CAR).axles[name]!;
          wheels.forEach((wheel, w) => {
            const side = w === 0 ? 1 : -1;
            const pose = sweep(CORNERS[name], { bump: 120, droop: 120 }).at(wheel.travel);
            const up = -heave * cos + side * pose.contactPatchY * sin + wheel.travel * cos;
            expectWithin(
              wheel.clearance === null ? -up : up - wheel.clearance,
              wheel.tyreDeflection * (wheel.clearance === null ? 1 : -1),
              1e-9,
            );
            expectWithin(
              wheel.tyreDeflection,
              (wheel.load.total - still.left.load.total) / CAR[name].tyreRate,
              1e-9,
            );
          });
        }
      }),
    );
  });

  it('of a symmetric car is the mirror image in the other turn', () => {
    fc.assert(
      fc.property(lateral, (a) => {
        const [one, other] = [rest(CAR, { lateralAcceleration: a }), rest(CAR, { lateralAcceleration: -a })];
        const scale = 1e-12;
        expectWithin(one.roll, -other.roll, scale * 10);
        axlesOf(one).forEach(({ left, right, heave }, k) => {
          const image = axlesOf(other)[k];
          expectWithin(heave, image.heave, scale * 100);
          for (const [wheel, mirrored] of [
            [left, image.right],
            [right, image.left],
          ]) {
            expectWithin(wheel.travel, mirrored.travel, scale * 100);
            expectWithin(wheel.load.total, mirrored.load.total, scale * 1e4);
            expectSame(wheel.damper, mirrored.damper);
          }
        });
      }),
    );
  });

  it('has wheel travels that sweepAxle has on rigid tyres', () => {
    const { tyreRate: _, ...front } = CAR.front;
    const car = { front, sprungCentreOfGravityHeight: 452 };
    const found = rest(car, { lateralAcceleration: 0.7 });
    const { heave, left, right, barTwist } = found.axles.front!;
    const [row] = sweepAxle(CAR.front.linkage, { heave: [heave], roll: [found.roll] }).rows();
    expectWithin(left.travel, row.leftTravel, 1e-9);
    expectWithin(right.travel, row.rightTravel, 1e-9);
    expectWithin(barTwist, row.barTwist!, 1e-9);
    expect(axle({ left: CAR.front.linkage.left }).bar).toBe(null);
  });

  it('rolls as much on a given roll stiffness as on a bar that adds it', () => {
    const given = (stiffness: number) => ({
      ...CAR,
      front: { ...CAR.front, linkage: axle({ left: CORNER }), antiRollBarStiffness: stiffness },
    });
    // In the limit of no roll the bar of the axle and its share in the roll stiffness are the same.
    const bar = rest(CAR).axles.front!.rollStiffness!.bar;
    const still = rest(given(bar));
    expectWithin(still.axles.front!.rollStiffness!.bar, bar, 1e-9 * bar);
    const [one, other] = [CAR, given(bar)].map((car) => rest(car, { lateralAcceleration: 1e-3 }));
    expectWithin(other.roll / one.roll, 1, 1e-4);
    expect(rest(given(2 * bar), { lateralAcceleration: 0.8 }).roll).toBeLessThan(
      rest(given(bar), { lateralAcceleration: 0.8 }).roll,
    );
    expect(() => equilibrium({ ...CAR, front: { ...CAR.front, antiRollBarStiffness: 100 } })).toThrow(
      /a roll stiffness beside a bar/,
    );
  });
});
