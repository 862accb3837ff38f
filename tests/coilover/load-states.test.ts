/** Load states: where the car stands in them with its perch as it is, and the travel that they require. */
import * as fc from 'fast-check';
import { readCar, reportSheet, sheetData, sheetMarkdown, sizeCoilovers } from 'jounce';
import { describe, expect, it } from 'vitest';
import { carOf } from '../../src/coilover/sizing/car.ts';
import { errorOf, type Json } from '../document/support.ts';
import { expectWithin } from '../support/tolerance.ts';
import { car, carDocuments, GRAVITY, valueIn } from './cars.ts';

const expectNear = (actual: number, expected: number, share = 1e-10) =>
  expectWithin(actual / expected, 1, share);

/** The quiet car with a driver and three states. */
const loaded = (change: (document: Json) => void = () => {}): Json =>
  car((document) => {
    document.masses.added = [{ name: 'driver', mass: 80, frontFraction: 0.45 }];
    document.masses.states = [
      { name: 'driver', loads: ['driver'] },
      {
        name: 'two up',
        loads: ['driver', { name: 'passenger', mass: 80, frontFraction: 0.45, leftFraction: 0.3 }],
      },
      { name: 'empty', loads: [] },
    ];
    document.masses.designState = 'driver';
    change(document);
  });
const sizedFront = (document: Json) => sizeCoilovers(readCar(document)).axles[0];

describe('load states', () => {
  it('leave a car without them as it is', () => {
    const sizing = sizeCoilovers(readCar(car()));
    expect(sizing.designState).toBeNull();
    expect(sizing.axles.map(({ loadStates }) => loadStates)).toEqual([[], []]);
    expect(sheetMarkdown(reportSheet(sizing))).not.toContain('Load states');
  });

  it('keep the perch: the corner stands where W(z) is its sprung weight', () => {
    const axle = sizedFront(loaded());
    const [{ shock }] = carOf(readCar(loaded())).car.axles;
    const masses = [700 * 0.48 + 80 * 0.45, 700 * 0.48 + 160 * 0.45, 700 * 0.48];
    const design = masses[0] / 2 - 30;
    const at0 = shock.at(0);
    const rate = valueIn(axle, 'springRate');
    // Just loose at this length: set for ride height in the design state.
    const loose = at0.length + ((design * GRAVITY) / at0.ratio - 150) / rate;
    expect(axle.loadStates.map(({ name, design }) => [name, design])).toEqual([
      ['driver', true],
      ['two up', false],
      ['empty', false],
    ]);
    axle.loadStates.forEach(({ staticTravel, sprungMass, state }, k) => {
      expect(state).toBe('onSpring');
      expectNear(sprungMass ?? 0, masses[k] / 2 - 30);
      const { length, ratio } = shock.at(staticTravel ?? Number.NaN);
      const stop = Math.max(0, 350 + 40 - length);
      const stopForce = stop <= 10 ? 50 * stop : 500 + 250 * (stop - 10);
      expectNear((rate * (loose - length) + 150 + stopForce) * ratio, (masses[k] / 2 - 30) * GRAVITY, 1e-9);
    });
  });

  it('add where they stand to the travel that they require, above and below', () => {
    const alone = sizedFront(loaded(({ masses }) => (masses.states = [masses.states[0]])));
    const axle = sizedFront(loaded());
    const [, two, empty] = axle.loadStates;
    const [bump, droop] = [
      axle.travelRequirement.bump ?? Number.NaN,
      axle.travelRequirement.droop ?? Number.NaN,
    ];
    const worst = (state: string, side: string) =>
      Math.max(
        ...axle.travelRequirement.cases
          .filter((one) => one.side === side && one.state === state)
          .map(({ travel }) => travel),
      );
    expectNear(bump, worst('two up', 'bump'));
    expectNear(-droop, worst('empty', 'droop'));
    expect(two.staticTravel).toBeGreaterThan(0);
    expect(empty.staticTravel).toBeLessThan(0);
    for (const one of axle.travelRequirement.cases) {
      const sum = Object.values(one.parts).reduce((all, part) => all + part, 0);
      expectNear(sum, one.travel);
    }
    expect(bump - (alone.travelRequirement.bump ?? Number.NaN)).toBeGreaterThan((two.staticTravel ?? 0) / 2);
    expect((alone.travelRequirement.droop ?? Number.NaN) - droop).toBeGreaterThan(
      -(empty.staticTravel ?? 0) / 2,
    );
  });

  it('count from where the car stands in its design state, which need not be the drawn ride height', () => {
    const axle = sizedFront(
      loaded(({ corners }) => {
        const { sizing } = corners.front;
        sizing.springs = [{ name: 'S', rate: 40, freeLength: 240, solidLength: 60 }];
        sizing.perch = { setting: 215 };
      }),
    );
    const stands = valueIn(axle, 'staticTravel');
    expect(Math.abs(stands)).toBeGreaterThan(3);
    const others = axle.travelRequirement.cases.filter(({ state }) => state !== null);
    expect(new Set(others.map(({ state }) => state)).size).toBe(2);
    for (const { state, side, parts } of others) {
      const there = axle.loadStates.find(({ name }) => name === state)?.staticTravel ?? Number.NaN;
      expectWithin(parts.state, side === 'bump' ? there - stands : stands - there, 1e-9);
    }
  });

  it('make the stroke of a damper that follows from travel longer', () => {
    const free = (document: Json) => {
      delete document.corners.front.limits.damper;
    };
    const strokeOf = (document: Json) => valueIn(sizedFront(document), 'stroke');
    const without = strokeOf(
      loaded((document) => {
        free(document);
        document.masses.states = [document.masses.states[0]];
      }),
    );
    expect(strokeOf(loaded(free))).toBeGreaterThan(without + 5);
  });

  it('never reduce the travel that is required', () => {
    fc.assert(
      fc.property(
        carDocuments,
        fc.array(
          fc.record({
            mass: fc.integer({ min: 1, max: 200 }),
            frontFraction: fc.nat(100).map((n) => n / 100),
          }),
          {
            minLength: 1,
            maxLength: 2,
          },
        ),
        (document, loads) => {
          if (document.masses === undefined) return;
          const states = [
            { name: 'design', loads: [] },
            ...loads.map((load, k) => ({ name: `state ${k}`, loads: [{ name: 'load', ...load }] })),
          ];
          const given = {
            ...document,
            masses: { ...document.masses, states, designState: 'design' },
          };
          const before = sizeCoilovers(readCar(document)).axles;
          sizeCoilovers(readCar(given)).axles.forEach(({ travelRequirement, damper, loadStates }, k) => {
            // On the stop of a damper that follows from the travel a corner stands as low as that damper lets it: a conflict.
            if (loadStates.some(({ travelToContact }) => travelToContact !== null && travelToContact < 0))
              return;
            const { bump, droop } = before[k].travelRequirement;
            if (bump === null || droop === null) return;
            expect(travelRequirement.bump).toBeGreaterThanOrEqual(bump);
            expect(travelRequirement.droop).toBeLessThanOrEqual(droop);
            const there = before[k].damper;
            if (there === null || damper === null) return;
            expect(damper.extendedLength).toBeGreaterThanOrEqual(there.extendedLength);
            expect(damper.compressedLength).toBeLessThanOrEqual(there.compressedLength);
          });
        },
      ),
      { numRuns: 12 },
    );
  });

  it('take a load that was aboard the scales off again where it is not part of the state', () => {
    const axle = sizedFront(
      loaded(({ masses }) => {
        delete masses.estimate;
        masses.scales = {
          frontLeft: 190,
          frontRight: 180,
          rearLeft: 200,
          rearRight: 195,
          perches: 'reset',
          aboard: ['driver'],
        };
      }),
    );
    const [driver, two, empty] = axle.loadStates.map(({ sprungMass }) => sprungMass ?? 0);
    expectNear(driver, (190 + 180) / 2 - 30);
    expectNear(two - driver, (80 * 0.45) / 2);
    expectNear(driver - empty, (80 * 0.45) / 2);
  });

  it('are named on the sheet and in its data, with the one that lengths refer to', () => {
    const sizing = sizeCoilovers(readCar(loaded()));
    const text = sheetMarkdown(reportSheet(sizing));
    expect(text).toContain('## Load states');
    expect(text).toContain('all lengths mean the state "driver"');
    expect(text).toContain('two up: cornering over a bump');
    expect(sheetData(reportSheet(sizing))).toMatchObject({ designState: 'driver' });
    const unnamed = sizeCoilovers(readCar(loaded(({ masses }) => delete masses.designState)));
    expect(unnamed.designState).toBe('everything in added aboard');
    expect(unnamed.axles[0].loadStates).toHaveLength(4);
  });

  it('that ride on the bump stop, reach a limit or leave no mass are conflicts', () => {
    const codes = (mass: number) =>
      sizeCoilovers(
        readCar(
          loaded(({ masses }) => {
            masses.states[1].loads = [{ name: 'load', mass, frontFraction: 1 }];
          }),
        ),
      ).conflicts.map(({ code }) => code);
    expect(codes(100)).not.toContain('loadStateOnBumpStop');
    expect(codes(400)).toContain('loadStateOnBumpStop');
    expect(codes(3000)).toContain('loadStateOnLimit');
    const light = loaded(({ masses }) => {
      delete masses.estimate;
      masses.added[0].mass = 500;
      masses.scales = {
        frontLeft: 90,
        frontRight: 90,
        rearLeft: 90,
        rearRight: 90,
        perches: 'reset',
        aboard: ['driver'],
      };
    });
    expect(sizeCoilovers(readCar(light)).conflicts.map(({ code }) => code)).toContain('loadStateWithoutMass');
  });

  it('refer to loads and states by names that exist, each once', () => {
    const messageOf = (change: (masses: Json) => void) =>
      errorOf(() => readCar(loaded(({ masses }) => change(masses)))).message;
    expect(messageOf((masses) => (masses.designState = 'drivr'))).toContain(
      'masses.designState: no state of this name, got "drivr" (allowed: driver, two up, empty)',
    );
    expect(messageOf((masses) => (masses.states[0].loads = ['luggage']))).toContain(
      'masses.states[0].loads[0]: no added load of this name, got "luggage" (allowed: driver)',
    );
    expect(messageOf((masses) => (masses.states[2].name = 'driver'))).toContain(
      'masses.states[2].name: the same name twice',
    );
    expect(messageOf((masses) => (masses.states[0].loads = 'driver'))).toContain(
      'masses.states[0].loads: wrong kind of value',
    );
  });
});
