/** Wheel load and wheel rate, held by closed forms, differences, and motion in time that knows nothing of rates. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gasForceOf, inSeries } from '../../src/coilover/sizing/rates.ts';
import { restUnder, type ShockCurve, wheelAt } from '../../src/coilover/wheel.ts';
import type { CoiloverForce } from '../../src/corner/axial-force.ts';
import { circleCorner } from '../judges/circle-intersection.ts';
import { unlikeArms } from '../support/corners.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { car, carDocuments, cornerDocuments, front, frontState, GRAVITY, sized, valueIn } from './cars.ts';

const free = Number.POSITIVE_INFINITY;

describe('rates in series', () => {
  // Springs in series: 75,357 and 318,030 N/m make 60,922 (an example in a thread of eng-tips.com, 5 May 2013, read in a copy). Also Gillespie, ch. 5.
  it('30 and 200 N/mm make 26.087', () => {
    expectWithin(inSeries(75_357, 318_030), 60_922, 1);
    expectWithin(inSeries(30, 200), 26.086957, 1e-6);
  });
});

describe('gas', () => {
  it('pushes with its pressure on the area of the rod: 14 mm, 15 bar, 231 N', () => {
    expectWithin(gasForceOf({ shaftDiameter: 14, pressure: 15 }), Math.PI * 49 * 1.5, 1e-9);
    expect([gasForceOf({ force: 12 }), gasForceOf(undefined)]).toEqual([12, 0]);
  });
});

/** A level swing arm of length b from a pivot, its shock upright at c, length h as drawn: by travel z, sin(angle) = z / b. */
function swingArm(b: number, c: number, h: number): ShockCurve {
  const at = (z: number) => {
    const cosine = Math.sqrt(1 - (z / b) ** 2);
    // Shock from [c cos, c sin] to [c, h]: with dx = c (1 - cos), dy = h - c sin.
    const [dx, dy] = [c * (1 - cosine), h - (c * z) / b];
    const [dx1, dy1] = [(c * z) / (b * b * cosine), -c / b];
    const dx2 = c / (b * b * cosine ** 3);
    const length = Math.hypot(dx, dy);
    const first = (dx * dx1 + dy * dy1) / length;
    const second = (dx1 * dx1 + dx * dx2 + dy1 * dy1 - first * first) / length;
    return { length, ratio: -first, slope: -second };
  };
  return {
    at,
    droop: -0.9 * b,
    bump: 0.9 * b,
    patch: () => ({ y: b, rollCentreHeight: 0 }),
    eyes: () => ({ outer: [0, 0], inner: [0, 0] }),
  };
}

describe('the wheel', () => {
  // D. C. Barton, J. D. Fieldhouse, "Automotive Chassis Engineering", 2018, eqs 3.29-3.33 (seen): k_w = k_s (c/b)^2.
  it('on a lever sees 14.4 N/mm of 40 N/mm at 300 of 500 mm', () => {
    const arm = swingArm(500, 300, 400);
    const spring = { springs: [{ rate: 40, travel: free }] };
    // Without force the whole rate is spring.
    const { rate } = wheelAt(arm, { spring, loose: 400 + 1e-9, gasForce: 0, bumpStop: null }, 0);
    expectWithin(rate, 14.4, 1e-8);
  });

  // J. C. Dixon, "The Shock Absorber Handbook" (no copy could be reached; the product rule): k_w = k R^2 + F R'. Length, ratio and slope as in Meriam & Kraige,
  // "Dynamics", sample problems 5/17 and 5/18 (seen), turning the arm.
  it('sees force times change of ratio: 535,202.9 N mm/rad on the telescope of Meriam & Kraige', () => {
    const telescope: ShockCurve = {
      ...swingArm(1, 1, 1),
      at: () => ({ length: 225 * Math.SQRT2, ratio: 225 / Math.SQRT2, slope: -675 / (2 * Math.SQRT2) }),
    };
    const spring = { springs: [{ rate: 40, travel: free }] };
    const { rate, geometricRateFraction, load } = wheelAt(
      telescope,
      { spring, loose: 225 * Math.SQRT2 + 50, gasForce: 0, bumpStop: null },
      0,
    );
    const moment = (2000 * 225) / Math.SQRT2;
    expectWithin(load, moment, 1e-6);
    expectWithin(rate, 535_202.923, 0.001);
    expectWithin(geometricRateFraction * rate, -2000 * 238.648539, 0.001);
  });

  it('comes to rest on a swing arm where the closed form says', () => {
    const [b, c, h] = [500, 300, 400];
    const arm = swingArm(b, c, h);
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 80, noNaN: true }),
        fc.double({ min: -150, max: 150, noNaN: true }),
        (k, travel) => {
          const coilover = {
            spring: { springs: [{ rate: k, travel: free }] },
            loose: 600,
            gasForce: 100,
            bumpStop: null,
          };
          // With alpha the arm's angle, T the top: the load at the wheel from the moment of the force about the pivot.
          const angle = Math.asin(travel / b);
          const [dx, dy] = [c - c * Math.cos(angle), h - c * Math.sin(angle)];
          const length = Math.hypot(dx, dy);
          const F = k * (600 - length) + 100;
          const moment = (F / length) * (c * Math.cos(angle) * dy - c * Math.sin(angle) * dx);
          const load = moment / (b * Math.cos(angle));
          expectClose(wheelAt(arm, coilover, travel).load, load, { times: 64, scale: Math.abs(load) + 1000 });
          if (wheelAt(arm, coilover, travel).rate < 0.5) return;
          const rest = restUnder(arm, coilover, load, { droop: -200, bump: 200 });
          expect(rest.state).toBe('onSpring');
          expectWithin(rest.travel, travel, 1e-8);
        },
      ),
    );
  });

  it('stands on an end where the coilover gives too little, or too much', () => {
    const coilover = {
      spring: { springs: [{ rate: 40, travel: free }] },
      loose: 450,
      gasForce: 0,
      bumpStop: null,
    };
    const ends = { droop: -50, bump: 50 };
    expect(restUnder(swingArm(500, 300, 400), coilover, 1e5, ends)).toEqual({
      travel: 50,
      state: 'bumpLimit',
    });
    expect(restUnder(swingArm(500, 300, 400), coilover, 0, ends)).toEqual({
      travel: -50,
      state: 'droopLimit',
    });
  });

  it('finds the load on the way, though the shock is past its dead point at the end of the travel', () => {
    // A shock that shortens to 60 mm of travel and lengthens from there.
    const past: ShockCurve = {
      ...swingArm(1, 1, 1),
      at: (z) => ({ length: 300 + (z - 60) ** 2 / 200, ratio: (60 - z) / 100, slope: -1 / 100 }),
    };
    const coilover: CoiloverForce = {
      spring: { springs: [{ rate: 100, travel: free }] },
      loose: 330,
      gasForce: 0,
      bumpStop: null,
    };
    const load = wheelAt(past, coilover, 10).load;
    const rest = restUnder(past, coilover, load, { droop: -10, bump: 200 });
    expect(rest.state).toBe('onSpring');
    expectWithin(rest.travel, 10, 1e-9);
  });
});

const share = fc.double({ min: -1, max: 1, noNaN: true });
const RUNS = { numRuns: 40 };

describe('on corners of every kind', () => {
  it('the load is force by ratio, and the rate its slope, with helper, stop and gas', () => {
    let seen = 0;
    fc.assert(
      fc.property(carDocuments, share, (document, s) => {
        const { shock, coilover, ends } = frontState(document);
        if (coilover === null) return;
        const travel = 0.9 * s * (s > 0 ? Math.min(120, ends.bump) : -Math.max(-120, ends.droop));
        const h = 1e-3;
        const at = (z: number) => wheelAt(shock, coilover, z);
        const [here, up, down] = [at(travel), at(travel + h), at(travel - h)];
        expectClose(here.load, here.force * here.ratio, { times: 2, scale: Math.abs(here.load) });
        // Where springs shut, come loose, or the stop is touched between the three, the slope jumps.
        const soft =
          (Math.abs(up.rate - here.rate) + Math.abs(down.rate - here.rate)) / (1 + Math.abs(here.rate));
        if (soft > 1e-3) return;
        seen++;
        const slope = (up.load - down.load) / (2 * h);
        expectWithin(here.rate, slope, 1e-5 * (1 + Math.abs(here.rate) + Math.abs(here.force) * 1e-2));
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(RUNS.numRuns / 4);
  });

  it('the wanted spring gives the wanted frequency back, or the wanted wheel rate', () => {
    let seen = 0;
    fc.assert(
      fc.property(carDocuments, (document) => {
        const { given, atRest, rest, mass, required } = frontState(document);
        const { target, tyreRate, perch } = given.sizing;
        if (atRest === null || mass === null || rest === null || perch?.setting !== undefined) return;
        seen++;
        const springless = Math.abs(atRest.force) + 1;
        expectWithin(rest.travel, 0, 1e-7 * springless);
        expectWithin(atRest.rate, required.wheelRate ?? Number.NaN, 1e-8 * springless);
        if (target?.frequency === undefined) return;
        const k = target.withTyre === true ? inSeries(atRest.rate, tyreRate ?? Number.NaN) : atRest.rate;
        expectWithin(
          Math.sqrt((k * 1000) / mass.sprung) / 2 / Math.PI,
          target.frequency,
          1e-8 * target.frequency,
        );
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(RUNS.numRuns / 8);
  });

  it('the ride frequency is that of the motion in time, by energy alone', () => {
    let seen = 0;
    fc.assert(
      fc.property(unlikeArms, fc.double({ min: 1, max: 2.5, noNaN: true }), (drawn, frequency) => {
        const { axles } = sized((document) => {
          const { front: corner } = document.corners;
          document.corners = { front: { ...drawn, sizing: { ...corner.sizing, target: { frequency } } } };
          delete document.corners.front.sizing.bumpStopTable;
        });
        const f = axles[0].figure('frequency').value;
        const { spring } = axles[0];
        if (f === null || spring === null) return;
        const m = valueIn(axles[0], 'sprungMass');
        const judge = circleCorner(drawn);
        const length = (z: number) => judge.atTravel(z)?.shockLength ?? Number.NaN;
        const L0 = length(0);
        const pressed = valueIn(axles[0], 'staticSpringCompression');
        // Energy by travel, N mm: spring, gas, height.
        const V = (z: number) => {
          const L = length(z);
          return (spring.rate * (pressed + L0 - L) ** 2) / 2 - 150 * L - m * GRAVITY * z;
        };
        // Five points for V', then a quarter of a swing from rest, in steps of a 200th of a period (leapfrog); mm, s, N = kg m/s^2.
        const d = 0.05;
        const force = (z: number) => -(V(z - 2 * d) - 8 * V(z - d) + 8 * V(z + d) - V(z + 2 * d)) / (12 * d);
        const [start, dt] = [0.2, 1 / (200 * f)];
        let [z, v, t] = [start, 0, 0];
        let before = z;
        v = (0.5 * dt * force(z) * 1000) / m;
        while (z > 0 && t < 2 / f) {
          before = z;
          z += v * dt;
          v += (dt * force(z) * 1000) / m;
          t += dt;
        }
        // A quarter of a period, where it crosses its place of rest. Leapfrog is right to (w dt)^2 / 24, 4e-5; the swing of 0.2 mm
        // and the differences leave as much again.
        const quarter = t - (dt * -z) / (before - z);
        seen++;
        expectWithin(1 / (4 * quarter) / f, 1, 3e-3);
      }),
      { numRuns: 15 },
    );
    expect(seen).toBeGreaterThan(5);
  });

  it('a perch moved by p lifts the car by p k R / k_w', () => {
    let seen = 0;
    fc.assert(
      fc.property(cornerDocuments, (drawn) => {
        const { shock, coilover, atRest, mass, ends } = frontState(
          car((document) => {
            const { sizing } = document.corners.front;
            document.corners = {
              front: {
                ...drawn,
                sizing: { ...sizing, springs: [{ name: 'S', rate: 40, freeLength: 2000, solidLength: 1 }] },
              },
            };
          }),
        );
        if (coilover === null || atRest === null || mass === null || atRest.rate < 3) return;
        seen++;
        const p = 1e-4;
        const rest = (by: number) =>
          restUnder(shock, { ...coilover, loose: coilover.loose + by }, mass.sprung * GRAVITY, ends).travel;
        const k = coilover.spring.springs[0].rate;
        const slope = (rest(p) - rest(-p)) / (2 * p);
        expectWithin(slope, (-k * atRest.ratio) / atRest.rate, 1e-5 * (1 + Math.abs(slope)));
      }),
      RUNS,
    );
    expect(seen).toBeGreaterThan(5);
  });
});

describe('the sheet', () => {
  it('preload does not change the rate, and below zero it is a gap, not an error', () => {
    const one = (extendedLength: number) =>
      front((corner) => {
        corner.limits.damper.extendedLength = extendedLength;
      });
    const [short, long] = [one(460), one(700)];
    expect(valueIn(long, 'preload')).toBeLessThan(0);
    expect(valueIn(long, 'preloadForce')).toBe(0);
    expectClose(valueIn(long, 'preload'), valueIn(short, 'preload') - 240, { times: 64, scale: 700 });
    expect(valueIn(long, 'wheelRate')).toBe(valueIn(short, 'wheelRate'));
  });

  it('a turn of the perch is its pitch by that law', () => {
    const axle = front((corner) => {
      corner.sizing.perch = { threadPitch: 1.5 };
    });
    const expected =
      (1.5 * valueIn(axle, 'springRate') * valueIn(axle, 'installationRatio')) / valueIn(axle, 'wheelRate');
    expectClose(valueIn(axle, 'rideHeightPerTurn'), expected, { times: 16, scale: expected });
  });

  it('a spring that is asked for by its rate is fitted as it is', () => {
    const axle = front((corner) => {
      corner.sizing.target = { springRate: 43.21 };
    });
    expect(axle.spring?.rate).toBe(43.21);
    expectClose(valueIn(axle, 'wheelRate'), valueIn(axle, 'requiredWheelRate'), { times: 1e4, scale: 50 });
  });
});
