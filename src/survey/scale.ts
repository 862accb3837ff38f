// Readings that scatter more than their half-widths say are less sure than they say. With chi-square and nu degrees of freedom the ratio
// of scatter to what was stated is R = sqrt(chi-square / nu) (R. T. Birge, "The calculation of errors by the method of least
// squares", Phys. Rev. 40, 1932; from memory). Where R is above 1, all covariances count R^2 times, and as R is itself known from nu
// readings alone a 95 % interval is as wide as Student's t says:
//
//   half-width = t_nu(97.5 %) R sigma, in place of 1.96 sigma.
//
// That is right where all half-widths are too small by one factor. A single misreading it does not cover.

import { HALF_WIDTH } from '../corner/covariance.ts';
import { studentQuantile } from '../numerics/student.ts';
import type { SurveyScale } from './result.ts';

const WITHIN = 0.95;

/** What a survey's half-widths are multiplied by because its readings disagree. */
export function scaleOf(chiSquare: number | null, degreesOfFreedom: number): SurveyScale {
  if (chiSquare === null || degreesOfFreedom === 0) {
    return { applied: false, birgeRatio: null, studentFactor: null };
  }
  const birgeRatio = Math.sqrt(chiSquare / degreesOfFreedom);
  const studentFactor = studentQuantile(WITHIN, degreesOfFreedom) / HALF_WIDTH;
  return { applied: birgeRatio > 1, birgeRatio, studentFactor };
}

/** What standard deviations are multiplied by. */
export function deviationFactor({ applied, birgeRatio }: SurveyScale): number {
  return applied ? (birgeRatio ?? 1) : 1;
}

/** What 95 % half-widths are multiplied by beside that. */
export function intervalFactor({ applied, studentFactor }: SurveyScale): number {
  return applied ? (studentFactor ?? 1) : 1;
}
