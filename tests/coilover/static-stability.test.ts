/** Whether a corner stands: collapse, rest, and riding on the bump stop, held by closed forms, an independent corner and direct solves. */
import * as fc from 'fast-check';
import {
  customCorner,
  readCar,
  reportSheet,
  type Sizing,
  sentence,
  sheetMarkdown,
  sizeCoilovers,
} from 'jounce';
import { describe, expect, it } from 'vitest';
import { bareSpring } from '../../src/coilover/sizing/listed-springs.ts';
import { type AxleState, axleState } from '../../src/coilover/sizing/state.ts';
import { softestSpring } from '../../src/coilover/sizing/static-stability.ts';
import {
  collapseBetween,
  restUnder,
  type ShockCurve,
  shockCurve,
  wheelAt,
} from '../../src/coilover/wheel.ts';
import type { CoiloverForce } from '../../src/corner/axial-force.ts';
import { modelOf } from '../../src/corner/corner.ts';
import { exampleText, type Json } from '../document/support.ts';
import { type CornerInput, circleCorner } from '../judges/circle-intersection.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';
import { car, carDocuments, front, frontState, GRAVITY, sized, valueIn } from './cars.ts';

const free = Number.POSITIVE_INFINITY;
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Findings and notes of a code. */
const coded = ({ conflicts, checks }: Sizing, code: string) =>
  [...conflicts, ...checks].filter((one) => one.code === code);
const valuesOf = (sizing: Sizing, code: string): Record<string, number> => {
  const [one] = coded(sizing, code);
  if (one?.values === undefined) expect.fail(`no ${code}`);
  return one.values as Record<string, number>;
};

/**
 * A wheel that goes straight up and down, its shock leaning outboard: top a outboard of the foot and h above it. By u = h - z, L = sqrt(a^2 +
 * u^2) and a spring of free length L0 the load is W = k (L0 / L - 1) u, as of one bar of the truss of R. von Mises ("Ueber die
 * Stabilitaetsprobleme der Elastizitaetstheorie", ZAMM 3, 1923; its place as Bazant & Cedolin, eq. 4.4.5, read at pont.ist). It peaks at L^3 = L0 a^2 with k (L0^(2/3) - a^(2/3))^(3/2).
 */
function truss(a: number, h: number): ShockCurve {
  return {
    at(z) {
      const u = h - z;
      const length = Math.hypot(a, u);
      return { length, ratio: u / length, slope: -(a * a) / length ** 3 };
    },
    droop: -h,
    bump: h,
    patch: () => ({ y: 700, rollCentreHeight: 0 }),
    eyes: () => ({ outer: [0, 0], inner: [0, 0] }),
  };
}
const peakTravel = (a: number, h: number, L0: number) => h - Math.sqrt((L0 * a * a) ** (2 / 3) - a * a);
const peakLoad = (k: number, a: number, L0: number) => k * (L0 ** (2 / 3) - a ** (2 / 3)) ** 1.5;

const springOf = (rate: number, loose: number, more: Partial<CoiloverForce> = {}): CoiloverForce => ({
  spring: { springs: [{ rate, travel: free }] },
  loose,
  gasForce: 0,
  bumpStop: null,
  ...more,
});

describe('a shock that leans outboard', () => {
  const trusses = fc
    .record({ a: double(60, 250), h: double(200, 400), k: double(15, 80), pressed: double(0.05, 0.3) })
    .map(({ a, h, k, pressed }) => ({ a, h, k, L0: Math.hypot(a, h) * (1 + pressed) }))
    .filter(({ a, h, L0 }) => peakTravel(a, h, L0) > 5);

  it('collapses where the truss of von Mises snaps through, at its load', () => {
    fc.assert(
      fc.property(trusses, ({ a, h, k, L0 }) => {
        const found = collapseBetween(truss(a, h), springOf(k, L0), 0, 0.999 * h);
        expect([found?.side, found?.standsAgain, found?.comesTo]).toEqual(['bump', null, null]);
        expectWithin(found?.travel ?? null, peakTravel(a, h, L0), 1e-9);
        expectClose(found?.load ?? null, peakLoad(k, a, L0), { times: 1e3, scale: k * L0 });
      }),
    );
  });

  // A swing arm of length b from its pivot, level as drawn, its shock from c on the arm to T. With theta the angle of the arm, q = T_z - T_y
  // tan(theta) and z = b sin(theta), the load by moments about the pivot is W = (k c / b) (L0 / L - 1) q. dW/dtheta = 0 is linear in L0:
  // L0 = X / (X / L - c cos(theta) q^2 / L^3), X = T_y / cos(theta)^2.
  it('collapses on a swing arm where the moments about its pivot say', () => {
    let seen = 0;
    const [b, y0] = [450, 250];
    const arms = fc.record({
      c: double(200, 400),
      out: double(60, 200),
      up: double(180, 320),
      z: double(10, 90),
    });
    fc.assert(
      fc.property(arms, ({ c, out, up, z }) => {
        const [Ty, Tz] = [c + out, up];
        const judge = (travel: number) => {
          const theta = Math.asin(travel / b);
          const [cos, q] = [Math.cos(theta), Tz - Ty * Math.tan(theta)];
          const L = Math.hypot(Ty - c * cos, Tz - c * Math.sin(theta));
          const X = Ty / cos ** 2;
          return {
            L0: X / (X / L - (c * cos * q * q) / L ** 3),
            load: (L0: number) => (c / b) * (L0 / L - 1) * q,
          };
        };
        const { L0, load } = judge(z);
        // Up to there it stands: L0 / L falls short of what collapses, and no spring is pulled out.
        const travels = Array.from({ length: 40 }, (_, k) => (z * k) / 40);
        const stands = (at: number) => {
          const there = judge(at);
          return there.load(L0) > 1e-3 && there.load(L0) < load(L0) && there.L0 > L0 + 1e-6;
        };
        if (!(L0 > 0) || !travels.every(stands)) return;
        seen++;
        const shock = shockCurve(
          modelOf(
            customCorner({
              drawing: {
                points: {
                  pivot: [y0, 0],
                  top: [y0 + Ty, Tz],
                  foot: [y0 + c, 0],
                  patch: [y0 + b, 0],
                  hub: [y0 + b, 300],
                },
                ground: ['pivot', 'top'],
                bodies: { arm: ['pivot', 'foot', 'patch', 'hub'] },
              },
              upright: 'arm',
              wheelCentre: 'hub',
              contactPatch: 'patch',
              shock: { outer: 'foot', inner: 'top' },
            }),
          ),
          150,
          150,
        );
        const found = collapseBetween(shock, springOf(30, L0), 0, 140);
        expectWithin(found?.travel ?? null, z, 1e-9);
        expectWithin(found?.load ?? null, 30 * load(L0), 1e-8);
      }),
      { numRuns: 100 },
    );
    expect(seen).toBeGreaterThan(20);
  });

  it('rests before the peak under less than its load, and goes to the end under more', () => {
    fc.assert(
      fc.property(trusses, double(1e-9, 0.2), ({ a, h, k, L0 }, share) => {
        const ends = { droop: -h, bump: 0.999 * h };
        const most = peakLoad(k, a, L0);
        const under = restUnder(truss(a, h), springOf(k, L0), most * (1 - share), ends);
        expect(under.state).toBe('onSpring');
        expect(under.travel).toBeLessThan(peakTravel(a, h, L0));
        expectClose(wheelAt(truss(a, h), springOf(k, L0), under.travel).load, most * (1 - share), {
          times: 1e3,
          scale: k * L0,
        });
        expect(wheelAt(truss(a, h), springOf(k, L0), under.travel).rate).toBeGreaterThan(0);
        const over = restUnder(truss(a, h), springOf(k, L0), most * (1 + share), ends);
        expect(over).toEqual({ travel: ends.bump, state: 'bumpLimit' });
      }),
    );
  });

  it('says from where a bump stop holds it again, and where it lands', () => {
    fc.assert(
      fc.property(trusses, double(1, 40), double(200, 600), ({ a, h, k, L0 }, on, stiffness) => {
        const shock = truss(a, h);
        const [peak, touched] = [peakTravel(a, h, L0), peakTravel(a, h, L0) + on];
        if (touched > 0.8 * h) return;
        const contact = shock.at(touched).length;
        const coilover = springOf(k, L0, { bumpStop: { contact, table: [[100, 100 * stiffness]] } });
        const found = collapseBetween(shock, coilover, 0, 0.999 * h);
        expectWithin(found?.travel ?? null, peak, 1e-9);
        // Spring and stop as one truss: force (k + c) (M - L), M their weighted free length.
        const both = k + stiffness;
        const M = (k * L0 + stiffness * contact) / both;
        // Pushed on at once, the stop makes the rate positive at contact; else at no place before the end.
        if (peakTravel(a, h, M) <= touched) return;
        expectWithin(found?.standsAgain ?? null, touched, 1e-9);
        const most = peakLoad(k, a, L0);
        const comesTo = found?.comesTo ?? null;
        const again = peakLoad(both, a, M);
        // A tie is left out.
        if (Math.abs(again - most) < 1e-6 * most) return;
        if (again < most) {
          expect(comesTo).toBeNull();
          return;
        }
        const u = h - (comesTo ?? Number.NaN);
        expectClose(both * (M / Math.hypot(a, u) - 1) * u, most, { times: 1e5, scale: both * M });
      }),
    );
  });

  it('without load rests where the spring comes loose', () => {
    fc.assert(
      fc.property(trusses, ({ a, h, k, L0 }) => {
        const rest = restUnder(truss(a, h), springOf(k, L0), 0, { droop: -h, bump: 0.9 * h });
        expect(rest.state).toBe('onSpring');
        expectWithin(rest.travel, h - Math.sqrt(L0 * L0 - a * a), 1e-9);
      }),
    );
  });

  it('balanced on a falling rate it sinks, whatever the sign of a rounding error', () => {
    const [a, h, k, L0] = [250, 150, 30, 450];
    expect(peakTravel(a, h, L0)).toBeLessThan(0);
    const { load } = wheelAt(truss(a, h), springOf(k, L0), 0);
    for (const roundings of [-8, -1, 0, 1, 8]) {
      const near = load * (1 + roundings * Number.EPSILON);
      const rest = restUnder(truss(a, h), springOf(k, L0), near, { droop: -80, bump: 80 });
      expect(rest).toEqual({ travel: 80, state: 'bumpLimit' });
    }
  });

  it('through the whole sizing: softest spring W a² / u³, and the peak of the truss', () => {
    const [a, h] = [150, 260];
    const corner = customCorner({
      drawing: {
        points: {
          low: [600, 0],
          high: [600, 900],
          foot: [600, 200],
          slide: [600, 500],
          top: [600 + a, 200 + h],
          hub: [700, 312],
          patch: [700, 0],
        },
        ground: ['low', 'high', 'top'],
        bodies: { upright: ['foot', 'slide', 'hub', 'patch'] },
        sliders: {
          one: { point: 'foot', on: ['low', 'high'] },
          two: { point: 'slide', on: ['low', 'high'] },
        },
      },
      upright: 'upright',
      wheelCentre: 'hub',
      contactPatch: 'patch',
      shock: { outer: 'foot', inner: 'top' },
    });
    const sizedWith = (springRate: number) => {
      const read = readCar(
        car((document) => {
          document.corners.front.sizing = { unsprungMass: 30, target: { springRate } };
          document.corners.front.limits = { damper: { extendedLength: 340, compressedLength: 180 } };
          document.corners.rear = document.corners.front;
        }),
      );
      const { front } = read.corners;
      return sizeCoilovers({
        ...read,
        corners: { front: { ...front, corner: corner as unknown as typeof front.corner } },
      });
    };
    const length = Math.hypot(a, h);
    const W = valueIn(sizedWith(60).axles[0], 'sprungMass') * GRAVITY;
    const softest = (W * a * a) / h ** 3;
    const soft = sizedWith(0.9 * softest);
    expectWithin(valuesOf(soft, 'wheelRateNotPositive').softestSpring, softest, 1e-9);
    expect(soft.axles[0].figure('wheelRate').value).toBeNull();
    for (const k of [1.1 * softest, 1.3 * softest]) {
      const L0 = length + (W * length) / h / k;
      const stands = sizedWith(k);
      expect(coded(stands, 'wheelRateNotPositive')).toEqual([]);
      const { travel, load } = valuesOf(stands, 'wheelRateReachesZero');
      expectWithin(travel, peakTravel(a, h, L0), 1e-9);
      expectWithin(load, peakLoad(k, a, L0), 1e-8);
    }
  });
});

/** An outboard-leaning coilover on the lower arm of the README's corner. */
const drawn = (mount: [number, number], chassisMount: [number, number]) => ({
  lowerArm: { inner: [255, 165] as [number, number], outer: [640, 150] as [number, number] },
  upperArm: { inner: [310, 355] as [number, number], outer: [600, 375] as [number, number] },
  wheel: { centre: [705, 312] as [number, number], camber: -0.5 },
  coilover: { on: 'lowerArm' as const, mount, chassisMount },
});
const leaning = (
  corner: ReturnType<typeof drawn>,
  target: object,
  limits: object = { damper: { extendedLength: 340, compressedLength: 270 } },
  sizing: object = {},
) =>
  sizeCoilovers(
    readCar({
      units: 'metric',
      masses: { estimate: { total: 900, frontFraction: 0.5 } },
      corners: { front: { ...corner, limits, sizing: { unsprungMass: 30, target, ...sizing } } },
    }),
  );
/** Sprung load of such a corner, N: 225 kg on the wheel. */
const LOAD = 195 * GRAVITY;

/** Load and rate of a spring by the independent corner: rate N/mm, its length when just loose. */
function judged(input: CornerInput, k: number, loose: number) {
  const pose = circleCorner(input);
  return (z: number) => {
    const at = pose.atTravel(z);
    const [R, slope] = [at?.installationRatio ?? Number.NaN, at?.installationRatioSlope ?? Number.NaN];
    const F = k * (loose - (at?.shockLength ?? Number.NaN));
    return { load: F * R, rate: k * R * R + F * slope };
  };
}
/** The same with the perch set for ride height under LOAD. */
function atRide(input: CornerInput, k: number) {
  const at = circleCorner(input).atTravel(0);
  const [L, R] = [at?.shockLength ?? Number.NaN, at?.installationRatio ?? Number.NaN];
  return judged(input, k, L + LOAD / R / k);
}

describe('a wheel rate of 0 or less', () => {
  const flat = drawn([450, 170], [620, 430]);
  it.each([
    [15, -2.709],
    [25, -1.078],
  ])('with %d N/mm at ride height is a conflict, and nothing hangs on a rest that is none', (k, rate) => {
    const sizing = leaning(flat, { springRate: k });
    const values = valuesOf(sizing, 'wheelRateNotPositive');
    expectWithin(values.wheelRate, rate, 5e-4);
    expectWithin(values.wheelRate, atRide(flat, k)(0).rate, 1e-9);
    // The softest spring that stands, by the independent corner: its wheel rate is 0.
    expectWithin(atRide(flat, values.softestSpring)(0).rate, 0, 1e-9);
    const [axle] = sizing.axles;
    const none = [
      ...[
        'wheelRate',
        'frequency',
        'staticTravel',
        'staticAxialForce',
        'preload',
        'rollStiffness',
        'leftRightHeightDifference',
      ],
      ...['bumpTravelRequired', 'droopTravelRequired', 'bumpTravelMargin', 'droopTravelMargin'],
    ] as const;
    for (const name of none) expect([name, axle.figure(name).value]).toEqual([name, null]);
    expect([axle.travelRequirement.bump, axle.travelRequirement.droop, axle.travelRequirement.cases]).toEqual(
      [null, null, []],
    );
    expect(axle.rateTable.find(({ fitted }) => fitted)?.wheelRate).toBeLessThan(0);
    expect(sizing.conflicts).toHaveLength(1);
    expect(sizing.conflicts[0].values.atEnd).toBe(true);
    expect(axle.handMethodRate).toMatchObject({ code: 'requiredWheelRateNotPositive' });
    expect(sheetMarkdown(reportSheet(sizing))).toMatch(/wheel rate at ride height is not positive/i);
  });

  it('leaves a damper that is not given open', () => {
    const sizing = leaning(flat, { springRate: 15 }, {});
    expect(sizing.conflicts.map(({ code }) => code)).toEqual(['wheelRateNotPositive']);
    expect([sizing.axles[0].damper, sizing.axles[0].figure('extendedLength').value]).toEqual([null, null]);
    expect(sheetMarkdown(reportSheet(sizing))).toContain('not positive');
  });

  const tall = drawn([505, 170], [640, 440]);
  it('further up is a conflict with its travel: 69.6 mm of bump with 40 N/mm for 1 Hz', () => {
    const sizing = leaning(
      tall,
      { frequency: 1 },
      { damper: { extendedLength: 340, compressedLength: 250 } },
    );
    const { travel, load, ofStatic } = valuesOf(sizing, 'wheelRateReachesZero');
    expect(sizing.axles[0].spring?.rate).toBe(40);
    expectWithin(travel, 69.619, 5e-4);
    expectWithin(atRide(tall, 40)(travel).rate, 0, 1e-9);
    expectWithin(load, atRide(tall, 40)(travel).load, 1e-8);
    expectWithin(ofStatic, load / LOAD, 1e-12);
    // The load beside it is less, to both sides.
    for (const by of [-0.1, 0.1]) expect(atRide(tall, 40)(travel + by).load).toBeLessThan(load);
  });

  it('beyond the bump limit, but near, is a note', () => {
    const sizing = leaning(tall, { frequency: 1 });
    expect(sizing.conflicts).toEqual([]);
    const { travel, limit, beyond } = valuesOf(sizing, 'collapseBeyondLimit');
    expectWithin(travel, 69.619, 5e-4);
    expectClose(beyond, travel - limit, { times: 4, scale: travel });
  });

  it('names steady states beyond it: at top speed the load is more than the corner bears', () => {
    const pushed = (force: number) => {
      const document = {
        units: 'metric',
        masses: { estimate: { total: 900, frontFraction: 0.5 } },
        downforce: { speed: 100, force, frontFraction: 0.5 },
        corners: {
          front: {
            ...tall,
            limits: {
              damper: { extendedLength: 340, compressedLength: 250 },
              bumpStop: { height: 10, solidHeight: 4 },
            },
            sizing: {
              unsprungMass: 30,
              target: { frequency: 1 },
              bumpStopTable: [
                [3, 1000],
                [6, 5000],
              ],
            },
          },
        },
      };
      return sizeCoilovers(readCar(document));
    };
    const { load, standsAgain, comesTo } = valuesOf(pushed(100), 'wheelRateReachesZero');
    expect(comesTo).toBeGreaterThan(standsAgain);
    // A quarter of the downforce on this corner.
    const most = 4 * (load - LOAD);
    expect(coded(pushed(most - 1), 'collapsesWhenSteady')).toEqual([]);
    const over = valuesOf(pushed(most + 1), 'collapsesWhenSteady');
    expect(over.state).toBe('topSpeed');
    expect(over.travel).toBeGreaterThan(standsAgain);
  });

  it('with springs that are solid before they bear the weight there is no rest either', () => {
    const sizing = leaning(tall, { frequency: 1 }, undefined, {
      springs: [{ name: 'S', rate: 40, freeLength: 150, minLength: 110 }],
    });
    const { carries, springForce } = valuesOf(sizing, 'springSolidAtRide');
    expectWithin(carries, 1600, 1e-9);
    expectWithin(springForce, LOAD / valueIn(sizing.axles[0], 'installationRatio'), 1e-8);
  });

  it('with a perch that bears too little the wheel goes to the bump limit, with too much to the droop limit', () => {
    const perched = (setting: number) =>
      valuesOf(
        leaning(tall, { springRate: 40 }, undefined, {
          springs: [{ name: 'S', rate: 40, freeLength: 200, solidLength: 60 }],
          perch: { setting },
        }),
        'noRest',
      );
    const [low, high] = [perched(150), perched(240)];
    expect([low.side, high.side]).toEqual(['bump', 'droop']);
    expect(low.borne).toBeLessThan(LOAD);
    expect(high.borne).toBeGreaterThan(LOAD);
    expectWithin(low.load, LOAD, 1e-9);
  });

  it('names the main spring that just stands beside gas, stop and helper: at it the wheel rate is 0', () => {
    let [seen, withHelper] = [0, 0];
    fc.assert(
      fc.property(carDocuments, (document) => {
        const { given, shock, carried, settings, mass } = frontState(document);
        if (carried === null || mass === null) return;
        const rate = softestSpring({ given }, carried);
        if (rate === null || !(rate > 0.1)) return;
        seen++;
        if (given.sizing.helper !== undefined) withHelper++;
        const { perch: _, ...sizing } = given.sizing;
        const at = (share: number) => {
          const state = axleState({ ...given, sizing, sprungMass: mass.sprung }, null, shock, {
            ...settings,
            spring: bareSpring(rate * share),
          });
          return state.coilover === null ? Number.NaN : wheelAt(shock, state.coilover, 0).rate;
        };
        expectWithin(at(1), 0, 1e-6 * (1 + rate));
        expect(at(0.99)).toBeLessThan(0);
        expect(at(1.01)).toBeGreaterThan(0);
      }),
      { numRuns: 150 },
    );
    expect(seen).toBeGreaterThan(20);
    expect(withHelper).toBeGreaterThan(3);
  });
});

describe('riding on the bump stop', () => {
  it('in a steady corner and under braking: with a stop of 1.5 in the example’s front touches at 45.5 mm and would stand at 49.2 mm without it', () => {
    const document = JSON.parse(exampleText('car.json'));
    const { limits, sizing: given } = document.corners.front;
    limits.bumpStop.height = 1.5;
    given.bumpStopTable[3] = [1, 1100];
    const sizing = sizeCoilovers(readCar(document));
    const riding = coded(sizing, 'ridesOnBumpStop');
    expect(riding.map(({ path, values }) => [path, values?.state])).toEqual([
      ['corners.front.limits.bumpStop', 'corner'],
      ['corners.front.limits.bumpStop', 'braking'],
    ]);
    const { contact, travel, past, wheelRate, wheelRateBefore } = riding[0].values as Record<string, number>;
    expectWithin(contact, 45.517, 5e-4);
    expectWithin(travel, 49.189, 5e-4);
    expectClose(past, travel - contact, { times: 8, scale: 50 });
    // The curves of the sheet have the rate as a slope of the load.
    const { curves } = sizing.axles[0];
    const load = (z: number) => curves?.at(z).wheelLoad ?? Number.NaN;
    expectWithin(wheelRate, (load(travel + 1e-3) - load(travel - 1e-3)) / 2e-3, 1e-5);
    expectWithin(wheelRateBefore, (load(contact - 1e-4) - load(contact - 2e-4)) / 1e-4, 1e-3);
    expect(sentence(sizing.conflicts[0], 'imperial')).toMatch(
      /^The wheel rides on the bump stop in a steady corner, 0\.15 in past contact/,
    );
  });

  const stopAt = (height: number, change: (document: Json) => void = () => {}) =>
    sized((document) => {
      document.corners.front.limits.bumpStop = { height, solidHeight: 4 };
      document.corners.front.sizing.target = { springRate: 30 };
      document.corners.front.sizing.bumpStopTable = [[30, 1500]];
      change(document);
    });

  it('is no finding before the stop is touched, and names the first state of those that follow from one another', () => {
    const states = (sizing: Sizing) => coded(sizing, 'ridesOnBumpStop').map(({ values }) => values?.state);
    const quiet = stopAt(6);
    expect(states(quiet)).toEqual([]);
    const contact = (sizing: Sizing) =>
      sizing.axles[0].limits.events.find(({ side }) => side === 'bump')?.travel ?? 0;
    const [{ parts }] = quiet.axles[0].travelRequirement.cases;
    // A stop that is touched just before, or just after, the corner with its downforce.
    const corner = parts.downforce + parts.roll;
    const heights = [40, 50, 60, 70, 74, 76];
    for (const height of heights) {
      const sizing = stopAt(height);
      const riding = states(sizing);
      const touched = contact(sizing);
      if (touched > corner + 3) expect(riding).toEqual([]);
      if (touched > 0 && touched < corner - 3 && !riding.includes('topSpeed'))
        expect(riding).toContain('corner');
    }
    expect(states(stopAt(90))).toEqual(['rest']);
  });

  it('at rest counts from ride height also where the stop is pressed in there', () => {
    const { travel, contact, pressed, wheelRate } = valuesOf(stopAt(90), 'ridesOnBumpStop');
    expect([travel, contact < 0]).toEqual([0, true]);
    const installed = valueIn(stopAt(90).axles[0], 'designLength');
    expectWithin(pressed, 350 + 90 - installed, 1e-9);
    expectWithin(wheelRate, valueIn(stopAt(90).axles[0], 'wheelRate'), 1e-9);
  });

  it('has no rate where the forces of the stop are not known', () => {
    const sizing = stopAt(90, (document) => {
      delete document.corners.front.sizing.bumpStopTable;
    });
    expect(valuesOf(sizing, 'ridesOnBumpStop').wheelRate).toBeNull();
    expect(
      coded(sizing, 'ridesOnBumpStop')
        .map((one) => sentence(one))
        .join(),
    ).toContain('not known');
  });
});

describe('a turn of the perch', () => {
  const turned = (change: (corner: Json) => void) =>
    frontState(
      car((document) => {
        document.corners.front.sizing.perch = { threadPitch: 1.5 };
        change(document.corners.front);
      }),
    );
  /** Ride height gained by a mm of perch: a direct solve of where the wheel rests, by halves, with loads by moments of the curve alone. */
  const solved = ({ shock, coilover, mass }: ReturnType<typeof turned>) => {
    if (coilover === null || mass === null) return Number.NaN;
    const rest = (loose: number) => {
      let [low, high] = [-5, 5];
      for (let round = 0; round < 60; round++) {
        const middle = (low + high) / 2;
        const { load } = wheelAt(shock, { ...coilover, loose }, middle);
        if (load < mass.sprung * GRAVITY) low = middle;
        else high = middle;
      }
      return (low + high) / 2;
    };
    const p = 1e-3;
    return (rest(coilover.loose - p) - rest(coilover.loose + p)) / (2 * p);
  };
  const figure = (change: (corner: Json) => void) =>
    valueIn(
      front((corner) => {
        corner.sizing.perch = { threadPitch: 1.5 };
        change(corner);
      }),
      'rideHeightPerTurn',
    );

  it('is pitch times the direct solve; on the bump stop a fraction of it', () => {
    const onStop = (corner: Json) => {
      corner.limits.bumpStop = { height: 90, solidHeight: 10 };
      corner.sizing.target = { springRate: 30 };
      corner.sizing.bumpStopTable = [[40, 6000]];
      corner.limits.damper = { extendedLength: 475, compressedLength: 342 };
    };
    const off = (corner: Json) => {
      onStop(corner);
      corner.limits.bumpStop = { height: 40, solidHeight: 10 };
    };
    for (const change of [off, onStop]) {
      expectWithin(figure(change) / 1.5, solved(turned(change)), 1e-6);
    }
    // k_w with the stop, 150 N/mm beside a spring of 30 N/mm, and the coil's rate alone above it.
    expect(figure(off) / figure(onStop)).toBeGreaterThan(5);
  });

  it('with a tender at work counts both springs as one stack', () => {
    const stacked = (corner: Json) => {
      corner.sizing.target = { springRate: 60 };
      corner.sizing.helper = { rate: 90, freeLength: 120, solidLength: 20 };
    };
    expectWithin(figure(stacked) / 1.5, solved(turned(stacked)), 1e-6);
  });
});

describe('a spring that is loose at the droop limit', () => {
  const loose = (extendedLength: number, change: (front: Json) => void = () => {}) =>
    sized(({ corners }) => {
      corners.front.limits.damper.extendedLength = extendedLength;
      change(corners.front);
    });

  it('leaves no damping ratio there, and is a note with the gap', () => {
    const sizing = loose(500);
    const [axle] = sizing.axles;
    const { travel, gap, looseFrom } = valuesOf(sizing, 'springLooseAtDroop');
    expect(sizing.conflicts.filter(({ code }) => code === 'springLooseAtDroop')).toEqual([]);
    expect(axle.figure('dampingRatioAtDroop').value).toBeNull();
    expect(valueIn(axle, 'staticDampingRatio')).toBeGreaterThan(0);
    // The droop limit is the open damper: the gap is what the preload lacks.
    expectWithin(gap, -valueIn(axle, 'preload'), 1e-8);
    expect(travel).toBeLessThan(looseFrom);
    const load = (z: number) => axle.curves?.at(z).wheelRate ?? Number.NaN;
    // The rate drops where the spring comes loose: what is left is the gas.
    expect(load(looseFrom + 1e-3)).toBeGreaterThan(5);
    expect(Math.abs(load(looseFrom - 1e-3))).toBeLessThan(0.5);
    expect(axle.curves?.at(looseFrom - 1e-3).dampingRatio).toBeNull();
    expect(sheetMarkdown(reportSheet(sizing))).toContain('not defined at the droop limit');
  });

  it('is no matter where no damping is asked for', () => {
    const { axles, conflicts, checks } = loose(500, ({ sizing }) => delete sizing.damping);
    expect(valueIn(axles[0], 'preload')).toBeLessThan(0);
    expect([...conflicts, ...checks].map(({ code, path }) => `${code} ${path}`)).toEqual([
      'springLooseAtDroop corners.rear.sizing.damping',
    ]);
  });

  it('is none where the spring is kept seated', () => {
    const sizing = loose(460);
    expect(coded(sizing, 'springLooseAtDroop').filter(({ path }) => path.includes('front'))).toEqual([]);
    expect(valueIn(sizing.axles[0], 'dampingRatioAtDroop')).toBeGreaterThan(0);
  });
});

describe('the side that is lower', () => {
  /** Both wheels of an axle on their load curves and a bar of moment B (N mm/rad) x (z_l - z_r) / t, by Newton's method. */
  function bothWheels(state: AxleState, difference: number, bar: number) {
    const { shock, coilover, mass } = state;
    if (coilover === null || mass === null) return Number.NaN;
    const t = 2 * shock.patch(0).y;
    const own = (z: number) => wheelAt(shock, coilover, z);
    const W = mass.sprung * GRAVITY;
    let [l, r] = [0, 0];
    for (let round = 0; round < 30; round++) {
      const pull = ((bar / t) * (l - r)) / t;
      const [fl, fr] = [own(l).load + pull - W - difference / 2, own(r).load - pull - W + difference / 2];
      const c = bar / t ** 2;
      const [a, d] = [own(l).rate + c, own(r).rate + c];
      const det = a * d - c * c;
      [l, r] = [l - (d * fl + c * fr) / det, r - (c * fl + a * fr) / det];
    }
    return l - r;
  }
  const uneven = (share: number) => (document: Json) => {
    document.masses.estimate.leftFraction = 0.5 + share;
    document.corners.front.sizing.antiRollBarStiffness = 150;
  };

  it('is that of both wheels solved together, with and without the bar', () => {
    const share = 1e-6;
    const document = car(uneven(share));
    const [axle] = sized(uneven(share)).axles;
    const difference = 2 * share * 700 * 0.48 * GRAVITY;
    const bar = (150 * 1000 * 180) / Math.PI;
    const state = axleState(
      frontState(document).given,
      { left: valueIn(axle, 'leftWheelMass'), right: valueIn(axle, 'rightWheelMass') },
      frontState(document).shock,
      { spring: axle.spring, damper: { extendedLength: 475, compressedLength: 350 }, ends: null },
    );
    const [alone, held] = [bothWheels(state, difference, 0), bothWheels(state, difference, bar)];
    expectWithin(valueIn(axle, 'leftRightHeightDifference') / alone, 1, 1e-6);
    expectWithin(valueIn(axle, 'leftRightHeightDifferenceWithBar') / held, 1, 1e-6);
    expect(held / alone).toBeLessThan(0.8);
  });

  it('goes with the stiffness in roll: with a bar as the axle without it is stiffer', () => {
    const [axle] = sized(uneven(0.02)).axles;
    const [K, both] = [valueIn(axle, 'rollStiffness'), valueIn(axle, 'rollStiffnessWithBar')];
    const expected = (valueIn(axle, 'leftRightHeightDifference') * K) / both;
    expectClose(valueIn(axle, 'leftRightHeightDifferenceWithBar'), expected, {
      times: 64,
      scale: Math.abs(expected),
    });
  });
});
