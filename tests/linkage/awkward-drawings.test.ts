/** Drawings that are right and awkward: redundant bodies, coincident points, one line, all sizes. Never NaN. */
import { type Drawing, type Motion, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { intrinsic } from '../support/linkages.ts';
import { distance, expectRigid, redrawn, spread } from '../support/motions.ts';
import { expectClose } from '../support/tolerance.ts';

const points: Record<string, Point> = { A: [0, 0], B: [0, 100], C: [200, 150], D: [220, 0] };
const bodies = { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] };

/** A crank-rocker with more points, and other bodies. */
const drawn = (
  more: Record<string, Point>,
  others: Record<string, string[]>,
  ground: string[] = [],
): Drawing =>
  deepFreeze({
    points: { ...points, ...more },
    ground: ['A', 'D', ...ground],
    bodies: { ...bodies, ...others },
  });

const plain = drawn({}, {});
const crank = deepFreeze({ driver: { turn: 'crank' } } as const);

/** Expects finite numbers, rigid bodies, and the motion of A, B, C, D as in the plain four-bar. */
function expectPlain(drawing: Drawing): Motion {
  const [motion, wanted] = [trace(drawing, crank), trace(plain, crank)];
  expect([motion.low.status, motion.high.status]).toEqual([wanted.low.status, wanted.high.status]);
  expectClose(motion.low.at, wanted.low.at, { times: 64, scale: 2 * Math.PI });
  expectClose(motion.high.at, wanted.high.at, { times: 64, scale: 2 * Math.PI });
  for (const at of spread(motion, 21)) {
    const places = motion.at(at);
    expectRigid(drawing, places);
    const inRange = Math.min(wanted.high.at, Math.max(wanted.low.at, at));
    for (const name of Object.keys(points)) {
      expectClose(distance(places[name], wanted.at(inRange)[name]), 0, { times: 256, scale: 220 });
    }
    for (const measure of intrinsic(drawing)) {
      expect(motion.read(measure)(at).value).toSatisfy(Number.isFinite);
    }
  }
  return motion;
}

describe('bodies that say the same twice', () => {
  it.each<[string, Drawing]>([
    ['a bar along a body', drawn({}, { again: ['B', 'C'] })],
    ['every bar twice', drawn({}, { one: ['B', 'A'], two: ['C', 'B'], three: ['D', 'C'] })],
    [
      'two bodies that share two points',
      drawn({ P: [100, 200], Q: [60, 30] }, { coupler: ['B', 'C', 'P'], twin: ['B', 'Q', 'C'] }),
    ],
    [
      'the same three points twice',
      drawn({ P: [100, 200] }, { coupler: ['B', 'C', 'P'], twin: ['B', 'P', 'C'] }),
    ],
    [
      'a body of inner points of another',
      drawn(
        { P: [60, 140], Q: [120, 90], R: [90, 180] },
        { coupler: ['B', 'C', 'P', 'Q', 'R'], inner: ['P', 'Q', 'R'] },
      ),
    ],
    [
      'two bodies of five points that share three',
      drawn(
        { P: [60, 140], Q: [120, 90], R: [90, 180], S: [10, 300], T: [150, 400] },
        { coupler: ['B', 'C', 'P', 'Q', 'R'], other: ['P', 'Q', 'R', 'S', 'T'] },
      ),
    ],
    [
      'three bodies that define each other',
      drawn(
        { P: [60, 140], Q: [120, 90] },
        { coupler: ['B', 'C', 'P', 'Q'], two: ['P', 'Q', 'B'], three: ['Q', 'C', 'P'] },
      ),
    ],
    ['a triangle of bars for a body', drawn({ P: [100, 300] }, { left: ['B', 'P'], right: ['P', 'C'] })],
  ])('move as if once: %s', (_what, drawing) => {
    expectPlain(drawing);
  });
});

describe('ground', () => {
  it.each<[string, Drawing]>([
    [
      'a body of three ground points',
      drawn({ G: [10, 10], H: [30, 10], I: [10, 90] }, { frame: ['G', 'H', 'I'] }, ['G', 'H', 'I']),
    ],
    [
      'a body of ground points and the pins of others',
      drawn({ G: [10, 10], H: [-30, 10] }, { frame: ['G', 'H', 'A', 'D'] }, ['G', 'H']),
    ],
    [
      'two ground points in one place on one body',
      drawn({ A2: [0, 0] }, { crank: ['A', 'A2', 'B'] }, ['A2']),
    ],
    ['a ground point on no body', drawn({ G: [7, 7] }, {}, ['G'])],
  ])('may be %s', (_what, drawing) => {
    expectPlain(drawing);
  });

  it('is what a body held at two points carries, and what that carries', () => {
    const drawing = deepFreeze({
      points: { ...points, G: [100, -50], H: [90, -90] },
      ground: ['A', 'G'],
      bodies: { ...bodies, frame: ['A', 'G', 'H'], bracket: ['G', 'H', 'D'] },
    } satisfies Drawing);
    const motion = expectPlain(drawing);
    for (const at of spread(motion, 5)) expect(motion.at(at).D).toEqual([220, 0]);
  });
});

describe('points', () => {
  it.each<[string, Drawing]>([
    [
      'of a body all on one line',
      drawn({ P: [100, 125], Q: [50, 112.5], R: [400, 200] }, { coupler: ['B', 'C', 'P', 'Q', 'R'] }),
    ],
    ['of one body in one place', drawn({ P: [200, 150] }, { coupler: ['B', 'C', 'P'] })],
    ['of two bodies in one place', drawn({ P: [0, 100] }, { rocker: ['D', 'C', 'P'] })],
    [
      'on inner points of a body, with a dyad on them',
      drawn(
        { P: [100, 200], Q: [120, 90], E: [300, 300], F: [400, 0] },
        { coupler: ['B', 'C', 'P', 'Q'], link: ['Q', 'E'], arm: ['F', 'E'] },
        ['F'],
      ),
    ],
  ])('may lie %s', (_what, drawing) => {
    expectPlain(drawing);
  });

  it('may lie at minus nothing, as mirrored ones do: along -x too a crank starts at no turn', () => {
    const at = (nothing: number): Drawing =>
      deepFreeze({
        points: { A: [nothing, 0], B: [-40, nothing], C: [-80, nothing], D: [nothing, 40] },
        ground: ['A', 'D'],
        bodies,
      });
    const [motion, wanted] = [-0, 0].map((nothing) => trace(at(nothing), { ...crank, from: -3, to: 3 }));
    expect([motion.low, motion.high]).toEqual([wanted.low, wanted.high]);
    expect(motion.low.at).toBeLessThan(0);
    for (const place of spread(wanted, 12)) expect(motion.at(place)).toEqual(wanted.at(place));
    const angle = motion.read({ angle: ['A', 'B'] });
    expect(angle(0).value).toBe(Math.PI);
  });

  it('may be called as a prototype calls its own', () => {
    const motion = trace(
      deepFreeze({
        points: { constructor: [0, 0], toString: [0, 100], valueOf: [200, 150], hasOwnProperty: [220, 0] },
        ground: ['constructor', 'hasOwnProperty'],
        bodies: {
          crank: ['constructor', 'toString'],
          isPrototypeOf: ['toString', 'valueOf'],
          propertyIsEnumerable: ['hasOwnProperty', 'valueOf'],
        },
      } as unknown as Drawing),
      crank,
    );
    const wanted = trace(plain, crank);
    expect(motion.at(1).valueOf).toEqual(wanted.at(1).C);
  });

  it('two bodies may turn about one pin, and the third with them', () => {
    const motion = trace(
      deepFreeze({
        points: { A: [0, 0], B: [0, 100], C: [100, 150] },
        ground: ['A'],
        bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['A', 'C'] },
      } as const),
      { driver: { turn: 'crank' }, from: -7, to: 7 },
    );
    for (const at of spread(motion, 15)) {
      expectClose(motion.read({ turn: 'rocker' })(at).value, at, { times: 64, scale: 7 });
    }
  });
});

describe('a drawing of any size', () => {
  // From a watch to a bridge, in metres or in microns.
  it.each([1e-6, 1e-3, 1, 1e3, 1e6])('moves alike: %d', (k) => {
    const scaled = redrawn(plain, ([x, y]) => [k * x, k * y]);
    const [motion, wanted] = [trace(scaled, crank), trace(plain, crank)];
    expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
    expectClose(motion.high.at, wanted.high.at, { times: 64, scale: 2 * Math.PI });
    for (let at = 0; at < 6.28; at += 0.314) {
      expectClose(distance(motion.at(at).C, [0, 0]), k * distance(wanted.at(at).C, [0, 0]), {
        times: 64,
        scale: 220 * k,
      });
      const reading = motion.read({ turn: 'rocker' })(at);
      for (const part of [reading.value, reading.first, reading.second]) {
        expect(part).toSatisfy(Number.isFinite);
      }
    }
  });

  // Nobody's linkage.
  it.each([1e-12, 1e9, 1e12, 1e-30, 1e30, 1e-200, 1e200])(
    'says so, or moves alike, and is never NaN: %d',
    (k) => {
      const scaled = redrawn(plain, ([x, y]) => [k * x, k * y]);
      let motion: Motion;
      try {
        motion = trace(scaled, crank);
      } catch (error) {
        expect(error).toHaveProperty('name', 'InputError');
        return;
      }
      expect([motion.low.at, motion.high.at].every(Number.isFinite)).toBe(true);
      expect(motion.high.status).toBe('closed');
    },
  );
});

it.each([1e13, 1e200, -1e200])('ground that is too far away to compute with is refused: %d', (x) => {
  expect(() => trace(drawn({ G: [x, 7] }, {}, ['G']), crank)).toThrow(
    /points: size that cannot be computed with, got 1\S* from end to end of the drawing/,
  );
});

it.each([1e6, 1e200, Number.MAX_VALUE])('a length out of reach is one that is not requested: %d', (far) => {
  const bar: Drawing = {
    points: { O: [0, 0], A: [3, 1], B: [5, 1], near: [0, 1], end: [9, 1] },
    ground: ['O', 'near', 'end'],
    bodies: { bar: ['A', 'B'] },
    sliders: { one: { point: 'A', on: ['near', 'end'] }, other: { point: 'B', on: ['near', 'end'] } },
  };
  const driver = { length: ['O', 'A'] } as const;
  const [asked, plain] = [trace(bar, { driver, from: -far, to: far }), trace(bar, { driver })];
  expect([asked.low, asked.high]).toEqual([plain.low, plain.high]);
  expect([asked.low.status, asked.high.status]).toEqual(['deadPoint', 'unbounded']);
  expect(asked.path.pieces).toHaveLength(plain.path.pieces.length);
});

describe('a measure that does not change', () => {
  it('reads as a constant, and has no extremes', () => {
    const motion = trace(plain);
    for (const [measure, value] of [
      [{ length: ['A', 'D'] }, 220],
      [{ length: ['A', 'B'] }, 100],
      [{ length: ['B', 'B'] }, 0],
      [{ x: 'D' }, 220],
    ] as const) {
      for (const at of spread(motion, 7)) {
        const reading = motion.read(measure)(at);
        expectClose(reading.value, value, { times: 32, scale: 220 });
        expect([reading.first, reading.second].some(Number.isNaN)).toBe(false);
      }
      expect(motion.extremes(measure)).toEqual([]);
    }
  });
});
