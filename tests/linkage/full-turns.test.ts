/** Drivers that turn a body through several full turns. */
import { drive, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { MAX_PIECES } from '../../src/linkage/path.ts';
import { deepFreeze } from '../support/freeze.ts';
import { fourBar } from '../support/linkages.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

const turn = 2 * Math.PI;

describe('a driver through several full turns', () => {
  const bars = deepFreeze({ crank: 40, coupler: 120, rocker: 80, ground: 100 });
  const turns = { driver: { turn: 'crank' }, from: -2 * turn, to: 2 * turn } as const;

  it('from -4 pi to 4 pi swings the rocker of a crank-rocker continuously, each turn alike', () => {
    const motion = trace(fourBar(bars, 0.7), turns);
    expect([motion.low, motion.high]).toEqual([
      { at: -2 * turn, status: 'reached' },
      { at: 2 * turn, status: 'reached' },
    ]);
    const rocker = motion.read({ angle: ['D', 'C'] });
    const driven = motion.read({ turn: 'crank' });
    const steps = 4000;
    let before = rocker(-2 * turn).value;
    for (let k = 1; k <= steps; k++) {
      const at = Math.min(2 * turn, -2 * turn + (k / steps) * 4 * turn);
      const { value, first } = rocker(at);
      // Never faster than about 1.3 times the crank.
      expect(Math.abs(value - before)).toBeLessThan((2 * 4 * turn) / steps);
      expect(first).toSatisfy(Number.isFinite);
      expectClose(driven(at).value, at, { times: 64, scale: 2 * turn });
      before = value;
    }
    for (const at of [-2 * turn, -turn, -1, 0]) {
      for (const later of [turn, 2 * turn]) {
        const [one, two] = [rocker(at), rocker(at + later)];
        expectClose(two.value, one.value, { times: 64, scale: 2 * turn });
        expectWithin(two.first, one.first ?? Number.NaN, 1e-12);
        expectWithin(two.second, one.second ?? Number.NaN, 1e-10);
      }
    }
  });

  it('given on one side only is followed home on the other', () => {
    const drawing = fourBar(bars, 0.7);
    const up = trace(drawing, { driver: { turn: 'crank' }, from: -1 });
    expect([up.low, up.high.status]).toEqual([{ at: -1, status: 'reached' }, 'closed']);
    expectClose(up.high.at, turn, { times: 64, scale: turn });
    const down = trace(drawing, { driver: { turn: 'crank' }, to: 10 });
    expect([down.low.status, down.high]).toEqual(['closed', { at: 10, status: 'reached' }]);
    expectClose(down.low.at, -turn, { times: 64, scale: turn });
    expect(up.path.pieces.length + down.path.pieces.length).toBeLessThan(150);
  });

  it('turns the other crank of a drag link as often', () => {
    // The ground is the shortest bar: 30 + 90 < 70 + 80.
    const motion = trace(fourBar(deepFreeze({ crank: 70, coupler: 80, rocker: 90, ground: 30 }), 0.7), turns);
    expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
    const other = motion.read({ turn: 'rocker' });
    for (let k = -4; k <= 4; k++) {
      const at = (k * turn) / 2;
      if (k <= 2)
        expectClose(other(at + turn).value - other(at).value, turn, { times: 128, scale: 2 * turn });
    }
  });

  it('stops at the step limit on the way to a distant value, at a pose that it reads', () => {
    const motion = trace(fourBar(bars, 0.7), { driver: { turn: 'crank' }, from: 0, to: 1e7 });
    const { at, status } = motion.high;
    expect(status).toBe('stepLimit');
    expect(motion.path.pieces).toHaveLength(MAX_PIECES);
    expect(at).toBeGreaterThan(100 * turn);
    // Whole turns aside the last pose is that of the first turn.
    const { C } = motion.at(at);
    const { C: first } = fourBar(bars, 0.7 + (at % turn)).points;
    expect(Math.hypot(C[0] - first[0], C[1] - first[1])).toBeLessThan(1e-9);
    expect(() => motion.at(2 * at)).toThrow(`${at} (stepLimit)`);
  });

  it.each([-1, 1, -2 * turn - 1, 2 * turn + 1])(
    'is driven by %d to the pose that the bars have there',
    (by) => {
      const { drawing, shortfall } = drive(fourBar(bars, 0.7), [{ driver: { turn: 'crank' }, to: by }]);
      expect(shortfall).toEqual([0]);
      const wanted = fourBar(bars, 0.7 + by).points;
      for (const name of ['B', 'C']) {
        [0, 1].forEach((axis) => {
          expectClose(drawing.points[name][axis], wanted[name][axis], { times: 256, scale: 120 });
        });
      }
    },
  );
});
