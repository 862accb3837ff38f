// A quantity kept within bounds at every place of a motion. The motion is cut into parts of equal length in the driver, and in each the
// least and greatest value count: where the greatest of all passes from one part to the next, both have it, with one slope; so no
// corner is met that has not two maxima in one part.

import type { Path } from '../linkage/path.ts';
import { type Dual, scaled } from '../numerics/dual.ts';
import { extremeOf, placesOf, stationaryPlaces } from './places.ts';
import type { BoundQuantity, Quantity } from './quantity.ts';

/** Bounds that a quantity must keep over the whole motion. */
export interface QuantityBounds<P extends string = string, B extends string = string> {
  readonly quantity: Quantity<P, B>;
  /** Lower bound, in the unit of the quantity; or `max`, or both. */
  readonly min?: number;
  /** Upper bound, in that unit. */
  readonly max?: number;
  /** Violations are counted in it; default as for an objective. */
  readonly tolerance?: number;
}

/** Bounds with their quantity bound to a path; `parts` is 1 where it never changes. */
export interface BoundBounds {
  readonly quantity: BoundQuantity;
  readonly min: number | null;
  readonly max: number | null;
  readonly tolerance: number;
  readonly parts: number;
}

/** Parts of the motion in which the extremes count. */
export const PARTS = 8;

/** How much room there is to a bound in one part. */
export interface Room {
  readonly bound: number;
  readonly side: 'min' | 'max';
  readonly at: number;
  readonly value: number;
  /** In tolerances; negative where the bound is not kept. */
  readonly room: Dual;
}

/** The values of the driver to be read for bounds, and the room that is left there. */
export interface BoundsTask {
  readonly at: readonly number[];
  readonly judge: (read: (row: number) => Dual) => Room[];
}

/** What is to be read of a path for bounds, of which this is the given one. */
export function boundsTask(
  path: Path,
  { quantity, min, max, tolerance, parts }: BoundBounds,
  bound: number,
): BoundsTask {
  const { low, high } = path;
  const stationary = parts === 1 ? [] : stationaryPlaces(path, quantity);
  const sides: { side: Room['side']; limit: number; at: number }[] = [];
  for (let k = 0; k < parts; k++) {
    const end = (i: number) => (i === parts ? high.at : low.at + ((high.at - low.at) * i) / parts);
    const places = placesOf(path, quantity, end(k), end(k + 1), stationary);
    if (min !== null) sides.push({ side: 'min', limit: min, at: extremeOf(places, -1) });
    if (max !== null) sides.push({ side: 'max', limit: max, at: extremeOf(places, 1) });
  }
  return {
    at: sides.map(({ at }) => at),
    judge: (read) =>
      sides.map(({ side, limit, at }, k): Room => {
        const value = read(k);
        const sense = side === 'min' ? 1 : -1;
        return {
          bound,
          side,
          at,
          value: value.value,
          room: scaled(value, sense / tolerance, (-sense * limit) / tolerance),
        };
      }),
  };
}
