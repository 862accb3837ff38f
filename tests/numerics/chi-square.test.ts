/** Chi-square against tables, closed forms, and the step from k to k + 2 degrees of freedom. */
import { assert, integer, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chiSquareAbove } from '../../src/numerics/chi-square.ts';
import { expectClose, expectWithin } from '../support/tolerance.ts';

/** e^-y (1 + y + ... + y^(m-1) / (m-1)!), for 2 m degrees of freedom and y = x/2. */
function even(x: number, m: number): number {
  let [sum, term] = [0, Math.exp(-x / 2)];
  for (let i = 1; i <= m; i++) {
    sum += term;
    term *= x / 2 / i;
  }
  return sum;
}

describe('the share of chi-square above a value', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: those below half from memory, those above read in a copy.
  const shares = [0.999, 0.99, 0.975, 0.95, 0.9, 0.1, 0.05, 0.025, 0.01, 0.001];
  it.each<[number, number[]]>([
    [2, [0.002, 0.02, 0.051, 0.103, 0.211, 4.605, 5.991, 7.378, 9.21, 13.816]],
    [5, [0.21, 0.554, 0.831, 1.145, 1.61, 9.236, 11.07, 12.833, 15.086, 20.515]],
    [10, [1.479, 2.558, 3.247, 3.94, 4.865, 15.987, 18.307, 20.483, 23.209, 29.588]],
    [20, [5.921, 8.26, 9.591, 10.851, 12.443, 28.412, 31.41, 34.17, 37.566, 45.315]],
    [50, [24.674, 29.707, 32.357, 34.764, 37.689, 63.167, 67.505, 71.42, 76.154, 86.661]],
    [100, [61.918, 70.065, 74.222, 77.929, 82.358, 118.498, 124.342, 129.561, 135.807, 149.449]],
  ])('is that of the table for %i degrees of freedom', (k, critical) => {
    critical.forEach((x, i) => {
      // Printed to half a thousandth, on which the share falls from one side to the other.
      expect(chiSquareAbove(x - 0.0005, k)).toBeGreaterThanOrEqual(shares[i]);
      expect(chiSquareAbove(x + 0.0005, k)).toBeLessThanOrEqual(shares[i]);
    });
  });

  it('is erfc(sqrt(x/2)) with one degree of freedom', () => {
    // erf of 0.5, 1 and 2: M. Abramowitz, I. Stegun, "Handbook of Mathematical Functions", table 7.1; from memory.
    for (const [root, erf] of [
      [0.5, 0.5204998778],
      [1, 0.8427007929],
      [2, 0.995322265],
    ]) {
      expectWithin(chiSquareAbove(2 * root * root, 1), 1 - erf, 1e-10);
    }
  });

  it('is a finite sum with an even number, to the last digits of small shares too', () => {
    assert(
      property(
        integer({ min: 0, max: 3000 }).map((n) => n / 10),
        integer({ min: 1, max: 40 }),
        (x, m) => {
          const wanted = even(x, m);
          // The exponent is rounded: e^-y y^a goes by its logarithms.
          expectClose(chiSquareAbove(x, 2 * m), wanted, { times: 4096, scale: wanted });
        },
      ),
    );
  });

  it('grows by (x/2)^(k/2) e^(-x/2) / Gamma(k/2 + 1) with two degrees more', () => {
    assert(
      property(
        integer({ min: 1, max: 2000 }).map((n) => n / 10),
        integer({ min: 1, max: 60 }),
        (x, k) => {
          // Gamma(k/2 + 1) from the step of Gamma, upwards.
          let gamma = k % 2 === 0 ? 1 : Math.sqrt(Math.PI) / 2;
          for (let a = k % 2 === 0 ? 1 : 1.5; a < k / 2 + 1; a++) gamma *= a;
          const more = ((x / 2) ** (k / 2) * Math.exp(-x / 2)) / gamma;
          expectClose(chiSquareAbove(x, k + 2) - chiSquareAbove(x, k), more, { times: 4096, scale: 1 });
        },
      ),
    );
  });

  it('is all of it at zero, and without a degree of freedom', () => {
    for (const k of [1, 2, 7, 100]) expect(chiSquareAbove(0, k)).toBe(1);
    for (const x of [0, 0.5, 3, 100]) expect(chiSquareAbove(x, 0)).toBe(1);
  });
});
