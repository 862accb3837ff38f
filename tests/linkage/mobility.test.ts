/** Kutzbach's count beside the rank, and what is redundant or contradicting, by the drawing's names. */
import { type Drawing, mobility, range, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectSame, expectWithin } from '../support/tolerance.ts';

/** Peaucellier's cell: arms 5 from O, rhombus 3, crank from K. */
const peaucellier = (): Drawing => {
  const on = (x: number, y: number) => [x, y] as const;
  const B = on(1.25 + 1.25 * Math.cos(0.6), 1.25 * Math.sin(0.6));
  const far = Math.hypot(...B);
  const [c, s] = [B[0] / far, B[1] / far];
  const D = on((16 / far) * c, (16 / far) * s);
  const middle = (far + 16 / far) / 2;
  const half = Math.sqrt(25 - middle * middle);
  return {
    points: {
      O: [0, 0],
      K: [1.25, 0],
      B,
      D,
      A: [middle * c - half * s, middle * s + half * c],
      C: [middle * c + half * s, middle * s - half * c],
    },
    ground: ['O', 'K'],
    bodies: {
      crank: ['K', 'B'],
      oa: ['O', 'A'],
      oc: ['O', 'C'],
      ab: ['A', 'B'],
      bc: ['B', 'C'],
      cd: ['C', 'D'],
      da: ['D', 'A'],
    },
  };
};

/** A parallelogram of arms 100 on pivots 120 apart, with a third arm on a further pivot and the long coupler. */
const cranks = (third: readonly [number, number], pivot: readonly [number, number] = [60, 0]): Drawing => ({
  points: { A: [0, 0], B: [30, 95.39], C: [120, 0], D: [150, 95.39], E: pivot, F: third },
  ground: ['A', 'C', 'E'],
  bodies: { first: ['A', 'B'], second: ['C', 'D'], third: ['E', 'F'], coupler: ['B', 'D', 'F'] },
});

describe('the count of Kutzbach', () => {
  // M = 3 (n - 1) - 2 j1 - j2; counts of standard linkages, computed by hand from the formula.
  const fiveBar = { A: [0, 0], B: [-1, 3], C: [2, 6], D: [5, 3], E: [4, 0] } as const;
  const cases: [name: string, drawing: Drawing, M: number, degreesOfFreedom: number][] = [
    [
      'a triangle of bars',
      {
        points: { A: [0, 0], B: [4, 0], C: [1, 3] },
        ground: ['A', 'B'],
        bodies: { p: ['A', 'C'], q: ['B', 'C'] },
      },
      0,
      0,
    ],
    [
      'a four-bar',
      {
        points: { A: [0, 0], B: [0, 2], C: [3, 3], D: [4, 0] },
        ground: ['A', 'D'],
        bodies: { p: ['A', 'B'], q: ['B', 'C'], r: ['D', 'C'] },
      },
      1,
      1,
    ],
    [
      'a slider-crank',
      {
        points: { O: [0, 0], A: [1, 1], B: [4, 0], R: [5, 0] },
        ground: ['O', 'R'],
        bodies: { crank: ['O', 'A'], rod: ['A', 'B'] },
        sliders: { piston: { point: 'B', on: ['O', 'R'] } },
      },
      1,
      1,
    ],
    [
      'an inverted slider-crank with a telescope',
      {
        points: { O: [0, 0], C: [3, 0], A: [3, 1] },
        ground: ['O', 'C'],
        bodies: { arm: ['C', 'A'] },
        telescopes: { ram: ['O', 'A'] },
      },
      1,
      1,
    ],
    [
      'a five-bar',
      {
        points: fiveBar,
        ground: ['A', 'E'],
        bodies: { a: ['A', 'B'], b: ['B', 'C'], c: ['C', 'D'], d: ['E', 'D'] },
      },
      2,
      2,
    ],
    [
      "Watt's six-bar",
      {
        points: { A: [0, 0], B: [0, 2], C: [3, 3], D: [4, 0], E: [2, 5], F: [7, 4], G: [8, 0] },
        ground: ['A', 'D', 'G'],
        bodies: { p: ['A', 'B'], q: ['B', 'C'], r: ['D', 'C', 'E'], s: ['E', 'F'], t: ['G', 'F'] },
      },
      1,
      1,
    ],
    ["Peaucellier's cell", peaucellier(), 1, 1],
    ['a parallelogram with a third arm', cranks([90, 95.39]), 0, 1],
    [
      'a push member on two arms, a rocker and a telescoping member',
      {
        points: {
          a: [250, 160],
          b: [630, 150],
          c: [300, 340],
          d: [590, 360],
          m: [560, 165],
          r: [345, 470],
          p: [260, 400],
          s: [235, 500],
          f: [10, 470],
        },
        ground: ['a', 'c', 'p', 'f'],
        bodies: {
          lower: ['a', 'b', 'm'],
          upper: ['c', 'd'],
          upright: ['b', 'd'],
          rod: ['m', 'r'],
          rocker: ['p', 'r', 's'],
        },
        telescopes: { damper: ['f', 's'] },
      },
      1,
      1,
    ],
  ];
  it.each(cases)('and the rank of %s', (_, drawing, M, degreesOfFreedom) => {
    const found = mobility(drawing);
    expectSame([found.kutzbach, found.degreesOfFreedom], [M, degreesOfFreedom]);
  });
});

describe('what is redundant', () => {
  it('is found among the constraints that say the same, and does no harm through full turns', () => {
    const drawing = deepFreeze({
      points: { A: [0, 0], B: [0, 100], C: [120, 0], D: [120, 100], E: [60, 0], F: [60, 100] },
      ground: ['A', 'C', 'E'],
      bodies: { first: ['A', 'B'], second: ['C', 'D'], third: ['E', 'F'], coupler: ['B', 'D', 'F'] },
    } as const);
    expect(mobility(drawing)).toMatchObject({
      kutzbach: 0,
      degreesOfFreedom: 1,
      redundant: 1,
      dependent: ['body first', 'body second', 'body third'],
      contradicting: null,
      misfits: [],
    });
    const motion = trace(drawing, { driver: { turn: 'first' }, from: 0, to: 2 * Math.PI });
    expect(motion.high.status).toBe('reached');
    expectClose(motion.at(Math.PI / 2).F[0], -40, { times: 2 ** 8, scale: 120 });
  });

  it('but for 0.1 mm of rounding locks, and is named with its misfit', () => {
    const rounded: Drawing = {
      points: { A: [0, 0], B: [30, 95.4], C: [120, 0], D: [150, 95.4], E: [60.1, 0], F: [90, 95.4] },
      ground: ['A', 'C', 'E'],
      bodies: { first: ['A', 'B'], second: ['C', 'D'], third: ['E', 'F'], coupler: ['B', 'D', 'F'] },
    };
    const message = /the rest moves if the length of one of these may change: .*third by 0\.1/;
    expect(() => trace(rounded, { driver: { turn: 'first' } })).toThrow(message);
    const { degreesOfFreedom, misfits } = mobility(rounded);
    expect(degreesOfFreedom).toBe(0);
    const third = misfits.find(({ body }) => body === 'third');
    // E is 0.1 off its place: the arm from it would be longest and shortest along the ground line.
    expectWithin(third?.misfit ?? null, 0.1 * (1 + 29.9 / 100), 0.002);
    const motion = trace(rounded, { driver: { turn: 'first' }, from: -0.3, to: 0.3, tolerance: 0.2 });
    expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
  });

  it('in the drawn pose alone contradicts as soon as the linkage moves', () => {
    // The third arm is as long as the circle of F needs it to second order only at its vertex: parallel to the others, but longer.
    const drawing: Drawing = {
      points: { A: [0, 0], B: [0, 100], C: [120, 0], D: [120, 100], E: [60, -40], F: [60, 100] },
      ground: ['A', 'C', 'E'],
      bodies: { first: ['A', 'B'], second: ['C', 'D'], third: ['E', 'F'], coupler: ['B', 'D', 'F'] },
    };
    const found = mobility(drawing);
    expect(found).toMatchObject({ degreesOfFreedom: 1, redundant: 1 });
    expect(found.contradicting).toMatch(/^body (first|second|third|coupler at F)$/);
    const motion = trace(drawing, { driver: { turn: 'first' }, from: -0.5, to: 0.5 });
    expect(motion.high.status).toBe('locked');
    // It locks where the bar misses by the tolerance, a millionth of the size: about sqrt(2 * 1.4e-4 / (100 (1 - 100 / 140))).
    expect(motion.high.at).toBeLessThan(0.01);
    const third = found.misfits.find(({ body }) => body === 'third');
    // Round to where the others lie flat, and their way on is not determined: F is 100 to one side of the line, 40 above E.
    expectWithin(third?.misfit ?? null, 140 - Math.hypot(100, 40), 1e-6);
    expectWithin(
      motion.high.misfit ?? null,
      140 - Math.hypot(100 * Math.sin(0.5), 100 * Math.cos(0.5) + 40),
      1e-9,
    );
  });

  it('is not what stands off the line: such a third arm holds the linkage', () => {
    const drawing = cranks([90, 95.39], [50, 20]);
    expect(mobility(drawing)).toMatchObject({ degreesOfFreedom: 0, redundant: 0 });
    expect(() => trace(drawing, { driver: { turn: 'first' } })).toThrow(
      /overdetermined: nothing can move in the drawn pose.*remove a body/,
    );
  });
});

describe('a bifurcation', () => {
  it('is reported where a parallelogram lies flat', () => {
    const drawing: Drawing = {
      points: { A: [0, 0], B: [0, 100], C: [120, 0], D: [120, 100] },
      ground: ['A', 'C'],
      bodies: { first: ['A', 'B'], second: ['C', 'D'], coupler: ['B', 'D'] },
    };
    const { low, high } = range(drawing, { driver: { turn: 'first' } });
    expect([low.status, high.status]).toEqual(['bifurcation', 'bifurcation']);
    expectWithin(low.at, -Math.PI / 2, 1e-8);
    expectWithin(high.at, Math.PI / 2, 1e-8);
    const flat: Drawing = {
      ...drawing,
      points: { A: [0, 0], B: [100, 0], C: [120, 0], D: [220, 0] },
    };
    expect(mobility(flat)).toMatchObject({ degreesOfFreedom: 2, moving: ['B', 'D'] });
  });
});

/** Where the motion, driven by a body, has its ends, which are bifurcations. */
function crossings(drawing: Drawing, body: string): [number, number] {
  const { low, high } = range(drawing, { driver: { turn: body } });
  expect([low.status, high.status]).toEqual(['bifurcation', 'bifurcation']);
  return [low.at, high.at];
}

describe('a bifurcation of a linkage that is held twice over', () => {
  // One constraint said twice, of different lengths and directions, leaves both branches as they were: to second order as well.
  it.each([
    [40, 250],
    [7, 13],
    [-80, 30],
  ])('is found where a parallelogram lies flat with a bar to (%d, %d) on an arm beside it', (x, y) => {
    const drawing: Drawing = {
      points: { A: [0, 0], B: [0, 100], C: [120, 0], D: [120, 100], T: [x, y] },
      ground: ['A', 'C'],
      bodies: { first: ['A', 'B', 'T'], twin: ['A', 'T'], second: ['C', 'D'], coupler: ['B', 'D'] },
    };
    expect(mobility(drawing)).toMatchObject({ degreesOfFreedom: 1, redundant: 1 });
    const [low, high] = crossings(drawing, 'first');
    expectWithin(low, -Math.PI / 2, 1e-7);
    expectWithin(high, Math.PI / 2, 1e-7);
  });

  // A crank as long as its pivots lie apart brings the block through the arm's pivot, where the arm can turn by itself.
  it.each([
    [200, 50, 0.5],
    [-30, 400, 2],
    [600, -90, -1],
  ])(
    'is found where a block comes to the pivot of its arm, in a second slot through (%d, %d)',
    (x, y, turned) => {
      const at = (r: number, angle: number) =>
        [r * Math.cos(angle + turned), r * Math.sin(angle + turned)] as const;
      const [along, [cx, cy], [px, py]] = [at(90, 0.4), at(300, 0), at(300, 0.8)];
      const drawing: Drawing = {
        points: {
          O: [0, 0],
          T: at(700, 0.4),
          C: [cx, cy],
          P: [cx + px, cy + py],
          U: [x, y],
          V: [x + along[0], y + along[1]],
        },
        ground: ['O', 'C'],
        bodies: { arm: ['O', 'T', 'U', 'V'], crank: ['C', 'P'] },
        sliders: { block: { point: 'P', on: ['O', 'T'] }, other: { point: 'P', on: ['U', 'V'] } },
      };
      expect(mobility(drawing)).toMatchObject({ degreesOfFreedom: 1, redundant: 1 });
      const [low, high] = crossings(drawing, 'crank');
      expectWithin(low, -Math.PI - 0.8, 1e-6);
      expectWithin(high, Math.PI - 0.8, 1e-6);
    },
  );
});

describe('ground', () => {
  it('is every point of a body held at two points of it, wherever in its list they stand', () => {
    for (const frame of [
      ['A', 'G', 'P'],
      ['P', 'A', 'G'],
      ['A', 'P', 'G'],
    ]) {
      const found = mobility({
        points: { A: [0, 0], G: [50, -20], P: [120, 0], B: [0, 60], C: [100, 90] },
        ground: ['A', 'G'],
        bodies: { frame, crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['P', 'C'] },
      });
      expectSame(found, {
        kutzbach: 1,
        degreesOfFreedom: 1,
        redundant: 0,
        dependent: [],
        moving: ['B', 'C'],
        branches: [],
        misfits: [],
        contradicting: null,
      });
    }
  });

  it('alone, without a body, is a drawing that nothing moves in', () => {
    const found = mobility({ points: { A: [0, 0], B: [3, 4] }, ground: ['A', 'B'], bodies: {} });
    expectSame([found.kutzbach, found.degreesOfFreedom, found.redundant], [0, 0, 0]);
  });
});

describe('a drawing that is changed in place', () => {
  it('is read anew: what was made of it before does not come back', () => {
    const coupler = ['B', 'C'];
    const held: { x: string }[] = [];
    const drawing = {
      points: { A: [0, 0], B: [0, 60], C: [100, 90], D: [120, 0], E: [150, 40] },
      ground: ['A', 'D'],
      bodies: { crank: ['A', 'B'], coupler, rocker: ['D', 'C', 'E'] },
      fixedCoordinates: held,
    } as Drawing;
    expectSame(mobility(drawing).degreesOfFreedom, 1);
    held.push({ x: 'C' });
    expectSame(mobility(drawing).degreesOfFreedom, 0);
    held.pop();
    coupler.push('E');
    expectSame(mobility(drawing).degreesOfFreedom, 0);
    coupler.pop();
    expectSame(mobility(drawing).degreesOfFreedom, 1);
  });
});

describe('the range of a linkage', () => {
  const crankRocker: Drawing = {
    points: { O: [0, 0], A: [0, 40], B: [115, 75], C: [100, 0] },
    ground: ['O', 'C'],
    bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['C', 'B'] },
  };

  it('is from dead point to dead point of what drives, or round and home', () => {
    expect(range(crankRocker, { driver: { turn: 'rocker' } })).toMatchObject({
      drawn: 0,
      low: { status: 'deadPoint' },
      high: { status: 'deadPoint' },
    });
    const round = range(crankRocker);
    expect([round.low.status, round.high.status]).toEqual(['closed', 'closed']);
    expect(round.high.at).toBeGreaterThan(2 * Math.PI * 40);
  });
});
