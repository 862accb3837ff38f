/** Where linkages of several degrees of freedom come to rest: closed forms, virtual work, and differences of the potential. */
import { assert, constantFrom, double, integer, noShrink, property, record, tuple } from 'fast-check';
import {
  type Drawing,
  type Driver,
  InputError,
  linkage,
  type Measure,
  type Point,
  trace,
} from 'jounce/linkage';
import { equilibria, equilibriaFrom, type MotionLoad, type ReachedEquilibrium } from 'jounce/statics';
import { describe, expect, it } from 'vitest';
import { fourBars, linkages } from '../support/linkages.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';

/** Each run is several searches. */
const RUNS = { numRuns: 12 };
const number = (min: number, max: number) => noShrink(double({ min, max, noNaN: true }));

const statusOf = ({ status }: ReachedEquilibrium) => status;
const { cos, hypot, sin, sqrt, PI } = Math;

/** Two bars from O, upright. */
function column(first: number, second: number) {
  return linkage({
    points: { O: [0, 0], A: [0, first], B: [0, first + second] },
    ground: ['O'],
    bodies: { lower: ['O', 'A'], upper: ['A', 'B'] },
  });
}

describe('a double pendulum', () => {
  // V = W1 a cos(t) + W2 (a cos(t) + b cos(u)), each bar up or down: four equilibria.
  it('hangs, stands, and stands on its head in two ways', () => {
    assert(
      property(number(20, 300), number(20, 300), number(1, 90), number(1, 90), (a, b, W1, W2) => {
        const to = (lower: number, upper: number): Driver<'A', 'lower' | 'upper'>[] => [
          { driver: { turn: 'lower' }, to: lower },
          { driver: { turn: 'upper' }, to: upper },
        ];
        const loads: MotionLoad<'A' | 'B', 'lower' | 'upper'>[] = [
          { at: 'A', force: [0, -W1] },
          { at: 'B', force: [0, -W2] },
        ];
        const found = equilibriaFrom(column(a, b), loads, {
          starts: [to(0.1, -0.1), to(3, 0.1), to(0.1, 3), to(3, 3.2)],
          seek: 'any',
        });
        const signs = [
          [1, 1, 'unstable', { rising: 0, level: 0, falling: 2 }],
          [-1, 1, 'saddle', { rising: 1, level: 0, falling: 1 }],
          [1, -1, 'saddle', { rising: 1, level: 0, falling: 1 }],
          [-1, -1, 'stable', { rising: 2, level: 0, falling: 0 }],
        ] as const;
        signs.forEach(([lower, upper, status, directions], k) => {
          const rest = found[k];
          expectSame([rest.status, rest.directions], [status, directions]);
          expectWithin(rest.points.A[0], 0, 1e-9 * a);
          expectWithin(rest.points.A[1], lower * a, 1e-12 * a);
          expectWithin(rest.points.B[1], lower * a + upper * b, 1e-12 * (a + b));
          const V = W1 * (lower - 1) * a + W2 * ((lower - 1) * a + (upper - 1) * b);
          expectWithin(rest.potential, V, 1e-11 * (W1 + W2) * (a + b));
        });
        const let_go = equilibriaFrom(column(a, b), loads, { starts: [[], to(0.1, -0.1), to(1, 2)] });
        expectSame(let_go.map(statusOf), ['unstable', 'stable', 'stable']);
      }),
      RUNS,
    );
  });
});

// Two bars of length L, torsion springs of rate k at the foot and between them, a dead load P on top. Small angles: V = k t^2/2 +
// k (u - t)^2/2 - P L (t^2 + u^2)/2, whose Hessian [[2 k - P L, -k], [-k, k - P L]] is singular first at P L/k = (3 - sqrt 5)/2 = 0.382
// (H. Ziegler, "Principles of Structural Stability", 1968, the column under a load that keeps its direction: from memory).
describe('a column of two bars with torsion springs', () => {
  const torsion = (k: number): MotionLoad<'A', 'lower' | 'upper'>[] => [
    { along: { turn: 'lower' }, rate: k, freeAt: 0 },
    { along: { turn: 'upper', relativeTo: 'lower' }, rate: k, freeAt: 0 },
  ];

  it('stands below the critical load and is a saddle above it, then unstable', () => {
    assert(
      property(number(20, 300), number(10, 1e4), (L, k) => {
        const critical = ((3 - sqrt(5)) / 2) * (k / L);
        const second = ((3 + sqrt(5)) / 2) * (k / L);
        const at = (P: number) =>
          equilibriaFrom(column(L, L), [...torsion(k), { at: 'B', force: [0, -P] }])[0].status;
        expectSame(
          [0.5 * critical, (1 - 1e-6) * critical, (1 + 1e-6) * critical, 0.9 * second, 1.1 * second].map(at),
          ['stable', 'stable', 'saddle', 'saddle', 'unstable'],
        );
      }),
      RUNS,
    );
  });

  // Balance of moments: k t - k (u - t) = P L sin t, k (u - t) = P L sin u.
  it('above it rests to either side', () => {
    assert(
      property(number(20, 300), number(10, 1e4), number(1.1, 4), constantFrom(1, -1), (L, k, over, side) => {
        const P = over * ((3 - sqrt(5)) / 2) * (k / L);
        const [rest] = equilibriaFrom(column(L, L), [...torsion(k), { at: 'B', force: [0, -P] }], {
          starts: [
            [
              { driver: { turn: 'lower' }, to: 0.2 * side },
              { driver: { turn: 'upper' }, to: 0.4 * side },
            ],
          ],
        });
        expectSame(rest.status, 'stable');
        const { A, B } = rest.points;
        const t = Math.atan2(-A[0], A[1]);
        const near = Math.atan2(A[0] - B[0], B[1] - A[1]);
        const u = near + 2 * PI * Math.round((t - near) / (2 * PI));
        expect(t * side).toBeGreaterThan(0);
        expectWithin((k * (u - t)) / (P * L), sin(u), 1e-10);
        expectWithin((k * (2 * t - u)) / (P * L), sin(t), 1e-10);
      }),
      RUNS,
    );
  });
});

describe('a balanced lamp on a trolley', () => {
  // The spring of no free length as of one lamp (equilibria.test.ts), its upper end on the trolley: k H s = W r.
  const lamp = (s: number, r: number, H: number) =>
    linkage({
      points: { C: [0, 0], D: [0, H], S: [s * cos(0.4), s * sin(0.4)], P: [r * cos(0.4), r * sin(0.4)] },
      ground: [],
      bodies: { trolley: ['C', 'D'], arm: ['C', 'S', 'P'] },
      fixedCoordinates: [{ y: 'C' }],
      fixedAngles: { upright: ['trolley'] },
    });

  it('rests anywhere: neutral in both directions; too stiff, in one', () => {
    assert(
      property(number(50, 300), number(100, 900), number(50, 400), number(1, 90), (s, r, H, W) => {
        const at = (share: number) =>
          equilibriaFrom(lamp(s, r, H), [
            { at: 'P', force: [0, -W] },
            { along: { length: ['S', 'D'] }, rate: (share * W * r) / (H * s), freeAt: 0 },
          ])[0];
        const balanced = at(1);
        expectSame([balanced.status, balanced.directions], ['neutral', { rising: 0, level: 2, falling: 0 }]);
        expectWithin(balanced.points.P[0], r * cos(0.4), 1e-9 * r);
        const stiff = at(1.2);
        expectSame([stiff.status, stiff.directions], ['neutral', { rising: 1, level: 1, falling: 0 }]);
        expectWithin(stiff.points.P[1], r, 1e-9 * r);
      }),
      RUNS,
    );
  });
});

describe('linkages of one freedom', () => {
  it('come to rests of the exact search', () => {
    assert(
      property(linkages, number(-90, 90), number(1, 60), number(50, 400), ({ drawing }, F, k, free) => {
        const names = Object.keys(drawing.points);
        const last = names[names.length - 1];
        const loads: MotionLoad[] = [
          { at: last, force: [F, -40] },
          { along: { length: ['O', last] }, rate: k, freeAt: free },
        ];
        const motion = trace(drawing, { driver: { turn: 'crank' } });
        const all = equilibria(motion, loads).equilibria;
        for (const seek of ['stable', 'any'] as const) {
          const [rest] = equilibriaFrom(drawing, loads, { seek });
          if (seek === 'stable') expect(['stable', 'unbounded']).toContain(rest.status);
          if (!['stable', 'unstable'].includes(rest.status)) continue;
          const off = all
            .filter(({ status }) => status === rest.status)
            .map(({ points }) =>
              Math.max(
                ...names.map((name) =>
                  hypot(points[name][0] - rest.points[name][0], points[name][1] - rest.points[name][1]),
                ),
              ),
            );
          // It may be beyond a dead point of the crank.
          if (motion.low.status === 'deadPoint' || motion.high.status === 'deadPoint') continue;
          expectWithin(Math.min(...off), 0, 1e-5);
        }
      }),
      RUNS,
    );
  });
});

/** A random linkage with its crank set free, and pendulums hung on one another at its last point. */
const several = tuple(fourBars, integer({ min: 1, max: 2 }), number(-3, 3)).map(
  ([{ drawing }, count, angle]) => {
    const points: Record<string, readonly number[]> = { ...drawing.points };
    const bodies: Record<string, readonly string[]> = { ...drawing.bodies };
    let at = Object.keys(points)[Object.keys(points).length - 1];
    const drivers: Measure[] = [{ turn: 'crank' }];
    for (let k = 0; k < count; k++) {
      const [x, y] = points[at];
      points[`H${k}`] = [x + 80 * cos(angle + k), y + 80 * sin(angle + k)];
      bodies[`hung${k}`] = [at, `H${k}`];
      drivers.push({ turn: `hung${k}` });
      at = `H${k}`;
    }
    return { drawing: { ...drawing, points, bodies } as Drawing, drivers, end: at };
  },
);

const forcesOf = record({
  weight: tuple(number(-50, 50), number(-90, -10)),
  rate: number(0.05, 5),
  free: number(10, 300),
  soft: number(0.01, 1),
  gas: number(5, 60),
});

describe('random linkages of two and three freedoms', () => {
  it('are in balance by virtual work, and rest as differences of the potential say', () => {
    let seen = 0;
    assert(
      property(several, forcesOf, constantFrom('stable', 'any'), (grown, given, seek) => {
        const { drawing, drivers, end } = grown;
        const names = Object.keys(drawing.points);
        const middle = names[Math.floor(names.length / 2)];
        const reach = 3000;
        const springs: {
          length: [string, string];
          force: (L: number) => number;
          V: (L: number) => number;
        }[] = [
          {
            length: ['O', end],
            force: (L) => given.rate * (given.free - L),
            V: (L) => (given.rate * (L - given.free) ** 2) / 2,
          },
          { length: [middle, end], force: (L) => -given.soft * L, V: (L) => (given.soft * L * L) / 2 },
          {
            length: ['A', end],
            force: (L) => given.gas * (reach / (reach + L - 100)),
            V: (L) => -given.gas * reach * Math.log((reach + L - 100) / reach),
          },
        ];
        const loads: MotionLoad[] = [
          { at: end, force: given.weight },
          { along: { length: ['O', end] }, rate: given.rate, freeAt: given.free },
          { along: { length: [middle, end] }, rate: given.soft, freeAt: 0 },
          { along: { length: ['A', end] }, gas: { force: given.gas, at: 100, column: reach } },
        ];
        const potential = (points: Readonly<Record<string, Point>>) =>
          springs.reduce(
            (sum, { length: [a, b], V }) => {
              return sum + V(hypot(points[b][0] - points[a][0], points[b][1] - points[a][1]));
            },
            -given.weight[0] * points[end][0] - given.weight[1] * points[end][1],
          );
        const [rest] = equilibriaFrom(drawing, loads, { seek });
        expect(rest.residual).not.toBeNull();
        if (rest.directions === null) {
          expect(['notConverged', 'unbounded', 'changePoint']).toContain(rest.status);
          return;
        }
        if (rest.directions.level > 0) return;
        const V = (points: Readonly<Record<string, Point>>) =>
          potential(points) - potential(drawing.points as Record<string, Point>);
        expectWithin(
          rest.potential,
          V(rest.points),
          1e-9 * (1 + Math.abs(rest.potential ?? 0) + Math.abs(potential(rest.points))),
        );
        const there: Drawing = { ...drawing, points: rest.points };
        const scale = Math.abs(given.weight[1]) + given.rate * 500 + given.gas;
        // Exact derivatives along each freedom, the others held.
        try {
          for (const driver of drivers) {
            const motion = trace(there, {
              driver,
              hold: drivers.filter((one) => one !== driver),
              from: -0.01,
              to: 0.01,
            });
            const rate = (measure: Measure) => motion.read(measure)(motion.drawn).first ?? Number.NaN;
            const work =
              given.weight[0] * rate({ x: end }) +
              given.weight[1] * rate({ y: end }) +
              springs.reduce((sum, { length, force }) => {
                const [a, b] = length.map((name) => rest.points[name]);
                return sum + force(hypot(b[0] - a[0], b[1] - a[1])) * rate({ length });
              }, 0);
            expectWithin(work, 0, 1e-8 * scale * 300);
          }
          // Second differences along drivers and pairs of them: as many signs as the Hessian has (Sylvester's law of inertia).
          const h = 2e-3;
          const bent = (steps: readonly number[]): number => {
            const moving = drivers.map((driver, k) => ({ driver, from: -h * steps[k], to: h * steps[k] }));
            const still = moving.filter((_, k) => steps[k] === 0).map(({ driver }) => driver);
            const motion = trace(there, { drivers: moving.filter((_, k) => steps[k] !== 0), hold: still });
            return (V(motion.at(0)) - 2 * V(motion.at(0.5)) + V(motion.at(1))) / (h * h);
          };
          const unit = drivers.map((_, k) => drivers.map((__, j) => Number(j === k)));
          const own = unit.map(bent);
          const H = unit.map((one, i) =>
            unit.map((other, j) =>
              i === j ? own[i] : (bent(one.map((value, k) => value + other[k])) - own[i] - own[j]) / 2,
            ),
          );
          const signs = pivotsOf(H);
          const largest = Math.max(...H.flat().map(Math.abs));
          if (signs.some((pivot) => Math.abs(pivot) < 1e-3 * largest)) return;
          expectSame(
            [signs.filter((pivot) => pivot > 0).length, signs.filter((pivot) => pivot < 0).length],
            [rest.directions.rising, rest.directions.falling],
          );
          seen++;
        } catch (error) {
          // At rest in a dead point of what drives here.
          if (!(error instanceof InputError)) throw error;
        }
      }),
      { numRuns: 30 },
    );
    expect(seen).toBeGreaterThan(10);
  });
});

/** Pivots of a symmetric matrix, in order of the diagonal. */
function pivotsOf(H: readonly (readonly number[])[]): number[] {
  const left = H.map((row) => [...row]);
  return left.map((row, k) => {
    const pivot = row[k];
    for (let i = k + 1; i < left.length; i++) {
      const share = left[i][k] / pivot;
      left[i] = left[i].map((value, j) => value - share * row[j]);
    }
    return pivot;
  });
}

describe('a search without a rest', () => {
  const two = column(100, 80);
  const result = equilibriaFrom;

  it('says how it ended', () => {
    const follower: MotionLoad<'B', 'upper'> = { at: 'B', force: [0, -1], relativeTo: 'upper' };
    // Along both bars: in balance upright.
    expectSame(result(two, [follower]).map(statusOf), ['noPotential']);
    const [standing] = result(two, [follower], { seek: 'any' });
    expectSame([standing.status, standing.directions, standing.potential], ['noPotential', null, null]);
    expectWithin(standing.points.B[1], 180, 1e-12);
    const trolley = linkage({
      points: { C: [0, 0], P: [0, -50] },
      ground: [],
      bodies: { arm: ['C', 'P'] },
      fixedCoordinates: [{ y: 'C' }],
    });
    expectSame(result(trolley, [{ at: 'C', force: [3, 0] }]).map(statusOf), ['unbounded']);
    const gas: MotionLoad<'O' | 'B', never> = {
      along: { length: ['O', 'B'] },
      gas: { force: 10, at: 400, column: 100 },
    };
    const [used] = result(two, [gas]);
    expectSame([used.status, used.residual, used.potential], ['noValue', null, null]);
    const far: Driver<'B', 'lower'>[] = [
      { driver: { x: 'B' }, to: 500 },
      { driver: { turn: 'lower' }, to: 0.3 },
    ];
    expectSame(result(two, [{ at: 'B', force: [0, -1] }], { starts: [[], far] }).map(statusOf), [
      'unstable',
      'startNotReached',
    ]);
    // Two freedoms, and the parallelogram's third where it lies flat.
    const flat = linkage({
      points: { O: [0, 0], A: [50, 0], B: [150, 0], C: [100, 0], E: [150, -40] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'], hung: ['B', 'E'] },
    });
    expectSame(result(flat, [{ at: 'B', force: [0, -1] }]).map(statusOf), ['changePoint']);
    // A rope from which a block hangs, pushed up.
    const tackle = linkage({
      points: { top: [0, 0], block: [0, -100], end: [40, -10], low: [0, -150] },
      ground: ['top', 'end'],
      bodies: { rod: ['block', 'low'] },
      ropes: { fall: ['top', 'block', 'end'] },
    });
    const at = (W: number) =>
      result(
        tackle,
        [
          { at: 'block', force: [0, -W] },
          { at: 'low', force: [0, -1] },
        ],
        { seek: 'any' },
      )[0];
    expectSame([at(20).status, at(20).slackRopes], ['stable', []]);
    expectSame([at(-20).status, at(-20).slackRopes], ['slackRope', ['fall']]);
  });

  it('refuses what is not there', () => {
    const issuesOf = (make: () => unknown): string[][] => {
      try {
        make();
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        return error.issues.map(({ path, code }) => [path, code]);
      }
      return expect.fail('nothing was thrown');
    };
    expectSame(
      issuesOf(() =>
        equilibriaFrom(two, [{ at: 'Q' as 'B', force: [0, 1] }], {
          seek: 'least' as 'any',
          starts: [[{ driver: {} as { x: 'B' }, to: Number.NaN }]],
        }),
      ),
      [
        ['seek', 'unknownChoice'],
        ['starts[0][0].driver', 'unknownMeasure'],
        ['starts[0][0].to', 'notFinite'],
        ['loads[0].at', 'unknownName'],
      ],
    );
    expectSame(
      issuesOf(() => equilibriaFrom(two, [], { starts: 3 as unknown as [] })),
      [['starts', 'noDriver']],
    );
    const rigid = linkage({
      points: { O: [0, 0], P: [90, 0], Q: [50, 60] },
      ground: ['O', 'P'],
      bodies: { one: ['O', 'Q'], two: ['P', 'Q'] },
    });
    expectSame(
      issuesOf(() => equilibriaFrom(rigid, [])),
      [['', 'overDetermined']],
    );
  });
});
