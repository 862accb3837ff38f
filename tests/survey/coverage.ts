/** How often the 95 % intervals of surveys hold the truth whose stated errors are too small: what is expected, and what comes out. */

import { survey } from 'jounce';
import { errors, HARDPOINTS, planeSurvey } from './synthetic.ts';

/**
 * Expected in a linear survey, from its definition: an estimate is normal with `factor` times the stated standard deviation,
 * chi-square with n degrees of freedom is independent of it and comes out `factor`^2 times too large, and the half-width in stated
 * standard deviations is 1.96, or `student` sqrt(chi-square / n) where chi-square is above n.
 */
export function expectedCoverage(n: number, factor: number, student: number): number {
  const steps = 4000;
  const h = (Math.sqrt(n) + 10) / steps;
  let [held, all] = [0, 0];
  for (let k = 0; k < steps; k++) {
    // Root of chi-square, and its density but for a constant.
    const s = (k + 0.5) * h;
    const density = Math.exp((n - 1) * Math.log(s) - (s * s) / 2);
    const ratio = (factor * s) / Math.sqrt(n);
    held += density * normalWithin((ratio > 1 ? student * ratio : 1.96) / factor);
    all += density;
  }
  return held / all;
}

/** The share of the normal distribution within so many standard deviations: Simpson's rule. */
function normalWithin(z: number): number {
  const steps = 40;
  const h = Math.min(z, 9) / steps;
  const density = (x: number) => Math.exp((-x * x) / 2);
  let sum = density(0) + density(steps * h);
  for (let k = 1; k < steps; k++) sum += (k % 2 === 1 ? 4 : 2) * density(k * h);
  return (sum * h * 2) / 3 / Math.sqrt(2 * Math.PI);
}

/** The survey of a corner in its plane, with 9 redundant readings, or with 4: without the heights of five points that tapes fix as well. */
export function surveyWithErrors(redundant: 4 | 9, errorOf: (plusMinus: number) => number) {
  const { heights, ...rest } = planeSurvey(errorOf);
  const dropped = ['lowerOuter', 'upperOuter', 'wheelCentre', 'shockMount', 'shockChassisMount'];
  return {
    ...rest,
    heights: redundant === 9 ? heights : heights.filter(({ of }) => !dropped.includes(of)),
  };
}

/** By coordinate the share of simulated surveys whose interval holds the truth; readings are off by `factor` times what they state. */
export function coverage(
  redundant: 4 | 9,
  factor: number,
  draws: number,
  seed: number,
): Record<string, number> {
  const errorOf = errors(seed);
  const inside: Record<string, number> = {};
  for (let n = 0; n < draws; n++) {
    const { points } = survey(surveyWithErrors(redundant, (plusMinus) => factor * errorOf(plusMinus)));
    for (const [name, { at, plusMinus }] of Object.entries(points)) {
      at.forEach((value, k) => {
        const key = name + (k === 0 ? 'Y' : 'Z');
        const isInside = Math.abs(value - HARDPOINTS[name][k]) <= Number(plusMinus[k]);
        inside[key] = (inside[key] ?? 0) + (isInside ? 1 / draws : 0);
      });
    }
  }
  return inside;
}
