/** Derivatives by the driver against central differences, over random linkages and drivers. */
import { assert, property } from 'fast-check';
import { trace } from 'jounce/linkage';
import { laws } from 'jounce/testing';
import { describe, it } from 'vitest';
import { linkages } from '../support/linkages.ts';
import { drivers, spread } from '../support/motions.ts';
import { EPS, expectWithin } from '../support/tolerance.ts';

describe('derivatives by the driver', () => {
  /** Roundings in a value from which a quotient is made. */
  const NOISE = 128;
  /** What extrapolation leaves of a quotient's own uncertainty. */
  const LEFT = 0.1;

  /** Central differences with one extrapolation, and the tolerance that they deserve. */
  function slope(of: (t: number) => number, t: number, h: number, scale: number): [number, number] {
    const quotient = (step: number) => (of(t + step) - of(t - step)) / (2 * step);
    const [coarse, fine] = [quotient(h), quotient(h / 2)];
    const trust = LEFT * Math.abs(coarse - fine) + (NOISE * EPS * scale) / h;
    return [(4 * fine - coarse) / 3, trust];
  }

  it('by a driver of any kind are difference quotients of what is below them', () => {
    assert(
      property(linkages, drivers, ({ drawing }, driver) =>
        laws.derivativesAgree((drawn) => drawn, drawing, {
          driver,
          ...('turn' in driver && { range: [-7, 7] as const }),
        }),
      ),
    );
  });

  it('agree with central differences by arc length, across the joints of pieces too', () => {
    assert(
      property(linkages, ({ drawing }) => {
        const motion = trace(drawing);
        const read = motion.read({ x: 'P0' });
        for (const at of spread(motion, 12).slice(1, -1)) {
          const [byValue, trust] = slope((t) => read(t).value, at, 1e-3, 1000);
          expectWithin(read(at).first, byValue, trust);
        }
        const joints = motion.path.pieces.slice(1).map(({ origin }) => origin);
        for (const at of joints.slice(0, 4)) {
          expectWithin(read(at + 1e-9).first, read(at - 1e-9).first ?? Number.NaN, 1e-6);
        }
      }),
      { numRuns: 20 },
    );
  });
});
