/** The zero of a function in an interval, against closed forms; and how often it asks for a value. */
import { describe, expect, it } from 'vitest';
import { zeroBetween } from '../../src/numerics/zero.ts';
import { EPS, expectClose } from '../support/tolerance.ts';

/** f, and how often it was asked. */
function counted(f: (x: number) => number) {
  const asked = { times: 0 };
  const g = (x: number) => {
    asked.times += 1;
    return f(x);
  };
  return { g, asked };
}

/** Halvings that bring an interval of 1 down to rounding at 1. */
const HALVINGS = 52;

describe('zeroBetween', () => {
  // [what, f, from, to, zero, evaluations at most]; what is smooth takes few (as measured), what is
  // not no more than about as many as halving alone.
  const cases: [string, (x: number) => number, number, number, number, number][] = [
    ['x^3 - 2x - 5 (J. Wallis 1685)', (x) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265, 9],
    ['cos x = x', (x) => Math.cos(x) - x, 0, 1, 0.7390851332151607, 8],
    ['e^x = 2', (x) => Math.exp(x) - 2, -1, 3, Math.LN2, 10],
    ['x^2 = 2', (x) => x * x - 2, 0, 2, Math.SQRT2, 9],
    ['1 - 1/x', (x) => 1 - 1 / x, 0.01, 10, 1, 12],
    ['atan, far off', (x) => Math.atan(x - 0.3), -40, 100, 0.3, 14],
    ['a straight line', (x) => 3 * x - 1, -5, 7, 1 / 3, 4],
    ['a step', (x) => (x < 0.3 ? -1 : 1), 0, 1, 0.3, HALVINGS],
    ['a step at zero', (x) => (x < 0 ? -1 : 1), -1, 1, 0, HALVINGS + 1],
    ['a step at zero, from far', (x) => (x < 0 ? -1 : 1), -3e6, 2e6, 0, HALVINGS],
    ['a step at zero, from near', (x) => (x < 0 ? -1 : 1), -3e-6, 2e-6, 0, HALVINGS],
    ['a root of ninth order', (x) => (x - 0.3) ** 9, 0, 1, 0.3, HALVINGS],
    ['a sharp bend', (x) => (x < 0.7 ? 1e-6 : 1e6) * (x - 0.7), 0, 1, 0.7, HALVINGS + 10],
  ];

  it.each(cases)(
    'finds that of %s from either end, and asks no more than it must',
    (_, f, a, b, zero, most) => {
      for (const [from, to] of [
        [a, b],
        [b, a],
      ]) {
        for (const sign of [1, -1]) {
          const { g, asked } = counted((x) => sign * f(x));
          // The bracket ends at 2 roundings of the place and of its first width.
          expectClose(zeroBetween(g, from, to), zero, { times: 4, scale: Math.abs(zero) + Math.abs(b - a) });
          expect(asked.times).toBeLessThanOrEqual(most);
        }
      }
    },
  );

  it('takes the end where that is the zero, at once', () => {
    for (const [from, to] of [
      [0, 1],
      [1, 0],
    ]) {
      const { g, asked } = counted((x) => x - 1);
      expect(zeroBetween(g, from, to)).toBe(1);
      expect(asked.times).toBeLessThanOrEqual(3);
    }
  });

  it('never asks outside the interval, nor leaves the better of the last two places', () => {
    const seen: [number, number][] = [];
    const f = (x: number) => {
      const value = Math.tanh(20 * (x - 0.9)) + 1e-3 * x;
      seen.push([x, value]);
      return value;
    };
    const zero = zeroBetween(f, 0, 1);
    for (const [x] of seen) expect(x >= 0 && x <= 1).toBe(true);
    const best = seen.reduce((a, b) => (Math.abs(b[1]) < Math.abs(a[1]) ? b : a));
    expect(Math.abs(zero - best[0])).toBeLessThanOrEqual(4 * EPS);
  });
});
