/**
 * A telescope between a fixed pivot O and a pin A on an arm that swings about C: the shock absorber's linkage. It
 * needs no slider: the telescope is the length, and the direction, of the line O-A.
 */
import { type Measure, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const degree = Math.PI / 180;

const telescope = deepFreeze({ length: ['O', 'A'] } as const satisfies Measure);
const lean = deepFreeze({ angle: ['O', 'A'] } as const satisfies Measure);
const arm = deepFreeze({ turn: 'arm' } as const satisfies Measure);

// J. L. Meriam, L. G. Kraige, "Engineering Mechanics: Dynamics", Sample Problems 5/17 and 5/18 (seen): OC 450, CA 225 mm,
// the telescope at 45 degrees, the arm horizontal.
describe('the telescope of Meriam and Kraige, Sample Problems 5/17 and 5/18', () => {
  const drawing = deepFreeze({
    points: { O: [0, 0], C: [450, 225], A: [225, 225] },
    ground: ['O', 'C'],
    bodies: { arm: ['C', 'A'] },
  } as const);

  // Exact consequences of the geometry, computed here: L = 225 sqrt 2, and its derivatives by the arm's angle.
  const [length, ratio, slope] = [225 * Math.SQRT2, -225 / Math.SQRT2, 675 / (2 * Math.SQRT2)];

  it('has the length, ratio and slope of ratio of its triangle, driven by the arm', () => {
    const motion = trace(drawing, { driver: arm });
    expect(motion.drawn).toBe(0);
    const { value, first, second } = motion.read(telescope)(motion.drawn);
    expectClose(value, length, { times: 4, scale: length });
    expectWithin(value, 318.198052, 1e-6);
    expectWithin(first, ratio, 1e-9);
    expectWithin(first, -159.099026, 1e-6);
    expectWithin(second, slope, 1e-9);
    expectWithin(second, 238.648539, 1e-6);
  });

  it('has the inverse ratio, driven by its length', () => {
    const motion = trace(drawing, { driver: telescope });
    const { first, second } = motion.read(arm)(motion.drawn);
    expectWithin(first, 1 / ratio, 1e-12);
    expectWithin(second, -slope / ratio ** 3, 1e-12);
  });

  it('turns and slides as printed when it swings at 2 rad/s clockwise (4 rad/s, 636 mm/s, 900 mm/s)', () => {
    const motion = trace(drawing, { driver: lean });
    const at = motion.drawn;
    expectWithin(-2 * (motion.read(arm)(at).first ?? Number.NaN), 4, 1e-9);
    expectWithin(-2 * (motion.read(telescope)(at).first ?? Number.NaN), -450 * Math.SQRT2, 1e-9);
    expectWithin(-450 * Math.SQRT2, -636.396103, 1e-6);
    const [vx, vy] = [motion.read({ x: 'A' })(at).first, motion.read({ y: 'A' })(at).first];
    expectWithin(2 * Math.hypot(vx ?? Number.NaN, vy ?? Number.NaN), 900, 1e-9);
  });

  it('accelerates as printed at constant 2 rad/s (32 rad/s^2 against its motion, 8910 mm/s^2)', () => {
    const motion = trace(drawing, { driver: lean });
    expectWithin(4 * (motion.read(arm)(motion.drawn).second ?? Number.NaN), -32, 1e-9);
    expectWithin(4 * (motion.read(telescope)(motion.drawn).second ?? Number.NaN), 8909.545443, 1e-6);
  });

  it('is shortest and longest with the arm in line (exact, computed here)', () => {
    const motion = trace(drawing, { driver: telescope });
    const pivots = Math.hypot(450, 225);
    expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
    expectClose(motion.low.at, pivots - 225, { times: 8, scale: pivots });
    expectClose(motion.high.at, pivots + 225, { times: 8, scale: pivots });
    for (const [{ at }, direction] of [
      [motion.low, -1],
      [motion.high, 1],
    ] as const) {
      const [x, y] = motion.at(at).A;
      expectWithin(x, 450 + (direction * 225 * 450) / pivots, 1e-9);
      expectWithin(y, 225 + (direction * 225 * 225) / pivots, 1e-9);
      const { first, second } = motion.read(arm)(at);
      expect([first, second]).toEqual([null, null]);
    }
  });

  it('follows the law of cosines all round', () => {
    const motion = trace(drawing, { driver: arm });
    expect([motion.low.status, motion.high.status]).toEqual(['closed', 'closed']);
    const read = motion.read(telescope);
    const pivots = Math.hypot(450, 225);
    const towardsO = Math.atan2(-225, -450);
    for (let k = 0; k < 24; k++) {
      const turned = motion.low.at + (k / 24) * (motion.high.at - motion.low.at);
      const between = Math.PI + turned - towardsO;
      const expected = Math.sqrt(pivots ** 2 + 225 ** 2 - 2 * pivots * 225 * Math.cos(between));
      const { value, first, second } = read(turned);
      expectClose(value, expected, { times: 64, scale: pivots });
      const by = (pivots * 225 * Math.sin(between)) / expected;
      expectWithin(first, by, 1e-9);
      expectWithin(second, (pivots * 225 * Math.cos(between) - by * by) / expected, 1e-8);
    }
  });
});

// A crank pin A sliding along an arm about a fixed point: the arm is the line C-A. Time ratio from the crank angles
// between the arm's extremes.
describe('a quick return: crank O-A, arm about C', () => {
  const quickReturn = (pivots: number, crank: number) =>
    trace(
      deepFreeze({
        points: { O: [0, 0], C: [0, -pivots], A: [crank, 0] },
        ground: ['O', 'C'],
        bodies: { crank: ['O', 'A'] },
      } as const),
      { driver: { turn: 'crank' } },
    );

  function extremesOf(pivots: number, crank: number) {
    const found = quickReturn(pivots, crank).extremes({ angle: ['C', 'A'] });
    expect(found).toHaveLength(2);
    const [right, left] = found.sort((u, v) => u.value - v.value);
    const between = Math.abs(left.at - right.at);
    const [short, long] = [
      Math.min(between, 2 * Math.PI - between),
      Math.max(between, 2 * Math.PI - between),
    ];
    return { swing: left.value - right.value, ratio: long / short };
  }

  // Khurmi and Gupta, "Theory of Machines", Example 5.2 (seen): exact.
  it('swings 30 degrees each way in the ratio 2 with pivots 240 and crank 120; a 450 arm strokes 450', () => {
    const { swing, ratio } = extremesOf(240, 120);
    expectWithin(swing / 2, 30 * degree, 1e-12);
    expectWithin(ratio, 2, 1e-12);
    expectWithin(2 * 450 * Math.sin(swing / 2), 450, 450e-12);
  });

  // Example 5.1 (part seen; printed 1.72).
  it('has the ratio 1.709953 with pivots 300 and crank 120', () => {
    expectWithin(extremesOf(300, 120).ratio, 1.709953, 1e-6);
    expectWithin(extremesOf(300, 120).ratio, 1.72, 0.0172);
  });

  // Example 5.3 (seen; printed pivots 75.7, arm 151.48).
  it('has the ratio 1.7 and the stroke 120 with crank 30, pivots 75.742319, arm 151.484638', () => {
    const { swing, ratio } = extremesOf(75.742319, 30);
    expectWithin(ratio, 1.7, 1e-7);
    expectWithin(2 * 151.484638 * Math.sin(swing / 2), 120, 1e-5);
  });
});
