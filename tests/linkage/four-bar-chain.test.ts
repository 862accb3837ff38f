/**
 * N four-bars in a row that share their uprights, all bars 1 m, problem A02 of the Library of Computational Benchmark
 * Problems (multibody; description read): all uprights turn alike, and where they lie flat mobility jumps from 1 to N + 1.
 */
import { mobility, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { fourBarChain } from '../support/four-bar-chain.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

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
    const motion = trace(fourBarChain(windows, start, redundant), {
      driver: { turn: 'upright0' },
      from: -1.5,
      to: 1.5,
    });
    expect([motion.low.status, motion.high.status]).toEqual(['reached', 'reached']);
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
    'of %d windows bifurcates where it lies flat, and has N + 1 degrees of freedom there',
    (windows) => {
      const motion = trace(fourBarChain(windows, 1), { driver: { turn: 'upright0' } });
      expect([motion.low.status, motion.high.status]).toEqual(['bifurcation', 'bifurcation']);
      expectWithin(motion.low.at, -1, 1e-6);
      expectWithin(motion.high.at, Math.PI - 1, 1e-6);
      expect(mobility(fourBarChain(windows, 0)).degreesOfFreedom).toBe(windows + 1);
      expect(mobility(fourBarChain(windows, 1))).toMatchObject({
        kutzbach: 1,
        degreesOfFreedom: 1,
        redundant: 0,
      });
    },
  );

  it('with a redundant bar in each window counts less than it has', () => {
    expect(mobility(fourBarChain(10, 1, true))).toMatchObject({
      kutzbach: -9,
      degreesOfFreedom: 1,
      redundant: 10,
    });
  });
});
