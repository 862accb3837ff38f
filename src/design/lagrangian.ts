// What is made least over x, with w_k the weights, m_k the misses and c_j(x) the rooms, mm beyond a distance to be kept, that must
// stay at 0 or more. By the augmented Lagrangian of M. Powell, M. Hestenes and R. Rockafellar (J. Nocedal, S. Wright, "Numerical
// Optimization", 2006, ch. 17.4) that is a row of searches, each for
//
//   f(x) = sum_k w_k m_k^2 + sum_j (d_j^2 - l_j^2) / 2r,   d_j = max(0, l_j - r c_j),   and then l_j <- d_j.
//
// With ' by x,  f' = 2 sum_k w_k m_k m_k' - sum_j d_j c_j',  and what f'' has without second derivatives is
//
//   2 sum_k w_k m_k' m_k'^T + r sum_{d_j > 0} c_j' c_j'^T.

import type { Dual } from '../numerics/dual.ts';

/** What is found at x: values and misses by objective, and rooms; the latter are always as many. */
export interface Assessed {
  readonly values: readonly number[];
  readonly deviations: readonly Dual[];
  readonly clearances: readonly Dual[];
}

/** What a search counts with: w, l and r. */
export interface Multipliers {
  readonly weights: readonly number[];
  readonly multipliers: readonly number[];
  /** What the square of a lacking mm costs, twice over. */
  readonly r: number;
}

/** Beyond what is to be kept, so that it is kept in spite of rounding, mm. */
export const CLEARANCE_ALLOWANCE = 1e-5;

/** d by room. */
export function penaltyTerms({ clearances }: Assessed, { multipliers, r }: Multipliers): number[] {
  return clearances.map(({ value }, j) => Math.max(0, multipliers[j] - r * (value - CLEARANCE_ALLOWANCE)));
}

/** f, f' and what f'' has without second derivatives, for n coordinates. */
export function lagrangian(
  assessed: Assessed,
  given: Multipliers,
  n: number,
): { value: number; slope: number[]; bend: number[][] } {
  const { deviations, clearances } = assessed;
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
  deviations.forEach((miss, k) => {
    value += weights[k] * miss.value ** 2;
    if (miss.value !== 0) add(2 * weights[k] * miss.value, 2 * weights[k], miss.by);
  });
  penaltyTerms(assessed, given).forEach((due, j) => {
    value += (due ** 2 - multipliers[j] ** 2) / (2 * r);
    if (due > 0) add(-due, r, clearances[j].by);
  });
  return { value, slope, bend };
}
