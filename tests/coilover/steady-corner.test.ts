/**
 * The car of a file in the steady corner of its travel cases. Judges: `equilibrium` on the same car, put together from the file by hand; the
 * linear estimate of handbooks (T. D. Gillespie 1992, from memory) in the limit of a gentle turn; and the sums of the wheel loads.
 */

import { readFileSync } from 'node:fs';
import { axle, equilibrium, readCar, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';

const text = readFileSync(new URL('../../docs/examples/car.json', import.meta.url), 'utf8');
// biome-ignore lint/suspicious/noExplicitAny: the file is changed here, at any place
const sizedWith = (change: (car: any) => void = () => {}) => {
  const car = JSON.parse(text);
  change(car);
  return sizeCoilovers(readCar(car));
};
const G = 9.80665;
const INCH = 25.4;
const POUND_FORCE = 4.4482216152605;
const MPH = 1.609344;

describe('the steady corner of a car file', () => {
  it('is the equilibrium of the car, put together by hand', () => {
    const sizing = sizedWith();
    const { lateralAcceleration, speed, bySplit } = sizing.steadyCorner!;
    expectSame(lateralAcceleration, 0.95);
    expectWithin(speed!, 120 * MPH, 1e-9);
    const downforce = 110 * POUND_FORCE * (120 / 100) ** 2;
    const axles = sizing.axles.map((sized) => {
      const { input, figure, damper, spring } = sized;
      const gasForce = figure('gasForce').value!;
      // At ride height coilover and gas carry the sprung weight, and the stop is free.
      const springForce = (figure('sprungMass').value! * G) / figure('installationRatio').value! - gasForce;
      const { bumpStop } = input.limits;
      const { height } = bumpStop!;
      const table = (input.sizing!.bumpStopTable as [number, number][]).map(
        ([at, force]) => [at, force] as const,
      );
      return {
        linkage: axle({ left: input.corner }),
        sprungMass: 2 * figure('sprungMass').value!,
        unsprungMass: figure('unsprungMass').value!,
        left: {
          springRate: spring!.rate,
          springForce,
          gasForce,
          damper: { ...damper! },
          bumpStop: { height, table },
        },
        tyreRate: (1050 * POUND_FORCE) / INCH,
        ...(sized.axle === 'front'
          ? { antiRollBarStiffness: input.sizing!.antiRollBarStiffness as number }
          : {}),
      };
    });
    const [front, rear] = axles.map(({ left: { damper, ...left }, ...one }) => {
      const { extendedLength, compressedLength } = damper;
      return { ...one, left: { ...left, damper: { extendedLength, compressedLength } } };
    });
    const car = { front, rear, sprungCentreOfGravityHeight: 17.5 * INCH };
    for (const lateralSplit of ['proportional', 'equal'] as const) {
      const byHand = equilibrium(car, {
        lateralAcceleration,
        lateralSplit,
        downforce: { front: 0.4 * downforce, rear: 0.6 * downforce },
      });
      const found = bySplit[lateralSplit];
      if (byHand.status !== 'rests' || found.status !== 'rests') throw new Error('no rest');
      expectWithin(found.roll, byHand.roll, 1e-6);
      for (const name of ['front', 'rear'] as const) {
        for (const side of ['left', 'right'] as const) {
          expectWithin(found.axles[name]![side].travel, byHand.axles[name]![side].travel, 1e-5);
          expectWithin(found.axles[name]![side].load.total, byHand.axles[name]![side].load.total, 1e-3);
        }
      }
    }
  });

  it('is the linear estimate in a gentle turn, on rigid tyres, but for the load on a rolled axle', () => {
    const gentle = 0.02;
    const sizing = sizedWith((car) => {
      car.travelCases.lateralAcceleration = gentle;
      delete car.downforce;
      for (const axle of ['front', 'rear']) {
        delete car.corners[axle].sizing.tyreRate;
        car.corners[axle].sizing.unsprungMass = 1;
      }
    });
    const found = sizing.steadyCorner!.bySplit.proportional;
    if (found.status !== 'rests') throw new Error('no rest');
    const gradient = sizing.figures.find(({ name }) => name === 'rollGradientWithBars')!.value!;
    // P h_rc, which handbooks leave out, stiffens this car by some per cent; see docs/axle.md.
    const ratio = found.roll / (gradient * gentle);
    expect(ratio).toBeGreaterThan(0.9);
    expect(ratio).toBeLessThan(1.02);
  });

  it('has the weight of the car and its downforce on its wheels', () => {
    const sizing = sizedWith();
    const found = sizing.steadyCorner!.bySplit.equal;
    if (found.status !== 'rests') throw new Error('no rest');
    const [front, rear] = sizing.axles.map(
      ({ figure }) => figure('sprungMass').value! + figure('unsprungMass').value!,
    );
    const load = Object.values(found.axles).reduce(
      (sum, { left, right }) => sum + left.load.total + right.load.total,
      0,
    );
    const downforce = 110 * POUND_FORCE * (120 / 100) ** 2;
    expectWithin(load, 2 * (front + rear) * G + downforce, 1e-3);
  });

  it('is left out where masses or the rear axle are missing, and says where there is no rest', () => {
    expectSame(sizedWith((car) => delete car.corners.rear).steadyCorner, null);
    expectSame(sizedWith((car) => delete car.masses.sprungCentreOfGravityHeight).steadyCorner, null);
    const tall = sizedWith((car) => {
      car.masses.sprungCentreOfGravityHeight = 60;
      car.travelCases.lateralAcceleration = 1.5;
    });
    expect(tall.checks.map(({ code }) => code)).toContain('noRestInCorner');
  });

  it('is checked against the travel that there is, with the bump and the dip of the road', () => {
    const codes = (change: Parameters<typeof sizedWith>[0]) =>
      sizedWith(change).checks.filter(({ code }) => code === 'cornerNeedsMoreTravel');
    expectSame(
      codes(() => {}),
      [],
    );
    const found = codes((car) => (car.travelCases.roadBump = 1.6));
    expect(found.map(({ values }) => values.side)).toContain('bump');
    for (const { values } of found) {
      expectWithin(values.more as number, (values.required as number) - (values.available as number), 1e-9);
    }
  });
});
