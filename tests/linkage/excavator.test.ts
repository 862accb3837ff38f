/**
 * Three cylinders drive an excavator: its forces by moments about its pins and by cylinders drawn as bars, its poses by the law of
 * cosines and by a general constraint solver; and what drivers do to random linkages by virtual work.
 */
import { assert, constantFrom, double, pre, property } from 'fast-check';
import { drive, linkage, trace } from 'jounce/linkage';
import { forces, type Load } from 'jounce/statics';
import { beforeAll, describe, expect, it } from 'vitest';
import { freeBodies } from '../judges/free-bodies.ts';
import { loadPlanegcs, type PlanegcsModule } from '../judges/planegcs.ts';
import { planegcsPose } from '../judges/planegcs-lengths.ts';
import { linkages } from '../support/linkages.ts';
import { loosened } from '../support/loosened.ts';
import { distance } from '../support/motions.ts';
import { few } from '../support/runs.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

/** Boom, stick and bucket, in mm; the boom cylinder stands upright 600 from the boom's foot. */
const excavator = linkage({
  points: {
    foot: [0, 0],
    boomBase: [600, -900],
    boomEye: [600, 500],
    elbow: [4000, 2000],
    stickBase: [2800, 2600],
    stickEye: [4300, 2900],
    wrist: [6500, 500],
    bucketBase: [5200, 2100],
    bucketEye: [7000, 1000],
    tip: [7000, 0],
  },
  ground: ['foot', 'boomBase'],
  bodies: {
    boom: ['foot', 'boomEye', 'stickBase', 'elbow'],
    stick: ['elbow', 'stickEye', 'bucketBase', 'wrist'],
    bucket: ['wrist', 'bucketEye', 'tip'],
  },
});
const CYLINDERS = [
  ['boomBase', 'boomEye'],
  ['stickBase', 'stickEye'],
  ['bucketBase', 'bucketEye'],
] as const;
const lengths = CYLINDERS.map((length) => ({ length }));
/** 10 kN on the tip, N. */
const weight = [{ at: 'tip', on: 'bucket', force: [0, -10_000] }] as const;

type Pair = readonly [number, number];
const { points } = excavator;
const drawn = CYLINDERS.map(([a, b]) => distance(points[a], points[b]));

/** How far a line passes from a point, to the left of its way if positive. */
function arm([a, b]: readonly [Pair, Pair], about: Pair): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  return ((a[0] - about[0]) * dy - (a[1] - about[1]) * dx) / Math.hypot(dx, dy);
}

describe('the forces of an excavator', () => {
  const found = forces(excavator, weight, { drivers: lengths });

  it('are those of moments about its pins: 116 667 N in the boom cylinder', () => {
    // The load is 7000 from the foot, the cylinder 600.
    expectClose(found.drivers[0], 10_000 * (7000 / 600), { times: 2 ** 8, scale: 1e6 });
    for (const [k, pin] of [
      [1, 'elbow'],
      [2, 'wrist'],
    ] as const) {
      const [a, b] = CYLINDERS[k];
      const lever = arm([points[a], points[b]], points[pin]);
      expectClose(found.drivers[k], (10_000 * (7000 - points[pin][0])) / lever, {
        times: 2 ** 10,
        scale: 1e6,
      });
    }
    expect(found.residual).toBeLessThan(1e-8);
  });

  it('are those with its cylinders drawn as bars, on every body', () => {
    const bars = forces(
      {
        ...excavator,
        bodies: {
          ...excavator.bodies,
          boomRam: CYLINDERS[0],
          stickRam: CYLINDERS[1],
          bucketRam: CYLINDERS[2],
        },
      },
      weight,
    );
    for (const body of ['boom', 'stick', 'bucket']) {
      for (const [point, force] of Object.entries(bars.on[body])) {
        for (const k of [0, 1])
          expectClose(found.on[body][point]?.[k] ?? null, force?.[k] ?? Number.NaN, {
            times: 2 ** 12,
            scale: 1e6,
          });
      }
    }
    ['boomRam', 'stickRam', 'bucketRam'].forEach((name, k) => {
      const [a, b] = CYLINDERS[k];
      const [fx, fy] = bars.on[name][a] as Pair;
      const [dx, dy] = [points[b][0] - points[a][0], points[b][1] - points[a][1]];
      // A bar that is pressed pushes its ends apart.
      expectClose(found.drivers[k], (fx * dx + fy * dy) / drawn[k], { times: 2 ** 12, scale: 1e6 });
    });
    expectClose(found.ground.boomBase?.[1] ?? null, -10_000 * (7000 / 600), { times: 2 ** 10, scale: 1e6 });
  });

  it('are the same whether a cylinder drives or is held, and as a telescope', () => {
    const held = forces(excavator, weight, { driver: lengths[0], hold: lengths.slice(1) });
    expectSame([held.driver, ...held.hold], found.drivers);
    const telescopes = { ram: CYLINDERS[0] } as const;
    const ram = forces({ ...excavator, telescopes }, weight, { drivers: lengths });
    found.drivers.forEach((force, k) =>
      expectClose(ram.drivers[k], force as number, { times: 2 ** 12, scale: 1e6 }),
    );
    // Upright, and pressed: what the ground does to its foot.
    expectClose(ram.on.ram.boomBase?.[1] ?? null, 10_000 * (7000 / 600), { times: 2 ** 12, scale: 1e6 });
  });
});

describe('an excavator driven by its cylinders', () => {
  let gcs: PlanegcsModule;
  beforeAll(async () => {
    gcs = await loadPlanegcs();
  });
  const ways = [180, -250, 120];
  const targets = drawn.map((length, k) => length + ways[k]);
  const drivers = lengths.map((driver, k) => ({ driver, to: targets[k] }));

  it('has its boom where the triangle of cylinder, foot and eye puts it: law of cosines', () => {
    const motion = trace(excavator, { drivers });
    expectSame(motion.high.status, 'reached');
    const [base, eye] = [Math.hypot(600, 900), Math.hypot(600, 500)];
    const corner = (length: number) => Math.acos((base ** 2 + eye ** 2 - length ** 2) / (2 * base * eye));
    for (const u of [0.25, 0.5, 1]) {
      const turn = corner(drawn[0] + u * ways[0]) - corner(drawn[0]);
      expectClose(motion.read({ turn: 'boom' })(u).value, turn, { times: 2 ** 10, scale: 1 });
    }
  });

  it('has all points where a general constraint solver puts them', () => {
    const { drawing, shortfall } = drive(excavator, drivers);
    expectSame(shortfall, [0, 0, 0]);
    const pairs = Object.values(excavator.bodies).flatMap(([a, b, ...rest]): [string, string][] => [
      [a, b],
      ...rest.flatMap((name): [string, string][] => [
        [a, name],
        [b, name],
      ]),
    ]);
    const kept = pairs.map((between) => ({
      between,
      length: distance(points[between[0] as 'tip'], points[between[1] as 'tip']),
    }));
    const wanted = CYLINDERS.map((between, k) => ({ between, length: targets[k] }));
    const pose = planegcsPose(gcs, points, excavator.ground, [...kept, ...wanted]);
    for (const [name, place] of Object.entries(drawing.points)) {
      expectWithin(distance(place, pose[name]), 0, 1e-7);
    }
  });
});

describe('the forces of drivers in random linkages', () => {
  const number = double({ min: -1, max: 1, noNaN: true });

  it('do the work that the loads do, are those of free bodies, and of bars in their place', () => {
    assert(
      property(linkages, constantFrom(1, 2), number, number, number, ({ drawing }, count, x, y, moment) => {
        const { loose, lengths: bars, names } = loosened(drawing, count);
        pre(bars.every(({ length }) => length.every((name) => name in loose.points)));
        const measures = [{ turn: 'crank' }, ...bars];
        const [moving] = Object.keys(loose.points)
          .filter((name) => !loose.ground.includes(name))
          .slice(-1);
        const loads: Load[] = [
          { at: moving, force: [x, y] },
          { on: 'crank', moment: 100 * moment },
        ];
        const found = forces(loose, loads, { drivers: measures });
        const [values] = [found.drivers as number[]];
        const motion = trace(loose, {
          drivers: measures.map((driver, k) => ({
            driver,
            to: k === 0 ? 0.01 : distance(...ends(loose, bars[k - 1])) + 1,
          })),
        });
        const rate = (axis: 'x' | 'y') =>
          motion.read(axis === 'x' ? { x: moving } : { y: moving })(0).first ?? 0;
        const works = [x * rate('x'), y * rate('y'), moment, 0.01 * values[0], ...values.slice(1)];
        const size = works.reduce((sum, work) => sum + Math.abs(work), 1);
        expectWithin(
          works.reduce((sum, work) => sum + work, 0),
          0,
          1e-9 * size,
        );

        const judged = freeBodies(loose, loads, undefined, measures);
        const driver = { turn: 'crank' };
        const whole = forces(drawing, loads, { driver });
        const largest = Math.max(...values.map(Math.abs), 1);
        values.forEach((force, k) => expectWithin(judged.drivers[k], force, 1e-8 * largest));
        expectWithin(whole.driver, values[0], 1e-8 * largest);
        names.forEach((name, k) => {
          const [a, b] = bars[k].length;
          const [pa, pb] = ends(loose, bars[k]);
          const [fx, fy] = whole.on[name][a] as Pair;
          const along = (fx * (pb[0] - pa[0]) + fy * (pb[1] - pa[1])) / distance(pa, pb);
          expectWithin(along, values[k + 1], 1e-8 * largest);
          expect(whole.on[name][b]).not.toBeNull();
        });
      }),
      few(30),
    );
  });
});

function ends(
  { points: at }: { readonly points: Readonly<Record<string, readonly number[]>> },
  { length: [a, b] }: { readonly length: readonly [string, string] },
): [Pair, Pair] {
  return [at[a] as Pair, at[b] as Pair];
}
