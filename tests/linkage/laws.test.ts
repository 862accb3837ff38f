/** Laws that every motion of every linkage keeps, over random four-bars to ten-bars. */
import { assert, constantFrom, double, integer, property } from 'fast-check';
import {
  type Drawing,
  InputError,
  type Measure,
  type Motion,
  type Point,
  type Reading,
  trace,
} from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { fourBar, intrinsic, linkages, rigidPairs, sixBars, sizeOf } from '../support/linkages.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

const turn = 2 * Math.PI;

/** The crank of a grown linkage as its driver. */
const crank = deepFreeze({ turn: 'crank' } satisfies Measure);
/** How far the crank is asked to turn, where it can. */
const within = deepFreeze({ driver: crank, from: -3, to: 3 });

/** Drivers of every kind that a grown linkage has. */
const drivers = constantFrom<Measure[]>(
  deepFreeze({ turn: 'crank' }),
  deepFreeze({ turn: 'first0' }),
  deepFreeze({ angle: ['O', 'P0'] }),
  deepFreeze({ x: 'X0' }),
  deepFreeze({ y: 'P0' }),
  deepFreeze({ length: ['O', 'P0'] }),
  deepFreeze({ length: ['O', 'Y0'], offset: 30 }),
);

/** A place strictly inside a motion's range, as a share of the way from the drawn pose to either end. */
const share = integer({ min: -90, max: 90 }).map((percent) => percent / 100);

function placeAt({ drawn, low, high }: Motion, part: number): number {
  return part < 0 ? drawn - part * (low.at - drawn) : drawn + part * (high.at - drawn);
}

/** `count` values of the driver from end to end. */
function spread({ low, high }: Motion, count: number): number[] {
  return Array.from({ length: count }, (_, k) =>
    Math.min(high.at, Math.max(low.at, low.at + (k / (count - 1)) * (high.at - low.at))),
  );
}

const distance = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);

function redrawn(drawing: Drawing, place: (at: Point, k: number) => Point): Drawing {
  const points = Object.entries(drawing.points).map(([name, at], k) => [name, place(at, k)] as const);
  return deepFreeze({ ...drawing, points: Object.fromEntries(points) });
}

const isLength = (measure: Measure) => 'length' in measure;

describe('rigid stays rigid', () => {
  it('along every loop, by arc length', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        for (const at of spread(motion, 24)) expectRigid(drawing, motion.at(at));
      }),
    );
  });

  it('from end to end of every driver', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        for (const at of spread(motion, 12)) expectRigid(drawing, motion.at(at));
      }),
    );
  });
});

/** Measured: 8.4 roundings of the size over 4000 linkages. */
function expectRigid(drawing: Drawing, places: Record<string, Point>): void {
  const scale = sizeOf(drawing);
  for (const [a, b] of rigidPairs(drawing)) {
    const wanted = distance(drawing.points[a], drawing.points[b]);
    expectClose(distance(places[a], places[b]), wanted, { times: 32, scale });
  }
  for (const name of drawing.ground) expect(places[name]).toEqual(drawing.points[name]);
}

describe('a motion by arc length', () => {
  it('comes home, once around', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        expect([motion.low.how, motion.high.how]).toEqual(['closed', 'closed']);
        expect(motion.low.at).toBe(0);
        const scale = sizeOf(drawing);
        const end = motion.at(motion.high.at);
        for (const [name, at] of Object.entries(drawing.points)) {
          expectClose(distance(end[name], at), 0, { times: 512, scale });
        }
        // Seen from half way the same loop is as long, and its far side is here.
        const half = trace(deepFreeze({ ...drawing, points: motion.at(motion.high.at / 2) }));
        expectWithin(half.high.at / motion.high.at, 1, 0.05);
      }),
      { numRuns: 50 },
    );
  });

  it('is measured in arc length: a lone point on a circle goes 2 pi r', () => {
    const motion = trace(
      deepFreeze({ points: { O: [0, 0], A: [3, 0] }, ground: ['O'], bodies: { crank: ['O', 'A'] } } as const),
    );
    expectClose(motion.high.at, turn * 3, { times: 64, scale: turn * 3 });
    const read = motion.read({ x: 'A' });
    for (const at of spread(motion, 41)) {
      expectWithin(read(at).value, 3 * Math.cos(at / 3), 1e-12);
      expectWithin(Math.abs(read(at).first ?? Number.NaN), Math.abs(Math.sin(at / 3)), 1e-12);
    }
  });

  it('shows each driver its dead points: the ends of its range are the nearest extremes', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const loop = trace(drawing);
        const extremes = loop.extremes(driver);
        const motion = trace(drawing, { driver });
        if (motion.low.how === 'closed') {
          expect(extremes).toEqual([]);
          return;
        }
        expect([motion.low.how, motion.high.how]).toEqual(['deadPoint', 'deadPoint']);
        // Backwards from the drawn pose is the end of the loop, after all turns made on it.
        const around = loop.read(driver)(loop.high.at).value - loop.read(driver)(0).value;
        const ends = [extremes[0].value, extremes[extremes.length - 1].value - around].sort((u, v) => u - v);
        // An extreme is found to a rounding of the largest coordinate, its value so much the better.
        const scale = Math.max(sizeOf(drawing), 1);
        expectClose(motion.low.at, ends[0], { times: 64, scale });
        expectClose(motion.high.at, ends[1], { times: 64, scale });
      }),
    );
  });
});

describe('derivatives by the driver', () => {
  /** Share of the way to the nearer end that a difference quotient steps. */
  const STEP = 1e-3;
  /** Roundings in a value from which a quotient is made. */
  const NOISE = 32;
  /** What extrapolation leaves of a quotient's own uncertainty. */
  const LEFT = 0.1;

  /** Central differences with one extrapolation, and the tolerance that they deserve. */
  function slope(of: (t: number) => number, t: number, h: number, scale: number): [number, number] {
    const quotient = (step: number) => (of(t + step) - of(t - step)) / (2 * step);
    const [coarse, fine] = [quotient(h), quotient(h / 2)];
    const trust = LEFT * Math.abs(coarse - fine) + (NOISE * EPS * scale) / h;
    return [(4 * fine - coarse) / 3, trust];
  }

  it('agree with central differences, the first with those of values, the second with those of first ones', () => {
    let [sharp, all] = [0, 0];
    assert(
      property(linkages, drivers, share, ({ drawing }, driver, part) => {
        const motion = trace(drawing, { driver, ...('turn' in driver ? { from: -7, to: 7 } : {}) });
        const at = placeAt(motion, part);
        const h = STEP * Math.min(at - motion.low.at, motion.high.at - at);
        if (!(h > 0)) return;
        const measures: Measure[] = [...intrinsic(drawing), { x: 'Y0' }, { y: 'X0' }, { angle: ['O', 'X0'] }];
        for (const measure of measures) {
          const read = motion.read(measure);
          const scale = isLength(measure) || 'x' in measure || 'y' in measure ? 1000 : turn;
          const { first, second } = read(at);
          const [byValue, trust] = slope((t) => read(t).value, at, h, scale);
          expectWithin(first, byValue, trust);
          const steepness = scale / (1000 * STEP) + Math.abs(first ?? Number.NaN);
          const [byFirst, trustSecond] = slope((t) => read(t).first ?? Number.NaN, at, h, steepness);
          expectWithin(second, byFirst, trustSecond);
          all++;
          if (trust <= 1e-6 * (1 + Math.abs(byValue)) && trustSecond <= 1e-5 * (1 + Math.abs(byFirst)))
            sharp++;
        }
      }),
    );
    // The tolerances above follow the quotients' own uncertainty: nearly all of them must be sharp.
    expect(sharp / all).toBeGreaterThan(0.9);
  });

  it('agree with central differences by arc length, across the joints of pieces too', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        const read = motion.read({ x: 'P0' });
        for (const at of spread(motion, 12).slice(1, -1)) {
          const [byValue, trust] = slope((t) => read(t).value, at, 1e-3, 1000);
          expectWithin(read(at).first, byValue, trust);
        }
        const joints = motion.path.pieces.slice(1).map(({ origin }) => origin);
        for (const at of joints.slice(0, 4)) {
          expectWithin(read(at + 1e-9).first, read(at - 1e-9).first ?? Number.NaN, 1e-6);
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('where and how a drawing lies changes nothing intrinsic', () => {
  /** Share of the size by which points are displaced to learn how much a reading depends on the drawing. */
  const NUDGE = 1e-7;

  type Part = keyof Reading;
  const parts: Part[] = ['value', 'first', 'second'];

  /**
   * Compares two drawings at the same turn of the crank. The tolerance is `times` roundings of a reading's scale, plus
   * what so many roundings of the coordinates (of the given magnitude) do to it, learnt from a nudged drawing.
   */
  function expectSame(
    drawing: Drawing,
    other: Drawing,
    part: number,
    {
      lengths = 1,
      turns = 1,
      times,
      coordinates = sizeOf(drawing),
    }: {
      lengths?: number;
      turns?: 1 | -1;
      times: Record<Part, number>;
      coordinates?: number;
    },
  ): void {
    const size = sizeOf(drawing);
    const nudged = redrawn(drawing, ([x, y], k) => [
      x + NUDGE * size * Math.sin(12.9898 * k + 1),
      y + NUDGE * size * Math.sin(78.233 * k + 2),
    ]);
    const [a, b, n] = [trace(drawing, within), trace(other, within), trace(nudged, within)];
    const ends: [number, number] = turns > 0 ? [b.low.at, b.high.at] : [-b.high.at, -b.low.at];
    expectWithin(ends[0], a.low.at, 1e-9 + 1e4 * EPS * (coordinates / size));
    expectWithin(ends[1], a.high.at, 1e-9 + 1e4 * EPS * (coordinates / size));
    const at = placeAt(a, part);
    // Close to a dead point the nudged linkage may not reach as far.
    if (at <= n.low.at || at >= n.high.at) return;
    for (const measure of intrinsic(drawing)) {
      const [unit, factor] = isLength(measure) ? [size, lengths] : [1, turns];
      const [one, two, three] = [a.read(measure)(at), b.read(measure)(turns * at), n.read(measure)(at)];
      const sign = { value: 1, first: turns, second: 1 };
      for (const key of parts) {
        const [u, v, w] = [one[key], two[key], three[key]].map((value) => value ?? Number.NaN);
        const depends = Math.abs(w - u) / NUDGE;
        const scale = unit + Math.abs(u) + depends * (coordinates / size);
        expectClose((sign[key] * v) / factor, u, { times: times[key], scale });
      }
    }
  }

  const times = { value: 64, first: 256, second: 2 ** 14 };
  const angle = double({ min: -3, max: 3, noNaN: true });
  const turned = ([x, y]: Point, by: number): Point => [
    Math.cos(by) * x - Math.sin(by) * y,
    Math.sin(by) * x + Math.cos(by) * y,
  ];

  it('turned', () => {
    assert(
      property(linkages, angle, share, ({ drawing }, by, part) => {
        expectSame(
          drawing,
          redrawn(drawing, (at) => turned(at, by)),
          part,
          { times },
        );
      }),
    );
  });

  it('mirrored: turns change their sign', () => {
    assert(
      property(linkages, angle, share, ({ drawing }, by, part) => {
        const mirrored = redrawn(drawing, ([x, y]) => turned([-x, y], by));
        expectSame(drawing, mirrored, part, { turns: -1, times });
      }),
    );
  });

  it('scaled: lengths scale, angles do not', () => {
    const factor = constantFrom(1e-3, 0.0254, 1 / 3, 25.4, 1e3, 1e6);
    assert(
      property(linkages, factor, share, ({ drawing }, lengths, part) => {
        const scaled = redrawn(drawing, ([x, y]) => [lengths * x, lengths * y]);
        expectSame(drawing, scaled, part, { lengths, times });
      }),
    );
  });

  it('moved by whole powers of two, where no coordinate is rounded: the same bits', () => {
    assert(
      property(linkages, share, ({ drawing }, part) => {
        const moved = redrawn(drawing, ([x, y]) => [x + 2 ** 20, y - 2 ** 21]);
        const [a, b] = [trace(drawing, within), trace(moved, within)];
        expect([b.low, b.high]).toEqual([a.low, a.high]);
        for (const measure of intrinsic(drawing)) {
          expect(b.read(measure)(placeAt(a, part))).toEqual(a.read(measure)(placeAt(a, part)));
        }
      }),
    );
  });

  it('moved a million from the origin: it costs the rounding of its coordinates, no more', () => {
    assert(
      property(linkages, angle, share, ({ drawing }, by, part) => {
        const moved = redrawn(drawing, (at) => {
          const [x, y] = turned(at, by);
          return [x + 1e6, y - 1e6 / 3];
        });
        expectSame(drawing, moved, part, { times, coordinates: 1e6 });
      }),
    );
  });
});

describe('a motion is a function', () => {
  const readings = (motion: Motion, measure: Measure, places: readonly number[]) => {
    const read = motion.read(measure);
    return places.map((at) => read(at));
  };

  it('equal input gives equal bits', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const [a, b] = [
          trace(drawing, { driver }),
          trace(structuredClone(drawing), structuredClone({ driver })),
        ];
        expect([b.low, b.high]).toEqual([a.low, a.high]);
        const places = spread(a, 12);
        expect(places.map((at) => b.at(at))).toEqual(places.map((at) => a.at(at)));
        expect(readings(b, { turn: 'crank' }, places)).toEqual(readings(a, { turn: 'crank' }, places));
      }),
    );
  });

  it('whatever was read before: out and back gives equal bits', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        const out = spread(motion, 12);
        const back = [...out].reverse();
        expect(back.map((at) => motion.at(at)).reverse()).toEqual(out.map((at) => motion.at(at)));
        const measure: Measure = { length: ['O', 'Y0'] };
        expect(readings(motion, measure, back).reverse()).toEqual(readings(motion, measure, out));
      }),
    );
  });

  it('from any range that holds the place', () => {
    const some = integer({ min: 5, max: 90 }).map((percent) => percent / 100);
    assert(
      property(linkages, drivers, some, some, ({ drawing }, driver, down, up) => {
        const whole = trace(drawing, { driver });
        // A driver that comes home is followed from the drawn pose upwards alone.
        const from = whole.low.at < whole.drawn ? placeAt(whole, -down) : whole.drawn;
        const to = placeAt(whole, up);
        const part = trace(drawing, { driver, from, to });
        expect([part.low, part.high]).toEqual([
          { at: from, how: 'reached' },
          { at: to, how: 'reached' },
        ]);
        const scale = sizeOf(drawing);
        for (const at of spread(part, 8)) {
          const [one, two] = [part.at(at), whole.at(at)];
          for (const name of Object.keys(one)) {
            expectClose(distance(one[name], two[name]), 0, { times: 1024, scale });
          }
        }
      }),
    );
  });

  it('and inputs are not changed', () => {
    // All drawings and measures of these tests are frozen; here by value.
    assert(
      property(sixBars, drivers, ({ drawing }, driver) => {
        const before = structuredClone({ drawing, driver });
        const motion = trace(drawing, { driver });
        motion.at(motion.high.at);
        motion.read({ x: 'P1' })(motion.drawn);
        motion.extremes({ y: 'P1' });
        expect({ drawing, driver }).toEqual(before);
      }),
      { numRuns: 20 },
    );
  });

  it('of one that starts as drawn', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        if ('turn' in driver) expect(motion.drawn).toBe(0);
        expect(motion.low.at).toBeLessThanOrEqual(motion.drawn);
        expect(motion.high.at).toBeGreaterThanOrEqual(motion.drawn);
        const scale = sizeOf(drawing);
        for (const [name, at] of Object.entries(motion.at(motion.drawn))) {
          expectClose(distance(at, drawing.points[name]), 0, { times: 64, scale });
        }
        expectClose(motion.read(driver)(motion.drawn).value, motion.drawn, { times: 16, scale });
      }),
    );
  });

  it('whose driver reads as what it was set to', () => {
    assert(
      property(linkages, drivers, share, ({ drawing }, driver, part) => {
        const motion = trace(drawing, { driver });
        const at = placeAt(motion, part);
        const { value, first, second } = motion.read(driver)(at);
        expectClose(value, at, { times: 64, scale: sizeOf(drawing) });
        if (at > motion.low.at && at < motion.high.at) {
          expectWithin(first, 1, 1e-9);
          // The share of a second derivative that its own largest term leaves: what cancels in m'' - m' t''/t'.
          expectWithin(second, 0, 1e-7 * (1 + 1 / Math.min(at - motion.low.at, motion.high.at - at)));
        }
      }),
    );
  });
});

describe('outside its range', () => {
  it('a motion throws, and names the range', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        const { low, high } = motion;
        const range = `(allowed: ${low.at} (${low.how}) to ${high.at} (${high.how}))`;
        for (const at of [low.at - 1e-9, high.at + 1e-9, Number.NaN, Number.POSITIVE_INFINITY]) {
          for (const look of [() => motion.at(at), () => motion.read({ turn: 'crank' })(at)]) {
            expect(look).toThrow(InputError);
            expect(look).toThrow(`invalid driver value\n  outside the motion, got ${at} ${range}`);
          }
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('at a dead point', () => {
  it('a value is finite and right, and there is no derivative by the driver', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) => {
        const motion = trace(drawing, { driver });
        for (const { at, how } of [motion.low, motion.high]) {
          if (how !== 'deadPoint') continue;
          expectRigid(drawing, motion.at(at));
          for (const measure of intrinsic(drawing)) {
            const { value, first, second } = motion.read(measure)(at);
            expect(value).toSatisfy(Number.isFinite);
            expect([first, second]).toEqual([null, null]);
          }
          expectClose(motion.read(driver)(at).value, at, { times: 64, scale: sizeOf(drawing) });
        }
      }),
    );
  });

  it('in the drawn pose itself the motion is that pose', () => {
    // Coupler and rocker drawn in line: the crank can go neither way.
    const motion = trace(
      deepFreeze({
        points: { A: [0, 0], B: [0, 100], C: [100, 100], D: [200, 100] },
        ground: ['A', 'D'],
        bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
      } as const),
      { driver: crank },
    );
    const end = { at: 0, how: 'deadPoint' };
    expect([motion.drawn, motion.low, motion.high]).toEqual([0, end, end]);
    expect(motion.at(0).C).toEqual([100, 100]);
    expect(motion.read({ y: 'C' })(0)).toEqual({ value: 100, first: null, second: null });
  });
});

/**
 * A four-bar drawn mirror-symmetric, with a coupler point P a little (`below`) under the point about which the coupler
 * turns there. Near the drawn pose x of P goes like s^3 - 3 e^2 s: it turns back twice within a short way 2 e.
 */
function nearCusp(below: number): Drawing {
  const [g, w, h] = [150, 75, 200];
  // The bars' lines meet on the axis of symmetry.
  const centre = (h * g) / (g - w);
  return deepFreeze({
    points: { A: [-g, 0], B: [-w, h], C: [w, h], D: [g, 0], P: [0, centre - below] },
    ground: ['A', 'D'],
    bodies: { left: ['A', 'B'], coupler: ['B', 'C', 'P'], right: ['D', 'C'] },
  });
}

describe('two dead points inside one piece', () => {
  const x = deepFreeze({ x: 'P' } satisfies Measure);

  it.each([1, 0.1, 0.01, 1e-4])('are both found from between, %d under the cusp', (below) => {
    const motion = trace(nearCusp(below), { driver: x });
    expect([motion.low.how, motion.high.how]).toEqual(['deadPoint', 'deadPoint']);
    expect(motion.path.pieces).toHaveLength(1);
    // The linkage is symmetric, and so is its motion.
    expectClose(motion.low.at, -motion.high.at, { times: 64, scale: 400 });
    // x goes with the cube of the way, the way with the root of `below`.
    expectWithin(motion.high.at / below ** 1.5, 0.025484, 3e-5);
  });

  it.each([0.1, 0.01, 1e-4])('are not taken for none from beside, %d under the cusp', (below) => {
    const drawn = nearCusp(below);
    const around = trace(drawn);
    const [after] = around.extremes(x).map(({ at }) => at);
    // Redrawn a little before the first of the two.
    const beside = deepFreeze({ ...drawn, points: around.at(around.high.at - 1.5 * after) });
    const loop = trace(beside);
    const [one, two] = nearestTwo(
      loop,
      loop.extremes(x).map(({ at }) => at),
    );
    const piece = loop.path.pieces.find(({ origin, lo, hi }) => origin + lo <= one && one <= origin + hi);
    expect(piece).toBeDefined();
    if (piece === undefined) return;
    expect(two).toBeLessThan(piece.origin + piece.hi);
    expect(two).toBeGreaterThan(piece.origin + piece.lo);

    const motion = trace(beside, { driver: x });
    const end = motion.high.at - motion.drawn < motion.drawn - motion.low.at ? motion.high : motion.low;
    expect(end.how).toBe('deadPoint');
    expectClose(end.at, loop.read(x)(one).value, { times: 64, scale: 400 });
    // From the other side of it the driver would have to go back.
    expect(Math.abs(loop.read(x)(two).value - end.at)).toBeGreaterThan(0);
    expectRigid(beside, motion.at(end.at));
  });

  /** The two extremes next to the drawn pose on the side where they are near, nearest first. */
  function nearestTwo(loop: Motion, at: number[]): [number, number] {
    expect(at.length).toBeGreaterThan(3);
    expect(at[1]).toBeLessThan(loop.high.at / 50);
    return [at[0], at[1]];
  }
});

describe('a point that passes close by another', () => {
  /** A crank of 100 whose pin passes C at a distance `gap`, with the crank along +x. */
  const passing = (gap: number, drawn = 1.6): Drawing =>
    deepFreeze({
      points: { O: [0, 0], A: [100 * Math.cos(drawn), 100 * Math.sin(drawn)], C: [100 + gap, 0] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'] },
    });
  const length = deepFreeze({ length: ['C', 'A'] } satisfies Measure);
  const direction = deepFreeze({ angle: ['C', 'A'] } satisfies Measure);

  const gaps = [10, 1, 0.1, 0.01, 1e-3, 1e-6];

  it.each(gaps)('is nearest once, by %d', (gap) => {
    const motion = trace(passing(gap), { driver: { angle: ['O', 'A'] }, from: -1.5, to: 3 });
    const found = motion.extremes(length);
    expect(found).toHaveLength(1);
    expectWithin(found[0].at, 0, 1e-9);
    expectClose(found[0].value, gap, { times: 64, scale: 100 });
  });

  it.each(gaps)('comes no nearer, driven by their distance, than %d', (gap) => {
    const motion = trace(passing(gap), { driver: length });
    expect([motion.low.how, motion.high.how]).toEqual(['deadPoint', 'deadPoint']);
    // At 1e-6 of 100 the distance is known to a hundred roundings of 100 over 1e-6 of it.
    expectWithin(motion.low.at, gap, 1e-11 + 1e-14 / gap);
    expectClose(motion.high.at, 200 + gap, { times: 64, scale: 200 });
  });

  it.each(gaps)('has a direction from it that turns back twice, %d outside', (gap) => {
    const motion = trace(passing(gap), { driver: { angle: ['O', 'A'] }, from: -1.5, to: 3 });
    const found = motion.extremes(direction);
    // Where the line C-A touches the circle.
    const touch = Math.acos(100 / (100 + gap));
    expect(found).toHaveLength(2);
    expectWithin(found[0].at, -touch, 1e-7);
    expectWithin(found[1].at, touch, 1e-7);
  });

  it.each(gaps)('has a direction from it that goes on turning, %d inside', (gap) => {
    for (const drawn of [1.5, 1.55, 1.6, 1.65, 1.7]) {
      const motion = trace(passing(-gap, drawn), { driver: { angle: ['O', 'A'] }, from: -3, to: 3 });
      const read = motion.read(direction);
      // From inside its circle the pin is seen to go around.
      const seen = (at: number) => Math.atan2(100 * Math.sin(at), 100 * Math.cos(at) - (100 - gap));
      expectWithin(read(3).value - read(-3).value, 2 * seen(3), 1e-9);
    }
  });
});

describe('a driver through several full turns', () => {
  const bars = deepFreeze({ crank: 40, coupler: 120, rocker: 80, ground: 100 });
  const turns = { driver: { turn: 'crank' }, from: -2 * turn, to: 2 * turn } as const;

  it('from -4 pi to 4 pi swings the rocker of a crank-rocker continuously, each turn alike', () => {
    const motion = trace(fourBar(bars, 0.7), turns);
    expect([motion.low, motion.high]).toEqual([
      { at: -2 * turn, how: 'reached' },
      { at: 2 * turn, how: 'reached' },
    ]);
    const rocker = motion.read({ angle: ['D', 'C'] });
    const driven = motion.read({ turn: 'crank' });
    const steps = 4000;
    let before = rocker(-2 * turn).value;
    for (let k = 1; k <= steps; k++) {
      const at = Math.min(2 * turn, -2 * turn + (k / steps) * 4 * turn);
      const { value, first } = rocker(at);
      // Never faster than about 1.3 times the crank.
      expect(Math.abs(value - before)).toBeLessThan((2 * 4 * turn) / steps);
      expect(first).toSatisfy(Number.isFinite);
      expectClose(driven(at).value, at, { times: 64, scale: 2 * turn });
      before = value;
    }
    for (const at of [-2 * turn, -turn, -1, 0]) {
      for (const later of [turn, 2 * turn]) {
        const [one, two] = [rocker(at), rocker(at + later)];
        expectClose(two.value, one.value, { times: 64, scale: 2 * turn });
        expectWithin(two.first, one.first ?? Number.NaN, 1e-12);
        expectWithin(two.second, one.second ?? Number.NaN, 1e-10);
      }
    }
  });

  it('turns the other crank of a drag link as often', () => {
    // The ground is the shortest bar: 30 + 90 < 70 + 80.
    const motion = trace(fourBar(deepFreeze({ crank: 70, coupler: 80, rocker: 90, ground: 30 }), 0.7), turns);
    expect([motion.low.how, motion.high.how]).toEqual(['reached', 'reached']);
    const other = motion.read({ turn: 'rocker' });
    for (let k = -4; k <= 4; k++) {
      const at = (k * turn) / 2;
      if (k <= 2)
        expectClose(other(at + turn).value - other(at).value, turn, { times: 128, scale: 2 * turn });
    }
  });
});
