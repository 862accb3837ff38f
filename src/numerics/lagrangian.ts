// The objective: minimise sum_k w_k m_k^2 over x, with w_k the weights and m_k the deviations, subject to constraints c_j(x) >= 0. The
// augmented Lagrangian of M. Powell, M. Hestenes and R. Rockafellar (J. Nocedal, S. Wright, "Numerical
// Optimization", 2006, ch. 17.4) makes of that a sequence of unconstrained searches, with multipliers l_j, each for the minimum of
//
//   f(x) = sum_k w_k m_k^2 + sum_j (d_j^2 - l_j^2) / 2r,   d_j = max(0, l_j - r c_j),   and then l_j <- d_j.
//
// With ' by x,  f' = 2 sum_k w_k m_k m_k' - sum_j d_j c_j',  and the part of f'' without second derivatives is
//
//   2 sum_k w_k m_k' m_k'^T + r sum_{d_j > 0} c_j' c_j'^T.

import type { Dual } from '../numerics/dual.ts';

/** At x: values and deviations by objective, and constraints, whose number does not depend on x. */
export interface Assessed {
  readonly values: readonly number[];
  readonly deviations: readonly Dual[];
  readonly constraints: readonly Dual[];
}

/** Parameters of the Lagrangian: w, l and r. */
export interface Multipliers {
  readonly weights: readonly number[];
  readonly multipliers: readonly number[];
  /** Twice the penalty for the square of a violation of 1. */
  readonly r: number;
}

/** Added to each constraint, so that it is kept in spite of rounding. */
export const ALLOWANCE = 1e-5;

/** d_j by constraint. */
export function penaltyTerms({ constraints }: Assessed, { multipliers, r }: Multipliers): number[] {
  return constraints.map(({ value }, j) => Math.max(0, multipliers[j] - r * (value - ALLOWANCE)));
}

/** f, f' and the part of f'' without second derivatives, for n coordinates. */
export function lagrangian(
  assessed: Assessed,
  given: Multipliers,
  n: number,
): { value: number; slope: number[]; bend: number[][] } {
  const { deviations, constraints } = assessed;
  const { weights, multipliers, r } = given;
  let value = 0;
  const slope = new Array<number>(n).fill(0);
  const bend = slope.map(() => new Array<number>(n).fill(0));
  const add = (first: number, second: number, by: readonly number[]) => {
    for (let i = 0; i < n; i++) {
      slope[i] += first * by[i];
      for (let j = 0; j < n; j++) bend[i][j] += second * by[i] * by[j];
    }
  };
  deviations.forEach((deviation, k) => {
    value += weights[k] * deviation.value ** 2;
    if (deviation.value !== 0) add(2 * weights[k] * deviation.value, 2 * weights[k], deviation.by);
  });
  penaltyTerms(assessed, given).forEach((term, j) => {
    value += (term ** 2 - multipliers[j] ** 2) / (2 * r);
    if (term > 0) add(-term, r, constraints[j].by);
  });
  return { value, slope, bend };
}
