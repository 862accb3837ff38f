/** The rest of a linkage of several degrees of freedom while loads and lengths grow: closed forms, and the exact search of one freedom. */
import { assert, constantFrom, double, noShrink, property, record } from 'fast-check';
import { InputError, linkage, trace } from 'jounce/linkage';
import { followEquilibrium, followEquilibriumFrom, type MotionLoad } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { expectSame, expectWithin } from '../support/tolerance.ts';

/** Each run is a long way. */
const RUNS = { numRuns: 6 };
const number = (min: number, max: number) => noShrink(double({ min, max, noNaN: true }));
const { cbrt, cos, hypot, sin, sqrt, tan } = Math;

/** The place of y in an interval at whose ends f has different signs. */
function bisect(f: (y: number) => number, low: number, high: number): number {
  const sign = Math.sign(f(low));
  for (let n = 0; n < 100; n++) {
    const middle = (low + high) / 2;
    if (Math.sign(f(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

// Two elastic bars of rate k from supports 2 b apart to an apex at the height h, free length L0 = sqrt(b^2 + h^2): P = 2 k y (L0/L - 1),
// L^2 = b^2 + y^2, greatest at L^3 = L0 b^2, where P = 2 k L0 (1 - cos^(2/3) a)^(3/2), cos a = b/L0. Sideways the stiffness
// 2 k (1 - L0 y^2/L^3) is zero before that if L0/b > 3 sqrt(3)/2 (R. von Mises, Z. angew. Math. Mech. 3, 1923, from memory; derived anew).
describe('the truss after von Mises, its apex free', () => {
  const trusses = record({ b: number(50, 300), slope: number(0.2, 2), k: number(0.1, 50) });
  function truss({ b, slope, k }: { b: number; slope: number; k: number }) {
    const h = slope * b;
    const drawing = linkage({
      points: { L: [-b, 0], R: [b, 0], A: [0, h], up: [0, h + b] },
      ground: ['L', 'R'],
      bodies: { mast: ['A', 'up'] },
      fixedAngles: { upright: ['mast'] },
    });
    const L0 = hypot(b, h);
    const springs = (['L', 'R'] as const).map(
      (foot): MotionLoad<'L' | 'R' | 'A', never> => ({
        along: { length: [foot, 'A'] },
        rate: k,
        freeAt: L0,
      }),
    );
    const load: MotionLoad<'A', never> = { at: 'A', force: [0, -1] };
    return { drawing, springs, load, L0, held: (y: number) => 2 * k * y * (L0 / hypot(b, y) - 1) };
  }

  it('snaps through at its limit load, and back at the opposite one', () => {
    assert(
      property(trusses, (given) => {
        const { drawing, springs, load, L0, held } = truss(given);
        const { b, k } = given;
        const P = 2 * k * L0 * (1 - cbrt(b / L0) ** 2) ** 1.5;
        const y = b * sqrt(cbrt(L0 / b) ** 2 - 1);
        const down = followEquilibriumFrom(drawing, springs, [load], { to: 1.2 * P });
        expectSame([down.status, down.snaps.length, down.rest?.status], ['reached', 1, 'stable']);
        const [{ factor, from, to }] = down.snaps;
        expectWithin(factor, P, 1e-9 * P);
        expectWithin(from.A[1], y, 1e-5 * b);
        const beyond = bisect((at) => held(at) - P, -10 * L0, -b * 1e-9);
        expectWithin(to?.A[1] ?? null, beyond, 1e-9 * L0);
        expectWithin(to?.A[0] ?? null, 0, 1e-9 * L0);
        for (const { factor: own, points } of down.rows) expectWithin(held(points.A[1]), own, 1e-8 * P);
        const up = followEquilibriumFrom(
          { ...drawing, points: down.rest?.points ?? drawing.points },
          springs,
          [load],
          { from: 1.2 * P, to: -1.2 * P },
        );
        expectSame([up.status, up.snaps.length], ['reached', 1]);
        expectWithin(up.snaps[0].factor, -P, 1e-9 * P);
        expectWithin(up.snaps[0].from.A[1], -y, 1e-5 * b);
      }),
      RUNS,
    );
  });

  it('of a steep one buckles sideways before', () => {
    assert(
      property(number(50, 300), number(3, 5), number(0.1, 50), (b, slope, k) => {
        const { drawing, springs, load, L0, held } = truss({ b, slope, k });
        // The higher of two roots: L0 y^2/L^3 is greatest at y = sqrt(2) b.
        const y = bisect((at) => hypot(b, at) ** 3 - L0 * at * at, sqrt(2) * b, slope * b);
        const found = followEquilibriumFrom(drawing, springs, [load], { to: 2 * held(y) });
        expectSame([found.status, found.snaps], ['bifurcation', []]);
        expectWithin(found.factor, held(y), 1e-9 * held(y));
        expectWithin(found.rest?.points.A[1] ?? null, y, 1e-8 * b);
      }),
      RUNS,
    );
  });

  it('with free lengths that shrink falls in under a load that stays', () => {
    assert(
      property(
        number(50, 300),
        number(0.3, 1.5),
        number(0.1, 50),
        number(0.05, 0.6),
        (b, slope, k, share) => {
          const { drawing, springs, load, L0 } = truss({ b, slope, k });
          const P = share * 2 * k * L0 * (1 - cbrt(b / L0) ** 2) ** 1.5;
          // P = 2 k L (1 - cos^(2/3))^(3/2) for the free length L of the limit, cos = b/L.
          const limit = bisect((L) => 2 * k * L * (1 - cbrt(b / L) ** 2) ** 1.5 - P, b, L0);
          const found = followEquilibriumFrom(
            drawing,
            [...springs, { ...load, force: [0, -P] }],
            (['L', 'R'] as const).map((foot) => ({
              along: { length: [foot, 'A'] as const },
              rate: k,
              freeBy: -1,
            })),
            { to: L0 - b },
          );
          expectSame([found.status, found.snaps.length], ['reached', 1]);
          expectWithin(found.snaps[0].factor, L0 - limit, 1e-8 * L0);
        },
      ),
      RUNS,
    );
  });
});

describe('a column of two bars with torsion springs', () => {
  // As in equilibria-from.test.ts: P L/k = (3 - sqrt 5)/2 (H. Ziegler, 1968, from memory).
  it('buckles at its critical load', () => {
    assert(
      property(number(20, 300), number(10, 1e4), (L, k) => {
        const column = linkage({
          points: { O: [0, 0], A: [0, L], B: [0, 2 * L] },
          ground: ['O'],
          bodies: { lower: ['O', 'A'], upper: ['A', 'B'] },
        });
        const critical = ((3 - sqrt(5)) / 2) * (k / L);
        const springs: MotionLoad<'O' | 'A' | 'B', 'lower' | 'upper'>[] = [
          { along: { turn: 'lower' }, rate: k, freeAt: 0 },
          { along: { turn: 'upper', relativeTo: 'lower' }, rate: k, freeAt: 0 },
        ];
        const load = [{ at: 'B', force: [0, -1] }] as const;
        const found = followEquilibriumFrom(column, springs, load, { to: 3 * critical });
        expectSame([found.status, found.rest?.status], ['bifurcation', 'neutral']);
        expectWithin(found.factor, critical, 1e-10 * critical);
        // Pushed aside a little it bends that way, without a snap.
        const bent = followEquilibriumFrom(column, [...springs, { on: 'lower', moment: 1e-3 * k }], load, {
          to: 2 * critical,
        });
        expectSame([bent.status, bent.snaps, bent.rest?.status], ['reached', [], 'stable']);
        expect(bent.rest?.points.B[0]).toBeLessThan(-L / 2);
      }),
      RUNS,
    );
  });
});

// A strut of length l at the angle t to the ground, its foot on a rail with a spring of rate k that is free at x0 from the line of the
// top, which goes up and down and carries W: k (l sin t - x0 tan t) = W. As l gets shorter the top snaps down where dl/dt = 0:
// tan^3 t = W/(k x0), l = x0/cos^3 t.
describe('a strut that gets shorter', () => {
  const struts = record({
    x0: number(50, 300),
    k: number(0.1, 50),
    t: number(0.2, 0.9),
    over: number(1.1, 1.6),
  });
  const drawn = ({ x0, k, t, over }: { x0: number; k: number; t: number; over: number }) => {
    const W = k * x0 * tan(t) ** 3;
    const l = (over * x0) / cos(t) ** 3;
    const balance = (at: number, length = l) => k * (length * sin(at) - x0 * tan(at)) - W;
    // Above the limit, as l is longer than there.
    const rest = bisect(balance, t, Math.acos(cbrt(x0 / l)));
    const drawing = linkage({
      points: { F: [l * cos(rest), 0], T: [0, l * sin(rest)] },
      ground: [],
      bodies: { strut: ['F', 'T'] },
      fixedCoordinates: [{ y: 'F' }, { x: 'T' }],
    });
    const loads: MotionLoad<'F' | 'T', 'strut'>[] = [
      { along: { x: 'F' }, rate: k, freeAt: x0 },
      { at: 'T', force: [0, -W] },
    ];
    return { W, l, drawing, loads, balance };
  };

  it('snaps at the length of the closed form', () => {
    assert(
      property(struts, (given) => {
        const { drawing, loads, l, balance } = drawn(given);
        const { x0, t } = given;
        const limit = x0 / cos(t) ** 3;
        const found = followEquilibriumFrom(drawing, loads, [{ bar: 'strut', by: -1 }], {
          to: 1.1 * (l - limit),
        });
        expectSame(found.snaps.length, 1);
        const [{ factor, from, to }] = found.snaps;
        expectWithin(l - factor, limit, 1e-9 * l);
        expectWithin(from.T[1], limit * sin(t), 1e-5 * l);
        expectSame(found.status, 'reached');
        // After it the top is below the rail.
        const under = Math.atan2(to?.T[1] ?? Number.NaN, to?.F[0] ?? Number.NaN);
        expect(under).toBeLessThan(0);
        expectWithin(balance(under, limit) / (given.k * x0), 0, 1e-9);
        for (const { points, factor: own } of found.rows) {
          expectWithin(hypot(points.F[0], points.T[1]), l - own, 1e-11 * l);
        }
      }),
      RUNS,
    );
  });

  it('ends where it cannot grow any more', () => {
    const between = linkage({
      points: { O: [0, 0], A: [60, 80], C: [90, 70], B: [120, 0] },
      ground: ['O', 'B'],
      bodies: { one: ['O', 'A'], two: ['A', 'C'], three: ['C', 'B'] },
    });
    const found = followEquilibriumFrom(
      between,
      [
        { at: 'A', force: [-5, 0] },
        { at: 'C', force: [5, 0] },
      ],
      [{ bar: 'two', by: 1 }],
      {
        to: 1000,
      },
    );
    expectSame([found.status, found.snaps], ['deadPoint', []]);
    const { O, A, C, B } = found.rest?.points ?? between.points;
    // All in line, A to the right: 100 + l = 120 + hypot(30, 70); located as a place near it.
    expectWithin(hypot(30, 10) + found.factor, 20 + hypot(30, 70), 0.02);
    expectWithin(hypot(C[0] - A[0], C[1] - A[1]), hypot(30, 10) + found.factor, 1e-9);
    expectWithin(hypot(A[0] - O[0], A[1] - O[1]), 100, 1e-9);
    expectWithin(hypot(C[0] - B[0], C[1] - B[1]), hypot(30, 70), 1e-9);
  });
});

describe('a linkage of one freedom', () => {
  // The truss of rigid bars with a spring at its foot (equilibria.test.ts).
  it('is followed as by its motion', () => {
    assert(
      property(number(0.3, 1.1), number(50, 300), number(0.1, 50), constantFrom(1, -1), (t0, l, k, side) => {
        const [x, y] = [l * cos(t0), side * l * sin(t0)];
        const truss = linkage({
          points: { O: [0, 0], A: [x, y], B: [2 * x, 0], near: [l, 0], far: [3 * l, 0] },
          ground: ['O', 'near', 'far'],
          bodies: { first: ['O', 'A'], second: ['A', 'B'] },
          sliders: { foot: { point: 'B', on: ['near', 'far'] } },
        });
        const springs = [{ along: { x: 'B' }, rate: k, freeAt: 2 * x }] as const;
        const load = [{ at: 'A', force: [0, -side] }] as const;
        const to = 4 * k * l;
        const motion = trace(truss, { driver: { turn: 'first' } });
        const exact = followEquilibrium(motion, springs, load, { to });
        const found = followEquilibriumFrom(truss, springs, load, { to });
        expectSame([found.status, found.snaps.length], [exact.status, exact.snaps.length]);
        found.snaps.forEach(({ factor, to: after }, n) => {
          const other = exact.snaps[n];
          expectWithin(factor, other.factor, 1e-9 * to);
          const there = other.to === null ? null : motion.at(other.to).A;
          expectWithin(after?.A[1] ?? null, there?.[1] ?? Number.NaN, 1e-7 * l);
        });
      }),
      RUNS,
    );
  });
});

describe('what is not followed', () => {
  const column = linkage({
    points: { O: [0, 0], A: [0, 90], B: [10, 180], S: [0, 50] },
    ground: ['O'],
    bodies: { lower: ['O', 'A'], upper: ['A', 'B', 'S'] },
  });

  it('has no stable rest at the start', () => {
    const found = followEquilibriumFrom(column, [], [{ at: 'B', force: [0, -1] }]);
    expectSame(found, { status: 'noRest', factor: 0, rest: null, rows: [], snaps: [] });
  });

  it('has a rope that gets slack', () => {
    const hung = linkage({
      points: { top: [0, 0], P: [0, -100], Q: [0, -160] },
      ground: ['top'],
      bodies: { rod: ['P', 'Q'] },
      ropes: { line: ['top', 'P'] },
    });
    const found = followEquilibriumFrom(hung, [{ at: 'Q', force: [0, -20] }], [{ at: 'P', force: [0, 1] }], {
      to: 50,
    });
    expectSame([found.status, found.rest?.status], ['slackRope', 'neutral']);
    expectWithin(found.factor, 20, 1e-9);
  });

  it('refuses bars that cannot grow, all at once', () => {
    try {
      followEquilibriumFrom(
        column,
        [],
        [
          { bar: 'upper', by: 1 },
          { bar: 'lowr' as 'lower', by: Number.NaN },
          { along: { turn: 'lower' }, rate: 1, freeBy: Number.NaN },
        ],
        { to: Number.NaN, start: 3 as never },
      );
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      expectSame(
        error.issues.map(({ path, code }) => [path, code]),
        [
          ['to', 'notFinite'],
          ['start', 'noDriver'],
          ['growing[0].bar', 'notABarThatGrows'],
          ['growing[1].by', 'notFinite'],
          ['growing[1].bar', 'unknownName'],
          ['growing[2].freeBy', 'notFinite'],
        ],
      );
      return;
    }
    expect.fail('nothing was thrown');
  });
});
