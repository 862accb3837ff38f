/** The augmented Lagrangian against its formula by hand, and its derivatives against differences. */
import { array, assert, integer, property, record } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ALLOWANCE, type Assessed, lagrangian, penaltyTerms } from '../../src/numerics/lagrangian.ts';
import { deepFreeze } from '../support/freeze.ts';
import { EPS, expectWithin } from '../support/tolerance.ts';

const linear = (value: number, ...by: number[]) => ({ value, by });
const assessed = (
  deviations: Assessed['deviations'],
  constraints: Assessed['constraints'] = [],
): Assessed => ({ values: deviations.map(({ value }) => value), deviations, constraints });

describe('the augmented Lagrangian', () => {
  it('is the weighted sum of squares where nothing constrains it', () => {
    // 0.5 x 3^2 + 2 x 1^2; slopes 2 x 0.5 x 3 x (2, -1) + 2 x 2 x -1 x (0, 4).
    const found = lagrangian(
      assessed([linear(3, 2, -1), linear(-1, 0, 4)]),
      { weights: [0.5, 2], multipliers: [], r: 10 },
      2,
    );
    expect(found).toEqual({
      value: 6.5,
      slope: [6, -19],
      bend: [
        [4, -2],
        [-2, 1 + 64],
      ],
    });
  });

  it('does not bend by a deviation of 0: its square is flat there to one side', () => {
    const given = { weights: [1], multipliers: [], r: 10 };
    expect(lagrangian(assessed([linear(0, 5)]), given, 1)).toEqual({ value: 0, slope: [0], bend: [[0]] });
  });

  it('has d^2 - l^2 over 2 r of each constraint, and derivatives of those that push', () => {
    const at = (constraint: number) =>
      lagrangian(
        assessed([], [linear(constraint + ALLOWANCE, 3)]),
        { weights: [], multipliers: [1], r: 10 },
        1,
      );
    const near = (found: ReturnType<typeof at>, value: number, slope: number, bend: number) => {
      expectWithin(found.value, value, 64 * EPS);
      expectWithin(found.slope[0], slope, 64 * EPS);
      expectWithin(found.bend[0][0], bend, 64 * EPS);
    };
    // d = 1 + 10 x 0.1 = 2: (4 - 1) / 20, -2 x 3, 10 x 3^2.
    near(at(-0.1), 0.15, -6, 90);
    // d = 1 - 10 x 0.05 = 0.5: (0.25 - 1) / 20.
    near(at(0.05), -0.0375, -1.5, 90);
    // d = max(0, 1 - 10 x 0.2) = 0: -1 / 20, and no push.
    near(at(0.2), -0.05, 0, 0);
  });

  it('has the slope and bend of its value, for linear deviations and constraints', () => {
    const n = 3;
    const row = array(integer({ min: -20, max: 20 }), { minLength: n + 1, maxLength: n + 1 });
    const positive = integer({ min: 1, max: 40 }).map((k) => k / 10);
    assert(
      property(
        record({
          deviations: array(row, { minLength: 1, maxLength: 3 }),
          constraints: array(row, { maxLength: 3 }),
          weights: array(positive, { minLength: 3, maxLength: 3 }),
          multipliers: array(positive, { minLength: 3, maxLength: 3 }),
          r: positive,
          x: array(integer({ min: -30, max: 30 }), { minLength: n, maxLength: n }),
        }),
        ({ deviations, constraints, weights, multipliers, r, x }) => {
          const at = (point: readonly number[]) => {
            const dual = ([b, ...by]: readonly number[]) => ({
              value: by.reduce((sum, a, i) => sum + a * point[i], b) / 10,
              by: by.map((a) => a / 10),
            });
            return assessed(deviations.map(dual), constraints.map(dual));
          };
          const given = deepFreeze({ weights, multipliers, r });
          const step = 1e-3;
          const beside = (i: number, sign: number) => at(x.map((v, j) => (i === j ? v + sign * step : v)));
          const kinks = (one: Assessed) =>
            JSON.stringify([
              one.deviations.map(({ value }) => Math.sign(value)),
              penaltyTerms(one, given).map(Math.sign),
            ]);
          const { value, slope, bend } = lagrangian(at(x), given, n);
          for (let i = 0; i < n; i++) {
            const [low, high] = [beside(i, -1), beside(i, 1)];
            if (kinks(low) !== kinks(at(x)) || kinks(high) !== kinks(at(x))) continue;
            const [f, g] = [lagrangian(low, given, n), lagrangian(high, given, n)];
            // Quadratic: central differences are exact but for rounding, of at most some 1e5 by the step.
            const scale = 1e5 + Math.abs(value);
            expectWithin((g.value - f.value) / (2 * step), slope[i], (16 * EPS * scale) / step);
            for (let j = 0; j < n; j++) {
              expectWithin((g.slope[j] - f.slope[j]) / (2 * step), bend[i][j], (16 * EPS * scale) / step);
              expectWithin(bend[i][j], bend[j][i], 4 * EPS * scale);
            }
          }
        },
      ),
    );
  });
});
