/** Change points of linkages that several drivers move, and of coupled ones: what the linkage alone does is known (change-points.test.ts). */
import { type Drawing, type Measure, type Motion, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { ropeLength } from '../judges/rope-length.ts';
import { deepFreeze } from '../support/freeze.ts';
import { fourBar } from '../support/linkages.ts';
import { distance, spread } from '../support/motions.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

// tan(w / 2) = - (g + a) / (g - a) tan(t / 2) for the cranks' angles t, w of an antiparallelogram (change-points.test.ts).
const [a, g] = [50, 120];
const drawn = 1.2;
const parallelogram = fourBar({ crank: a, coupler: g, rocker: a, ground: g }, drawn);
const crank = { turn: 'crank' } as const;
const turned = [{ measure: { turn: 'rocker' }, sign: -1 }, 'straight', 'straight', 'straight'] as const;

/** Expects the rocker of the parallelogram that turns over to be where the crank says. */
function expectTurned(motion: Motion, crankAt: (at: number) => number, rocker: Measure = { turn: 'rocker' }) {
  const read = motion.read(rocker);
  for (const at of spread(motion, 101)) {
    const [t, w] = [drawn + crankAt(at), drawn + read(at).value];
    if (t <= Math.PI) expectClose(w, t, { times: 4096, scale: 10 });
    else expectWithin(Math.sin(w / 2 - Math.atan(-((g + a) / (g - a)) * Math.tan(t / 2))), 0, 1e-10);
  }
}

describe('a parallelogram that a list of drivers moves', () => {
  const bifurcation = Math.PI - drawn;

  it('meets the branches that it meets with one driver', () => {
    const one = trace(parallelogram, { driver: crank }).high;
    const { high } = trace(parallelogram, { drivers: [{ driver: crank, to: 12 }] });
    expectSame(high.status, 'bifurcation');
    expectClose(12 * high.at, one.at, { times: 4096, scale: 4 });
    const rates = [one, high].map(({ branches = [] }) =>
      branches.map(({ turns }) => turns.rocker / turns.crank),
    );
    expect(rates[0]).toHaveLength(3);
    rates[0].forEach((rate, k) => expectClose(rates[1][k], rate, { times: 1e5, scale: 3 }));
    // Of the crank u is a twelfth.
    for (const { driver, turns } of high.branches ?? [])
      expectClose(12 * driver, turns.crank, { times: 1e5, scale: Math.abs(turns.crank) });
  });

  it.each([
    ['in proportion', [{ driver: crank, to: 12 }], (u: number) => 12 * u],
    [
      'by a schedule',
      [{ driver: crank, schedule: (u: number) => [9 * u + 3 * u ** 3, 9 + 9 * u * u, 18 * u] as const }],
      (u: number) => 9 * u + 3 * u ** 3,
    ],
  ] as const)('goes straight on, or turns over and stays so, %s', (_, drivers, crankAt) => {
    const straight = trace(parallelogram, { drivers, branch: 'straight' });
    expectSame(straight.high.status, 'reached');
    const rocker = straight.read({ turn: 'rocker' });
    for (const u of spread(straight, 51))
      expectClose(rocker(u).value, crankAt(u), { times: 4096, scale: 12 });
    const over = trace(parallelogram, { drivers, branch: turned });
    expectSame(over.high.status, 'reached');
    expectTurned(over, crankAt);
  });

  it('does so on a base that turns as well', () => {
    const { points, bodies } = parallelogram;
    const riding: Drawing = deepFreeze({
      points: { ...points, O: [-30, -70] },
      ground: ['O'],
      bodies: { ...bodies, base: ['O', 'A', 'D'] },
    });
    const drivers = [
      { driver: { turn: 'base' }, schedule: (u: number) => [u * u - 2 * u, 2 * u - 2, 2] as const },
      { driver: { turn: 'crank', relativeTo: 'base' }, to: 12 },
    ];
    const rocker = { turn: 'rocker', relativeTo: 'base' } as const;
    const plain = trace(riding, { drivers });
    expectSame(plain.high.status, 'bifurcation');
    expectClose(12 * plain.high.at, bifurcation, { times: 4096, scale: 4 });
    const over = trace(riding, {
      drivers,
      branch: [{ measure: rocker, sign: -1 }, 'straight', 'straight', 'straight'],
    });
    expectSame(over.high.status, 'reached');
    expectTurned(over, (u) => 12 * u, rocker);
    const base = over.read({ turn: 'base' });
    for (const u of spread(over, 21)) expectClose(base(u).value, u * u - 2 * u, { times: 4096, scale: 2 });
  });

  it('does so when the angle, or the height, of its crank is driven', () => {
    const angles = trace(parallelogram, {
      drivers: [{ driver: { angle: ['A', 'B'] }, to: drawn + 4 }],
      branch: turned,
    });
    expectSame(angles.high.status, 'reached');
    expectTurned(angles, (u) => 4 * u);
    // From below the line of the pivots to above it.
    const points = trace(parallelogram, { driver: crank, to: 3, branch: 'straight' }).at(3);
    const drivers = [{ driver: { y: 'B' }, to: 20 }];
    for (const [branch, slope] of [
      ['straight', 1],
      [1, -(g + a) / (g - a)],
    ] as const) {
      const motion = trace({ ...parallelogram, points }, { drivers, branch });
      expectSame(motion.high.status, 'reached');
      expectClose(motion.at(1).B[1], 20, { times: 4096, scale: a });
      const [t, w] = (
        [
          ['A', 'B'],
          ['D', 'C'],
        ] as const
      ).map((angle) => motion.read({ angle })(1).value);
      expectWithin(Math.sin(w / 2 - Math.atan(slope * Math.tan(t / 2))), 0, 1e-10);
    }
  });

  it('is drawn flat, and takes the branch that is chosen', () => {
    const flat = { ...parallelogram, points: { A: [0, 0], B: [a, 0], C: [g + a, 0], D: [g, 0] } } as const;
    const drivers = [{ driver: crank, to: 2 }];
    expect(() => trace(flat, { drivers })).toThrow(/drawn at a bifurcation.*choose one with `branch`/);
    for (const [sign, slope] of [
      [1, 1],
      [-1, -(g + a) / (g - a)],
    ] as const) {
      const motion = trace(flat, { drivers, branch: { measure: { turn: 'rocker' }, sign } });
      expectSame(motion.high.status, 'reached');
      const rocker = motion.read({ turn: 'rocker' });
      for (const u of spread(motion, 21))
        expectWithin(Math.sin(rocker(u).value / 2 - Math.atan(slope * Math.tan(u))), 0, 1e-10);
    }
  });
});

describe('a parallelogram with a coupling', () => {
  it('turns a wheel by its ratio to the rocker, straight on and turned over', () => {
    const geared: Drawing = deepFreeze({
      ...parallelogram,
      points: { ...parallelogram.points, Q: [200, 20], q: [190, 50] },
      ground: ['A', 'D', 'Q'],
      bodies: { ...parallelogram.bodies, wheel: ['Q', 'q'] },
      ratios: { mesh: { of: [{ turn: 'wheel' }, { turn: 'rocker' }], ratio: -1.7 } },
    });
    const plain = trace(geared, { driver: crank, from: 0 });
    const [straight, other] = plain.high.branches ?? [];
    expectClose(straight.turns.rocker / straight.turns.crank, 1, { times: 4096, scale: 1 });
    for (const { turns } of [straight, other])
      expectClose(turns.wheel / turns.rocker, -1.7, { times: 4096, scale: 2 });
    for (const branch of ['straight', turned] as const) {
      for (const options of [{ driver: crank, from: 0, to: 12 }, { drivers: [{ driver: crank, to: 12 }] }]) {
        const motion = trace(geared, { ...options, branch });
        expectSame(motion.high.status, 'reached');
        const crankAt = (at: number) => ('drivers' in options ? 12 * at : at);
        const [rocker, wheel] = ['rocker', 'wheel'].map((turn) => motion.read({ turn }));
        if (branch === turned) expectTurned(motion, crankAt);
        for (const at of spread(motion, 41)) {
          if (branch === 'straight') expectClose(rocker(at).value, crankAt(at), { times: 4096, scale: 12 });
          expectClose(wheel(at).value, -1.7 * rocker(at).value, { times: 4096, scale: 60 });
        }
      }
    }
  });

  it('winds a rope with a weight on it, straight on and turned over', () => {
    const drawing: Drawing = deepFreeze({
      ...parallelogram,
      points: { ...parallelogram.points, P: [60, 300], W: [48, 0], top: [48, 9], foot: [48, -9] },
      ground: ['A', 'D', 'P', 'top', 'foot'],
      sliders: { guide: { point: 'W', on: ['foot', 'top'] } },
      ropes: { rope: ['W', { about: 'P', radius: 12, side: 'right' }, 'C'] },
    });
    const lengthAt = ({ W, P, C }: Record<string, Point>) =>
      ropeLength([
        { at: W, radius: 0, side: 1 },
        { at: P, radius: 12, side: -1 },
        { at: C, radius: 0, side: 1 },
      ]);
    const first = lengthAt(drawing.points as Record<string, Point>);
    for (const branch of ['straight', turned] as const) {
      const motion = trace(drawing, { driver: crank, from: 0, to: 12, branch });
      expectSame(motion.high.status, 'reached');
      if (branch === turned) expectTurned(motion, (at) => at);
      for (const at of spread(motion, 41)) {
        const points = motion.at(at);
        expectClose(lengthAt(points), first, { times: 4096, scale: first });
        expectClose(distance(points.D, points.C), a, { times: 4096, scale: a });
      }
    }
  });
});
