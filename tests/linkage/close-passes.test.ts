/** Close passes: of two points, whose distance and direction change fast and must not be lost, and of two branches of a motion. */
import { runInNewContext } from 'node:vm';
import { type Drawing, type Measure, type Point, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { type Assembly, fourBarAngles } from '../judges/four-bar.ts';
import { deepFreeze } from '../support/freeze.ts';
import { spread } from '../support/motions.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

describe('a point that passes close by another', () => {
  /** A crank of 100 whose pin passes C at a distance `gap`, with the crank along +x. */
  const passing = (gap: number, drawn = 1.6): Drawing =>
    deepFreeze({
      points: { O: [0, 0], A: [100 * Math.cos(drawn), 100 * Math.sin(drawn)], C: [100 + gap, 0] },
      ground: ['O', 'C'],
      bodies: { crank: ['O', 'A'] },
    });
  const length = deepFreeze({ length: ['C', 'A'] } satisfies Measure);
  const direction = deepFreeze({ angle: ['C', 'A'] } satisfies Measure);

  const gaps = [10, 1, 0.1, 0.01, 1e-3, 1e-6];

  it.each(gaps)('is nearest once, by %d', (gap) => {
    const motion = trace(passing(gap), { driver: { angle: ['O', 'A'] }, from: -1.5, to: 3 });
    const found = motion.extremes(length);
    expect(found).toHaveLength(1);
    expectWithin(found[0].at, 0, 1e-9);
    expectClose(found[0].value, gap, { times: 64, scale: 100 });
  });

  it.each(gaps)('comes no nearer, driven by their distance, than %d', (gap) => {
    const motion = trace(passing(gap), { driver: length });
    expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
    // At 1e-6 of 100 the distance is known to a hundred roundings of 100 over 1e-6 of it.
    expectWithin(motion.low.at, gap, 1e-11 + 1e-14 / gap);
    expectClose(motion.high.at, 200 + gap, { times: 64, scale: 200 });
  });

  it.each([1e-7, 1e-4, 1e4, 1e9])('comes as near in any unit of length: %d of it', (unit) => {
    for (const gap of [10, 0.1, 1e-3, 1e-6]) {
      const drawn = passing(gap);
      const points = Object.entries(drawn.points).map(
        ([name, [x, y]]) => [name, [unit * x, unit * y]] as const,
      );
      const motion = trace({ ...drawn, points: Object.fromEntries(points) }, { driver: length });
      expect([motion.low.status, motion.high.status]).toEqual(['deadPoint', 'deadPoint']);
      expectWithin(motion.low.at / unit, gap, 1e-11 + 1e-14 / gap);
      expectClose(motion.high.at / unit, 200 + gap, { times: 64, scale: 200 });
    }
  });

  it.each(gaps)('has a direction from it that turns back twice, %d outside', (gap) => {
    const motion = trace(passing(gap), { driver: { angle: ['O', 'A'] }, from: -1.5, to: 3 });
    const found = motion.extremes(direction);
    // Where the line C-A touches the circle.
    const touch = Math.acos(100 / (100 + gap));
    expect(found).toHaveLength(2);
    expectWithin(found[0].at, -touch, 1e-7);
    expectWithin(found[1].at, touch, 1e-7);
  });

  it.each(gaps)('has a direction from it that goes on turning, %d inside', (gap) => {
    for (const drawn of [1.5, 1.55, 1.6, 1.65, 1.7]) {
      const motion = trace(passing(-gap, drawn), { driver: { angle: ['O', 'A'] }, from: -3, to: 3 });
      const read = motion.read(direction);
      // From inside its circle the pin is seen to go around.
      const seen = (at: number) => Math.atan2(100 * Math.sin(at), 100 * Math.cos(at) - (100 - gap));
      expectWithin(read(3).value - read(-3).value, 2 * seen(3), 1e-9);
    }
  });

  it.each([1e-9, 1e-12, 0, -1e-12])('may all but meet it, %d apart: every question has an answer', (gap) => {
    inTime(() => {
      const motion = trace(passing(gap), { driver: length });
      expectWithin(motion.low.at, 0, 1e-8);
      expectClose(motion.high.at, 200 + gap, { times: 64, scale: 200 });
      for (const measure of [length, direction, { x: 'A' }]) {
        const read = motion.read(measure);
        for (const at of spread(motion, 9)) expect(read(at).value).toSatisfy(Number.isFinite);
        for (const { at, value } of motion.extremes(measure)) {
          expect([at, value].every(Number.isFinite)).toBe(true);
        }
      }
    });
  });
});

describe('a four-bar that passes close by a change point', () => {
  const [CRANK, COUPLER, ROCKER, GROUND] = [100, 200, 100, 200];
  /** A parallelogram whose crank is shorter by a share `gap`: it turns all the way, past two nearly flat poses (Grashof). */
  const nearlyFlat = (gap: number, assembly: Assembly, turn: number): Drawing => {
    const crank = CRANK * (1 - gap);
    const angles = fourBarAngles({ crank, coupler: COUPLER, rocker: ROCKER, ground: GROUND }, turn, assembly);
    if (angles === null) throw new Error('does not close');
    const A = [crank * Math.cos(turn), crank * Math.sin(turn)] as const;
    const B = [A[0] + COUPLER * Math.cos(angles.coupler), A[1] + COUPLER * Math.sin(angles.coupler)] as const;
    return deepFreeze({
      points: { O: [0, 0], A, B, D: [GROUND, 0] },
      ground: ['O', 'D'],
      bodies: { crank: ['O', 'A'], coupler: ['A', 'B'], rocker: ['D', 'B'] },
    });
  };
  const traced = (drawing: Drawing) => trace(drawing, { driver: { turn: 'crank' }, from: -6, to: 6 });
  /** Which side of the line from A to D the joint B lies on: one for each assembly. */
  const sideOf = ({ A: [ax, ay], B, D }: Readonly<Record<string, Point>>) =>
    Math.sign((D[0] - ax) * (B[1] - ay) - (D[1] - ay) * (B[0] - ax));

  it.each([1e-2, 1e-4, 1e-6, 1e-8, 1e-10, 1e-12])('stays in its own assembly: short by %d', (gap) => {
    for (const assembly of ['open', 'crossed'] as const) {
      for (const drawn of [0.7, 1.3, 2.2]) {
        const motion = traced(nearlyFlat(gap, assembly, drawn));
        expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
        const sides = spread(motion, 99).map((at) => sideOf(motion.at(at)));
        expect(new Set(sides)).toEqual(new Set([sideOf(motion.at(0))]));
      }
    }
  });

  it.each([1e-14, 0])('stops there and says so where rounding joins both assemblies: short by %d', (gap) => {
    const { high } = traced(nearlyFlat(gap, 'crossed', 0.7));
    expect(high.status).toBe('bifurcation');
    expectWithin(high.at, Math.PI - 0.7, 1e-6);
  });
});

/** Runs a call that must not take for ever: cut off after two seconds. */
function inTime(call: () => void): void {
  runInNewContext('call()', { call }, { timeout: 2000 });
}
