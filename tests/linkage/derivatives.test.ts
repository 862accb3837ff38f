/** Derivatives by the driver against central differences, over random linkages and drivers. */
import { assert, pre, property } from 'fast-check';
import { type Measure, trace } from 'jounce/linkage';
import { describe, expect, it } from 'vitest';
import { intrinsic, linkages } from '../support/linkages.ts';
import { drivers, placeAt, share, spread } from '../support/motions.ts';
import { EPS, expectWithin } from '../support/tolerance.ts';

describe('derivatives by the driver', () => {
  /** Share of the way to the nearer end that a difference quotient steps. */
  const STEP = 1e-3;
  /** Least way to the nearer end, as a share of the driver's size: closer to a dead point quotients say nothing. */
  const ROOM = 1e-4;
  /** Roundings in a value from which a quotient is made. */
  const NOISE = 128;
  /** Truncation of the series in a second derivative, as a share of the largest one of any reading there. */
  const SERIES = 1e-9;
  /** What extrapolation leaves of a quotient's own uncertainty. */
  const LEFT = 0.1;

  /** Size of a measure's values: grown linkages are drawn in a square of 1000. */
  const unitOf = (measure: Measure) => ('turn' in measure || 'angle' in measure ? 2 * Math.PI : 1000);

  /** Central differences with one extrapolation, and the tolerance that they deserve. */
  function slope(of: (t: number) => number, t: number, h: number, scale: number): [number, number] {
    const quotient = (step: number) => (of(t + step) - of(t - step)) / (2 * step);
    const [coarse, fine] = [quotient(h), quotient(h / 2)];
    const trust = LEFT * Math.abs(coarse - fine) + (NOISE * EPS * scale) / h;
    return [(4 * fine - coarse) / 3, trust];
  }

  it('agree with central differences, the first with those of values, the second with those of first ones', () => {
    let [sharp, all] = [0, 0];
    assert(
      property(linkages, drivers, share, ({ drawing }, driver, part) => {
        const motion = trace(drawing, { driver, ...('turn' in driver ? { from: -7, to: 7 } : {}) });
        const at = placeAt(motion, part);
        const h = STEP * Math.min(at - motion.low.at, motion.high.at - at);
        const drive = unitOf(driver);
        pre(h > STEP * ROOM * drive);
        const measures: Measure[] = [...intrinsic(drawing), { x: 'Y0' }, { y: 'X0' }, { angle: ['O', 'X0'] }];
        const reads = measures.map((measure) => {
          const read = motion.read(measure);
          return { unit: unitOf(measure), read, exact: read(at) };
        });
        const most = (key: 'first' | 'second') =>
          Math.max(1 / drive, ...reads.map(({ unit, exact }) => Math.abs((exact[key] ?? Number.NaN) / unit)));
        const [wild, wilder] = [most('first'), most('second')];
        for (const { unit, read, exact } of reads) {
          const [byValue, trust] = slope((t) => read(t).value, at, h, unit * (1 + wild * drive));
          expectWithin(exact.first, byValue, trust);
          const [byFirst, trustToo] = slope(
            (t) => read(t).first ?? Number.NaN,
            at,
            h,
            unit * (wild + wilder * drive),
          );
          expectWithin(exact.second, byFirst, trustToo + SERIES * unit * wilder);
          all++;
          if (trust <= 1e-6 * unit * wild && trustToo <= 1e-5 * unit * wilder) sharp++;
        }
      }),
    );
    // Nearly all of these tolerances must be sharp.
    expect(sharp / all).toBeGreaterThan(0.9);
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
