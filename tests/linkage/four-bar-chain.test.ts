/**
 * N four-bars in a row that share their uprights, all bars 1 m, problem A02 of the Library of Computational Benchmark
 * Problems (multibody; description read): all uprights turn alike, and where they lie flat mobility jumps from 1 to N + 1.
 */
import { type Drawing, mobility, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { deepFreeze } from '../support/freeze.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

/** N windows with the uprights at an angle from the ground; `redundant` adds a bar in the middle of each. */
function chain(windows: number, angle: number, redundant = false): Drawing {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const points: Record<string, readonly [number, number]> = {};
  const bodies: Record<string, readonly string[]> = {};
  const ground: string[] = [];
  for (let k = 0; k <= windows; k++) {
    points[`A${k}`] = [k, 0];
    points[`B${k}`] = [k + c, s];
    ground.push(`A${k}`);
    bodies[`upright${k}`] = [`A${k}`, `B${k}`];
    if (k === 0) continue;
    const coupler = [`B${k - 1}`, `B${k}`];
    if (redundant) {
      points[`E${k}`] = [k - 0.5, 0];
      points[`F${k}`] = [k - 0.5 + c, s];
      ground.push(`E${k}`);
      bodies[`middle${k}`] = [`E${k}`, `F${k}`];
      coupler.push(`F${k}`);
    }
    bodies[`coupler${k}`] = coupler;
  }
  return deepFreeze({ points, ground, bodies });
}

describe('a chain of four-bars', () => {
  it.each([
    [1, false],
    [10, false],
    [40, false],
    [1, true],
    [10, true],
    [40, true],
  ])('of %d windows (a redundant bar in each: %s) turns all uprights alike', (windows, redundant) => {
    const start = Math.PI / 2;
    const motion = trace(chain(windows, start, redundant), {
      driver: { turn: 'upright0' },
      from: -1.5,
      to: 1.5,
    });
    expect([motion.low.how, motion.high.how]).toEqual(['reached', 'reached']);
    for (const turn of [-1.5, -0.7, 0.4, 1.5]) {
      const places = motion.at(turn);
      for (let k = 0; k <= windows; k++) {
        const roundings = { times: 2 ** 14, scale: windows + 2 };
        expectClose(places[`B${k}`][0], k + Math.cos(start + turn), roundings);
        expectClose(places[`B${k}`][1], Math.sin(start + turn), roundings);
      }
    }
  });

  it.each([1, 10, 40])(
    'of %d windows is undetermined where it lies flat, and has N + 1 freedoms there',
    (windows) => {
      const motion = trace(chain(windows, 1), { driver: { turn: 'upright0' } });
      expect([motion.low.how, motion.high.how]).toEqual(['undetermined', 'undetermined']);
      expectWithin(motion.low.at, -1, 1e-6);
      expectWithin(motion.high.at, Math.PI - 1, 1e-6);
      expect(mobility(chain(windows, 0)).freedoms).toBe(windows + 1);
      expect(mobility(chain(windows, 1))).toMatchObject({ kutzbach: 1, freedoms: 1, redundant: 0 });
    },
  );

  it('with a redundant bar in each window counts less than it has', () => {
    expect(mobility(chain(10, 1, true))).toMatchObject({ kutzbach: -9, freedoms: 1, redundant: 10 });
  });
});
