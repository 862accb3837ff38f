/** Extremes, curves, transmission angles and mechanical advantage, against closed forms of the four-bar and against statics. */
import * as fc from 'fast-check';
import {
  type Drawing,
  InputError,
  linkage,
  type Measure,
  type Motion,
  type Point,
  trace,
} from 'jounce/linkage';
import { forces } from 'jounce/statics';
import {
  couplerCurve,
  extremeValues,
  mechanicalAdvantage,
  type Quantity,
  transmissionAngle,
} from 'jounce/synthesis';
import { describe, expect, it } from 'vitest';
import {
  type FourBar,
  fourBarAngles,
  transmissionAngle as lawOfCosines,
  rockerLimits,
} from '../judges/four-bar.ts';
import { fourBar, linkages, sixBars } from '../support/linkages.ts';
import { distance, drivers, placeAt, share, spread } from '../support/motions.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

const TURN = 2 * Math.PI;
/** Roundings of an angle of a four-bar in radians, and of a place of a flat extreme: its square root. */
const ANGLE = { times: 2 ** 12, scale: 1 };
const FLAT = 1e-6;

/** Crank-rockers by Grashof's rule, well off the change point. */
const crankRockers = fc
  .record({
    crank: fc.integer({ min: 20, max: 50 }),
    coupler: fc.integer({ min: 60, max: 150 }),
    rocker: fc.integer({ min: 60, max: 150 }),
    ground: fc.integer({ min: 60, max: 150 }),
  })
  .filter(({ crank, coupler, rocker, ground }) => {
    const [, q, r, l] = [crank, coupler, rocker, ground].sort((a, b) => a - b);
    return crank + l < 0.95 * (q + r);
  });

const turned = (bars: FourBar) => {
  const drawing = fourBar(bars, 1);
  return trace(drawing, { driver: { angle: ['A', 'B'] }, from: 1 - Math.PI, to: 1 + Math.PI });
};
/** The whole turns between two angles taken out. */
const sameTurn = (angle: number, near: number) => angle - TURN * Math.round((angle - near) / TURN);

const LINES = { coupler: ['B', 'C'], output: ['C', 'D'] } as const;

describe('extremes of a crank-rocker', () => {
  it('of the rocker are where crank and coupler lie in line, by the law of cosines', () => {
    fc.assert(
      fc.property(crankRockers, (bars) => {
        const { minimum, maximum, local } = extremeValues(turned(bars), { angle: ['D', 'C'] });
        const { extended, overlapped } = rockerLimits(bars);
        const found = [minimum, maximum].map((one) => one ?? expect.fail('no extreme'));
        // The rocker is farthest from the ground line with crank and coupler extended.
        for (const [one, expected] of [
          [found[0], extended],
          [found[1], overlapped],
        ] as const) {
          expectClose(one.value, expected.rocker, ANGLE);
          expectWithin(sameTurn(one.at, expected.crank), expected.crank, FLAT);
        }
        expectSame(local.map(({ kind }) => kind).sort(), ['maximum', 'minimum']);
      }),
      { numRuns: 50 },
    );
  });

  it('are the same round the whole loop, with no end', () => {
    fc.assert(
      fc.property(crankRockers, (bars) => {
        const motion = trace(fourBar(bars, 1));
        expectSame([motion.low.status, motion.high.status], ['closed', 'closed']);
        const { local } = extremeValues(motion, { angle: ['D', 'C'] });
        const { extended, overlapped } = rockerLimits(bars);
        expectSame(local.length, 2);
        for (const { kind, value } of local) {
          expectClose(value, (kind === 'minimum' ? extended : overlapped).rocker, ANGLE);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('of the transmission angle are where the crank lies along the ground', () => {
    fc.assert(
      fc.property(crankRockers, (bars) => {
        const { minimum, maximum } = extremeValues(turned(bars), { transmissionAngle: LINES });
        const found = [minimum, maximum].map((one) => one ?? expect.fail('no extreme'));
        for (const [k, crank] of [0, Math.PI].entries()) {
          expectClose(found[k].value, lawOfCosines(bars, crank), ANGLE);
          expectWithin(sameTurn(found[k].at, crank), crank, FLAT);
        }
      }),
      { numRuns: 50 },
    );
  });
});

describe('the transmission angle', () => {
  it('of a four-bar is that of the law of cosines, wherever the crank is', () => {
    fc.assert(
      fc.property(crankRockers, (bars) => {
        const motion = turned(bars);
        const read = transmissionAngle(motion, LINES);
        for (const crank of spread(motion, 13)) {
          expectClose(read(crank), lawOfCosines(bars, crank), ANGLE);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('of a slider-crank is square less the angle of the rod: sin = (e - r sin t) / l', () => {
    const [r, l, e] = [50, 140, 10];
    const [A, P]: Point[] = [
      [0, r],
      [Math.sqrt(l * l - (r - e) ** 2), e],
    ];
    const drawing = linkage({
      points: { O: [0, 0], A, P, near: [0, e], far: [300, e] },
      ground: ['O', 'near', 'far'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
      sliders: { piston: { point: 'P', on: ['near', 'far'] } },
    });
    const motion = trace(drawing, { driver: { angle: ['O', 'A'] }, from: 0, to: TURN });
    const slide = { coupler: ['A', 'P'], slide: ['near', 'far'] } as const;
    const read = transmissionAngle(motion, slide);
    for (const t of spread(motion, 25)) {
      const rod = Math.asin((e - r * Math.sin(t)) / l);
      expectClose(read(t), Math.abs(0.5 * Math.PI + rod), ANGLE);
    }
    const { minimum, maximum } = extremeValues(motion, { transmissionAngle: slide });
    expectClose(minimum?.value ?? null, 0.5 * Math.PI + Math.asin((e - r) / l), ANGLE);
    expectClose(maximum?.value ?? null, 0.5 * Math.PI + Math.asin((e + r) / l), ANGLE);
  });
});

describe('extremes of any quantity', () => {
  const quantities = fc.constantFrom<Quantity[]>(
    { x: 'Y0' },
    { y: 'X0' },
    { turn: 'first0' },
    { angle: ['O', 'X0'] },
    { length: ['O', 'X0'] },
    { x: 'Y0', relativeTo: 'crank' },
    { transmissionAngle: { coupler: ['O', 'X0'], output: ['X0', 'P0'] } },
    { transmissionAngle: { coupler: ['X0', 'P0'], slide: ['O', 'Y0'] } },
    { velocityRatio: { x: 'Y0' } },
    { velocityRatio: { turn: 'first0' } },
  );
  /** Samples, and the share of the range between them that a sample may lie beyond an extreme: rounding. */
  const SAMPLES = 500;
  const BEYOND = 1e-9;

  it('are passed by no sample, and one is near each', () => {
    let inside = 0;
    fc.assert(
      fc.property(linkages, drivers, quantities, ({ drawing }, driver, quantity) => {
        const motion = trace(drawing, { driver, ...('turn' in driver ? { from: -4, to: 4 } : {}) });
        const { minimum, maximum, local } = extremeValues(motion, quantity);
        const valueAt = valueReader(motion, quantity);
        const values = spread(motion, SAMPLES).flatMap((at) => valueAt(at) ?? []);
        const [low, high] = [Math.min(...values), Math.max(...values)];
        const scale = Math.max(1, Math.abs(low), Math.abs(high));
        if (minimum !== null) expect(low).toBeGreaterThanOrEqual(minimum.value - BEYOND * scale);
        if (maximum !== null) expect(high).toBeLessThanOrEqual(maximum.value + BEYOND * scale);
        if ((minimum === null || maximum === null) && !('velocityRatio' in quantity)) expect.fail();
        for (const { at, value, kind } of local) {
          inside++;
          const read = valueAt(at) ?? Number.NaN;
          expectWithin(read, value, 1e-7 * scale);
          const step = 1e-4 * (motion.high.at - motion.low.at);
          for (const near of [at - step, at + step]) {
            if (near < motion.low.at || near > motion.high.at) continue;
            const beside = (valueAt(near) ?? Number.NaN) - value;
            expect(kind === 'minimum' ? beside >= -BEYOND * scale : beside <= BEYOND * scale).toBe(true);
          }
        }
      }),
      { numRuns: 80 },
    );
    expect(inside).toBeGreaterThan(25);
  });

  it('have no limit where a velocity ratio meets a dead point of the driver', () => {
    const motion = trace(fourBar({ crank: 40, coupler: 120, rocker: 80, ground: 100 }, 1), {
      driver: { turn: 'rocker' },
    });
    expectSame([motion.low.status, motion.high.status], ['deadPoint', 'deadPoint']);
    const { minimum, maximum } = extremeValues(motion, { velocityRatio: { turn: 'crank' } });
    expectSame([minimum === null, maximum === null].filter(Boolean).length, 1);
  });
});

/** A quantity by what a user reads of a motion; null where it does not exist. */
function valueReader(motion: Motion, quantity: Quantity): (at: number) => number | null {
  if ('transmissionAngle' in quantity) return transmissionAngle(motion, quantity.transmissionAngle);
  const read = motion.read('velocityRatio' in quantity ? quantity.velocityRatio : quantity);
  return (at) => read(at)['velocityRatio' in quantity ? 'first' : 'value'];
}

describe('a coupler curve', () => {
  it('has the places of the motion, and a box that they do not leave', () => {
    fc.assert(
      fc.property(sixBars, ({ drawing }) => {
        const motion = trace(drawing, { driver: { turn: 'crank' }, from: -4, to: 4 });
        const { at, points, box } = couplerCurve(motion, 'X0', { samples: 500 });
        expectSame([at[0], at[at.length - 1]], [motion.low.at, motion.high.at]);
        points.forEach((point, k) => {
          if (k % 100 === 0) expectWithin(distance(point, motion.at(at[k]).X0), 0, 1e-9);
        });
        for (const [axis, [least, most]] of [box.x, box.y].entries()) {
          const all = points.map((point) => point[axis]);
          expect(Math.min(...all)).toBeGreaterThanOrEqual(least - 1e-9);
          expect(Math.max(...all)).toBeLessThanOrEqual(most + 1e-9);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('of a crank pin is a circle, and on the crank itself a point', () => {
    const bars = { crank: 40, coupler: 120, rocker: 80, ground: 100 };
    const { box } = couplerCurve(turned(bars), 'B');
    for (const value of [box.x[1], box.y[1], -box.x[0], -box.y[0]]) {
      expectClose(value, 40, { times: 64, scale: 100 });
    }
    const own = couplerCurve(turned(bars), 'B', { relativeTo: 'crank', samples: 9 });
    for (const point of own.points) {
      expectWithin(distance(point, [40 * Math.cos(1), 40 * Math.sin(1)]), 0, 1e-12);
    }
  });
});

describe('the mechanical advantage', () => {
  it('is the ratio of the forces that statics finds, in random linkages', () => {
    let all = 0;
    fc.assert(
      fc.property(linkages, share, ({ drawing }, part) => {
        const driver: Measure = { turn: 'crank' };
        const motion = trace(drawing, { driver, from: -2, to: 2 });
        const at = placeAt(motion, 0.9 * part);
        const pose: Drawing = { ...drawing, points: motion.at(at) };
        const outputs: [Measure, (size: number) => Parameters<typeof forces>[1]][] = [
          [{ turn: 'first0' }, (M) => [{ on: 'first0', moment: -M }]],
          [{ y: 'X0' }, (F) => [{ at: 'X0', force: [0, -F] }]],
          [{ length: ['O', 'X0'] }, (F) => [{ between: ['O', 'X0'], push: -F }]],
        ];
        for (const [output, load] of outputs) {
          const found = mechanicalAdvantage(motion, output)(at) ?? expect.fail('no advantage');
          const { first } = motion.read(output)(at);
          // Near a place where the output stands still rounding counts.
          if (first === null || Math.abs(first) < 1e-3) continue;
          const { driver: moment } = forces(pose, load(1000), { driver });
          expectWithin((found * (moment ?? Number.NaN)) / 1000, 1, 1e-7);
          all++;
        }
      }),
      { numRuns: 60 },
    );
    expect(all).toBeGreaterThan(100);
  });

  it('of a four-bar is that of its instant centres: w2 / w4 = (b4 sin) / (b2 sin)', () => {
    fc.assert(
      fc.property(crankRockers, (bars) => {
        const motion = turned(bars);
        const read = mechanicalAdvantage(motion, { angle: ['D', 'C'] });
        for (const crank of [0.4, 1.3, 2.2]) {
          const { coupler, rocker } = fourBarAngles(bars, crank, 'open') ?? expect.fail('open');
          // R. L. Norton, "Design of Machinery", section 6.4 (from memory): the moment arms of the coupler's force about both pivots.
          const expected =
            (bars.rocker * Math.sin(rocker - coupler)) / (bars.crank * Math.sin(crank - coupler));
          const scale = Math.abs(expected);
          expectClose(read(crank), expected, { times: 2 ** 14, scale: Math.max(1, scale * scale) });
        }
      }),
      { numRuns: 30 },
    );
  });

  it('is 0 at a dead point of the driver, and has no limit where the output stands still', () => {
    const motion = trace(fourBar({ crank: 40, coupler: 120, rocker: 80, ground: 100 }, 1), {
      driver: { turn: 'rocker' },
    });
    const read = mechanicalAdvantage(motion, { turn: 'crank' });
    for (const { at } of [motion.low, motion.high]) expectWithin(read(at), 0, 0);
    expectSame(mechanicalAdvantage(motion, { x: 'A' })(motion.drawn), null);
  });

  it('has no limit at any extreme of a random output, located to rounding', () => {
    fc.assert(
      fc.property(linkages, ({ drawing }) => {
        const motion = trace(drawing, { driver: { turn: 'crank' } });
        const output = { turn: 'first0' } as const;
        const read = mechanicalAdvantage(motion, output);
        for (const { at } of motion.extremes(output)) {
          const { first, second } = motion.read(output)(at);
          // At a dead point of the crank, or next to one, the output has a rate without bounds, or the extreme is one of both.
          if (first === null || second === null || Math.abs(second) > 1e3) continue;
          expectSame(read(at), null);
        }
      }),
    );
  });
});

describe('what is wrong with a quantity', () => {
  const motion = turned({ crank: 40, coupler: 120, rocker: 80, ground: 100 });
  const codes = (run: () => unknown): string[] => {
    try {
      run();
    } catch (error) {
      if (error instanceof InputError) return error.issues.map(({ code, path }) => `${code} ${path}`);
      throw error;
    }
    return [];
  };
  const any = (value: unknown) => value as never;

  it('is said by its place', () => {
    expectSame(
      codes(() => extremeValues(motion, any({ z: 'A' }))),
      ['unknownMeasure quantity'],
    );
    expectSame(
      codes(() => extremeValues(motion, any({ velocityRatio: { turn: 'crnk' } }))),
      ['unknownName quantity.velocityRatio.turn'],
    );
    expectSame(
      codes(() => transmissionAngle(motion, any({ coupler: ['B', 'X'], output: ['C'] }))),
      ['unknownName quantity.transmissionAngle.coupler[1]', 'notALine quantity.transmissionAngle.output'],
    );
    expectSame(
      codes(() => transmissionAngle(motion, any({ coupler: ['B', 'B'], output: ['C', 'D'] }))),
      ['coincidentPoints quantity.transmissionAngle.coupler'],
    );
    expectSame(
      codes(() => transmissionAngle(motion, any(null))),
      ['notALine quantity.transmissionAngle.coupler', 'notALine quantity.transmissionAngle.output'],
    );
    expectSame(
      codes(() => couplerCurve(motion, any('Q'), any({ samples: 1.5, relativeTo: 'x', step: 3 }))),
      ['unknownOption step', 'notWhole samples', 'unknownName point.relativeTo', 'unknownName point.x'],
    );
    expectSame(
      codes(() => mechanicalAdvantage(motion, any({}))),
      ['unknownMeasure quantity.velocityRatio'],
    );
  });
});
