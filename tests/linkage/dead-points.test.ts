/** Dead points in awkward places: in the drawn pose, and two of them close together. */
import { type Drawing, type Measure, type Motion, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectRigid } from '../support/motions.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

describe('a dead point', () => {
  it('in the drawn pose itself the motion is that pose', () => {
    // Coupler and rocker drawn in line: the crank can go neither way.
    const motion = trace(
      deepFreeze({
        points: { A: [0, 0], B: [0, 100], C: [100, 100], D: [200, 100] },
        ground: ['A', 'D'],
        bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
      } as const),
      { driver: { turn: 'crank' } },
    );
    const end = { at: 0, status: 'deadPoint' };
    expect([motion.drawn, motion.low, motion.high]).toEqual([0, end, end]);
    expect(motion.at(0).C).toEqual([100, 100]);
    expect(motion.read({ y: 'C' })(0)).toEqual({ value: 100, first: null, second: null });
    expect(() => motion.at(-0.1)).toThrow(
      'outside the motion, got -0.1 (allowed: 0 (deadPoint) to 0 (deadPoint)); the linkage is drawn at a dead point of the driver',
    );
  });

  it('in the drawn pose is one however the drawing lies, though rounding gives the driver a rate of either sign', () => {
    for (let k = 0; k < 24; k++) {
      const [c, s] = [Math.cos(k), Math.sin(k)];
      const at = (x: number, y: number): Point => [c * x - s * y, s * x + c * y];
      const drawing = deepFreeze<Drawing>({
        points: { A: at(0, 0), B: at(0, 100), C: at(100, 100), D: at(200, 100) },
        ground: ['A', 'D'],
        bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
      });
      const { low, high } = trace(drawing, { driver: { turn: 'crank' } });
      expect([low, high]).toEqual([
        { at: 0, status: 'deadPoint' },
        { at: 0, status: 'deadPoint' },
      ]);
    }
  });

  it('is taken for the drawn pose where that is as near as makes no difference to the driver, and for no other', () => {
    const off = (angle: number): Drawing => ({
      points: {
        A: [0, 0],
        B: [0, 100],
        C: [200 - 100 * Math.cos(angle), 100 - 100 * Math.sin(angle)],
        D: [200, 100],
      },
      ground: ['A', 'D'],
      bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
    });
    for (const angle of [1e-11, -1e-11]) {
      const { low, high } = trace(off(angle), { driver: { turn: 'crank' } });
      expect([low, high]).toEqual([
        { at: 0, status: 'deadPoint' },
        { at: 0, status: 'deadPoint' },
      ]);
    }
    for (const angle of [1e-7, -1e-7]) {
      const { low, high } = trace(off(angle), { driver: { turn: 'crank' } });
      // The square of the angle is as far as it is from there; the other way the crank goes on.
      expectWithin(Math.min(-low.at, high.at), 0, 1e-13);
      expect(Math.max(-low.at, high.at)).toBeGreaterThan(0.5);
    }
  });
});

/**
 * A four-bar drawn mirror-symmetric, with a coupler point P a little (`below`) under the point about which the coupler
 * turns there. Near the drawn pose x of P goes like s^3 - 3 e^2 s: it turns back twice within a short way 2 e.
 */
function nearCusp(below: number): Drawing {
  const [g, w, h] = [150, 75, 200];
  // The bars' lines meet on the axis of symmetry.
  const centre = (h * g) / (g - w);
  return deepFreeze({
    points: { A: [-g, 0], B: [-w, h], C: [w, h], D: [g, 0], P: [0, centre - below] },
    ground: ['A', 'D'],
    bodies: { left: ['A', 'B'], coupler: ['B', 'C', 'P'], right: ['D', 'C'] },
  });
}

describe('two dead points inside one piece', () => {
  const x = deepFreeze({ x: 'P' } satisfies Measure);

  it.each([1, 0.1, 0.01, 1e-4])('are both found from between, %d under the cusp', (below) => {
    const motion = trace(nearCusp(below), { driver: x });
    expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
    expect(motion.path.pieces).toHaveLength(1);
    // The linkage is symmetric, and so is its motion.
    expectClose(motion.low.at, -motion.high.at, { times: 64, scale: 400 });
    // x goes with the cube of the way, the way with the root of `below`.
    expectWithin(motion.high.at / below ** 1.5, 0.025484, 3e-5);
  });

  it.each([0.1, 0.01, 1e-4])('are not taken for none from beside, %d under the cusp', (below) => {
    const drawn = nearCusp(below);
    const around = trace(drawn);
    const [after] = around.extremes(x).map(({ at }) => at);
    // Redrawn a little before the first of the two.
    const beside = deepFreeze({ ...drawn, points: around.at(around.high.at - 1.5 * after) });
    const loop = trace(beside);
    const [one, two] = nearestTwo(
      loop,
      loop.extremes(x).map(({ at }) => at),
    );
    const piece = loop.path.pieces.find(
      ({ origin, lo, hi, unit }) => origin + lo * unit <= one && one <= origin + hi * unit,
    );
    expect(piece).toBeDefined();
    if (piece === undefined) return;
    expect(two).toBeLessThan(piece.origin + piece.hi * piece.unit);
    expect(two).toBeGreaterThan(piece.origin + piece.lo * piece.unit);

    const motion = trace(beside, { driver: x });
    const end = motion.high.at - motion.drawn < motion.drawn - motion.low.at ? motion.high : motion.low;
    expect(end.status).toBe('deadPoint');
    expectClose(end.at, loop.read(x)(one).value, { times: 64, scale: 400 });
    // From the other side of it the driver would have to go back.
    expect(Math.abs(loop.read(x)(two).value - end.at)).toBeGreaterThan(0);
    expectRigid(beside, motion.at(end.at));
  });

  /** The two extremes next to the drawn pose on the side where they are near, nearest first. */
  function nearestTwo(loop: Motion, at: number[]): [number, number] {
    expect(at.length).toBeGreaterThan(3);
    expect(at[1]).toBeLessThan(loop.high.at / 50);
    return [at[0], at[1]];
  }
});
