/** Points placed by lengths: the lengths hold, on the side asked for, and what does not close says by how much. */
import { assert, boolean, double, integer, property, shuffledSubarray, tuple } from 'fast-check';
import {
  InputError,
  type Issue,
  linkage,
  type Placement,
  type Point,
  placePoints,
  trace,
} from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { linkages } from '../support/linkages.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

type Placements = Readonly<Record<string, Placement>>;
const coordinate = double({ min: -500, max: 500, noNaN: true });
const point = tuple(coordinate, coordinate);
const share = double({ min: 0.01, max: 0.99, noNaN: true });
const length = double({ min: 0.5, max: 400, noNaN: true });
const angle = double({ min: -7, max: 7, noNaN: true });

const apart = ([ax, ay]: Point, [bx, by]: Point) => Math.hypot(bx - ax, by - ay);
/** Twice the area of a triangle, positive where P lies to the left of the way from A to B. */
const leftOf = ([ax, ay]: Point, [bx, by]: Point, [px, py]: Point) =>
  (bx - ax) * (py - ay) - (by - ay) * (px - ax);
/** Coordinates. (An array has an `at` of its own.) */
const isGiven = (one: Placement): one is readonly number[] => Array.isArray(one);
const mirrored = ([x, y]: readonly number[]): Point => [x, -y + 0];

function issuesOf(placements: unknown): readonly Issue[] {
  try {
    placePoints(placements as Placements);
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  return expect.fail('nothing was thrown');
}

/** One of every kind, each from the ones before. */
const chains = tuple(point, point, share, share, length, angle, angle, coordinate, coordinate, boolean())
  .filter(([A, B]) => apart(A, B) > 1)
  .map(([A, B, s, q, l, turn, bend, at, offset, isLeft]) => {
    const d = apart(A, B);
    const a = 2 * d * s;
    const b = Math.abs(d - a) + q * (d + a - Math.abs(d - a));
    const placements: Placements = {
      A,
      B,
      P: { from: ['A', 'B'], lengths: [a, b], side: isLeft ? 'left' : 'right' },
      Q: { from: 'P', length: l, angle: turn },
      R: { from: 'Q', towards: 'P', length: l, angle: bend },
      S: { on: ['A', 'B'], at, offset },
      T: { on: ['A', 'B'], from: 'S', length: Math.abs(offset) + l, side: isLeft ? 'ahead' : 'behind' },
    };
    return { placements, a, b, l, turn, bend, at, offset, isLeft };
  });

describe('points placed by lengths', () => {
  it('have those lengths and angles, on the side asked for', () => {
    assert(
      property(chains, ({ placements, a, b, l, turn, bend, at, offset, isLeft }) => {
        const { A, B, P, Q, R, S, T } = placePoints(placements);
        const scale = Math.max(...[A, B, P, Q, R, S, T].flat().map(Math.abs), 1);
        expectClose(apart(A, P), a, { times: 16, scale });
        expectClose(apart(B, P), b, { times: 16, scale });
        expectSame(leftOf(A, B, P) > 0, isLeft);
        expectClose(Q[0] - P[0], l * Math.cos(turn), { times: 8, scale });
        expectClose(Q[1] - P[1], l * Math.sin(turn), { times: 8, scale });
        expectClose(apart(Q, R), l, { times: 8, scale });
        expectClose(leftOf(Q, P, R) / (l * l), Math.sin(bend), { times: 64, scale: scale / l });
        const d = apart(A, B);
        expectClose(leftOf(A, B, S) / d, offset, { times: 16, scale: (scale * scale) / d });
        const along = (one: Point) => ((one[0] - A[0]) * (B[0] - A[0]) + (one[1] - A[1]) * (B[1] - A[1])) / d;
        expectClose(along(S), at, { times: 16, scale: (scale * scale) / d });
        expectClose(leftOf(A, B, T) / d, 0, { times: 16, scale: (scale * scale) / d });
        expectClose(apart(S, T), Math.abs(offset) + l, { times: 16, scale: (scale * scale) / d });
        expectSame(along(T) > along(S), isLeft);
      }),
    );
  });

  it('are mirrored, to the bit, with their sides', () => {
    const flipped: Readonly<Record<string, 'left' | 'right'>> = { left: 'right', right: 'left' };
    const mirror = (one: Placement): Placement => {
      if (isGiven(one)) return mirrored(one);
      if ('lengths' in one) return { ...one, side: flipped[one.side] };
      if ('angle' in one) return { ...one, angle: -one.angle };
      if ('at' in one) return { ...one, offset: -(one.offset ?? 0) };
      return one;
    };
    assert(
      property(chains, ({ placements }) => {
        const over = Object.fromEntries(
          Object.entries(placements).map(([name, one]) => [name, mirror(one)] as const),
        );
        const wanted = Object.entries(placePoints(placements)).map(([name, at]) => [name, mirrored(at)]);
        const found = Object.entries(placePoints(over)).map(([name, [x, y]]) => [name, [x, y + 0]]);
        expectSame(found, wanted);
      }),
    );
  });

  it('are the same to the bit in any order, and come in the order given', () => {
    const names = ['A', 'B', 'P', 'Q', 'R', 'S', 'T'];
    assert(
      property(chains, shuffledSubarray(names, { minLength: names.length }), ({ placements }, order) => {
        const found = placePoints(Object.fromEntries(order.map((name) => [name, placements[name]])));
        expectSame(Object.keys(found), order);
        expectSame(found, placePoints(placements));
      }),
    );
  });

  it('draw random linkages again', () => {
    assert(
      property(linkages, ({ drawing: { points, ground, bodies } }) => {
        const placements: Record<string, Placement> = {};
        for (const name of [...ground, 'A']) placements[name] = points[name];
        const onto = (name: string, a: string, b: string) => {
          const [P, A, B] = [name, a, b].map((one) => points[one] as Point);
          placements[name] = {
            from: [a, b],
            lengths: [apart(A, P), apart(B, P)],
            side: leftOf(A, B, P) > 0 ? 'left' : 'right',
          };
        };
        for (let k = 0; `first${k}` in bodies; k++) {
          const [from, pin, first] = bodies[`first${k}`];
          const [to, , second] = bodies[`second${k}`];
          onto(pin, from, to);
          onto(first, from, pin);
          onto(second, to, pin);
        }
        const found = placePoints(placements);
        const within = 1e-9 * 1000;
        for (const members of Object.values(bodies)) {
          for (const one of members) {
            for (const other of members) {
              expectWithin(
                apart(found[one], found[other]),
                apart(points[one] as Point, points[other] as Point),
                within,
              );
            }
          }
        }
      }),
    );
  });
});

describe('triangles that only just close', () => {
  const least = double({ min: -15.5, max: -3, noNaN: true }).map((power) => 10 ** power);
  it('have their lengths if they do, and say what is missing if they do not', () => {
    assert(
      property(
        point,
        length,
        length,
        angle,
        least,
        boolean(),
        boolean(),
        (A, a, b, turn, by, isOuter, isShort) => {
          const d = isOuter
            ? (a + b) * (1 + (isShort ? by : -by))
            : Math.abs(a - b) * (1 + (isShort ? -by : by));
          const B: Point = [A[0] + d * Math.cos(turn), A[1] + d * Math.sin(turn)];
          const placements = {
            A,
            B,
            P: { from: ['A', 'B'], lengths: [a, b], side: 'left' },
          } as const;
          const gap = apart(A, B);
          const missing = Math.max(gap - a - b, Math.abs(a - b) - gap);
          const scale = Math.max(a, b, gap, ...A.map(Math.abs), ...B.map(Math.abs));
          if (missing > 10 * Number.EPSILON * scale) {
            const [issue, ...more] = issuesOf(placements);
            expectSame([issue.code, issue.path, more.length], ['lengthsDoNotMeet', 'P', 0]);
            expectClose(issue.values.shortfall as number, missing, { times: 8, scale });
            return;
          }
          if (missing > 6 * Number.EPSILON * scale || gap === 0) return;
          const { P } = placePoints(placements);
          expectClose(apart(A, P), a, { times: 24, scale });
          expectClose(apart(B, P), b, { times: 24, scale });
        },
      ),
      { numRuns: 400 },
    );
  });

  it('include those that lie flat, whatever rounding says: 0.1 and 0.2 over 0.3', () => {
    const { P } = placePoints({
      A: [0, 0],
      B: [0.3, 0],
      P: { from: ['A', 'B'], lengths: [0.1, 0.2], side: 'left' },
    });
    expectClose(P[0], 0.1, { times: 2, scale: 1 });
    expectWithin(P[1], 0, 1e-8);
  });

  it('may be so from a small circle about one end', () => {
    assert(
      property(integer({ min: 1, max: 12 }), share, boolean(), (power, s, isFirst) => {
        const [small, d] = [10 ** -power, 100];
        const other = d - small + 2 * small * s;
        const { A, B, P } = placePoints({
          A: [0, 0],
          B: [d, 0],
          P: { from: isFirst ? ['A', 'B'] : ['B', 'A'], lengths: [small, other], side: 'left' },
        });
        expectClose(apart(isFirst ? A : B, P), small, { times: 4, scale: d });
        expectClose(apart(isFirst ? B : A, P), other, { times: 4, scale: d });
      }),
    );
  });
});

describe('what cannot be placed', () => {
  it('says by how much the lengths miss, all at once, and blames nothing that hangs on it', () => {
    const issues = issuesOf({
      A: [0, 0],
      B: [30, 40],
      short: { from: ['A', 'B'], lengths: [12, 20], side: 'left' },
      long: { from: ['A', 'B'], lengths: [20, 75], side: 'right' },
      off: { on: ['A', 'B'], from: 'C', length: 1, side: 'ahead' },
      C: { on: ['A', 'B'], at: 7, offset: -3.5 },
      after: { from: ['short', 'A'], lengths: [1, 1], side: 'left' },
    });
    expect(issues.map(({ path, code }) => [path, code])).toEqual([
      ['short', 'lengthsDoNotMeet'],
      ['long', 'lengthsDoNotMeet'],
      ['off', 'lengthOffTheLine'],
    ]);
    [18, 5, 2.5].forEach((missing, k) => {
      expectClose(issues[k].values.shortfall as number, missing, { times: 8, scale: 75 });
    });
    expect(issues.map(({ got }) => got)).toEqual([
      '12 from A and 20 from B, which are 50 apart: together 18 too short',
      '20 from A and 75 from B, which are 50 apart: the longer one 5 too long',
      '1 from C, which is 3.5 from the line: 2.5 too short',
    ]);
  });

  it('is placed by itself, by way of others or at once', () => {
    const issues = issuesOf({
      A: { from: 'B', length: 1, angle: 0 },
      B: { from: ['C', 'A'], lengths: [1, 1], side: 'left' },
      C: { from: 'A', length: 1, angle: 0 },
      D: { from: 'D', length: 1, angle: 0 },
      E: { from: 'A', length: 1, angle: 0 },
    });
    expect(issues.map(({ path, problem, got }) => [path, problem, got])).toEqual([
      ['A', 'placed by itself', 'A from B from C from A'],
      ['D', 'placed by itself', 'D from D'],
    ]);
  });

  it.each([
    [{ from: ['A', 'X'], lengths: [1, 1], side: 'left' }, 'P.from[1]', 'unknownName'],
    [{ from: ['A', 'A'], lengths: [1, 1], side: 'left' }, 'P.from', 'notTwoPoints'],
    [{ from: 'A', lengths: [1, 1], side: 'left' }, 'P.from', 'notTwoPoints'],
    [{ from: ['A', 'B'], lengths: [Number.NaN, 1], side: 'left' }, 'P.lengths[0]', 'outOfRange'],
    [{ from: ['A', 'B'], lengths: [1, 0], side: 'left' }, 'P.lengths[1]', 'outOfRange'],
    [{ from: ['A', 'B'], lengths: [1], side: 'left' }, 'P.lengths[1]', 'outOfRange'],
    [{ from: ['A', 'B'], lengths: [1, 1], side: 'up' }, 'P.side', 'unknownChoice'],
    [{ from: ['A', 'B'], lengths: [1, 1], side: 'left', angle: 1 }, 'P.angle', 'unknownOption'],
    [{ from: 'A', length: 1, angle: Number.POSITIVE_INFINITY }, 'P.angle', 'notFinite'],
    [{ from: 'A', length: -1, angle: 0 }, 'P.length', 'outOfRange'],
    [{ from: 'A', length: 1, angle: 0, towards: 'Q' }, 'P.towards', 'unknownName'],
    [{ from: 'A', length: 1, angle: 0, towards: 'twin' }, 'P', 'basePointsCoincide'],
    [{ from: ['A', 'twin'], lengths: [1, 1], side: 'left' }, 'P', 'basePointsCoincide'],
    [{ on: ['A', 'B'], at: '3' }, 'P.at', 'notFinite'],
    [{ on: ['A', 'B'], from: 3, length: 1, side: 'ahead' }, 'P.from', 'unknownName'],
    [{ on: ['A', 'B'], from: 'A', length: 1, side: 'left' }, 'P.side', 'unknownChoice'],
    [{ from: 'A', length: 1.7e308, angle: 0.7, towards: 'B' }, 'far', 'notFinite'],
    [[1, Number.NaN], 'P', 'notAPlacement'],
    [{ length: 3, from: 'A', angle: 0, side: 'left' }, 'P.side', 'unknownOption'],
    [{}, 'P', 'notAPlacement'],
    [null, 'P', 'notAPlacement'],
  ])('is %j', (placement, path, code) => {
    const far = { from: 'P', length: 1.7e308, angle: 0.7 };
    const issues = issuesOf({ A: [0, 0], B: [1, 1], twin: [0, 0], P: placement, far });
    expect(issues.map((issue) => [issue.path, issue.code])).toEqual([[path, code]]);
    expect(issuesOf([placement])[0].code).toBe('notPlacements');
  });
});

// An eight-bar walking leg with the lengths of T. Jansen, "The Great Pretender", 2007 (from memory): crank 15; the foot's path
// is flat below and lifted on the way back.
describe('an eight-bar walking leg', () => {
  const bars = {
    B: { from: ['C', 'A'], lengths: [41.5, 50], side: 'left' },
    D: { from: ['C', 'A'], lengths: [39.3, 61.9], side: 'right' },
    E: { from: ['C', 'B'], lengths: [40.1, 55.8], side: 'left' },
    F: { from: ['D', 'E'], lengths: [36.7, 39.4], side: 'left' },
    foot: { from: ['D', 'F'], lengths: [49, 65.7], side: 'left' },
  } as const;
  const points = placePoints({
    O: [0, 0],
    C: [-38, -7.8],
    A: { from: 'O', length: 15, angle: 0 },
    ...bars,
  });
  const leg = linkage({
    points,
    ground: ['O', 'C'],
    bodies: {
      crank: ['O', 'A'],
      upper: ['A', 'B'],
      lower: ['A', 'D'],
      hip: ['C', 'B', 'E'],
      thigh: ['C', 'D'],
      link: ['E', 'F'],
      shin: ['D', 'F', 'foot'],
    },
  });

  it('goes all the way round, and is where circles put it', () => {
    const motion = trace(leg, { driver: { turn: 'crank' }, from: -Math.PI, to: Math.PI });
    expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
    assert(
      property(double({ min: -Math.PI, max: Math.PI, noNaN: true }), (turn) => {
        const { A, ...others } = motion.at(turn);
        const placed = placePoints({
          O: [0, 0],
          C: [-38, -7.8],
          A,
          ...bars,
        });
        for (const [name, [x, y]] of Object.entries(others)) {
          expectClose(placed[name as 'foot'][0], x, { times: 2 ** 10, scale: 100 });
          expectClose(placed[name as 'foot'][1], y, { times: 2 ** 10, scale: 100 });
        }
      }),
    );
  });

  it('steps flat: over half a turn its foot rises less than a tenth of its stride', () => {
    const motion = trace(leg, { driver: { turn: 'crank' }, from: -Math.PI, to: Math.PI });
    const path = Array.from({ length: 201 }, (_, k) => motion.at(-Math.PI + (k * Math.PI) / 100).foot);
    const ground = Math.min(...path.map(([, y]) => y));
    const stride = Math.max(...path.map(([x]) => x)) - Math.min(...path.map(([x]) => x));
    const lift = Math.max(...path.map(([, y]) => y)) - ground;
    const flat = path.filter(([, y]) => y - ground < 0.1 * stride).length;
    expect(flat).toBeGreaterThan(100);
    expect(lift).toBeGreaterThan(0.25 * stride);
  });
});
