import { describe, expect, it } from 'vitest';
import { normal, quantile, uniform } from '../../src/numerics/random.ts';
import { expectSame, expectWithin } from '../support/tolerance.ts';

const take = (count: number, next: () => number) => Float64Array.from({ length: count }, next);

describe('uniform numbers', () => {
  it('are those of mulberry32', () => {
    // The generator and its first value for the seed 42 were read in several public copies; those for 0 and 1 are from memory.
    expectSame(uniform(42)(), 0.6011037519201636);
    expectSame(uniform(0)(), 0.26642920868471265);
    expectSame(uniform(1)(), 0.6270739405881613);
  });

  it('are the same for the same seed, and others for another', () => {
    expect(take(100, uniform(7))).toEqual(take(100, uniform(7)));
    expect(take(100, uniform(7))).not.toEqual(take(100, uniform(8)));
  });

  it('fill [0, 1) evenly', () => {
    const counts = new Array<number>(20).fill(0);
    for (const value of take(20_000, uniform(3))) counts[Math.floor(20 * value)]++;
    // Chi squared of 19 degrees of freedom: above 43.8 once in a thousand (tables; from memory).
    expectWithin(
      counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0),
      0,
      43.8,
    );
  });
});

describe('normal numbers', () => {
  it('have the moments and the quantiles of the normal distribution', () => {
    const count = 40_000;
    const values = take(count, normal(uniform(5)));
    const moment = (k: number) => values.reduce((sum, value) => sum + value ** k, 0) / count;
    // Five standard errors of the first four moments: variances 1, 2, 15 and 96.
    for (const [k, wanted, variance] of [
      [1, 0, 1],
      [2, 1, 2],
      [3, 0, 15],
      [4, 3, 96],
    ]) {
      expectWithin(moment(k), wanted, 5 * Math.sqrt(variance / count));
    }
    values.sort();
    // Quantiles from tables (read: NIST/SEMATECH, Student's t at infinity; 0.8413 at 1 in any table), with standard errors sqrt(p (1 - p) / n) / density.
    for (const [share, wanted, density] of [
      [0.025, -1.95996, 0.05845],
      [0.5, 0, 0.39894],
      [0.84134, 1, 0.24197],
      [0.975, 1.95996, 0.05845],
    ]) {
      const error = Math.sqrt((share * (1 - share)) / count) / density;
      expectWithin(quantile(values, share), wanted, 5 * error);
    }
  });
});

describe('normal numbers from uniform ones', () => {
  it('take what lies in the circle, and two from each: 4 / pi uniform numbers each', () => {
    let drawn = 0;
    const from = uniform(11);
    const count = 20_000;
    take(
      count,
      normal(() => {
        drawn++;
        return from();
      }),
    );
    // Pairs of pairs are drawn until one lies in the circle, with a chance of pi / 4: five standard errors.
    const [chance, pairs] = [Math.PI / 4, count / 2];
    expectWithin(drawn / 2, pairs / chance, (5 * Math.sqrt(pairs * (1 - chance))) / chance);
  });

  it('pass over the middle of the circle, where there is no direction', () => {
    const given = [0.5, 0.5, 0.75, 0.5];
    const next = normal(() => given.shift() ?? Number.NaN);
    // u = 1/2, v = 0, q = 1/4: u sqrt(-2 ln(q)/q)
    expectWithin(next(), Math.sqrt(4 * Math.LN2), 1e-15);
    expect(next()).toBe(0);
  });
});

describe('a quantile', () => {
  it('lies between the values that enclose its share', () => {
    const values = Float64Array.of(1, 2, 4, 8, 16);
    expect([0, 0.25, 0.5, 0.625, 0.75, 1].map((share) => quantile(values, share))).toEqual([
      1, 2, 4, 6, 8, 16,
    ]);
    expect(quantile(Float64Array.of(3), 0.975)).toBe(3);
  });
});
