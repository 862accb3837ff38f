import { power } from '../numerics/power.ts';

/** Ticks at round numbers, and the decimals it takes to write them. */
export interface Ticks {
  readonly at: readonly number[];
  readonly step: number;
  readonly decimals: number;
}

/** Steps that read well, in a decade. */
const ROUND = [1, 2, 5, 10];

/** The smallest 1, 2 or 5 times a power of ten that is not below `length`. */
export function roundStep(length: number): number {
  const exponent = Math.floor(Math.log10(length));
  const share = length / power(10, exponent);
  const digit = ROUND.find((round) => round >= share * (1 - 1e-9)) ?? 10;
  return exponent < 0 ? digit / power(10, -exponent) : digit * power(10, exponent);
}

/** Ticks within [low, high], about `count` of them, at multiples of a round step. */
/** As many as a number is written with. */
const MOST_DECIMALS = 100;

export function ticks(low: number, high: number, count: number): Ticks {
  const step = roundStep((high - low) / count);
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  const at: number[] = [];
  // A tick that misses an end by rounding alone still counts.
  const slack = 1e-9 * step;
  for (let k = Math.ceil((low - slack) / step); k * step <= high + slack; k++) {
    at.push(Number((k * step).toFixed(decimals)) || 0);
  }
  return { at, step, decimals };
}
