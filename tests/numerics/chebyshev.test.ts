/** Polynomials in place of functions: whose zeros and turns are known comes out, touched ones too. */
import { assert, double, integer, property, tuple, uniqueArray } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chebyshevInterpolants, keepsAway, landmarks, turningPoints } from '../../src/numerics/chebyshev.ts';
import { zeroBetween } from '../../src/numerics/zero.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

const TOUCH = 1e-9;
const NOISE = 1e-11;

/** Places in (0, 10), at least 0.2 apart, ascending. */
const places = uniqueArray(integer({ min: 1, max: 49 }), { minLength: 1, maxLength: 6 }).map((at) =>
  at.map((n) => n / 5).sort((a, b) => a - b),
);

describe('a zero between two places of different sign', () => {
  it('is found to rounding, whatever the order of the ends', () => {
    assert(
      property(
        double({ min: -3, max: 3, noNaN: true }),
        double({ min: -2, max: 2, noNaN: true }),
        (zero, bend) => {
          const f = (s: number) =>
            Math.expm1(bend * (s - zero)) + (s - zero) ** 3 + 0.1 * (s - zero) * (bend < 0 ? -1 : 1);
          const low = zero - 2.25;
          const high = zero + 1.75;
          if (f(low) * f(high) >= 0) return;
          // With bend < 0 there are others between: one of them is found.
          expectWithin(f(zeroBetween(f, low, high)), 0, 1e-13);
          expectWithin(f(zeroBetween(f, high, low)), 0, 1e-13);
        },
      ),
    );
  });

  it('is found where the function is flat, steep, or has a jump', () => {
    expectWithin(
      zeroBetween((s) => (s - 0.3) ** 9, 0, 1),
      0.3,
      1e-2,
    );
    expectWithin(
      zeroBetween((s) => Math.cbrt(s - 0.3), 0, 1),
      0.3,
      4 * EPS,
    );
    expectWithin(
      zeroBetween((s) => (s < 0.3 ? -1 : 2), 0, 1),
      0.3,
      4 * EPS,
    );
    expect(zeroBetween((s) => s, -1, 1)).toBe(0);
  });
});

describe('polynomials in place of a function', () => {
  it('are the function, in as many intervals as it takes', () => {
    assert(
      property(
        double({ min: 0.1, max: 40, noNaN: true }),
        double({ min: 0, max: 6, noNaN: true }),
        (k, phase) => {
          const f = (s: number) => Math.sin(k * s + phase);
          const found = chebyshevInterpolants(f, -1, 1, 0);
          expect(found[0].from).toBe(-1);
          expect(found.at(-1)?.to).toBe(1);
          found.forEach((proxy, i) => {
            if (i > 0) expect(proxy.from).toBe(found[i - 1].to);
            expect(proxy.isGood).toBe(true);
            for (let j = 0; j <= 20; j++) {
              const x = -1 + j / 10;
              const s = 0.5 * (proxy.from + proxy.to) + 0.5 * (proxy.to - proxy.from) * x;
              const value = proxy.c.reduce((sum, c, n) => sum + c * Math.cos(n * Math.acos(x)), 0);
              expectWithin(value, f(s), 1e-10);
            }
          });
        },
      ),
    );
  });

  it('are not taken in by a function that is one oscillation between their points', () => {
    // T_16 and T_15 themselves: their only coefficients are among the last.
    for (const degree of [15, 16]) {
      const f = (s: number) => Math.cos(degree * Math.acos(s));
      const found = chebyshevInterpolants(f, -1, 1, 1e-14);
      for (const { from, to, c } of found) {
        // Both ends: T_k(-1) = (-1)^k, T_k(1) = 1.
        const at = (sign: number) => c.reduce((sum, one, k) => sum + one * sign ** k, 0);
        expectWithin(at(-1), f(from), 1e-10);
        expectWithin(at(1), f(to), 1e-10);
        const middle = c.reduce((sum, one, k) => sum + one * Math.cos((k * Math.PI) / 2), 0);
        expectWithin(middle, f(0.5 * (from + to)), 1e-10);
      }
    }
  });

  it('ask inside the interval, and at its very ends', () => {
    assert(
      property(
        integer({ min: -1e4, max: 1e4 }).map((n) => n / 1e3),
        integer({ min: 1, max: 1e4 }).map((n) => n / 1e3),
        (from, width) => {
          const to = from + width;
          const asked: number[] = [];
          chebyshevInterpolants(
            (s) => {
              asked.push(s);
              return Math.sin(s);
            },
            from,
            to,
            0,
          );
          expect(Math.min(...asked)).toBe(from);
          expect(Math.max(...asked)).toBe(to);
        },
      ),
    );
  });

  it('tell that a function keeps away from zero, and its turns', () => {
    const [bowl] = chebyshevInterpolants((s) => 1 + (s - 0.25) ** 2, 0, 1, 0);
    expect(keepsAway(bowl, 0.4)).toBe(true);
    expect(keepsAway(bowl, 1.5)).toBe(false);
    const turns = turningPoints(bowl);
    expect(turns).toHaveLength(1);
    expectWithin(turns[0], 0.25, 1e-9);
  });

  it('stop at a kink, and say so', () => {
    for (const [start, end] of [
      [0, 1],
      [-1, 1],
      [0, 100],
      [0.5, 1.5],
    ]) {
      // Places are rounded, and values with them.
      const noise = 8 * EPS * Math.max(Math.abs(start), end);
      const found = chebyshevInterpolants((s) => Math.abs(s - Math.SQRT1_2), start, end, noise);
      const rough = found.filter(({ isGood: good }) => !good);
      expect(rough).toHaveLength(1);
      for (const { from, to } of rough) {
        expect(from).toBeLessThanOrEqual(Math.SQRT1_2);
        expect(to).toBeGreaterThanOrEqual(Math.SQRT1_2);
        // Halved down to the smallest share, and no further.
        expectClose(to - from, (end - start) * 2 ** -32, { times: 1, scale: 100 });
      }
    }
  });
});

it('gives up on a function that is rough everywhere, within bounds', () => {
  let asked = 0;
  const rough = (s: number) => {
    asked++;
    return ((s * 7919.123) % 1) - 0.5;
  };
  expect(chebyshevInterpolants(rough, 0, 1, NOISE).some(({ isGood: good }) => !good)).toBe(true);
  expect(asked).toBeLessThan(1e5);
  asked = 0;
  const never = () => {
    asked++;
    return Number.NaN;
  };
  expect(landmarks(never, 0, 1, TOUCH, NOISE).every(Number.isFinite)).toBe(true);
  expect(asked).toBeLessThan(1e5);
});

describe('landmarks', () => {
  it('hold every zero that was put in, to rounding', () => {
    assert(
      property(places, (zeros) => {
        const f = (s: number) => zeros.reduce((product, zero) => product * Math.sin((s - zero) / 4), 1);
        const marks = landmarks(f, 0, 10, TOUCH, NOISE);
        for (const zero of zeros) expectWithin(nearest(marks, zero), zero, 1e-11);
        expectAscending(marks, 0, 10);
      }),
    );
  });

  it('hold zeros that are touched and not crossed, to the root of rounding', () => {
    assert(
      property(places, integer({ min: -1, max: 1 }), (zeros, sign) => {
        const f = (s: number) =>
          (sign < 0 ? -1 : 1) * zeros.reduce((product, zero) => product * Math.sin((s - zero) / 4) ** 2, 1);
        const marks = landmarks(f, 0, 10, TOUCH, NOISE);
        for (const zero of zeros) expect(Math.abs(f(nearest(marks, zero)))).toBeLessThan(TOUCH);
        expectAscending(marks, 0, 10);
      }),
    );
  });

  it('cut the interval into parts in which the sign stays', () => {
    assert(
      property(tuple(places, double({ min: -1e-6, max: 1e-6, noNaN: true })), ([zeros, lift]) => {
        const f = (s: number) =>
          lift + zeros.reduce((product, zero) => product * Math.sin((s - zero) / 3) ** 2, 1);
        const marks = landmarks(f, 0, 10, TOUCH, NOISE);
        for (let k = 1; k < marks.length; k++) {
          const sign = Math.sign(f(0.5 * (marks[k - 1] + marks[k])));
          for (let j = 1; j < 16; j++) {
            const value = f(marks[k - 1] + (j / 16) * (marks[k] - marks[k - 1]));
            if (Math.abs(value) > TOUCH) expect(Math.sign(value)).toBe(sign);
          }
        }
      }),
    );
  });

  it('are no more than both ends where a function is far from zero', () => {
    for (const scale of [1, 1e-6, 1e6]) {
      const f = (s: number) => scale * (3 + Math.sin(7 * s));
      expect(landmarks(f, 0, 1, scale * TOUCH, scale * NOISE)).toEqual([0, 1]);
      // With a tolerance above all of it, its turns are looked at: pi/14 and 3 pi/14.
      const near = landmarks(f, 0, 1, 5 * scale, scale * NOISE);
      for (const turn of [Math.PI / 14, (3 * Math.PI) / 14]) expectWithin(nearest(near, turn), turn, 1e-8);
    }
  });

  it('are the ends and no more where a function is zero throughout', () => {
    expect(landmarks(() => 0, 0, 1, TOUCH, NOISE)).toEqual([0, 1]);
  });

  it('are found across a kink', () => {
    const f = (s: number) => Math.abs(s - Math.SQRT1_2) - 1e-9;
    const marks = landmarks(f, 0, 1, TOUCH, NOISE);
    expect(Math.min(...marks.map(f))).toBeLessThan(0);
  });

  it('are found in the smallest interval about a kink, though both its ends are above zero', () => {
    // The interval is 2^-32 wide, the function below zero on an eighth of that.
    for (const kink of [Math.SQRT1_2, Math.LN2, Math.PI / 10, 0.123456789]) {
      const f = (s: number) => Math.abs(s - kink) - 2 ** -36;
      const marks = landmarks(f, 0, 1, 0, 1e-15);
      expect(Math.min(...marks.map(f))).toBeLessThan(0);
      for (const zero of [kink - 2 ** -36, kink + 2 ** -36])
        expectWithin(nearest(marks, zero), zero, 4 * EPS);
      expectAscending(marks, 0, 1);
    }
  });
});

function nearest(marks: readonly number[], place: number): number {
  return marks.reduce((best, mark) => (Math.abs(mark - place) < Math.abs(best - place) ? mark : best));
}

function expectAscending(marks: readonly number[], from: number, to: number): void {
  expect(marks[0]).toBe(from);
  expect(marks.at(-1)).toBe(to);
  for (let k = 1; k < marks.length; k++) expect(marks[k]).toBeGreaterThan(marks[k - 1]);
}
