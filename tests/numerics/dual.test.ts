/** Numbers with their derivatives against differences of the same formula on plain numbers. */
import { array, assert, integer, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  combined,
  constant,
  type Dual,
  dual,
  length,
  minus,
  over,
  plus,
  scaled,
  times,
} from '../../src/numerics/dual.ts';
import { STEPS, slopeOf } from '../support/differences.ts';
import { EPS, expectClose, expectWithin } from '../support/tolerance.ts';

/** Inputs, each the only one that its derivative belongs to. */
const inputs = (x: readonly number[]): Dual[] =>
  x.map((value, i) => dual(value, () => x.map((_, j) => (i === j ? 1 : 0))));

const away = (sign: number) => integer({ min: 300, max: 3000 }).map((n) => (sign * n) / 1000);
const FORMULAS: [string, (x: Dual[]) => Dual, (x: number[]) => number][] = [
  ['a sum', ([a, b]) => plus(a, b), ([a, b]) => a + b],
  ['a difference', ([a, b]) => minus(a, b), ([a, b]) => a - b],
  ['a combination', ([a, b]) => combined(3, a, -0.7, b), ([a, b]) => 3 * a - 0.7 * b],
  ['a multiple', ([a]) => scaled(a, -2.5), ([a]) => -2.5 * a],
  ['a multiple and a number', ([a]) => scaled(a, 1.5, 4), ([a]) => 1.5 * a + 4],
  ['a product', ([a, b]) => times(a, b), ([a, b]) => a * b],
  ['a quotient', ([a, b]) => over(a, b), ([a, b]) => a / b],
  ['a length', ([a, b]) => length(a, b), ([a, b]) => Math.hypot(a, b)],
  ['a square', ([a]) => times(a, a), ([a]) => a * a],
  ['one over a constant', ([a]) => over(a, constant(4, a)), ([a]) => a / 4],
  [
    'a formula of all of them',
    ([a, b, c]) => over(times(minus(a, b), plus(b, c)), length(scaled(a, 2, 1), times(b, c))),
    ([a, b, c]) => ((a - b) * (b + c)) / Math.hypot(2 * a + 1, b * c),
  ],
];

describe('a number with its derivatives', () => {
  it.each(FORMULAS)('gives for %s what differences give', (_, formula, plain) => {
    for (const sign of [1, -1]) {
      assert(
        property(array(away(sign), { minLength: 3, maxLength: 3 }), (x) => {
          const { value, by } = formula(inputs(x));
          expectClose(value, plain(x), { times: 16, scale: 100 });
          expect(by).toHaveLength(3);
          x.forEach((_one, i) => {
            const h = 1e-2;
            const values = STEPS.map((step) => plain(x.map((at, j) => (i === j ? at + step * h : at))));
            const scale = Math.max(...values.map(Math.abs));
            const { slope, trust } = slopeOf(values, h, EPS * (scale + 10));
            expectWithin(by[i], slope, trust);
          });
        }),
        { numRuns: 30 },
      );
    }
  });

  it('takes the length of nothing as constant', () => {
    const [a, b] = inputs([0, 0]);
    expect(length(a, b).value).toBe(0);
    expect(length(a, b).by).toEqual([0, 0]);
  });

  it('works out derivatives when they are asked for, and once', () => {
    let made = 0;
    const a = dual(2, () => {
      made++;
      return [1];
    });
    const b = times(plus(a, a), a);
    expect(b.value).toBe(8);
    expect(made).toBe(0);
    expect(b.by).toEqual([8]);
    expect(b.by).toBe(b.by);
    expect(made).toBe(1);
  });
});
