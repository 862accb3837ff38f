// Intervals of the figures. Independent inputs x_i are known to half-widths w_i (95 %). Each is moved to either end of its interval; the
// figure F moves up by u_i at most, and down by d_i, and its interval is
//
//   F - sqrt(sum_i d_i^2)   to   F + sqrt(sum_i u_i^2),
//
// for small w_i the first-order law w = sqrt(sum_i (dF/dx_i w_i)^2) of JCGM 100:2008, sec. 5.1.2 (from memory). Moved so far, a figure that
// bends (a stop that is touched, a spring that comes loose) has its own end on either side, and wider inputs never narrow an interval where
// the figure rises or falls throughout. What is chosen stays: spring, damper and perch as they were chosen.

import { type Car, slipped } from './car.ts';
import type { UncertainInput } from './uncertain-inputs.ts';

/** An input that is known to plus or minus, and the car with it off by its half-width to either side. */
export interface Perturbation {
  /** Where it stands in the document. */
  readonly input: string;
  readonly up: Car;
  readonly down: Car;
}

/** A value with its 95 % interval. */
export interface Estimate {
  /** In the figure's unit; null where there is none. */
  readonly value: number | null;
  /** Lower end of the 95 % interval; null where an input takes the figure away altogether. */
  readonly lower: number | null;
  /** Its upper end; null as above. */
  readonly upper: number | null;
  /** Contributions of the inputs to its variance, as fractions of it, the largest first; those below 0.01 are left out. */
  readonly contributions: readonly { readonly input: string; readonly fraction: number }[];
}

/** Share of a value that the rounding of two evaluations can make. */
const ROUNDING = 1e-10;
/** Fractions that are not worth a word. */
const MIN_FRACTION = 0.01;

/** A car with each uncertain input off. */
export function perturbationsOf(car: Car, uncertain: readonly UncertainInput[]): Perturbation[] {
  return uncertain.map((input) => {
    const off = (share: number) => slipped(car, [{ input, by: share * input.plusMinus }]);
    return { input: input.name, up: off(1), down: off(-1) };
  });
}

/** Every value with its interval, from what gives the values of a car. */
export function estimates(
  nominal: readonly (number | null)[],
  perturbations: readonly Perturbation[],
  valuesOf: (car: Car) => readonly (number | null)[],
): Estimate[] {
  const moved = perturbations.map(({ input, up, down }) => ({
    input,
    up: valuesOf(up),
    down: valuesOf(down),
  }));
  return nominal.map((value, k): Estimate => {
    if (value === null) return { value, lower: null, upper: null, contributions: [] };
    // What rounding alone makes of inputs that do not matter is no uncertainty.
    const rounding = ROUNDING * Math.max(1, Math.abs(value));
    const parts = moved.map(({ input, up, down }) => {
      const ends = [up[k], down[k]];
      if (ends.includes(null)) return null;
      const shifts = ends.map((end) => (end ?? value) - value);
      return { input, up: Math.max(0, ...shifts), down: Math.max(0, ...shifts.map((shift) => -shift)) };
    });
    const known = parts.filter((part) => part !== null);
    if (known.length < parts.length) return { value, lower: null, upper: null, contributions: [] };
    const together = (of: (part: (typeof known)[number]) => number) => {
      const width = Math.hypot(...known.map(of));
      return width < rounding ? 0 : width;
    };
    const [up, down] = [together((part) => part.up), together((part) => part.down)];
    const square = known.reduce((sum, part) => sum + (part.up + part.down) ** 2, 0);
    const fractions = new Map<string, number>();
    for (const part of up + down === 0 ? [] : known) {
      fractions.set(part.input, (fractions.get(part.input) ?? 0) + (part.up + part.down) ** 2 / square);
    }
    const contributions = [...fractions]
      .map(([input, fraction]) => ({ input, fraction }))
      .filter(({ fraction }) => fraction >= MIN_FRACTION)
      .sort((a, b) => b.fraction - a.fraction);
    return { value, lower: value - down, upper: value + up, contributions };
  });
}

/** A figure that is the largest or the smallest of several values, as required travel is the largest of its cases. */
export interface Extreme {
  readonly of: 'max' | 'min';
  /** As many for every car that stands; null for one that there is not. */
  readonly values: readonly (number | null)[];
}

/**
 * An extreme with its interval: each end is the extreme of the ends of all values, not those of the value that leads nominally. Exact
 * for values that move together; of n independent equal ones the true end lies farther, by 14 % of a half-width for 2, 22 % for 3 and 31 %
 * for 5 (quantiles of the largest of n normal values).
 */
export function extremeOf(of: Extreme['of'], all: readonly Estimate[]): Estimate {
  const known = all.filter(({ value }) => value !== null);
  const numbers = (end: 'value' | 'lower' | 'upper') => known.map((one) => one[end] ?? Number.NaN);
  if (known.length === 0) return { value: null, lower: null, upper: null, contributions: [] };
  const value = Math[of](...numbers('value'));
  const [lower, upper] = [Math[of](...numbers('lower')), Math[of](...numbers('upper'))];
  // What an input takes away from one of them it takes from all.
  if (Number.isNaN(lower) || Number.isNaN(upper))
    return { value, lower: null, upper: null, contributions: [] };
  const decides = (one: Estimate) => (of === 'max' ? one.upper === upper : one.lower === lower);
  return { value, lower, upper, contributions: known.find(decides)?.contributions ?? [] };
}
