/** Where a linkage comes to rest: closed forms, energies on a dense grid, and forces as another judge. */
import { type Arbitrary, assert, constantFrom, double, property, record, tuple } from 'fast-check';
import {
  type Drawing,
  InputError,
  linkage,
  type Measure,
  type Motion,
  type Point,
  trace,
} from 'jounce/linkage';
import {
  equilibria,
  equilibriaFrom,
  followEquilibrium,
  forces,
  type Load,
  type MotionLoad,
} from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { linkages } from '../support/linkages.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

/** Each run is several searches. */
const RUNS = { numRuns: 25 };
const number = (min: number, max: number) => double({ min, max, noNaN: true });

/** An arm of length r from O, to turn from -reach to reach about its place at an angle from +x. */
function arm(r: number, angle: number, others: Readonly<Record<string, Point>> = {}) {
  const drawing = linkage({
    points: { O: [0, 0], P: [r * Math.cos(angle), r * Math.sin(angle)], ...others },
    ground: ['O', ...Object.keys(others)],
    bodies: { arm: ['O', 'P'] },
  } as Drawing);
  return (reach: number): Motion => trace(drawing, { driver: { turn: 'arm' }, from: -reach, to: reach });
}

describe('a weight and a torsion spring on a pendulum', () => {
  // Upside down: W r sin(phi) = k phi. Roots of sin(phi)/phi = k/(W r) by bisection.
  it('hold it upright if stiff, else to either side of that', () => {
    assert(
      property(number(0.05, 0.95), number(1, 500), number(1, 100), (share, r, W) => {
        const k = share * W * r;
        const motion = arm(r, Math.PI / 2)(3);
        const loads: MotionLoad[] = [
          { at: 'P', force: [0, -W] },
          { along: { turn: 'arm' }, rate: k, freeAt: 0 },
        ];
        let [low, high] = [1e-3, Math.PI];
        for (let n = 0; n < 80; n++) {
          const middle = (low + high) / 2;
          if (Math.sin(middle) / middle > share) low = middle;
          else high = middle;
        }
        const found = equilibria(motion, loads);
        const inRange = low < 3;
        expectSame(found.status, 'found');
        expectSame(
          found.equilibria.map(({ status }) => status),
          inRange ? ['stable', 'unstable', 'stable'] : ['unstable'],
        );
        expectSame([found.pressedLow, found.pressedHigh], [!inRange, !inRange]);
        const upright = found.equilibria[inRange ? 1 : 0];
        expectWithin(upright.at, 0, 1e-12);
        expectWithin(upright.stiffness, k - W * r, 1e-9 * W * r);
        if (!inRange) return;
        const [left, , right] = found.equilibria;
        for (const [rest, at] of [
          [left, -low],
          [right, low],
        ] as const) {
          expectWithin(rest.at, at, 1e-9);
          expectWithin(rest.stiffness, k - W * r * Math.cos(low), 1e-8 * W * r);
          expectWithin(rest.potential, 0.5 * k * low * low - W * r * (1 - Math.cos(low)), 1e-9 * W * r);
        }
        const stiff = equilibria(motion, [
          loads[0],
          { along: { turn: 'arm' }, rate: W * r * 1.01, freeAt: 0 },
        ]);
        expectSame(
          stiff.equilibria.map(({ status }) => status),
          ['stable'],
        );
      }),
      RUNS,
    );
  });

  it('buckle it at a weight of k / r, and either way', () => {
    const motion = arm(200, Math.PI / 2)(3);
    const spring: MotionLoad = { along: { turn: 'arm' }, rate: 5000, freeAt: 0 };
    const weight: MotionLoad = { at: 'P', force: [0, -1] };
    const found = followEquilibrium(motion, [spring], [weight], { to: 100 });
    expectSame(found.status, 'bifurcation');
    expectWithin(found.factor, 25, 1e-10);
    expectSame(found.rest?.status, 'stable');
    expectSame(followEquilibrium(motion, [spring], [weight], { to: 24.9 }).status, 'reached');
    // Unloaded from the side it comes back upright, and stays there.
    const back = followEquilibrium(motion, [spring], [weight], { from: 40, to: 0, start: 1 });
    expectSame([back.status, back.snaps], ['reached', []]);
    expectWithin(back.rest?.at ?? null, 0, 1e-9);
    const upright = back.rows.find(({ at }) => Math.abs(at) < 1e-6);
    expectWithin(upright?.factor ?? null, 25, 1e-6);
    // Pushed a little to one side it follows that side, without a snap.
    const bent = followEquilibrium(motion, [spring, { on: 'arm', moment: 1 }], [weight], { to: 40 });
    expectSame([bent.status, bent.snaps], ['reached', []]);
    expect(bent.rest?.at).toBeGreaterThan(1);
  });
});

// A lamp: a spring of zero free length and rate k from the height H above the pivot to the distance s along the arm has the
// potential k (H^2 + s^2 - 2 H s sin(angle))/2, which balances W r sin(angle) everywhere if k H s = W r. Closed form: by the law of
// cosines.
describe('a balanced lamp', () => {
  const lamps = record({ s: number(50, 300), r: number(100, 900), H: number(50, 400), W: number(1, 90) });
  const drawn = ({ s, r, H }: { s: number; r: number; H: number }): Motion =>
    trace(
      linkage({
        points: { O: [0, 0], S: [s, 0], P: [r, 0], top: [0, H] },
        ground: ['O', 'top'],
        bodies: { arm: ['O', 'S', 'P'] },
      }),
      { driver: { turn: 'arm' }, from: -1.4, to: 1.4 },
    );

  it('rests anywhere: a verdict, no list', () => {
    assert(
      property(lamps, (lamp) => {
        const { s, r, H, W } = lamp;
        const found = equilibria(drawn(lamp), [
          { at: 'P', force: [0, -W] },
          { along: { length: ['S', 'top'] }, rate: (W * r) / (H * s), freeAt: 0 },
        ]);
        expectSame(found, {
          status: 'neutral',
          equilibria: [],
          pressedLow: false,
          pressedHigh: false,
          ends: { low: 'reached', high: 'reached' },
          gaps: [],
        });
      }),
      RUNS,
    );
  });

  it('with a spring a millionth too stiff goes up', () => {
    assert(
      property(lamps, (lamp) => {
        const { s, r, H, W } = lamp;
        const found = equilibria(drawn(lamp), [
          { at: 'P', force: [0, -W] },
          { along: { length: ['S', 'top'] }, rate: ((W * r) / (H * s)) * (1 + 1e-6), freeAt: 0 },
        ]);
        expectSame([found.status, found.pressedLow, found.pressedHigh], ['none', false, true]);
      }),
      RUNS,
    );
  });
});

// Two rigid bars of length l, apex loaded by P, their far end on a slider with a spring of rate k that is free as drawn at the angle
// t0: P = 4 k l (sin t - cos t0 tan t), greatest at cos^3 t = cos t0, where P = 4 k l sin^3 t = 4 k l (1 - cos^(2/3) t0)^(3/2).
// R. von Mises, Z. angew. Math. Mech. 3, 1923 (the form with rigid bars and a spring: from memory; derived anew).
describe('a truss after von Mises, of rigid bars and a spring', () => {
  const trusses = record({ t0: number(0.2, 1.2), l: number(50, 500), k: number(0.1, 50) });
  const drawn = ({ t0, l }: { t0: number; l: number }, reach = 2.5): Motion => {
    const [x, y] = [l * Math.cos(t0), l * Math.sin(t0)];
    const truss = linkage({
      points: { O: [0, 0], A: [x, y], B: [2 * x, 0], near: [l, 0], far: [3 * l, 0] },
      ground: ['O', 'near', 'far'],
      bodies: { first: ['O', 'A'], second: ['A', 'B'] },
      sliders: { foot: { point: 'B', on: ['near', 'far'] } },
    });
    return trace(truss, { driver: { turn: 'first' }, from: -reach * t0, to: 0.2 });
  };
  const most = ({ t0, l, k }: { t0: number; l: number; k: number }) =>
    4 * k * l * (1 - Math.cos(t0) ** (2 / 3)) ** 1.5;
  const spring = ({ t0, l, k }: { t0: number; l: number; k: number }): MotionLoad => ({
    along: { x: 'B' },
    rate: k,
    freeAt: 2 * l * Math.cos(t0),
  });

  it('has three rests below its greatest load, two at it, one above', () => {
    assert(
      property(trusses, number(0.05, 0.95), (truss, share) => {
        const motion = drawn(truss);
        const P = most(truss);
        const at = (load: number) =>
          equilibria(motion, [spring(truss), { at: 'A', force: [0, -load] }]).equilibria;
        const { t0 } = truss;
        const tc = Math.acos(Math.cos(t0) ** (1 / 3));
        expectSame(
          at(share * P).map(({ status }) => status),
          ['stable', 'unstable', 'stable'],
        );
        for (const rest of at(share * P)) {
          const t = t0 + rest.at;
          const held = 4 * truss.k * truss.l * (Math.sin(t) - Math.cos(t0) * Math.tan(t));
          expectWithin(held, share * P, 1e-8 * P);
        }
        const critical = at(P);
        expectSame(
          critical.map(({ status }) => status),
          ['stable', 'semistable'],
        );
        expectWithin(critical[1].at, tc - t0, 1e-6);
        expectSame(
          at(1.001 * P).map(({ status }) => status),
          ['stable'],
        );
      }),
      RUNS,
    );
  });

  it('snaps through there, and back at the opposite load', () => {
    assert(
      property(trusses, number(1.01, 1.5), (truss, over) => {
        const { t0, l, k } = truss;
        const motion = drawn(truss);
        const P = most(truss);
        const tc = Math.acos(Math.cos(t0) ** (1 / 3));
        const load: MotionLoad = { at: 'A', force: [0, -1] };
        const down = followEquilibrium(motion, [spring(truss)], [load], { to: over * P });
        expectSame([down.status, down.snaps.length], ['reached', 1]);
        const [{ factor, from, to }] = down.snaps;
        expectWithin(factor, P, 1e-9 * P);
        expectWithin(from, tc - t0, 1e-6);
        const beyond = t0 + (to ?? Number.NaN);
        expectWithin(4 * k * l * (Math.sin(beyond) - Math.cos(t0) * Math.tan(beyond)), P, 1e-8 * P);
        expect(beyond).toBeLessThan(0);
        const up = followEquilibrium(motion, [spring(truss)], [load], {
          from: over * P,
          to: -1.2 * P,
          start: down.rest?.at ?? 0,
        });
        expectWithin(up.snaps[0].factor, -P, 1e-9 * P);
        expectWithin(up.snaps[0].from, -tc - t0, 1e-6);
        // On the way to the snap every row is on the curve, and the load grows.
        const before = down.rows.filter(({ at }) => at >= from);
        before.forEach((row, n) => {
          const t = t0 + row.at;
          expectWithin(4 * k * l * (Math.sin(t) - Math.cos(t0) * Math.tan(t)), row.factor, 1e-8 * P);
          if (n > 0) expect(row.factor).toBeGreaterThanOrEqual(before[n - 1].factor);
        });
      }),
      RUNS,
    );
  });

  it('ends in no rest where the motion ends before the next', () => {
    const truss = { t0: 0.6, l: 100, k: 2 };
    const load: MotionLoad = { at: 'A', force: [0, -1] };
    const found = followEquilibrium(drawn(truss, 1.2), [spring(truss)], [load], { to: 1.1 * most(truss) });
    expectSame([found.status, found.rest, found.snaps[0].to], ['noRest', null, null]);
    const out = followEquilibrium(drawn(truss), [spring(truss)], [load], { to: -1e6 });
    expectSame(out.status, 'endOfMotion');
    expectWithin(out.rest?.at ?? null, 0.2, 1e-12);
  });
});

// An extension spring from a ground point at the distance a to the pin at r of an arm: L^2 = a^2 + r^2 - 2 a r cos t. It is slack
// where L is its free length, and dead in line with the pivot: t = 0 and pi.
describe('an over-centre catch', () => {
  it('rests on both sides of its dead centre, and there not', () => {
    assert(
      property(number(100, 200), number(0.3, 0.9), number(0.05, 0.95), (a, share, free) => {
        const r = share * a;
        const motion = arm(r, 0.5, { G: [a, 0] })(3.2);
        const [least, most] = [a - r, a + r];
        const L = least + free * (most - least);
        const slack = Math.acos((a * a + r * r - L * L) / (2 * a * r));
        const found = equilibria(motion, [{ along: { length: ['P', 'G'] }, rate: 3, freeAt: L }]);
        const expected = [
          [-slack, 'stable'],
          [0, 'unstable'],
          [slack, 'stable'],
          [Math.PI, 'unstable'],
          [-Math.PI, 'unstable'],
          [2 * Math.PI - slack, 'stable'],
          [slack - 2 * Math.PI, 'stable'],
        ]
          .map(([at, status]) => [(at as number) - 0.5, status] as const)
          .filter(([at]) => Math.abs(at) < 3.2)
          .sort(([one], [other]) => one - other);
        expectSame(
          found.equilibria.map(({ status }) => status),
          expected.map(([, status]) => status),
        );
        found.equilibria.forEach(({ at }, k) => {
          expectWithin(at, expected[k][0], 1e-9);
        });
      }),
      RUNS,
    );
  });
});

describe('a weight alone', () => {
  it('rests where its point is highest or lowest, round the whole loop', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        const names = Object.keys(drawing.points);
        const last = names[names.length - 1];
        const found = equilibria(motion, [{ at: last, force: [0, -7] }]);
        const turns = motion.extremes({ y: last }).map(({ at }) => at);
        const inside = found.equilibria.filter(({ at }) => at > motion.low.at && at < motion.high.at);
        const reach = motion.high.at - motion.low.at;
        const within = turns.filter((at) => at > motion.low.at && at < motion.high.at);
        expectSame(inside.length, within.length);
        inside.forEach(({ at }, k) => {
          expectWithin(at, within[k], 1e-8 * reach);
        });
      }),
      RUNS,
    );
  });

  it('of a closed motion drawn at rest counts once', () => {
    const drawing = linkage({
      points: { O: [0, 0], A: [40, 0], B: [115, 75], C: [100, 0] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
    });
    const motion = trace(drawing);
    expectSame(motion.high.status, 'closed');
    const found = equilibria(motion, [{ at: 'A', force: [9, 0] }]);
    expectSame(found.equilibria.map(({ status }) => status).sort(), ['stable', 'unstable']);
    expectSame([found.pressedLow, found.pressedHigh], [false, false]);
  });
});

/** Loads of every kind that have a potential, and that potential by places alone. */
const amount = number(-100, 100);
const kinds = record({
  force: tuple(amount, amount),
  moment: number(-2e4, 2e4),
  push: amount,
  offset: number(0, 50),
  rate: number(0.01, 2),
  free: number(20, 900),
  torsion: number(100, 1e4),
  freeTurn: number(-1, 1),
  gas: number(10, 400),
  exponent: constantFrom(1, 1.2, 1.4),
  table: tuple(amount, amount, amount),
});
type Kinds = typeof kinds extends Arbitrary<infer T> ? T : never;

function loadsOn(drawing: Drawing, k: Kinds) {
  const names = Object.keys(drawing.points);
  const [first, last] = [names[0], names[names.length - 1]];
  const middle = names[Math.floor(names.length / 2)];
  const distance = (points: Readonly<Record<string, Point>>, a: string, b: string, offset = 0) =>
    Math.hypot(points[b][0] - points[a][0], points[b][1] - points[a][1], offset);
  const reach = distance(drawing.points as Record<string, Point>, first, last) + 5000;
  const table = [
    [0, k.table[0]],
    [300, k.table[1]],
    [800, k.table[2]],
  ] as const;
  const loads: MotionLoad[] = [
    { at: last, force: k.force },
    { on: 'crank', moment: k.moment },
    { between: [first, last], push: k.push, offset: k.offset },
    { along: { length: [first, middle], offset: k.offset }, rate: k.rate, freeAt: k.free },
    { along: { turn: 'second0' }, rate: k.torsion, freeAt: k.freeTurn },
    {
      along: { length: [first, last] },
      gas: { force: k.gas, at: reach, column: 2 * reach, exponent: k.exponent },
    },
    { along: { x: last }, table },
  ];
  const potential = (points: Readonly<Record<string, Point>>, crank: number, second: number) => {
    const [x, y] = points[last];
    const L = distance(points, first, middle, k.offset);
    const column = (2 * reach + distance(points, first, last) - reach) / (2 * reach);
    const gas =
      k.exponent === 1
        ? -k.gas * 2 * reach * Math.log(column)
        : (k.gas * 2 * reach * column ** (1 - k.exponent)) / (k.exponent - 1);
    // The integral of the table from 300 on.
    const slope = x < 300 ? (k.table[1] - k.table[0]) / 300 : (k.table[2] - k.table[1]) / 500;
    const step = k.table[1] * (x - 300) + (slope * (x - 300) ** 2) / 2;
    return (
      -k.force[0] * x -
      k.force[1] * y -
      k.moment * crank -
      k.push * distance(points, first, last, k.offset) +
      (k.rate * (L - k.free) ** 2) / 2 +
      (k.torsion * (second - k.freeTurn) ** 2) / 2 +
      gas -
      step
    );
  };
  return { loads, potential };
}

describe('rests of random linkages under loads of every kind', () => {
  it('are the hollows and crests of their energy on a dense grid', () => {
    assert(
      property(linkages, kinds, ({ drawing }, given) => {
        const motion = trace(drawing, { driver: { turn: 'crank' } });
        const { low, high } = motion;
        const { loads, potential } = loadsOn(drawing, given);
        const turn = motion.read({ turn: 'second0' });
        const V = (at: number) => potential(motion.at(at), at, turn(at).value);
        const drawn = V(motion.drawn);
        const found = equilibria(motion, loads);
        const n = 3000;
        const grid = Array.from({ length: n + 1 }, (_, k) =>
          k === n ? high.at : low.at + ((high.at - low.at) * k) / n,
        );
        const values = grid.map(V);
        const size = Math.max(...values.map((one) => Math.abs(one - drawn)), 1);
        for (const { at, potential: own, status } of found.equilibria) {
          expectWithin(own, V(at) - drawn, 1e-9 * Math.max(size, Math.abs(drawn)));
          expect(['stable', 'unstable']).toContain(status);
        }
        const seen: [number, string][] = [];
        for (let k = 1; k < n; k++) {
          const [before, here, after] = [values[k - 1], values[k], values[k + 1]];
          if (here < before && here <= after) seen.push([k, 'stable']);
          if (here > before && here >= after) seen.push([k, 'unstable']);
        }
        // What lies within a step of an end or of another one a grid may miss.
        const step = (high.at - low.at) / n;
        for (const [k, status] of seen) {
          if (k < 3 || k > n - 3) continue;
          const match = found.equilibria.filter(
            (rest) => rest.status === status && Math.abs(rest.at - grid[k]) <= 1.5 * step,
          );
          expectSame(match.length >= 1, true);
        }
        for (const rest of found.equilibria) {
          const k = Math.round((rest.at - low.at) / step);
          if (k < 3 || k > n - 3) continue;
          const others = found.equilibria.filter((other) => Math.abs(other.at - rest.at) < 6 * step);
          if (others.length > 1) continue;
          expectSame(
            seen.some(([at, status]) => status === rest.status && Math.abs(at - k) <= 2),
            true,
          );
        }
      }),
      RUNS,
    );
  });

  it('need no force to be held, by the forces in their joints', () => {
    assert(
      property(linkages, kinds, ({ drawing }, given) => {
        const motion = trace(drawing, { driver: { turn: 'crank' } });
        const { loads } = loadsOn(drawing, given);
        for (const { at, points, stiffness } of equilibria(motion, loads).equilibria) {
          if (
            stiffness === null ||
            Math.abs(at - motion.low.at) < 1e-3 ||
            Math.abs(at - motion.high.at) < 1e-3
          )
            continue;
          const acting = loads.flatMap((load): Load[] => {
            if (!('along' in load)) return [load as Load];
            const value = motion.read(load.along)(at).value;
            const force = forceOf(load, value);
            if ('turn' in load.along) return [{ on: load.along.turn, moment: force }];
            if ('x' in load.along) return [{ at: load.along.x, force: [force, 0] }];
            const { length, offset = 0 } = load.along as { length: [string, string]; offset?: number };
            return [{ between: length, push: force, offset }];
          });
          const { driver } = forces({ ...drawing, points }, acting, { driver: { turn: 'crank' } });
          expectWithin(driver, 0, 1e-6 * Math.max(1e4, Math.abs(stiffness)));
        }
      }),
      RUNS,
    );
  });
});

function forceOf(load: MotionLoad, value: number): number {
  if ('rate' in load) return load.rate * (load.freeAt - value);
  if ('gas' in load) {
    const { force, at, column, exponent = 1 } = load.gas;
    return force * (column / (column + value - at)) ** exponent;
  }
  const [[a, A], [b, B], [c, C]] = (load as { table: readonly (readonly [number, number])[] }).table;
  return value < b ? A + ((B - A) * (value - a)) / (b - a) : B + ((C - B) * (value - b)) / (c - b);
}

describe('a force that turns with a body', () => {
  it('square to a crank is a moment on it, and has no potential', () => {
    assert(
      property(linkages, number(1, 90), number(-90, 90), ({ drawing }, F, weight) => {
        const motion = trace(drawing, { driver: { turn: 'crank' } });
        const [O, A] = ['O', 'A'].map((name) => drawing.points[name]);
        const [dx, dy] = [A[0] - O[0], A[1] - O[1]];
        const r = Math.hypot(dx, dy);
        const load: MotionLoad = { at: 'P0', force: [0, weight] };
        const by = equilibria(motion, [
          load,
          { at: 'A', force: [(-F * dy) / r, (F * dx) / r], relativeTo: 'crank' },
        ]);
        const moment = equilibria(motion, [load, { on: 'crank', moment: F * r }]);
        expectSame(by.equilibria.length, moment.equilibria.length);
        by.equilibria.forEach((rest, k) => {
          const other = moment.equilibria[k];
          expectSame([rest.status, rest.potential], [other.status, null]);
          expectWithin(rest.at, other.at, 1e-7);
          expectWithin(
            (rest.stiffness ?? 0) / (1 + Math.abs(other.stiffness ?? 0)),
            (other.stiffness ?? 0) / (1 + Math.abs(other.stiffness ?? 0)),
            1e-5,
          );
        });
      }),
      RUNS,
    );
  });

  it('along a rod pushes nowhere, as one along the ground does not', () => {
    const motion = arm(100, 0.3)(3);
    const follower: MotionLoad = {
      at: 'P',
      force: [50 * Math.cos(0.3), 50 * Math.sin(0.3)],
      relativeTo: 'arm',
    };
    const found = equilibria(motion, [follower, { at: 'P', force: [0, -3] }]);
    expectSame(
      found.equilibria.map(({ at, status }) => [at.toFixed(9), status]),
      [
        [(-Math.PI / 2 - 0.3).toFixed(9), 'stable'],
        [(Math.PI / 2 - 0.3).toFixed(9), 'unstable'],
      ],
    );
  });
});

describe('what has no single rest', () => {
  it('is neutral between two slack ends, and says from where to where', () => {
    const motion = arm(100, 0)(1);
    // Stops at +-0.4 with a play between them.
    const stop: MotionLoad = {
      along: { turn: 'arm' },
      table: [
        [-1, 600],
        [-0.4, 0],
        [0.4, 0],
        [1, -600],
      ],
    };
    const [rest, ...others] = equilibria(motion, [stop]).equilibria;
    expectSame([rest.status, others.length, rest.stiffness], ['neutral', 0, 0]);
    expectWithin(rest.at, -0.4, 2 / 400);
    expectWithin(rest.to ?? null, 0.4, 2 / 400);
  });

  it('has no value where a gas column is used up', () => {
    const motion = arm(100, 1, { G: [150, 0] })(2);
    const gas: MotionLoad = {
      along: { length: ['P', 'G'] },
      gas: { force: 100, at: 150, column: 80 },
    };
    const { gaps, equilibria: rests, status } = equilibria(motion, [gas, { at: 'P', force: [0, -300] }]);
    expectSame(gaps.length, 1);
    // Used up at 70 from G.
    const t = Math.acos((100 ** 2 + 150 ** 2 - 70 ** 2) / (2 * 100 * 150));
    expectWithin(gaps[0].from, -t - 1, 4 / 400);
    expectWithin(gaps[0].to, t - 1, 4 / 400);
    expect(status).toBe('found');
    for (const { potential, stiffness } of rests) {
      expect(Number.isFinite(potential) && Number.isFinite(stiffness)).toBe(true);
    }
    const pressed = followEquilibrium(
      motion,
      [gas, { at: 'P', force: [0, -300] }],
      [{ at: 'P', force: [0, -1] }],
      { to: 1e9, start: 0 },
    );
    expectSame([pressed.status, pressed.snaps], ['endOfMotion', []]);
    expect(pressed.factor).toBeGreaterThan(100);
  });

  it('rests at the end of its motion, at a dead point as well', () => {
    const slider = linkage({
      points: { O: [0, 0], A: [0, 50], P: [140, 50], near: [100, 50], far: [300, 50] },
      ground: ['O', 'near', 'far'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
      sliders: { piston: { point: 'P', on: ['near', 'far'] } },
    });
    const motion = trace(slider, { driver: { x: 'P' } });
    expect([motion.low.status, motion.high.status]).toContain('deadPoint');
    const found = equilibria(motion, [{ at: 'P', force: [5, 0] }]);
    const rest = found.equilibria[found.equilibria.length - 1];
    expectSame([rest.at, rest.status, rest.stiffness], [motion.high.at, 'stable', null]);
    const lowest = trace(slider, { driver: { turn: 'crank' }, from: 0, to: 1 });
    expectSame(
      equilibria(lowest, [{ at: 'A', force: [0, 9] }]).equilibria.map(({ at, status }) => [at, status]),
      [[0, 'stable']],
    );
  });

  it('is neutral without loads, and never NaN', () => {
    const motion = arm(100, 1)(2);
    expectSame(equilibria(motion, []).status, 'neutral');
    const found = followEquilibrium(motion, [], []);
    expectSame(found, { status: 'noRest', factor: 0, rest: null, rows: [], snaps: [] });
  });

  it('goes round and round under a moment that grows', () => {
    const drawing = linkage({
      points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
    });
    const motion = trace(drawing);
    const found = followEquilibrium(motion, [{ at: 'A', force: [0, 10] }], [{ on: 'crank', moment: 1 }], {
      to: 1000,
    });
    // The weight's greatest moment is 400.
    expectSame([found.status, found.snaps.length, found.snaps[0].to], ['noRest', 1, null]);
    expectWithin(found.factor, 400, 1e-7);
  });
});

// An arm of length r with a torsion spring, from whose end a rope runs over a pin to a block on a guide. At rest the rope pulls with the
// block's weight B: k t = B r (direction of the rope across the arm).
describe('a rope', () => {
  const hung = linkage({
    points: { O: [0, 0], P: [100, 0], R: [100, 80], M: [130, -100] },
    ground: ['O', 'R'],
    bodies: { arm: ['O', 'P'] },
    ropes: { line: ['P', 'R', 'M'] },
    fixedCoordinates: [{ x: 'M' }],
  });
  const motion: Motion = trace(hung, { driver: { turn: 'arm' }, from: -0.7, to: 0.7 });
  const spring: MotionLoad = { along: { turn: 'arm' }, rate: 5000, freeAt: 0 };

  it('that would have to push leaves no rest', () => {
    for (const B of [3, 20, -3, -20]) {
      const { equilibria: rests } = equilibria(motion, [spring, { at: 'M', force: [0, -B] }]);
      expect(rests.length).toBeGreaterThan(0);
      for (const { status, slackRopes, points } of rests) {
        expectSame(slackRopes, B > 0 ? [] : ['line']);
        expectSame(status === 'slackRope', B < 0);
        // The forces in the joints say the same.
        const { ropes, diagnostics } = forces({ ...hung, points }, [
          { on: 'arm', moment: 5000 * -Math.atan2(points.P[1], points.P[0]) },
          { at: 'M', force: [0, -B] },
        ]);
        expectSame(Math.sign(ropes.line ?? 0), Math.sign(B));
        expectSame(diagnostics.length, slackRopes.length);
      }
    }
  });

  it('that gets slack ends the way of a rest', () => {
    const found = followEquilibrium(motion, [spring], [{ at: 'M', force: [0, -1] }], { from: 20, to: -20 });
    expectSame([found.status, found.snaps], ['slackRope', []]);
    expectWithin(found.factor, 0, 1e-9 * 20);
    expectWithin(found.rest?.at ?? null, 0, 1e-9);
    const pushed = followEquilibrium(motion, [spring], [{ at: 'M', force: [0, 1] }], { from: 5, to: 20 });
    expectSame([pushed.status, pushed.rest?.status], ['slackRope', 'slackRope']);
  });
});

// A parallelogram, and the crossed four-bar that it can turn into where it lies flat.
describe('a change point', () => {
  const drawing: Drawing = linkage({
    points: { O: [0, 0], A: [30, 40], B: [130, 40], C: [100, 0] },
    ground: ['O', 'C'],
    bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
  });
  const driver = { turn: 'crank' } as const;
  const weight: MotionLoad = { at: 'B', force: [0, -10] };
  const flat = -Math.atan2(40, 30);

  it('is said where the motion ends in it', () => {
    const found = equilibria(trace(drawing, { driver }), [weight]);
    expectSame(found.ends, { low: 'bifurcation', high: 'bifurcation' });
    // The parallelogram's rocker upright.
    expectSame(
      found.equilibria.map(({ status, at }) => [status, at.toFixed(9)]),
      [['unstable', (Math.PI / 2 + flat).toFixed(9)]],
    );
    expectSame([found.pressedLow, found.pressedHigh], [true, true]);
  });

  it('is passed along the branch that is chosen, and is no rest where the force jumps', () => {
    const other: Motion = trace(drawing, { driver, branch: [{ measure: { turn: 'rocker' }, sign: -1 }] });
    const straight: Motion = trace(drawing, { driver, branch: 'straight', from: -3, to: 3 });
    for (const motion of [other, straight]) {
      expect(motion.low.at).toBeLessThan(flat - 0.5);
      const at = motion.read({ y: 'B' });
      const found = equilibria(motion, [weight]);
      // Where the height of B has a turn, and there alone.
      const n = 4000;
      const places = Array.from(
        { length: n + 1 },
        (_, k) => motion.low.at + ((motion.high.at - motion.low.at) * k) / n,
      );
      const slopes = places.map((place) => at(Math.min(place, motion.high.at)).first ?? Number.NaN);
      const turns = places.flatMap((place, k) => {
        const smooth = Math.abs(slopes[k + 1] - slopes[k]) < 1;
        return smooth && slopes[k] * slopes[k + 1] < 0 ? [place] : [];
      });
      const inside = found.equilibria
        .map((rest) => rest.at)
        .filter((place) => place > motion.low.at && place < motion.high.at);
      expectSame(inside.length, turns.length);
      inside.forEach((place, k) => {
        expectWithin(place, turns[k], (2 * (motion.high.at - motion.low.at)) / n);
      });
    }
    const [before, after] = [-1e-6, 1e-6].map(
      (off) => other.read({ y: 'B' })(flat + off).first ?? Number.NaN,
    );
    expectSame([Math.sign(before), Math.sign(after)], [-1, 1]);
    // Its rest is followed to the change point, and no farther.
    const down = followEquilibrium(other, [{ along: driver, rate: 400, freeAt: 0 }], [weight], {
      to: 40,
      start: 0,
    });
    expectSame([down.status, down.rest?.at.toFixed(6)], ['endOfMotion', flat.toFixed(6)]);
  });
});

describe('wrong loads and options', () => {
  const motion = arm(100, 1, { G: [150, 0] })(2);
  function issuesOf(loads: unknown, options?: unknown): string[][] {
    try {
      equilibria(motion, loads as MotionLoad[], options as { parts: number });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return error.issues.map(({ path, code }) => [path, code]);
    }
    return expect.fail('nothing was thrown');
  }

  it.each([
    ['none', '', 'notLoads'],
    [[{}], '[0]', 'notALoadOfAMotion'],
    [[null], '[0]', 'notALoadOfAMotion'],
    [[{ at: 'P', force: [0, Number.NaN] }], '[0].force', 'notAForce'],
    [[{ at: 'P', force: [0, 1], relativeTo: 'am' }], '[0].relativeTo', 'unknownName'],
    [[{ at: 'Q', force: [0, 1], relativeTo: 'arm' }], '[0].at', 'unknownName'],
    [[{ at: 'P', force: [0, 1], relativeTo: 'arm', on: 'arm' }], '[0].on', 'unknownOption'],
    [[{ along: { turn: 'am' }, rate: 1, freeAt: 0 }], '[0].along.turn', 'unknownName'],
    [[{ along: {}, rate: 1, freeAt: 0 }], '[0].along', 'unknownMeasure'],
    [[{ along: { x: 'P' }, rate: 1 }], '[0].freeAt', 'notFinite'],
    [[{ along: { x: 'P' }, rate: 1, freeAt: 0, damping: 3 }], '[0].damping', 'unknownOption'],
    [[{ along: { x: 'P' } }], '[0]', 'notALoadOfAMotion'],
    [[{ along: { x: 'P' }, gas: 3 }], '[0].gas', 'notAGas'],
    [[{ along: { x: 'P' }, gas: { force: 1, at: 1, column: 0 } }], '[0].gas.column', 'outOfRange'],
    [[{ along: { x: 'P' }, table: [[0, 1]] }], '[0].table', 'notATable'],
    [
      [
        {
          along: { x: 'P' },
          table: [
            [0, 1],
            [0, 2],
          ],
        },
      ],
      '[0].table',
      'notATable',
    ],
  ])('are %j', (loads, path, code) => {
    expect(issuesOf(loads)).toEqual([[path, code]]);
  });

  it('are all told at once, options among them', () => {
    expect(
      issuesOf(
        [
          { at: 'Q', force: [0, 1] },
          { on: 'am', moment: 1 },
        ],
        { part: 3 },
      ),
    ).toEqual([
      ['part', 'unknownOption'],
      ['[0].at', 'unknownName'],
      ['[1].on', 'unknownName'],
    ]);
    expect(issuesOf([], { parts: 1 })).toEqual([['parts', 'notWhole']]);
    expect(issuesOf([], null)).toEqual([['', 'notOptions']]);
    expect(() =>
      followEquilibrium(motion, [], [{ on: 'am', moment: 1 } as never], { from: Number.NaN, start: 9 }),
    ).toThrow(/from: .*\n {2}start: .*\n {2}growing\[0\]\.on/);
  });
});

/** A rod on a guide through O: the length O-P passes through zero where x does. */
function rodThroughZero() {
  const drawing = linkage({
    points: { O: [0, 0], P: [50, 0], Q: [50, 20] },
    ground: ['O'],
    bodies: { head: ['P', 'Q'] },
    telescopes: { rod: ['O', 'P'] },
    fixedAngles: { guide: ['rod'], level: ['head'] },
  });
  return { drawing, motion: trace(drawing, { driver: { x: 'P' }, from: -60, to: 60 }) };
}

it.each([
  // V = (|x| - freeAt)^2: a cusp at 0 but for freeAt 0.
  [30, ['stable -30 2', 'unstable 0 null', 'stable 30 2']],
  [0, ['stable 0 2']],
  [-10, ['stable 0 null']],
])('a spring of free length %d whose length passes through zero', (freeAt, expected) => {
  const { drawing, motion } = rodThroughZero();
  const loads = [{ along: { length: ['O', 'P'] }, rate: 2, freeAt }] as const;
  const { equilibria: rests } = equilibria(motion, loads);
  const rounded = (value: number | null) => (value === null ? null : Math.round(value * 1e9) / 1e9 + 0);
  expectSame(
    rests.map(({ status, at, stiffness }) => `${status} ${rounded(at)} ${rounded(stiffness)}`),
    expected,
  );
  for (const seek of ['stable', 'any'] as const) {
    const [{ status, residual }] = equilibriaFrom(drawing, loads, { seek });
    if (status === 'stable') expectWithin(residual, 0, 1e-12);
    else expect(status).toBe('notConverged');
    expect(status === 'stable').toBe(freeAt >= 0);
  }
});

it('acts alike along a measure and between its points', () => {
  const along: Measure = { length: ['P', 'G'], offset: 40 };
  const motion = arm(100, 1, { G: [150, 0] })(2);
  const weight: MotionLoad = { at: 'P', force: [0, -20] };
  const push: MotionLoad = { between: ['P', 'G'], push: 30, offset: 40 };
  const table: MotionLoad = {
    along,
    table: [
      [0, 30],
      [900, 30],
    ],
  };
  const [one, other] = [push, table].map((load) => equilibria(motion, [weight, load]).equilibria);
  expect(one.length).toBeGreaterThan(0);
  one.forEach(({ at }, k) => {
    expectClose(at, other[k].at, { times: 64, scale: 1 });
  });
});
