/**
 * The car of a file in the steady corner of its travel cases. Judges: `equilibrium` on the same car, put together from the file by hand; the
 * linear estimate of handbooks (T. D. Gillespie 1992, from memory) in the limit of a gentle turn; and the sums of the wheel loads.
 */

import { readFileSync } from 'node:fs';
import { type AxleSizing, axle, type CarLoads, equilibrium, readCar, sizeCoilovers, sweepAxle } from 'jounce';
import { describe, expect, it } from 'vitest';
import type { Json } from '../document/support.ts';
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

/** An axle of the example without damper and bump stop, put together by hand. */
const byHand = ({ axle: name, input, figure, spring }: AxleSizing) => {
  const gasForce = figure('gasForce').value!;
  return {
    linkage: axle({ left: input.corner }),
    sprungMass: 2 * figure('sprungMass').value!,
    unsprungMass: figure('unsprungMass').value!,
    left: {
      springRate: spring!.rate,
      // At ride height spring and gas carry the sprung weight, and the stop is free.
      springForce: (figure('sprungMass').value! * G) / figure('installationRatio').value! - gasForce,
      gasForce,
    },
    tyreRate: (1050 * POUND_FORCE) / INCH,
    ...(name === 'front' ? { antiRollBarStiffness: input.sizing!.antiRollBarStiffness as number } : {}),
  };
};

describe('the steady corner of a car file', () => {
  it('is the equilibrium of the car, put together by hand', () => {
    const sizing = sizedWith();
    const { lateralAcceleration, speed, bySplit } = sizing.steadyCorner!;
    expectSame(lateralAcceleration, 0.95);
    expectWithin(speed!, 120 * MPH, 1e-9);
    const downforce = 110 * POUND_FORCE * (120 / 100) ** 2;
    const withDampers = sizing.axles.map((sized) => {
      const { input, damper } = sized;
      const { extendedLength, compressedLength } = damper!;
      const { height } = input.limits.bumpStop!;
      const table = (input.sizing!.bumpStopTable as [number, number][]).map(
        ([at, force]) => [at, force] as const,
      );
      const bare = byHand(sized);
      const left = {
        ...bare.left,
        damper: { extendedLength, compressedLength },
        bumpStop: { height, table },
      };
      return { ...bare, left };
    });
    const [front, rear] = withDampers;
    const car = { front, rear, sprungCentreOfGravityHeight: 17.5 * INCH };
    for (const lateralSplit of ['proportional', 'equal'] as const) {
      const rest = equilibrium(car, {
        lateralAcceleration,
        lateralSplit,
        downforce: { front: 0.4 * downforce, rear: 0.6 * downforce },
      });
      const found = bySplit[lateralSplit];
      if (rest.status !== 'rests' || found.status !== 'rests') throw new Error('no rest');
      expectWithin(found.roll, rest.roll, 1e-6);
      for (const name of ['front', 'rear'] as const) {
        for (const side of ['left', 'right'] as const) {
          expectWithin(found.axles[name]![side].travel, rest.axles[name]![side].travel, 1e-5);
          expectWithin(found.axles[name]![side].load.total, rest.axles[name]![side].load.total, 1e-3);
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

  it('adds to the required travel what each wheel has by its own curve, without stop and damper, the most of both splits', () => {
    const sizing = sizedWith();
    const downforce = 110 * POUND_FORCE * (120 / 100) ** 2;
    const [front, rear] = sizing.axles.map(byHand);
    const car = { front, rear, sprungCentreOfGravityHeight: 17.5 * INCH };
    const travels = (loads: CarLoads) => {
      const found = equilibrium(car, loads);
      if (found.status !== 'rests') throw new Error('no rest');
      return found.axles;
    };
    const added = (name: 'front' | 'rear', side: 'left' | 'right', downforce: CarLoads['downforce'] = {}) =>
      (['proportional', 'equal'] as const).map((lateralSplit) =>
        Math.abs(
          travels({ downforce, lateralSplit, lateralAcceleration: 0.95 })[name]![side].travel -
            travels({ downforce, lateralSplit })[name]![side].travel,
        ),
      );
    const pressed = { front: 0.4 * downforce, rear: 0.6 * downforce };
    for (const { axle: name, travelRequirement, figure } of sizing.axles) {
      const roll = (side: 'bump' | 'droop') =>
        travelRequirement.cases.find((one) => one.side === side && 'roll' in one.parts)!.parts.roll;
      expectWithin(roll('bump'), Math.max(...added(name, 'right', pressed)), 1e-4);
      const { value, lower, upper, contributions } = figure('outerWheelTravel');
      const { downforce: pushed } = travelRequirement.cases[0].parts;
      expectWithin(value!, pushed + roll('bump'), 1e-9);
      expectWithin(figure('innerWheelTravel').value!, -roll('droop'), 1e-9);
      expect(lower!).toBeLessThan(value! - 1);
      expect(upper!).toBeGreaterThan(value! + 1);
      expect(contributions.map(({ input }) => input)).toContain('masses.sprungCentreOfGravityHeight');
      expectWithin(roll('droop'), Math.max(...added(name, 'left')), 1e-4);
      // Jacking lifts the body: the inner wheel needs more than the outer one, by whichever split.
      expect(Math.min(...added(name, 'left'))).toBeGreaterThan(Math.max(...added(name, 'right')) * 0.9);
    }
  });

  it('adds the linear estimate in a gentle turn of a car with its roll centres near the ground', () => {
    const gentle = 0.01;
    const sizing = sizedWith((car) => {
      car.travelCases.lateralAcceleration = gentle;
      delete car.downforce;
      for (const { lowerArm, upperArm, sizing } of Object.values<Json>(car.corners)) {
        delete sizing.tyreRate;
        sizing.unsprungMass = 1;
        // Level arms: no jacking, and no share of the load in the roll stiffness.
        lowerArm.outer[1] = lowerArm.inner[1];
        upperArm.outer[1] = upperArm.inner[1];
      }
    });
    const gradient = sizing.figures.find(({ name }) => name === 'rollGradientWithBars')!.value!;
    for (const { input, figure, travelRequirement } of sizing.axles) {
      const linkage = axle({ left: input.corner });
      const half = sweepAxle(linkage, { heave: [0], roll: [0] }).rows()[0].leftPatchY;
      const estimate = half * Math.tan((gradient * gentle * Math.PI) / 180);
      expect(Math.abs(figure('rollCentreHeight').value!)).toBeLessThan(2);
      for (const { parts } of travelRequirement.cases)
        if ('roll' in parts) expectWithin(parts.roll / estimate, 1, 0.02);
    }
  });

  it('requires the same travel wherever the stop is, and the linear estimate where there is no rest, and says so', () => {
    const rolls = (sizing: ReturnType<typeof sizedWith>) =>
      sizing.axles.map(({ travelRequirement }) =>
        travelRequirement.cases.flatMap(({ parts }) => ('roll' in parts ? [parts.roll] : [])),
      );
    const codes = (sizing: ReturnType<typeof sizedWith>) => sizing.assumptions.map(({ code }) => code);
    const long = sizedWith((car) => (car.corners.front.limits.bumpStop.height = 2.5));
    expect(rolls(long)).toEqual(rolls(sizedWith()));
    expect(codes(long)).not.toContain('rollTravelEstimated');
    const fast = sizedWith((car) => (car.travelCases.lateralAcceleration = 3));
    expect(codes(fast)).toContain('rollTravelEstimated');
    const gradient = fast.figures.find(({ name }) => name === 'rollGradientWithBars')!.value!;
    const linkage = axle({ left: fast.axles[1].input.corner });
    const half = sweepAxle(linkage, { heave: [0], roll: [0] }).rows()[0].leftPatchY;
    expectWithin(rolls(fast)[1][0], half * Math.tan((3 * gradient * Math.PI) / 180), 1e-6);
  });

  it('adds the linear estimate, and says so, where there is no corner, and of a car that rolls inward', () => {
    const still = sizedWith((car) => (car.travelCases.lateralAcceleration = 0));
    const inward = sizedWith((car) => (car.masses.sprungCentreOfGravityHeight = 1));
    const gradient = inward.figures.find(({ name }) => name === 'rollGradientWithBars')!.value!;
    expect(gradient).toBeLessThan(0);
    for (const [{ assumptions, axles }, angle] of [
      [still, 0],
      [inward, 0.95 * gradient],
    ] as const) {
      expect(assumptions.map(({ code }) => code)).toContain('rollTravelEstimated');
      const linkage = axle({ left: axles[1].input.corner });
      const half = sweepAxle(linkage, { heave: [0], roll: [0] }).rows()[0].leftPatchY;
      for (const { parts } of axles[1].travelRequirement.cases)
        if ('roll' in parts) expectWithin(parts.roll, half * Math.tan((angle * Math.PI) / 180), 1e-6);
    }
  });
});
