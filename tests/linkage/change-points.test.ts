/**
 * Change points: where shortest and longest bar of a four-bar are together as long as the two others, all bars may lie in one line, and two
 * branches cross there. With the signed lengths A, B, C of crank, coupler and rocker along that line (A + B = d + C) the loop's first and
 * second derivatives are
 *     A w2 + B w3 = C w4,   A w2² + B w3² = C w4²
 * so that of the two branches  w4 / w2 = (A C ± sqrt(A B C d)) / (C² - C B).
 */
import * as fc from 'fast-check';
import {
  type Branch,
  type BranchChoice,
  type Drawing,
  linkage,
  type Motion,
  mobility,
  type Point,
  trace,
} from 'jounce/linkage';
import { laws } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { type FourBar, fourBarAngles } from '../judges/four-bar.ts';
import { deepFreeze } from '../support/freeze.ts';
import { fourBar } from '../support/linkages.ts';
import { expectRigid, spread } from '../support/motions.ts';
import { few } from '../support/runs.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

const TURN = 2 * Math.PI;
const crank = { turn: 'crank' } as const;

/** Four-bars of whole tens with s + l = p + q, no two bars equal, so that they lie flat in one pose alone. */
const changing = fc
  .tuple(fc.integer({ min: 2, max: 9 }), fc.integer({ min: 1, max: 8 }), fc.integer({ min: 1, max: 8 }))
  .filter(([, one, other]) => one !== other)
  .map(([s, one, other]) => [s, s + one, s + other, s + one + other].map((tens) => 10 * tens))
  .chain((lengths) => fc.shuffledSubarray(lengths, { minLength: 4 }))
  .map(([a, b, c, d]): FourBar => ({ crank: a, coupler: b, rocker: c, ground: d }));

/** Where the crank stands when all bars lie in line, 0 or pi, and the signed lengths along the ground. */
function flat({ crank: a, coupler: b, rocker: c, ground: d }: FourBar) {
  for (const A of [a, -a])
    for (const B of [b, -b])
      for (const C of [c, -c]) if (A + B === d + C) return { angle: A > 0 ? 0 : Math.PI, A, B, C, d };
  throw new Error('no change point');
}

/** Rates of the rocker by the crank on both branches. */
function ratios(bars: FourBar): [number, number] {
  const { A, B, C, d } = flat(bars);
  const root = Math.sqrt(A * B * C * d);
  return [(A * C - root) / (C * C - C * B), (A * C + root) / (C * C - C * B)];
}

const rate = ({ turns }: Branch) => turns.rocker / turns.crank;
const sorted = (values: readonly number[]) => [...values].sort((u, v) => u - v);

/** Expects the points of a four-bar to be where the judge has them. */
function expectJudged(
  motion: Motion,
  bars: FourBar,
  drawn: number,
  at: number,
  assembly: 'open' | 'crossed',
) {
  const { C } = fourBar(bars, drawn + at, assembly).points;
  const place = motion.at(at).C;
  // Near the change point a pose is known to the root of a rounding.
  for (const axis of [0, 1]) expectWithin(place[axis], C[axis], 1e-9 * bars.ground);
}

describe('a four-bar of Grashof equality', () => {
  /** Such four-bars, and a crank angle at which they close. */
  const drawings = fc
    .tuple(
      changing,
      fc.integer({ min: 4, max: 27 }).map((tenths) => tenths / 10),
    )
    .filter(([bars, drawn]) => fourBarAngles(bars, drawn, 'open') !== null);

  it('ends in its change point, and says which branches leave', () => {
    fc.assert(
      fc.property(drawings, ([bars, drawn]) => {
        const motion = trace(fourBar(bars, drawn), { driver: crank });
        const { angle } = flat(bars);
        const end = angle === 0 ? motion.low : motion.high;
        if (end.status !== 'bifurcation') return expectSame(end.status, 'deadPoint');
        expectClose(drawn + end.at, angle, { times: 1 << 15, scale: TURN });
        const { branches = [] } = end;
        expect(branches).toHaveLength(3);
        const [straight, other, back] = branches;
        const [one, two] = ratios(bars);
        const expected = sorted([one, two]);
        sorted([rate(straight), rate(other)]).forEach((value, k) => {
          expectClose(value, expected[k], { times: 1e5, scale: Math.abs(one) + Math.abs(two) });
        });
        expectClose(rate(back), rate(other), { times: 1e4, scale: Math.abs(rate(other)) });
        // The driver goes on along the first two, and back along the last.
        const sense = angle === 0 ? -1 : 1;
        expectSame(
          branches.map(({ driver }) => Math.sign(driver)),
          [sense, sense, -sense],
        );
        // All points have the velocities of their bodies.
        for (const { velocities, turns } of branches) {
          const { crank: a } = bars;
          const across = angle === 0 ? a : -a;
          expectClose(velocities.B[1], turns.crank * across, { times: 1e4, scale: 1 });
          expectClose(Math.hypot(...velocities.B, ...velocities.C), 1, { times: 64, scale: 1 });
        }
        // Straight on is how it came.
        const before = motion.read({ turn: 'rocker' })(end.at - sense * 1e-5).first ?? Number.NaN;
        expectWithin(before, rate(straight), 1e-3 * (Math.abs(one) + Math.abs(two)));
      }),
      few(40),
    );
  });

  it('ends in the first of them on both sides, though the border of its Jacobian turns back there too', () => {
    fc.assert(
      fc.property(drawings, ([bars, drawn]) => {
        const motion = trace(fourBar(bars, drawn), { driver: crank });
        const { angle } = flat(bars);
        const ends = { low: angle === 0 ? 0 : -Math.PI, high: angle === 0 ? TURN : Math.PI };
        for (const side of ['low', 'high'] as const) {
          const { status, at } = motion[side];
          if (status === 'deadPoint') continue;
          expectSame(status, 'bifurcation');
          expectClose(drawn + at, ends[side], { times: 1 << 15, scale: TURN });
        }
      }),
    );
  });

  it.each<[FourBar, number, 'low' | 'high', number]>([
    [{ crank: 30, coupler: 100, rocker: 180, ground: 110 }, 0.4, 'high', TURN],
    [{ crank: 20, coupler: 90, rocker: 80, ground: 150 }, 0.6, 'low', -Math.PI],
  ])('passes none where a coordinate turns back as well: %o', (bars, drawn, side, at) => {
    const end = trace(fourBar(bars, drawn), { driver: crank })[side];
    expectSame(end.status, 'bifurcation');
    expectClose(drawn + end.at, at, { times: 1 << 15, scale: TURN });
  });

  it('goes straight on into the other assembly, or stays in its own on the other branch', () => {
    fc.assert(
      fc.property(drawings, ([bars, drawn]) => {
        const { angle } = flat(bars);
        const sense = angle === 0 ? -1 : 1;
        const plain = trace(fourBar(bars, drawn), { driver: crank });
        const end = sense < 0 ? plain.low : plain.high;
        if (end.status !== 'bifurcation') return;
        const beyond = end.at + 0.3 * sense;
        if (fourBarAngles(bars, drawn + beyond, 'open') === null) return;
        const range = { from: Math.min(beyond, 0), to: Math.max(beyond, 0) };
        for (const [branch, assembly] of [
          ['straight', 'crossed'],
          [1, 'open'],
        ] as const) {
          const motion = trace(fourBar(bars, drawn), { driver: crank, ...range, branch });
          expectSame([motion.low.status, motion.high.status], ['reached', 'reached']);
          for (const at of spread(motion, 20)) {
            expectRigid(fourBar(bars, drawn), motion.at(at));
            if (Math.abs(at - end.at) < 1e-3) continue;
            expectJudged(motion, bars, drawn, at, sense * (at - end.at) > 0 ? assembly : 'open');
          }
        }
      }),
      few(40),
    );
  });

  it('takes the branch on which a measure has the sign asked for', () => {
    fc.assert(
      fc.property(drawings, ([bars, drawn]) => {
        const plain = trace(fourBar(bars, drawn), { driver: crank });
        for (const side of ['low', 'high'] as const) {
          const { status, at, branches = [] } = plain[side];
          if (status !== 'bifurcation') continue;
          const [straight, other] = branches.map(rate);
          if (straight * other > 0) continue;
          const further = at + (side === 'low' ? -0.05 : 0.05);
          const range = { from: Math.min(further, 0), to: Math.max(further, 0) };
          for (const [k, sign] of [Math.sign(straight), Math.sign(other)].entries()) {
            const choice: BranchChoice[] = [{ measure: { turn: 'rocker' }, sign: sign as 1 | -1 }];
            const [one, two] = [choice, [k]].map((branch) =>
              trace(fourBar(bars, drawn), { driver: crank, ...range, branch }),
            );
            expect(one.at(further)).toEqual(two.at(further));
          }
        }
      }),
      few(20),
    );
  });

  it.each<[string, FourBar]>([
    ['40, 50, 70, 60', { crank: 40, coupler: 50, rocker: 70, ground: 60 }],
    ['20, 60, 50, 30', { crank: 20, coupler: 60, rocker: 50, ground: 30 }],
  ])('comes home straight on after two turns of its crank, on the other branch after one: %s', (_, bars) => {
    for (const [branch, turns] of [
      ['straight', 2],
      [1, 1],
    ] as const) {
      const { low, high } = trace(fourBar(bars, 1), { driver: crank, branch });
      expectSame([low.status, high.status], ['closed', 'closed']);
      expectClose(high.at, turns * TURN, { times: 64, scale: TURN });
    }
  });

  it('lies where it lies: far from the origin, in another unit, it ends in the same place', () => {
    const drawing = fourBar({ crank: 40, coupler: 50, rocker: 70, ground: 60 }, 1);
    for (const [k, far] of [
      [1, 0],
      [1, 7000],
      [1e-3, 3],
      [1e4, 1e7],
    ]) {
      const points = Object.entries(drawing.points).map(
        ([name, [x, y]]) => [name, [k * x + far, k * y - far]] as const,
      );
      const { low, high } = trace({ ...drawing, points: Object.fromEntries(points) }, { driver: crank });
      expectSame([low.status, high.status], ['bifurcation', 'bifurcation']);
      expectWithin(low.at, -1, 1e-10);
      expectWithin(high.at, TURN - 1, 1e-10);
    }
  });

  it('keeps the laws through its change points', () => {
    for (const branch of ['straight', 1] as const) {
      const drawing = fourBar({ crank: 40, coupler: 50, rocker: 70, ground: 60 }, 1);
      const options = {
        driver: crank,
        trace: (one: Drawing, given = {}) => trace(one, { ...given, branch }),
      };
      for (const law of [laws.closes, laws.keepsLengths, laws.measuresAgree, laws.reproducible])
        law(() => drawing, null, options);
    }
  });
});

describe('a drawing at a change point', () => {
  const bars = { crank: 40, coupler: 50, rocker: 70, ground: 60 };
  const drawing = deepFreeze({
    points: { A: [0, 0], B: [40, 0], C: [-10, 0], D: [60, 0] },
    ground: ['A', 'D'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
  } as const satisfies Drawing);

  it('has its branches in its mobility, those first on which less turns', () => {
    const { degreesOfFreedom, branches } = mobility(drawing);
    expectSame(degreesOfFreedom, 2);
    const expected = sorted(ratios(bars));
    sorted(branches.map(rate)).forEach((value, k) =>
      expectClose(value, expected[k], { times: 1e4, scale: 10 }),
    );
  });

  it('needs a choice', () => {
    expect(() => trace(drawing, { driver: crank })).toThrow(
      /drawn at a bifurcation \(change point\): 2 branches cross there.*choose one with `branch`/,
    );
    for (const branch of ['straight', 2, []] as const) {
      expect(() => trace(drawing, { driver: crank, branch })).toThrow(
        /branch: not a branch on which the driver moves from the drawn pose.*of 2 branches.*a number below 2/,
      );
    }
  });

  it('moves along the branch that is chosen, both ways', () => {
    mobility(drawing).branches.forEach((branch, k) => {
      const motion = trace(drawing, { driver: crank, from: -0.4, to: 0.4, branch: [k] });
      expectSame([motion.low.status, motion.high.status], ['reached', 'reached']);
      const rocker = motion.read({ turn: 'rocker' });
      expectClose(rocker(0).first ?? Number.NaN, rate(branch), { times: 1e4, scale: 10 });
      for (const at of [-0.4, -0.2, 0.2, 0.4]) {
        const judged = (['open', 'crossed'] as const).map((one) => fourBar(bars, at, one).points.C as Point);
        const { C } = motion.at(at);
        const off = judged.map(([x, y]: Point) => Math.hypot(C[0] - x, C[1] - y));
        expectWithin(Math.min(...off), 0, 1e-10);
      }
      const signed = { measure: { turn: 'rocker' }, sign: rate(branch) > 0 ? 1 : -1 } as const;
      if (ratios(bars)[0] * ratios(bars)[1] < 0)
        expect(trace(drawing, { driver: crank, branch: signed }).at(0.2)).toEqual(motion.at(0.2));
    });
  });

  it('counts as the first of a list of choices', () => {
    const { high } = trace(drawing, { driver: crank, from: 0, to: 10, branch: [0] });
    expectSame(high.status, 'bifurcation');
    expectClose(high.at, TURN, { times: 4096, scale: TURN });
    const { high: beyond } = trace(drawing, { driver: crank, from: 0, to: 10, branch: [0, 'straight'] });
    expectSame(beyond, { at: 10, status: 'reached' });
  });

  it('closes by arc length when it is back on the branch that it left by', () => {
    const one = trace(fourBar(bars, 1), { branch: 'straight' });
    const two = trace(drawing, { branch: [0, 'straight', 'straight'] });
    expectSame(two.high.status, 'closed');
    expectWithin(two.high.at / one.high.at, 1, 1e-9);
  });
});

// With the crank straight up and the rod straight down on it the second derivative of the heights says r w² = l w_rod².
describe('a slider-crank whose rod is as much longer as its slide lies off: 20, 30, -10', () => {
  const [r, l] = [20, 30];
  const at = (angle: number): Drawing => {
    const A: Point = [r * Math.cos(angle), r * Math.sin(angle)];
    return {
      points: {
        O: [0, 0],
        A,
        P: [A[0] + Math.sqrt(l * l - (r - l - A[1]) ** 2), r - l],
        near: [0, r - l],
        far: [9, r - l],
      },
      ground: ['O', 'near', 'far'],
      bodies: { crank: ['O', 'A'], rod: ['A', 'P'] },
      sliders: { piston: { point: 'P', on: ['near', 'far'] } },
    };
  };

  it('has branches on which the rod turns by ± sqrt(r / l) of the crank', () => {
    for (const drawn of [0, 0.5, 1, -1.2]) {
      const { high } = trace(deepFreeze(at(drawn)), { driver: crank });
      expectSame(high.status, 'bifurcation');
      expectClose(drawn + high.at, Math.PI / 2, { times: 4096, scale: 1 });
      const [straight, other] = high.branches ?? [];
      expectClose(straight.turns.rod / straight.turns.crank, -Math.sqrt(r / l), { times: 4096, scale: 1 });
      expectClose(other.turns.rod / other.turns.crank, Math.sqrt(r / l), { times: 4096, scale: 1 });
      for (const { turns, velocities } of [straight, other]) {
        expectClose(velocities.P[0], l * turns.rod - r * turns.crank, { times: 4096, scale: 1 });
      }
    }
  });

  it('turns round on both: straight on in two turns, else in one', () => {
    for (const [branch, turns] of [
      ['straight', 2],
      [1, 1],
    ] as const) {
      const { high } = trace(deepFreeze(at(1)), { driver: crank, branch });
      expectSame(high.status, 'closed');
      expectClose(high.at, turns * TURN, { times: 64, scale: TURN });
    }
  });
});

// tan(w / 2) = - (g + a) / (g - a) tan(t / 2) for the cranks' angles t, w from the line of their pivots (from memory; the judge agrees).
describe('a parallelogram of cranks 50 and bars 120', () => {
  const [a, g] = [50, 120];
  const drawn = 1.2;
  const drawing = fourBar({ crank: a, coupler: g, rocker: a, ground: g }, drawn);

  it('goes straight on as a parallelogram, for turns', () => {
    const motion = trace(drawing, { driver: crank, from: -20, to: 20, branch: 'straight' });
    expectSame([motion.low.status, motion.high.status], ['reached', 'reached']);
    const rocker = motion.read({ turn: 'rocker' });
    for (const at of spread(motion, 101)) expectClose(rocker(at).value, at, { times: 256, scale: 20 });
  });

  it('becomes an antiparallelogram on the other branch, and stays one straight on', () => {
    const motion = trace(drawing, {
      driver: crank,
      from: 0,
      to: 12,
      branch: [{ measure: { turn: 'rocker' }, sign: -1 }, 'straight', 'straight', 'straight'],
    });
    expectSame(motion.high.status, 'reached');
    const rocker = motion.read({ angle: ['D', 'C'] });
    for (const at of spread(motion, 101)) {
      const [t, w] = [drawn + at, rocker(at).value];
      if (t <= Math.PI) expectClose(w, t, { times: 256, scale: 10 });
      else {
        const expected = -((g + a) / (g - a)) * Math.tan(t / 2);
        expectWithin(Math.sin(w / 2 - Math.atan(expected)), 0, 1e-12);
      }
    }
  });

  it('is held parallel by a third crank, and never asks', () => {
    const three = linkage({
      points: { ...drawing.points, E: [40, 90], F: [40 + a * Math.cos(drawn), 90 + a * Math.sin(drawn)] },
      ground: ['A', 'D', 'E'],
      bodies: { ...drawing.bodies, coupler: ['B', 'C', 'F'], third: ['E', 'F'] },
    } as Drawing);
    for (const branch of [undefined, 1] as const) {
      const motion = trace(three, {
        driver: crank,
        from: -7,
        to: 7,
        ...(branch === undefined ? {} : { branch }),
      });
      expectSame([motion.low.status, motion.high.status], ['reached', 'reached']);
    }
  });
});

describe('three wheels with a rod between each two', () => {
  // Two parallelograms lie flat at once: each may turn over.
  const wheels: Drawing = deepFreeze({
    points: { O: [0, 0], P: [100, 0], Q: [230, 0], o: [30, 40], p: [130, 40], q: [260, 40] },
    ground: ['O', 'P', 'Q'],
    bodies: { crank: ['O', 'o'], second: ['P', 'p'], third: ['Q', 'q'], one: ['o', 'p'], two: ['p', 'q'] },
  });

  it('lie flat in a crossing of four branches, one for each choice of parallel and antiparallel', () => {
    const flatPoints: Drawing['points'] = {
      O: [0, 0],
      P: [100, 0],
      Q: [230, 0],
      o: [50, 0],
      p: [150, 0],
      q: [280, 0],
    };
    const { branches } = mobility({ ...wheels, points: flatPoints });
    const [one, two] = [(100 + 50) / (100 - 50), (130 + 50) / (130 - 50)];
    const seen = branches.map(({ turns }) => [turns.second / turns.crank, turns.third / turns.second]);
    for (const ratio of [
      [1, 1],
      [1, -two],
      [-one, 1],
      // Backwards the second rod sees the second wheel as its crank.
      [-one, -two],
    ]) {
      const off = seen.map((pair) => Math.hypot(pair[0] - ratio[0], pair[1] - ratio[1]));
      expectWithin(Math.min(...off), 0, 1e-9);
    }
    expect(branches).toHaveLength(4);
  });

  it('turn alike straight on, and the third alone the other way where that is chosen', () => {
    const alike = trace(wheels, { driver: crank, from: 0, to: 10, branch: 'straight' });
    for (const body of ['second', 'third']) {
      const read = alike.read({ turn: body });
      for (const at of spread(alike, 31)) expectClose(read(at).value, at, { times: 1024, scale: 10 });
    }
    const { high } = trace(wheels, { driver: crank, branch: [] });
    expectSame(high.status, 'bifurcation');
    const k = (high.branches ?? []).findIndex(
      ({ turns, driver }) => driver > 0 && turns.second > 0 && turns.third < 0,
    );
    const turned = trace(wheels, { driver: crank, from: 0, to: 5, branch: [k, 'straight'] });
    const [second, third] = ['second', 'third'].map((turn) => turned.read({ turn }));
    for (const at of spread(turned, 31)) {
      expectClose(second(at).value, at, { times: 1024, scale: 10 });
      if (at <= high.at) continue;
      const [t, w] = [Math.atan2(40, 30) + at, Math.atan2(40, 30) + third(at).value];
      expectWithin(Math.sin(w / 2 - Math.atan(-((130 + 50) / (130 - 50)) * Math.tan(t / 2))), 0, 1e-10);
    }
  });
});

// By the theorem of the inscribed angle a member from a point of the pin's circle to the pin turns by half of what the crank does.
describe('a telescope whose eye passes through its foot', () => {
  const drawing: Drawing = deepFreeze({
    points: { O: [0, 0], A: [0, 10], F: [10, 0] },
    ground: ['O', 'F'],
    bodies: { crank: ['O', 'A'] },
    telescopes: { leg: ['F', 'A'] },
  });

  it('has a change point there: with no length it may turn alone', () => {
    const { low } = trace(drawing, { driver: crank, to: 1 });
    expectSame(low.status, 'bifurcation');
    expectClose(low.at, -Math.PI / 2, { times: 4096, scale: 1 });
    const [straight, other] = low.branches ?? [];
    expectClose(straight.turns.leg / straight.turns.crank, 0.5, { times: 4096, scale: 1 });
    expectClose(other.turns.crank, 0, { times: 4096, scale: 1 });
  });

  it('goes on turning straight on', () => {
    const motion = trace(drawing, { driver: crank, from: -7, to: 7, branch: 'straight' });
    expectSame([motion.low.status, motion.high.status], ['reached', 'reached']);
    const [leg, length] = [motion.read({ turn: 'leg' }), motion.read({ length: ['F', 'A'] })];
    for (const at of spread(motion, 57)) {
      expectClose(leg(at).value, at / 2, { times: 4096, scale: 7 });
      expectClose(length(at).value, Math.abs(20 * Math.sin(Math.PI / 4 + at / 2)), { times: 256, scale: 20 });
    }
  });
});
