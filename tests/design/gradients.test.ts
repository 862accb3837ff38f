/** Exact derivatives of objectives and distances against central differences, and their values against public results. */
import * as fc from 'fast-check';
import { cornerForces, type Objective, sweep } from 'jounce';
import type { Drawing } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { modelOf } from '../../src/corner/corner.ts';
import { holdersOf } from '../../src/corner/limits/joints.ts';
import { armsOf } from '../../src/design/clearances.ts';
import { jointForce } from '../../src/design/joint-force.ts';
import { judgeOf } from '../../src/design/judge.ts';
import { checkDesign } from '../../src/design/options.ts';
import { forEachKind, runs } from '../corner/kinds.ts';
import type { Point } from '../judges/plane.ts';
import { STEPS, slopeOf } from '../support/differences.ts';
import { moved, standing } from '../support/standing.ts';
import { expectWithin, tolerance } from '../support/tolerance.ts';

/** A step, mm, and roundings of a figure in its own size. */
const H = 0.2;
const ROUNDING = tolerance({ times: 2 ** 14, scale: 1 });
/** Difference, as a share, that a sharp comparison would find. */
const SHARP = 1e-5;
const travel = { bump: 30, droop: 30, step: 15 };
const tyre: Point = [-800, 2500];

const plain: Objective[] = [
  { quantity: 'designRatio', target: 9 },
  { quantity: 'ratioChange', target: 9 },
  { quantity: 'minLength', target: 0 },
  { quantity: 'maxLength', target: 0 },
  { quantity: 'inclination', target: 200 },
  { quantity: 'strokeFraction', stroke: 80, target: 9 },
];

forEachKind((kind) => {
  describe(`judging a ${kind.name}`, () => {
    it('has exact derivatives, and values as sweep and cornerForces have them', () => {
      let [sharp, all] = [0, 0];
      fc.assert(
        fc.property(kind.inputs, (input) => {
          const corner = kind.corner(input);
          const model = modelOf(corner);
          const { points } = model.drawing;
          const swept = sweep(corner, travel);
          const ride = swept.at(0);
          fc.pre(swept.end.bump.status === 'reached' && swept.end.droop.status === 'reached');
          fc.pre((ride.installationRatio ?? 0) > 0.2);
          const names = Object.keys(points).filter((name) => !['wheelCentre', 'contactPatch'].includes(name));
          const box = ([y, z]: Point) => ({ y: [y - 5, y + 5], z: [z - 5, z + 5] }) as const;
          // A kind may have no arm beside its upright, and no joint between two moving parts.
          const toArms = Object.fromEntries(
            Object.keys(armsOf(model))
              .slice(0, 1)
              .map((arm) => [arm, 10]),
          );
          const [inner = model.shock.outer] = Object.keys(holdersOf(model));
          const joints = [inner, model.shock.outer];
          const objectives: Objective[] = [
            ...plain,
            { quantity: 'springRate', sprungMass: 150, frequency: 1.4, target: 0 },
            ...joints.map(
              (joint): Objective => ({ quantity: 'jointForce', joint, tyre, unsprungMass: 30, target: 0 }),
            ),
            {
              quantity: 'jointForce',
              joint: inner,
              tyre,
              unsprungMass: 30,
              station: 'bump',
              target: 0,
            },
          ];
          const checked = checkDesign(model, {
            mounts: Object.fromEntries(names.map((name) => [name, box(points[name])])),
            objectives,
            clearances: {
              mountToArm: toArms,
              springToArm: toArms,
              springToTyre: 10,
              spring: { diameter: 70, seatOffset: 50 },
              tyre: { overallRadius: 320, width: 200 },
            },
            travel,
          });
          const judge = judgeOf(checked);
          const x = checked.plan.coordinates.map(({ point, axis }) => points[point][axis]);
          const found = judge.assess(x);
          if (found === null) return expect.fail([...judge.refused.keys()].join());

          const R = ride.installationRatio ?? Number.NaN;
          const slope = ride.installationRatioSlope ?? Number.NaN;
          const length = swept.columns.shockLength;
          const last = length.length - 1;
          const [wheelRate, W] = [(150 * (2 * Math.PI * 1.4) ** 2) / 1000, 150 * 9.80665];
          const options = { sprungMass: 150, unsprungMass: 30, springRate: 40 };
          const [at0, atBump] = [0, 30].map((at) => {
            const { cases } = cornerForces(corner, {
              ...options,
              cases: [{ name: 'own', travel: at, tyre }],
            });
            const { on } = cases[cases.length - 1];
            return (joint: string) => {
              const body = Object.keys(on).find((name) => on[name][joint] !== undefined) as string;
              return Math.hypot(...(on[body][joint] as Point));
            };
          });
          const expected = [
            R,
            swept.columns.installationRatio[last] - swept.columns.installationRatio[0],
            Math.min(...length),
            Math.max(...length),
            ride.shockInclination,
            (Math.max(...length) - Math.min(...length)) / 80,
            (wheelRate - (W / R) * slope) / R ** 2,
            ...joints.map(at0),
            atBump(inner),
          ];
          found.values.forEach((value, k) => {
            expectWithin(value, expected[k], 1e-9 * (1 + Math.abs(expected[k])));
          });

          const figures = (one: typeof found) => [...one.deviations, ...one.constraints];
          const exact = figures(found);
          const way = x.map((_, i) => Math.cos(1 + 2 * i * i));
          const tried = STEPS.map((k) => judge.assess(x.map((at, i) => at + k * H * way[i])));
          if (tried.includes(null)) return;
          const values = tried.map((one) => figures(one as typeof found).map(({ value }) => value));
          exact.forEach(({ value, by }, k) => {
            const along = by.reduce((sum, rate, i) => sum + rate * way[i], 0);
            const rounding = ROUNDING * (Math.abs(value) + 100);
            const { slope: difference, trust } = slopeOf(
              values.map((row) => row[k]),
              H,
              rounding,
            );
            expectWithin(along, difference, trust);
            all++;
            if (trust < SHARP * (1 + Math.abs(difference))) sharp++;
          });
        }),
        runs(kind, 4),
      );
      expect(sharp / all).toBeGreaterThan(0.9);
    });
  });
});

/** A crank about O and a lever about Q, joined by what is named; the coilover stands on the crank, the ground pushes on the lever. */
const CRANK_AND_LEVER = {
  'a block of the lever in a slot of the crank': { sliders: { block: { point: 'P', on: ['A', 'T'] } } },
  'a telescope, square to the lever as drawn': {
    telescopes: { leg: ['T', 'P'] },
    fixedAngles: { square: ['leg', ['Q', 'P']] },
  },
  'a telescope at the eyes of the coilover': {
    telescopes: { leg: ['eye', 'A'] },
    fixedAngles: { kept: ['leg', 'lever'] },
  },
  'a rope over pulleys of different size': {
    ropes: {
      rope: [
        'E',
        { about: 'T', radius: 8, side: 'left' },
        { about: 'P', radius: 21, side: 'right' },
        { about: 'A', radius: 3, side: 'right' },
        'Q',
      ],
    },
  },
  gears: { ratios: { mesh: { of: [{ turn: 'lever' }, { turn: 'crank' }], ratio: -0.6 } } },
  'a rack of the crank, which turns the lever': {
    ratios: { rack: { of: [{ travel: 'P', along: ['A', 'T'] }, { turn: 'lever' }], ratio: 40 } },
  },
  'a distance that goes with a height': {
    ratios: { goes: { of: [{ length: ['T', 'P'] }, { y: 'P' }], ratio: 0.7 } },
  },
} as const satisfies Readonly<Record<string, Partial<Drawing>>>;

describe('the force in a joint of a crank and a lever', () => {
  const off = fc.integer({ min: -30, max: 30 });
  const place = ([y, z]: Point) => fc.tuple(off, off).map(([a, b]): Point => [y + a, z + b]);
  const points = fc.record({
    O: place([0, 0]),
    A: place([120, 60]),
    T: place([200, 220]),
    Q: place([520, 0]),
    P: place([380, 180]),
    W: place([480, 160]),
    E: place([80, 420]),
    eye: place([-150, 260]),
  });
  const force = fc.tuple(fc.integer({ min: -900, max: 900 }), fc.integer({ min: 1000, max: 3000 }));

  it.each(Object.entries(CRANK_AND_LEVER))('has exact derivatives: %s', (_, joints) => {
    let sharp = 0;
    let all = 0;
    fc.assert(
      fc.property(points, force, fc.constantFrom('A', 'P', 'O', 'Q'), (at, tyre, joint) => {
        const drawing: Drawing = {
          points: at,
          ground: ['O', 'Q', 'E', 'eye'],
          bodies: { crank: ['O', 'A', 'T'], lever: ['Q', 'P', 'W'] },
          ...joints,
        };
        const shock = { outer: 'A', inner: 'eye', foreAftOffset: 25 };
        const at0 = (one: Drawing) =>
          jointForce(
            { joint, tyre, unsprungMass: 20 },
            standing(one, { upright: 'lever', wheel: 'W', shock }),
          );
        const found = at0(drawing);
        fc.pre(found !== null && found.value > 1 && found.value < 1e5);
        found?.by.forEach((rate, k) => {
          const values = STEPS.map((step) => at0(moved(drawing, k, step * H))?.value ?? Number.NaN);
          const { slope, trust } = slopeOf(values, H, ROUNDING * (found.value + 1000));
          expectWithin(rate, slope, trust);
          all++;
          if (trust < SHARP * (1 + Math.abs(slope))) sharp++;
        });
      }),
      { numRuns: 20 },
    );
    expect(sharp / all).toBeGreaterThan(0.8);
  });
});
