/**
 * Straight-line linkages: what a drawing's motion must do exactly, or to a known deviation. Proportions marked "seen"
 * were read where named; "from memory" were not; what follows from them was computed here.
 */
import { type Drawing, type Measure, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { spread } from '../support/motions.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const degree = Math.PI / 180;

const polar = (radius: number, angle: number, [x, y]: Point = [0, 0]): Point => [
  x + radius * Math.cos(angle),
  y + radius * Math.sin(angle),
];
const between = (p: Point, q: Point, share = 0.5): Point => [
  p[0] + share * (q[0] - p[0]),
  p[1] + share * (q[1] - p[1]),
];
const distance = (p: Point, q: Point) => Math.hypot(q[0] - p[0], q[1] - p[1]);

/** Where circles about p and q meet, to the left of the line from p to q. */
function meet(p: Point, r: number, q: Point, s: number): Point {
  const d = distance(p, q);
  const along = (r * r - s * s + d * d) / (2 * d);
  const [x, y] = between(p, q, along / d);
  const across = Math.sqrt(r * r - along * along) / d;
  return [x - across * (q[1] - p[1]), y + across * (q[0] - p[0])];
}

/** The poses of a drawing at evenly spaced values of a driver, which must be reached. */
function poses(
  drawing: Drawing,
  driver: Measure,
  from: number,
  to: number,
  count = 41,
): Record<string, Point>[] {
  const motion = trace(deepFreeze(drawing), { driver, from, to });
  expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
  return Array.from({ length: count }, (_, k) =>
    motion.at(Math.min(to, from + (k * (to - from)) / (count - 1))),
  );
}

// en.wikipedia.org/wiki/Peaucellier-Lipkin_linkage; geometer.org/geometer/Diagrams/Peaucellier.T (seen).
// OB OD = a^2 - b^2; the crank's circle passes through O, so that D stays on x = (a^2 - b^2) / (2 r).
/**
 * Where a rhombus lies flat two pivots vanish together, so that a place off by d misses the rows by d^2 alone: with rows
 * held to 1e-12 of the size it is known to about the root of that, and no better.
 */
const FLAT = 1e-4;

describe('Peaucellier and Lipkin: arms 5, rhombus 3, crank 1.25', () => {
  const [a, b, r] = [5, 3, 1.25];

  function drawn(crank: number): Drawing {
    const M: Point = [r, 0];
    const B = polar(r, crank, M);
    const D = polar((a * a - b * b) / Math.hypot(...B), Math.atan2(B[1], B[0]));
    return {
      points: { O: [0, 0], M, B, D, A: meet(B, b, D, b), C: meet(D, b, B, b) },
      ground: ['O', 'M'],
      bodies: {
        crank: ['M', 'B'],
        OA: ['O', 'A'],
        OC: ['O', 'C'],
        AB: ['A', 'B'],
        BC: ['B', 'C'],
        CD: ['C', 'D'],
        DA: ['D', 'A'],
      },
    };
  }

  it.each([0, 0.3, -0.9])('keeps product and line, drawn with the crank at %d rad', (crank) => {
    for (const { B, D } of poses(drawn(crank), { angle: ['M', 'B'] }, -1.2, 1.2)) {
      expectClose(Math.hypot(...B) * Math.hypot(...D), 16, { times: 64, scale: 16 });
      expectClose(D[0], 6.4, { times: 64, scale: 16 });
    }
  });

  it('ends, driven along its line, where the rhombus lies flat: OB 2, OD 8 (exact, computed here)', () => {
    const motion = trace(deepFreeze(drawn(0.3)), { driver: { y: 'D' } });
    // There the driver turns back, and another way opens: either may be said.
    for (const { status } of [motion.low, motion.high])
      expect(['deadPoint', 'bifurcation']).toContain(status);
    expectWithin(motion.low.at, -4.8, FLAT);
    expectWithin(motion.high.at, 4.8, FLAT);
  });

  it('does not leave its line unseen where the rhombus lies flat, traced by arc length', () => {
    const motion = trace(deepFreeze(drawn(0.3)));
    // It may pass there, or stop there at a bifurcation.
    for (const { status } of [motion.low, motion.high]) expect(['closed', 'bifurcation']).toContain(status);
    for (const at of spread(motion, 400)) expectWithin(motion.at(at).D[0], 6.4, FLAT);
  });
});

/** The three bars between the ends of a contraparallelogram, and its mid-points, with CE about A in the origin. */
function contraparallelogram(
  short: number,
  long: number,
  Ag: number,
  direction: number,
): Record<string, Point> {
  // CF and DE are parallel, CF DE = long^2 - short^2, and A, g, p lie on the line half way between.
  const [u, v] = [2 * Ag, (long ** 2 - short ** 2) / (2 * Ag)];
  const h = Math.sqrt(short ** 2 - ((u - v) / 2) ** 2);
  const A: Point = [-(u + v) / 4, h / 2];
  const place = (x: number, y: number) =>
    polar(Math.hypot(x - A[0], y - A[1]), Math.atan2(y - A[1], x - A[0]) + direction);
  const [C, E] = [place(-u / 2, 0), place(-v / 2, h)];
  const [D, F] = [place(v / 2, h), place(u / 2, 0)];
  return { A: [0, 0], C, D, E, F, g: between(E, F), p: between(C, D) };
}

// Hart's inversors (seen: wiki.inamatrix.xyz, a copy of Wikipedia's page): example dimensions.
describe("Hart's first inversor: bars 6 and 12, crank 2 with its pivot 2 from the fixed mid-point", () => {
  // Ap Ag = (12^2 - 6^2) / 4 = 27, so that p stays on x = 27 / (2 * 2) = 6.75.
  const drawn = (direction: number): Drawing => ({
    points: { S: [2, 0], ...contraparallelogram(6, 12, 4 * Math.cos(direction), direction) },
    ground: ['A', 'S'],
    bodies: {
      CE: ['C', 'A', 'E'],
      EF: ['E', 'g', 'F'],
      CD: ['C', 'p', 'D'],
      FD: ['F', 'D'],
      crank: ['S', 'g'],
    },
  });

  it.each([0.1, 0.5, -0.4])('keeps product and line, drawn at %d rad', (direction) => {
    for (const { g, p } of poses(drawn(direction), { angle: ['S', 'g'] }, -1.3, 1.3)) {
      expectClose(Math.hypot(...g) * Math.hypot(...p), 27, { times: 64, scale: 12 * 12 });
      expectClose(p[0], 6.75, { times: 64, scale: 12 });
    }
  });

  it('does not leave its line unseen where its bars lie flat, traced by arc length', () => {
    const motion = trace(deepFreeze(drawn(0.5)));
    for (const { status } of [motion.low, motion.high]) expect(['closed', 'bifurcation']).toContain(status);
    for (const at of spread(motion, 400)) expectWithin(motion.at(at).p[0], 6.75, 1e-6);
  });
});

// Same source (seen): anchors 4 apart, arms 3 + 1, cross bar 2 at radius 3, tip bars 2.
describe("Hart's second inversor", () => {
  function drawn(arm: number): Drawing {
    const [G, H]: Point[] = [
      [0, 0],
      [4, 0],
    ];
    const [P, Q] = [polar(3, arm), polar(4, arm)];
    const R = meet(P, 2, H, 3);
    const S = between(H, R, 4 / 3);
    return {
      points: { G, H, P, Q, R, S, T: meet(Q, 2, S, 2) },
      ground: ['G', 'H'],
      bodies: {
        left: ['G', 'P', 'Q'],
        right: ['H', 'R', 'S'],
        cross: ['P', 'R'],
        QT: ['Q', 'T'],
        ST: ['S', 'T'],
      },
    };
  }

  it('keeps its tip on the bisector of the anchors over its whole loop', () => {
    const motion = trace(deepFreeze(drawn(60 * degree)));
    expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
    for (let k = 0; k <= 100; k++) {
      expectClose(motion.at((k / 101) * motion.high.at).T[0], 2, { times: 64, scale: 8 });
    }
  });

  it('has its tip at 2 + 2 sqrt 3 with the arm at 60 degrees, and at 4 at 90, where the arm ends', () => {
    const motion = trace(deepFreeze(drawn(50 * degree)), { driver: { angle: ['G', 'Q'] } });
    expectClose(motion.at(60 * degree).T[1], 2 + 2 * Math.sqrt(3), { times: 64, scale: 8 });
    expect(motion.high.status).toBe('deadPoint');
    expectClose(motion.high.at, 90 * degree, { times: 64, scale: 1 });
    expectWithin(motion.at(motion.high.at).T[1], 4, 1e-9);
  });
});

// The greatest rise between its three exact points, 0.2438 % of the stroke 4, and where: computed here to 30 digits.
const rise = 0.00975373308636;
const riseAt = 0.807575998229;

// wikisum.wiki/wiki/Chebyshev_linkage (seen: proportions 5 : 4 : 2).
describe("Chebyshev's linkage: ground 4, crossed bars 5, coupler 2", () => {
  const drawing: Drawing = deepFreeze({
    points: { A: [0, 0], B: [4, 0], C: [1, 4], D: [3, 4], M: [2, 4] },
    ground: ['A', 'B'],
    bodies: { AD: ['A', 'D'], BC: ['B', 'C'], coupler: ['C', 'M', 'D'] },
  });
  const motion = trace(drawing, { driver: { x: 'M' }, from: -0.1, to: 4.1 });

  it('passes through (0, 4), (2, 4) and (4, 4)', () => {
    expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
    for (const x of [0, 2, 4]) {
      const { M } = motion.at(x);
      expectClose(M[0], x, { times: 64, scale: 5 });
      expectClose(M[1], 4, { times: 64, scale: 5 });
    }
  });

  it('rises between them by 0.24 % of its stroke, and never sinks', () => {
    const found = motion.extremes({ y: 'M' });
    expect(found).toHaveLength(5);
    [0, riseAt, 2, 4 - riseAt, 4].forEach((x, k) => {
      expectWithin(found[k].at, x, 1e-9);
      expectWithin(found[k].value, k % 2 === 0 ? 4 : 4 + rise, 1e-12);
    });
    for (let x = 0; x <= 4; x += 1 / 16) expect(motion.at(x).M[1]).toBeGreaterThanOrEqual(4 - 1e-14);
  });
});

// wikisum.wiki/wiki/Chebyshev's_Lambda_Mechanism (seen: proportions); the same curve, as its cognate.
describe("Chebyshev's lambda: crank 1, ground 2, coupler 2.5 + 2.5, rocker 2.5", () => {
  function drawn(crank: number): Drawing {
    const [O, R]: Point[] = [
      [0, 0],
      [2, 0],
    ];
    const A = polar(1, crank);
    // B is as far from A as from R, and half way to P: A, R and P are a right angle at R.
    const B = meet(A, 2.5, R, 2.5);
    return {
      points: { O, R, A, B, P: between(A, B, 2) },
      ground: ['O', 'R'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B', 'P'], rocker: ['R', 'B'] },
    };
  }
  const motion = trace(deepFreeze(drawn(180 * degree)), { driver: { turn: 'crank' } });

  it('passes through the same three points, at 90, 180 and 270 degrees', () => {
    expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
    const half = trace(deepFreeze(drawn(180 * degree)), {
      driver: { turn: 'crank' },
      from: -1.6,
      to: 1.6,
    });
    for (const [turned, x] of [
      [-Math.PI / 2, 4],
      [0, 2],
      [Math.PI / 2, 0],
    ]) {
      const { P } = half.at(turned);
      expectClose(P[0], x, { times: 64, scale: 5 });
      expectClose(P[1], 4, { times: 64, scale: 5 });
    }
    const rises = half.extremes({ y: 'P' }).map(({ value }) => value);
    expect(rises).toHaveLength(5);
    rises.forEach((value, k) => expectWithin(value, k % 2 === 0 ? 4 : 4 + rise, 1e-12));
  });

  it('draws the curve of the crossed bars', () => {
    const cognate = trace(
      deepFreeze({
        points: { A: [0, 0], B: [4, 0], C: [1, 4], D: [3, 4], M: [2, 4] },
        ground: ['A', 'B'],
        bodies: { AD: ['A', 'D'], BC: ['B', 'C'], coupler: ['C', 'M', 'D'] },
      } as const),
      { driver: { x: 'M' }, from: -0.1, to: 4.1 },
    );
    for (const { P } of poses(drawn(180 * degree), { angle: ['O', 'A'] }, 95 * degree, 265 * degree)) {
      expectClose(cognate.at(P[0]).M[1], P[1], { times: 64, scale: 5 });
    }
  });
});

// Proportions as of the models at kmoddl.library.cornell.edu (from memory); deviation computed here.
describe("Roberts' linkage: base 2, coupler 1, four equal sides 1.2", () => {
  const height = Math.sqrt(1.2 ** 2 - 0.5 ** 2);
  const motion = trace(
    deepFreeze({
      points: { A: [0, 0], B: [2, 0], C: [0.5, height], D: [1.5, height], T: [1, 0] },
      ground: ['A', 'B'],
      bodies: { left: ['A', 'C'], right: ['B', 'D'], coupler: ['C', 'D', 'T'] },
    } as const),
    { driver: { x: 'T' }, from: 0, to: 2 },
  );

  it('has its tip on the base at both ends and in the middle, and at most 0.013642 below between', () => {
    expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
    for (const x of [0, 1, 2]) expectClose(motion.at(x).T[1], 0, { times: 64, scale: 2 });
    const found = motion.extremes({ y: 'T' });
    expect(found).toHaveLength(3);
    const [left, middle, right] = found.map(({ value }) => value);
    expectWithin(middle, 0, 1e-12);
    expectWithin(left, -0.013642, 1e-6);
    expectWithin(right, left, 1e-12);
  });
});

// Classical polar equation of Watt's curve (read in copies of Wikipedia's article; recomputed): pivots 2 a apart, arms b, coupler 2 c, mid-point at
// (r, t): r^2 = b^2 - (a sin t -+ sqrt(c^2 - a^2 cos^2 t))^2.
describe("Watt's curve", () => {
  function drawn(a: number, b: number, c: number, arm: number, side: 'left' | 'right'): Drawing {
    const [A, D]: Point[] = [
      [-a, 0],
      [a, 0],
    ];
    const B = polar(b, arm, A);
    const C = side === 'left' ? meet(B, 2 * c, D, b) : meet(D, b, B, 2 * c);
    return {
      points: { A, B, C, D, M: between(B, C) },
      ground: ['A', 'D'],
      bodies: { left: ['A', 'B'], coupler: ['B', 'M', 'C'], right: ['D', 'C'] },
    };
  }

  it.each([
    [2, 2.5, 1.2, 'left', 80],
    [2, 2.5, 1.2, 'right', 80],
    [2, 3, 1.5, 'left', 80],
    [2, 3, 1.5, 'right', 80],
  ] as const)('holds for pivots 2 * %d, arms %d, coupler 2 * %d, drawn %s', (a, b, c, side, arm) => {
    const motion = trace(deepFreeze(drawn(a, b, c, arm * degree, side)));
    expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
    for (let k = 0; k < 100; k++) {
      const { M } = motion.at((k / 100) * motion.high.at);
      const [r, t] = [Math.hypot(...M), Math.atan2(M[1], M[0])];
      const root = Math.sqrt(Math.max(0, c * c - (a * Math.cos(t)) ** 2));
      const off = [-1, 1].map((sign) => Math.abs(r * r - b * b + (a * Math.sin(t) + sign * root) ** 2));
      expectWithin(Math.min(...off), 0, 1e-12 * b * b * (1 + (a * a) / Math.max(1e-3, root)));
    }
  });

  // a = c = 1, b = sqrt 2 (from memory, recomputed). The bars lie flat with the arm at 0 and at 180 degrees.
  it('is the lemniscate of Bernoulli with crossed arms sqrt 2 on pivots and coupler 2', () => {
    const crossed = drawn(1, Math.SQRT2, 1, 60 * degree, 'right');
    for (const { M } of poses(crossed, { angle: ['A', 'B'] }, 5 * degree, 175 * degree)) {
      const [x2, y2] = [M[0] ** 2, M[1] ** 2];
      expectClose((x2 + y2) ** 2, 2 * (x2 - y2), { times: 512, scale: 4 });
    }
  });

  it('is a circle with the same arms parallel', () => {
    const parallel = drawn(1, Math.SQRT2, 1, 60 * degree, 'left');
    for (const { M } of poses(parallel, { angle: ['A', 'B'] }, 5 * degree, 175 * degree)) {
      expectClose(M[0] ** 2 + M[1] ** 2, 2, { times: 512, scale: 4 });
    }
  });
});

// Any text; exact consequences, computed here.
describe('a parallelogram: arms 300', () => {
  const drawing: Drawing = deepFreeze({
    points: { A: [0, 0], B: [300, 0], D: [-20, 190], C: [280, 190], P: [350, 40] },
    ground: ['A', 'D'],
    bodies: { lower: ['A', 'B'], upper: ['D', 'C'], coupler: ['B', 'C', 'P'] },
  });
  const motion = trace(drawing, { driver: { y: 'B' }, from: -80, to: 80 });

  it('keeps the direction of its coupler', () => {
    const { value, first, second } = motion.read({ turn: 'coupler' })(35);
    for (const part of [value, first, second]) expectClose(part, 0, { times: 64, scale: 1 });
  });

  it.each([
    [50, 4.196011],
    [80, 10.863354],
    [-80, 10.863354],
  ])('moves a point of the coupler that rises by %d sideways by %d', (travel, sideways) => {
    const { P } = motion.at(travel);
    expectWithin(350 - P[0], sideways, 1e-6);
    expectWithin(350 - P[0], 300 - Math.sqrt(300 ** 2 - travel ** 2), 1e-9);
    expectWithin(P[1] - 40, travel, 1e-9);
  });
});
