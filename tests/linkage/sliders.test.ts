/** Points that slide on lines: slider-cranks and quick returns of the textbooks, exact figures beside printed ones. */
import { assert, double, property } from 'fast-check';
import { type Drawing, trace } from 'jounce/linkage';
import { checkLaws } from 'jounce/testing';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const DEGREE = Math.PI / 180;
const RPM = (2 * Math.PI) / 60;

/** Crank from O, rod to B, which slides along x at a height; drawn with the crank at an angle. G lies on the rod. */
function sliderCrank(crank: number, rod: number, angle: number, height = 0, share = 0.5): Drawing {
  const A = [crank * Math.cos(angle), crank * Math.sin(angle)] as const;
  const rise = height - A[1];
  const B = [A[0] + Math.sqrt(rod * rod - rise * rise), height] as const;
  const G = [B[0] + share * (A[0] - B[0]), B[1] + share * (A[1] - B[1])] as const;
  return deepFreeze({
    points: { O: [0, 0], A, B, G, L: [0, height], R: [1, height] },
    ground: ['O', 'L', 'R'],
    bodies: { crank: ['O', 'A'], rod: ['A', 'B', 'G'] },
    sliders: { piston: { point: 'B', on: ['L', 'R'] } },
  });
}

/** Rates by time of a measure, from those by the crank's angle at a constant speed. */
function rates(drawing: Drawing, measure: Parameters<ReturnType<typeof trace>['read']>[0], speed: number) {
  const { value, first, second } = trace(drawing, { driver: { turn: 'crank' } }).read(measure)(0);
  return { value, rate: (first as number) * speed, bend: (second as number) * speed * speed };
}

describe('a slider-crank', () => {
  // J. L. Meriam, L. G. Kraige, "Engineering Mechanics: Dynamics", Sample Problems 5/9 (printed 67.3 (from memory), 29.5,
  // 64.1; seen) and 5/15 (printed 3310, 7740; in part seen).
  it('moves as in Meriam and Kraige, Sample Problems 5/9 and 5/15', () => {
    const drawing = sliderCrank(5, 14, 60 * DEGREE, 0, 10 / 14);
    const speed = 1500 * RPM;
    const piston = rates(drawing, { x: 'B' }, speed);
    expectWithin(-piston.rate / 12, 67.324772, 1e-5);
    expectWithin(-piston.bend / 12, 3312.002, 1e-3);
    const rod = rates(drawing, { turn: 'rod' }, speed);
    expectWithin(Math.abs(rod.rate), 29.496247, 1e-5);
    expectWithin(Math.abs(rod.bend), 7742.071, 1e-3);
    const [x, y] = [rates(drawing, { x: 'G' }, speed).rate, rates(drawing, { y: 'G' }, speed).rate];
    expectWithin(Math.hypot(x, y) / 12, 64.133722, 1e-5);
    expectWithin(180 - rates(drawing, { angle: ['B', 'A'] }, speed).value / DEGREE, 18.016736, 1e-6);
  });

  // R. S. Khurmi, J. K. Gupta, "Theory of Machines", Examples 15.2, 15.5 (seen; printed 6.9, 124.91, 5.9, 481) and 8.1 (seen;
  // graphical: 5.67, 171.67, 4.1, 117; its 45 degrees are inferred); T. Bevan, ch. 3, Example 3 (seen; graphical: 10.57).
  it.each([
    [150, 600, 450, 60, 1000, { v: 6.90536, a: 124.949344, w: 6.033596, e: 484.3947 }],
    [6, 24, 240, 45, 12, { v: 10.481697 }],
    [150, 600, 300, 45, 1000, { w: 5.642467, e: 171.5452, g: 3.995358, ag: 117.3104 }],
  ])(
    'of crank %d, rod %d at %d rpm and %d degrees moves as exactly computed from the textbook',
    (...given) => {
      const [crank, rod, rpm, angle, unit, expected] = given;
      const drawing = sliderCrank(crank, rod, angle * DEGREE);
      const speed = rpm * RPM;
      const piston = rates(drawing, { x: 'B' }, speed);
      const link = rates(drawing, { turn: 'rod' }, speed);
      const middle = [rates(drawing, { x: 'G' }, speed), rates(drawing, { y: 'G' }, speed)];
      const found = {
        v: Math.abs(piston.rate) / unit,
        a: Math.abs(piston.bend) / unit,
        w: Math.abs(link.rate),
        e: Math.abs(link.bend),
        g: Math.hypot(middle[0].rate, middle[1].rate) / unit,
        ag: Math.hypot(middle[0].bend, middle[1].bend) / unit,
      };
      for (const [name, value] of Object.entries(expected)) {
        expectWithin(found[name as keyof typeof found], value, 1e-5 * Math.max(1, value / 10));
      }
    },
  );

  it('off its line moves as its closed form, round the whole turn', () => {
    assert(
      property(
        double({ min: 2.2, max: 6, noNaN: true }),
        double({ min: -1, max: 1, noNaN: true }),
        double({ min: -3, max: 3, noNaN: true }),
        (rod, height, turn) => {
          const drawing = sliderCrank(1, rod, 0.3, height);
          const motion = trace(drawing, { driver: { turn: 'crank' }, from: -3, to: 3 });
          const theta = 0.3 + turn;
          const rise = height - Math.sin(theta);
          const x = Math.cos(theta) + Math.sqrt(rod * rod - rise * rise);
          expectClose(motion.at(turn).B[0], x, { times: 2 ** 10, scale: rod });
          expectClose(motion.at(turn).B[1], height, { times: 2 ** 8, scale: rod });
        },
      ),
    );
  });

  it('with its rod driven by the slide has its dead points with crank and rod in line', () => {
    const { low, high } = trace(sliderCrank(1, 3, 1), { driver: { x: 'B' } });
    expect([low.status, high.status]).toEqual(['deadPoint', 'deadPoint']);
    expectClose(high.at, 4, { times: 64, scale: 4 });
    expectClose(low.at, 2, { times: 64, scale: 4 });
  });
});

describe('a point in the slot of an arm', () => {
  /** Crank about C drives a block in the slot of the arm O-T. */
  const quickReturn = (apart: number, crank: number, arm: number): Drawing =>
    deepFreeze({
      points: { O: [0, 0], C: [0, apart], P: [crank, apart], T: armEnd(apart, crank, arm) },
      ground: ['O', 'C'],
      bodies: { crank: ['C', 'P'], arm: ['O', 'T'] },
      sliders: { block: { point: 'P', on: ['O', 'T'] } },
    });
  const armEnd = (apart: number, crank: number, arm: number) => {
    const reach = Math.hypot(crank, apart);
    return [(arm * crank) / reach, (arm * apart) / reach] as const;
  };

  // Khurmi and Gupta, Examples 5.2 (seen: ratio 2, stroke of a 450 arm 450), 5.1 (in part seen; the exact ratio was computed
  // from its figures, printed 1.72) and 5.3 (seen: pivots 75.7, arm 151.48 for a stroke of 120 and a ratio of 1.7).
  it.each([
    [240, 120, 450, 2, 450, 1e-9],
    [300, 120, 450, 1.709953, null, 1e-6],
    [75.742319, 30, 151.484638, 1.7, 120, 1e-5],
  ])(
    'of pivots %d, crank %d, arm %d returns as the textbook has it',
    (apart, crank, arm, ratio, stroke, within) => {
      const motion = trace(quickReturn(apart, crank, arm), {
        driver: { turn: 'crank' },
        from: 0,
        to: 2 * Math.PI,
      });
      const ends = motion.extremes({ turn: 'arm' });
      expect(ends).toHaveLength(2);
      const way = Math.abs(ends[1].at - ends[0].at);
      const slow = Math.max(way, 2 * Math.PI - way);
      expectWithin(slow / (2 * Math.PI - slow), ratio, within);
      const swing = ends.map(({ at }) => motion.at(at).T[0]);
      if (stroke !== null) expectWithin(Math.abs(swing[1] - swing[0]), stroke, within * 100);
    },
  );

  // R. C. Hibbeler, "Engineering Mechanics: Dynamics", Problem 16-48 (seen).
  it('turns the arm over a peg 0.6 m away at 5/12 rad/s, and -0.347222 rad/s^2', () => {
    const drawing = deepFreeze({
      points: { O: [0, 0], T: [1, 1], P: [0.6, 0.6] },
      ground: ['O'],
      bodies: { arm: ['O', 'T'] },
      fixedCoordinates: [{ x: 'P' }],
      sliders: { peg: { point: 'P', on: ['O', 'T'] } },
    } as const);
    const { first, second } = trace(drawing, { driver: { y: 'P' } }).read({ turn: 'arm' })(0.6);
    expectWithin((first as number) * 0.5, 5 / 12, 1e-12);
    expectWithin((second as number) * 0.25, -0.347222, 1e-6);
  });
});

describe('a slider that is drawn off its line', () => {
  it('keeps its distance, whatever the line does', () => {
    assert(
      property(
        double({ min: 0.05, max: 1.2, noNaN: true }),
        double({ min: -0.6, max: 0.6, noNaN: true }),
        (off, turn) => {
          const drawing = deepFreeze({
            points: { O: [0, 0], T: [2, 0], C: [1, 3], P: [1, off] },
            ground: ['O', 'C'],
            bodies: { arm: ['O', 'T'], link: ['C', 'P'] },
            sliders: { shoe: { point: 'P', on: ['O', 'T'] } },
          } as const);
          const motion = trace(drawing, { driver: { turn: 'link' }, from: -0.6, to: 0.6 });
          const at = Math.min(motion.high.at, Math.max(motion.low.at, turn));
          const { T, P } = motion.at(at);
          const cross = (T[0] * P[1] - T[1] * P[0]) / 2;
          expectClose(cross, off, { times: 2 ** 8, scale: 4 });
          expectClose(motion.read({ y: 'P', relativeTo: 'arm' })(at).value, off, { times: 2 ** 8, scale: 4 });
        },
      ),
    );
  });
});

describe('a block that slides along its rail for ever', () => {
  /** A block of some mm, kept level, with its pin 100 mm along a rail of 1 m; T stands above the rail. */
  const block = (mm: number, post: number): Drawing =>
    deepFreeze({
      points: { L: [0, 0], R: [1000, 0], P: [100, 0], Q: [100 + mm, mm], T: [post, 300] },
      ground: ['L', 'R', 'T'],
      bodies: { block: ['P', 'Q'] },
      sliders: { pin: { point: 'P', on: ['L', 'R'] } },
      fixedAngles: { level: ['block', ['L', 'R']] },
    });
  const sizes = double({ min: 50, max: 500, noNaN: true });
  const posts = double({ min: 150, max: 1000, noNaN: true });
  /** Pieces that are few against the most a path may have: some ms. */
  const FEW = 1000;

  it('is unbounded far beyond the drawing, and soon, where no value is requested', () => {
    assert(
      property(sizes, posts, (mm, post) => {
        for (const options of [{ driver: { x: 'P' } as const }, {}]) {
          const { drawn, low, high, path } = trace(block(mm, post), options);
          expect([low.status, high.status]).toEqual(['unbounded', 'unbounded']);
          expect(path.pieces.length).toBeLessThan(FEW);
          if (!('driver' in options)) continue;
          // R and T lie farthest from L: 30 times as far as the farther of them, either way.
          const most = 30 * Math.max(1000, Math.hypot(post, 300));
          expectClose(low.at, drawn - most, { times: 64, scale: most });
          expectClose(high.at, drawn + most, { times: 64, scale: most });
        }
      }),
      { numRuns: 20 },
    );
  });

  it('keeps all laws: the place where it is unbounded turns, moves and scales with the drawing', () => {
    assert(
      property(double({ min: 200, max: 500, noNaN: true }), posts, (mm, post) =>
        checkLaws((drawing: Drawing) => drawing, block(mm, post), { driver: { length: ['T', 'P'] } }),
      ),
      { numRuns: 4 },
    );
  });

  it('goes as far as requested, however far', () => {
    const { high } = trace(block(500, 900), { driver: { x: 'P' }, from: 0, to: 1e5 });
    expect(high).toEqual({ at: 1e5, status: 'reached' });
  });

  it('meets the dead point of its distance from T anywhere along the rail, however small it is', () => {
    assert(
      property(double({ min: 2, max: 20, noNaN: true }), posts, (mm, post) => {
        const { low, high } = trace(block(mm, post), { driver: { length: ['T', 'P'] } });
        expect(low.status).toBe('deadPoint');
        expectClose(low.at, 300, { times: 64, scale: 1000 });
        expect(high.status).toBe('unbounded');
      }),
      { numRuns: 5 },
    );
  });
});
