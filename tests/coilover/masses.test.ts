/** What each wheel carries. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carMasses, type MassesInput } from '../../src/coilover/masses.ts';
import { worded } from '../../src/sentences/worded.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { sized, valueIn } from './cars.ts';

const POUND = 0.45359237;
const share = fc.double({ min: 0, max: 1, noNaN: true });
const mass = fc.double({ min: 1, max: 1500, noNaN: true });
const spreads = fc.record({ name: fc.constant('x'), mass, frontFraction: share, leftFraction: share });
const of = (input: MassesInput) => {
  const { masses } = carMasses(input);
  if (masses === null) expect.fail('no masses');
  return masses;
};

describe('masses on the wheels', () => {
  it('of a car of 2400 lb with 55 % on the rear and even sides are 540 lb in front and 660 lb behind (common practice)', () => {
    const car = sized((document) => {
      document.masses = { estimate: { total: 2400 * POUND, frontFraction: 0.45 } };
    });
    expectWithin(valueIn(car.axles[0], 'leftWheelMass') / POUND, 540, 1e-9);
    expectWithin(valueIn(car.axles[1], 'rightWheelMass') / POUND, 660, 1e-9);
  });

  it('sum to the total, and lie as the shares say', () => {
    fc.assert(
      fc.property(
        fc.array(spreads, { minLength: 1, maxLength: 4 }),
        fc.array(spreads, { maxLength: 2 }),
        (parts, added) => {
          const { front, rear, total, frontFraction, leftFraction } = of({ parts, added });
          const all = [...parts, ...added];
          const whole = all.reduce((sum, one) => sum + one.mass, 0);
          const inFront = all.reduce((sum, one) => sum + one.mass * one.frontFraction, 0);
          const left = all.reduce((sum, one) => sum + one.mass * one.leftFraction, 0);
          const roundings = { times: 64, scale: whole };
          expectClose(front.left + front.right + rear.left + rear.right, whole, roundings);
          expectClose(total, whole, roundings);
          expectClose(frontFraction * total, inFront, roundings);
          expectClose(leftFraction * total, left, roundings);
        },
      ),
    );
  });

  it('by scales are the readings, with what was added on top', () => {
    const scales = { frontLeft: 150, frontRight: 140, rearLeft: 180, rearRight: 170 };
    const { front, rear } = of({
      scales,
      added: [{ name: 'driver', mass: 80, frontFraction: 0.5, leftFraction: 0.75 }],
    });
    expect([front, rear]).toEqual([
      { left: 180, right: 150 },
      { left: 210, right: 180 },
    ]);
  });

  it('a car in parts weighs what its guess weighs', () => {
    const parts = [
      { name: 'a', mass: 300, frontFraction: 0.4 },
      { name: 'b', mass: 500, frontFraction: 0.6 },
    ];
    expect(of({ parts })).toEqual(of({ estimate: { total: 800, frontFraction: 0.525 } }));
  });

  it('with a share that is none are none, and the share is named', () => {
    const { masses, issues } = carMasses({
      parts: [{ name: 'a', mass: 1, frontFraction: 45, leftFraction: -0.1 }],
    });
    expect(masses).toBeNull();
    expect(issues.map(({ path }) => path)).toEqual(['parts[0].frontFraction', 'parts[0].leftFraction']);
    expect(worded(issues[0], 'metric').advice).toContain('0.45');
  });
});

describe('masses in pounds (common practice)', () => {
  it('13 lb lies between 5.8 and 6 kg, 4 lb between 1.8 and 2 kg', () => {
    const unit = { unsprungMass: 60, unitMass: { new: 4, replaced: 13 } };
    const { axles } = sized((document) => {
      document.units = 'imperial';
      document.masses = undefined;
      delete document.masses;
      delete document.downforce;
      document.corners = { front: { ...inches(document.corners.front), sizing: unit, limits: {} } };
    });
    const [mass, oldMass] = [4 * POUND, 13 * POUND];
    expect(oldMass > 5.8 && oldMass < 6 && mass > 1.8 && mass < 2).toBe(true);
    expectWithin(valueIn(axles[0], 'massSaving'), oldMass - mass, 1e-12);
  });
});

// biome-ignore lint/suspicious/noExplicitAny: a document
function inches(value: any): any {
  if (typeof value === 'number') return value / 25.4;
  if (Array.isArray(value)) return value.map(inches);
  if (typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [key, key === 'camber' ? inner : inches(inner)]),
  );
}
