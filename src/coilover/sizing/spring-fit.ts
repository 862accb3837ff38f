// How near a spring comes to its target. With k_w the wheel rate at the drawn ride height, the perch set for it,
//
//   f / f_required = sqrt(k_w / k_w,required).

import { frequencyOn } from '../../corner/frequency.ts';
import type { CornerSizing } from './inputs.ts';
import { type Carried, type RequiredRates, wheelRateWith } from './rates.ts';

/**
 * How far a spring's frequency may lie from the required one, as a share of it: about 20 % of the wheel rate. Common practice, without a
 * source.
 */
export const MAX_FREQUENCY_DEVIATION = 0.1;

/** What a spring gives at the drawn ride height, suspension alone, beside what is required. */
export interface SpringFit {
  /** Hz; null where the wheel rate is not positive. */
  readonly frequency: number | null;
  /** Hz. */
  readonly requiredFrequency: number | null;
  /** frequency / requiredFrequency - 1; -1 where the wheel rate is not positive. */
  readonly deviation: number;
}

/** How near a spring rate (N/mm) comes to what a corner requires; null where nothing is required. */
export function springFit(
  rate: number,
  sizing: CornerSizing,
  carried: Carried | null,
  required: RequiredRates,
): SpringFit | null {
  if (carried === null || required.wheelRate === null || !(required.wheelRate > 0)) return null;
  const wheelRate = wheelRateWith(rate, sizing, carried);
  return {
    frequency: frequencyOn(carried.mass, wheelRate),
    requiredFrequency: frequencyOn(carried.mass, required.wheelRate),
    deviation: Math.sqrt(Math.max(0, wheelRate) / required.wheelRate) - 1,
  };
}

/** Whether a spring gives about the required frequency. */
export function isNear({ deviation }: SpringFit): boolean {
  return Math.abs(deviation) <= MAX_FREQUENCY_DEVIATION;
}
