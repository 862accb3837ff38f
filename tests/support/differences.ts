/**
 * Central differences with h, h/2 and h/4, extrapolated twice (Richardson):
 *
 *     D(h) = (f(h) - f(-h)) / 2h,   T(h) = (4 D(h/2) - D(h)) / 3,   slope = (16 T(h/2) - T(h)) / 15
 *
 * The last extrapolation moves the figure by `left` times sixteen of what is wrong with it, if the step is short enough.
 */
export const STEPS = [-1, -0.5, -0.25, 0.25, 0.5, 1];

/** The slope at 0 of a function whose values at `STEPS` times h are given, and how far it can be trusted. */
export function slopeOf(
  values: readonly number[],
  h: number,
  rounding: number,
): { slope: number; trust: number } {
  const [one, half, quarter] = [0, 1, 2].map((k) => (values[5 - k] - values[k]) / (2 * h * 2 ** -k));
  const [coarse, fine] = [(4 * half - one) / 3, (4 * quarter - half) / 3];
  const slope = (16 * fine - coarse) / 15;
  return { slope, trust: Math.abs(slope - fine) + (ROUNDINGS * rounding) / h };
}

/** Roundings of a value that a quotient with a quarter of the step, twice extrapolated, is off by at most. */
const ROUNDINGS = 16;
