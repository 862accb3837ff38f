/** The hand figure, what it is off by, and by which fault. */
import * as fc from 'fast-check';
import {
  doubleWishbone,
  HAND_METHOD_APPROXIMATIONS,
  type HandMethod,
  handMethod,
  InputError,
  sentence,
  sweep,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { wildCorners } from '../support/corners.ts';
import { deepFreeze } from '../support/freeze.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';

/** Level arms of equal length: the contact patch moves as the ball joint does. Mount at a share of the arm. */
function levelCorner(lean: number, share = 1, arm = 400) {
  const mount: [number, number] = [250 + share * arm, 150];
  const top: [number, number] = [mount[0] - 300 * Math.sin(lean), mount[1] + 300 * Math.cos(lean)];
  return doubleWishbone(
    deepFreeze({
      lowerArm: { inner: [250, 150], outer: [250 + arm, 150] },
      upperArm: { inner: [220, 360], outer: [220 + arm, 360] },
      wheel: { centre: [720, 310], contactPatch: [720, 0] },
      coilover: { on: 'lowerArm', mount, chassisMount: top },
    } as const),
  );
}

function defined(method: ReturnType<typeof handMethod>): HandMethod {
  if (!method.defined) expect.fail(sentence(method.reason));
  return method as HandMethod;
}

const DEGREE = Math.PI / 180;

describe('the hand figure', () => {
  it('on a level arm at 40 degrees of lean asks for a spring 23 % too soft (exact, computed here)', () => {
    const { estimate, ride } = defined(handMethod(levelCorner(40 * DEGREE)));
    expectWithin(estimate, Math.cos(40 * DEGREE), 1e-12);
    expectWithin(ride.exact, Math.cos(40 * DEGREE) ** 2, 1e-12);
    expectWithin(ride.error, Math.cos(40 * DEGREE) - 1, 1e-12);
    expectSame(Math.round(100 * ride.error), -23);
  });

  it('has a factor of 0.75 within 0.01 at 42 degrees (common practice, no source)', () => {
    expectWithin(defined(handMethod(levelCorner(42 * DEGREE))).factor, 0.75, 0.01);
  });

  // D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018, eqs 3.29-3.33 (seen): k_w = k_s (c/b)^2.
  it('is right for a level arm with an upright shock: 40 N/mm at 300 of 500 mm make 14.4 N/mm', () => {
    const { estimate, ride } = defined(handMethod(levelCorner(0, 0.6, 500)));
    expectWithin(40 * estimate, 14.4, 1e-12);
    expectWithin(40 * ride.exact, 14.4, 1e-11);
  });

  it('takes a factor that is given in place of the cosine', () => {
    expectWithin(
      defined(handMethod(levelCorner(0, 0.6, 500), { factor: 0.75 })).estimate,
      0.36 * 0.75,
      1e-12,
    );
  });

  it('is mended fault by fault: the shares multiply to exact by hand, at any travel', () => {
    fc.assert(
      fc.property(wildCorners, fc.double({ min: 80, max: 600, noNaN: true }), (input, sprungMass) => {
        const method = handMethod(doubleWishbone(input), {
          sprungMass,
          springRate: 40,
          travel: { bump: 30, droop: 30 },
        });
        fc.pre(method.defined);
        const { estimate, at, columns } = defined(method);
        for (const travel of [columns.travel[0], 0, columns.travel[columns.travel.length - 1]]) {
          const { exact, error, factors } = at(travel);
          const product = HAND_METHOD_APPROXIMATIONS.reduce((all, fault) => all * factors[fault], 1);
          expectWithin(product / (exact / estimate), 1, 1e-12);
          expectWithin(error, exact / estimate - 1, 1e-12);
        }
      }),
    );
  });

  it('stands beside the slope of the wheel load F R, by central differences of shock length alone', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const corner = doubleWishbone(input);
        const [sprungMass, springRate] = [250, 35];
        const method = handMethod(corner, { sprungMass, springRate, travel: { bump: 20, droop: 20 } });
        fc.pre(method.defined);
        const { ride } = defined(method);
        const curves = sweep(corner, { bump: 20, droop: 20, columns: ['shockLength', 'installationRatio'] });
        const h = 0.5;
        fc.pre(curves.end.bump.travel > 2 * h && curves.end.droop.travel < -2 * h);
        const length = (z: number) => curves.at(z).shockLength;
        const drawn = curves.at(0);
        const force0 = (sprungMass * 9.80665) / (drawn.installationRatio as number);
        // Work of the spring up to z: its slope is the wheel load, the slope of that the wheel rate.
        const work = (z: number) => {
          const x = drawn.shockLength - length(z);
          return force0 * x + 0.5 * springRate * x * x;
        };
        const rate = (work(h) - 2 * work(0) + work(-h)) / (h * h);
        expectWithin(springRate * ride.exact, rate, 1e-4 * springRate);
      }),
    );
  });

  it('without a mass stands beside the square of the ratio, and says so', () => {
    const corner = levelCorner(20 * DEGREE, 0.7);
    const { ride, geometricPart, diagnostics } = defined(handMethod(corner));
    const ratio = sweep(corner).at(0).installationRatio as number;
    expectWithin(ride.exact, ratio * ratio, 1e-15);
    expect(ride.factors.noGeometricPart).toBe(1);
    expect(geometricPart).toBe('noSprungMass');
    expect(sentence(diagnostics.at(-1)!)).toBe(
      'The exact value is the square of the ratio alone; the geometric part is left out: no sprung mass was given.',
    );
  });

  it('without a spring rate that could carry the mass stands beside the square of the ratio, and says why', () => {
    const corner = levelCorner(20 * DEGREE, 0.7);
    const { installationRatio: ratio, installationRatioSlope: slope } = sweep(corner).at(0);
    expect(slope).toBeGreaterThan(0);
    // k_s R^2 = m (2 pi f)^2 - F R': that spring comes to nothing where the wheel rate is what the slope alone gives.
    const none = Math.sqrt(((9.80665 / ratio!) * slope! * 1000) / (2 * Math.PI) ** 2);
    const cases = [
      ['noSpringRate', {}],
      ['noPositiveSpringRate', { frequency: none * (1 - 1e-9) }],
      ['included', { frequency: none * (1 + 1e-9) }],
    ] as const;
    for (const [because, options] of cases) {
      const { ride, geometricPart, springRate } = defined(
        handMethod(corner, { sprungMass: 250, ...options }),
      );
      expect(geometricPart).toBe(because);
      expect(springRate === undefined).toBe(because !== 'included');
      if (because !== 'included') expectWithin(ride.exact, ratio! * ratio!, 1e-15);
    }
  });

  it('has its figures in its diagnostics', () => {
    fc.assert(
      fc.property(wildCorners, (input) => {
        const corner = doubleWishbone(input);
        const loaded = { sprungMass: 300, springRate: 30 };
        for (const options of [{}, loaded]) {
          const method = handMethod(corner, { ...options, travel: { bump: 5, droop: 5 } });
          if (!method.defined) continue;
          const { estimate, ride, worst, geometricPart, diagnostics } = method;
          const [first, error, ...others] = diagnostics.map(({ code, values }) => ({ code, ...values }));
          expect(first).toEqual({ code: 'handMethodEstimate', estimate, exact: ride.exact });
          expect(error).toEqual({
            code: 'handMethodError',
            ride: ride.error,
            worst: worst.error,
            worstTravel: worst.travel,
          });
          // One pose is exact at the drawn ride height; the other factors make up the error there.
          const { onePose, ...factors } = ride.factors;
          expectWithin(onePose, 1, 1e-12);
          expect(others.slice(0, -1)).toEqual(
            Object.entries(factors).map(([approximation, factor]) => ({
              code: 'approximationError',
              approximation,
              error: factor - 1,
            })),
          );
          expect(others.at(-1)).toEqual(
            geometricPart === 'included'
              ? { code: 'geometricPartIncluded' }
              : { code: 'geometricPartLeftOut', because: geometricPart },
          );
        }
      }),
    );
  });

  it('takes the spring rate from a frequency: the wheel rate is then m (2 pi f)^2', () => {
    fc.assert(
      fc.property(wildCorners, fc.double({ min: 1.2, max: 2.5, noNaN: true }), (input, frequency) => {
        const method = handMethod(doubleWishbone(input), {
          sprungMass: 300,
          frequency,
          travel: { bump: 5, droop: 5 },
        });
        fc.pre(method.defined && method.springRate !== undefined);
        const { ride, springRate } = defined(method);
        const wanted = (300 * (2 * Math.PI * frequency) ** 2) / 1000;
        expectWithin(((springRate as number) * ride.exact) / wanted, 1, 1e-12);
      }),
    );
  });

  it('is not defined for a coilover on the upright', () => {
    const corner = doubleWishbone({
      lowerArm: { inner: [250, 150], outer: [650, 150] },
      upperArm: { inner: [220, 360], outer: [620, 360] },
      wheel: { centre: [720, 310], camber: 0 },
      coilover: { on: 'upright', mount: [600, 200], chassisMount: [450, 560] },
    });
    const none = handMethod(corner);
    if (none.defined) expect.fail('defined');
    expect(sentence(none.reason)).toBe(
      'The coilover is on the upright, and the hand method takes a ratio along one arm.',
    );
  });

  it('refuses what cannot be, all of it at once', () => {
    expect(() => handMethod(levelCorner(0), { sprungMass: -1, springRate: 30, frequency: 1.5 })).toThrow(
      [
        'invalid hand method options',
        '  sprungMass: out of range, got -1 (allowed: a number greater than 0)',
        '  frequency: given beside springRate, from which it follows; take one of the two out',
      ].join('\n'),
    );
    expect(() => handMethod(levelCorner(0), { factor: Number.NaN })).toThrow(InputError);
  });
});
