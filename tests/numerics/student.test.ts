/** Student's t against its table, against integration, and against the normal distribution. */
import { describe, expect, it } from 'vitest';
import { studentQuantile } from '../../src/numerics/student.ts';
import { expectWithin } from '../support/tolerance.ts';

describe("the quantile of Student's t", () => {
  // The usual table (E. S. Pearson, H. O. Hartley, "Biometrika Tables for Statisticians", table 12; read in a copy of that of NIST/SEMATECH), three decimals.
  it.each<[number, number[]]>([
    [1, [6.314, 12.706, 63.657]],
    [2, [2.92, 4.303, 9.925]],
    [3, [2.353, 3.182, 5.841]],
    [4, [2.132, 2.776, 4.604]],
    [5, [2.015, 2.571, 4.032]],
    [6, [1.943, 2.447, 3.707]],
    [7, [1.895, 2.365, 3.499]],
    [8, [1.86, 2.306, 3.355]],
    [9, [1.833, 2.262, 3.25]],
    [10, [1.812, 2.228, 3.169]],
    [15, [1.753, 2.131, 2.947]],
    [20, [1.725, 2.086, 2.845]],
    [30, [1.697, 2.042, 2.75]],
    [120, [1.658, 1.98, 2.617]],
  ])('is that of the table for %i degrees of freedom', (n, quantiles) => {
    [0.9, 0.95, 0.99].forEach((within, k) => {
      expectWithin(studentQuantile(within, n), quantiles[k], 0.0005 + 1e-12);
    });
  });

  it('bounds its share of the density', () => {
    // t = sqrt(n) tan(theta) makes the density cos^(n-1) theta: Simpson's rule on it, up to the quantile and over all.
    const integral = (to: number, n: number) => {
      const steps = 4000;
      const h = to / steps;
      let sum = 1 + Math.cos(to) ** (n - 1);
      for (let k = 1; k < steps; k++) sum += (k % 2 === 1 ? 4 : 2) * Math.cos(k * h) ** (n - 1);
      return (sum * h) / 3;
    };
    for (const n of [1, 2, 3, 4, 7, 12, 33, 100, 501]) {
      for (const within of [0.01, 0.5, 0.95, 0.999]) {
        const theta = Math.atan(studentQuantile(within, n) / Math.sqrt(n));
        expectWithin(integral(theta, n) / integral(Math.PI / 2, n), within, 1e-11);
      }
    }
  });

  it('is tan of its share with one degree of freedom, and a root with two', () => {
    for (const within of [0.1, 0.5, 0.95, 0.999]) {
      const cauchy = Math.tan((Math.PI / 2) * within);
      expectWithin(studentQuantile(within, 1), cauchy, 1e-12 * (1 + cauchy ** 2));
      // A = sin(theta), tan(theta) = A / sqrt(1 - A^2).
      const second = Math.SQRT2 * (within / Math.sqrt(1 - within ** 2));
      expectWithin(studentQuantile(within, 2), second, 1e-12 * (1 + second ** 2));
    }
  });

  it('comes down to the normal one as n grows', () => {
    // 1.959964 of the normal distribution, and the first term beside it, (z^3 + z) / 4n (Abramowitz & Stegun 26.7.5; from memory).
    const z = 1.9599639845;
    for (const n of [1000, 10_000]) {
      expectWithin(studentQuantile(0.95, n), z + (z ** 3 + z) / (4 * n), 10 / n ** 2);
    }
    expect(studentQuantile(0.95, 100)).toBeGreaterThan(studentQuantile(0.95, 101));
  });
});
