import { toMetric, type Units } from '../../units.ts';

/**
 * Shaft speeds of the table where none are given, mm/s and in/s. None is slower than 25 mm/s: there the friction of the seals, some ten N,
 * is no longer small beside the force.
 */
const SHAFT_SPEEDS: Readonly<Record<Units, readonly number[]>> = {
  metric: [25, 50, 100, 150, 200, 300, 400, 500],
  imperial: [1, 2, 4, 6, 8, 12, 16, 20],
};

/** The same for a document in some units, mm/s. */
export function usualShaftSpeeds(units: Units): number[] {
  return SHAFT_SPEEDS[units].map((speed) => toMetric(speed, 'shaftSpeed', units));
}
