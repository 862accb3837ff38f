import type { Diagnostic } from '../diagnostic.ts';
import { refuse } from '../errors/synthesis.ts';
import { checkMotion } from '../linkage/check-motion.ts';
import type { Motion } from '../linkage/motion.ts';
import type { Path } from '../linkage/path.ts';
import { type Place, quantityReader, stationaryPlaces } from './places.ts';
import { type BoundQuantity, bindQuantity, type Quantity } from './quantity.ts';

/** A minimum or maximum inside a motion. */
export interface LocalExtreme {
  /** The driver there (arc length without a driver). */
  readonly at: number;
  /** The quantity there. */
  readonly value: number;
  readonly kind: 'minimum' | 'maximum';
}

/** Extreme values of a quantity over a motion. */
export interface ExtremeValues {
  /** Its smallest value over the whole motion, both ends included, and the driver there; null if it falls without limit at a dead point. */
  readonly minimum: { readonly at: number; readonly value: number } | null;
  /** Its largest value, likewise; null if it grows without limit at a dead point. */
  readonly maximum: { readonly at: number; readonly value: number } | null;
  /** All minima and maxima inside the motion, in order of the driver; the ends are not among them. */
  readonly local: readonly LocalExtreme[];
}

/**
 * Minimum and maximum of a quantity over a motion, and all its local minima and maxima inside. Those of measures and transmission angles
 * are roots of the motion's series.
 *
 * @throws InputError for what is no motion, and for an unknown quantity or name.
 */
export function extremeValues<P extends string, B extends string>(
  motion: Motion<P, B>,
  quantity: Quantity<NoInfer<P>, NoInfer<B>>,
): ExtremeValues;
export function extremeValues(motion: Motion, quantity: Quantity): ExtremeValues {
  checkMotion(motion);
  return extremesOn(motion.path, boundOrRefused(motion.path, quantity));
}

/** A quantity bound to a path. */
export function boundOrRefused(path: Path, quantity: Quantity): BoundQuantity {
  const faults: Diagnostic[] = [];
  const bound = bindQuantity(path.system, quantity, 'quantity', faults);
  refuse('quantity', faults);
  return bound as BoundQuantity;
}

/** Share of its largest value that is rounding. */
const ROUNDING = 1e-13;

function extremesOn(path: Path, quantity: BoundQuantity): ExtremeValues {
  const read = quantityReader(path, quantity);
  const inside = stationaryPlaces(path, quantity);
  const ends = [path.low, path.high].map(({ at }): Place => ({ at, value: read(at)[0] }));
  const all = [ends[0], ...inside, ends[1]];
  const rounding = ROUNDING * Math.max(...inside.map(({ value }) => Math.abs(value)));
  const isClosed = path.low.status === 'closed' && path.high.status === 'closed';
  const local = inside.flatMap((place, k): LocalExtreme[] => {
    // Round a closed motion the neighbour of the first place is the last, not the pose where the motion was cut.
    const [before, after] = isClosed
      ? [inside[(k + inside.length - 1) % inside.length], inside[(k + 1) % inside.length]]
      : [all[k], all[k + 2]];
    const sides = [before, after].map(({ value }) => Math.sign(place.value - value));
    if (sides[0] * sides[1] <= 0 || Math.abs(place.value - before.value) <= rounding) return [];
    return [{ ...place, kind: sides[0] > 0 ? 'maximum' : 'minimum' }];
  });
  const best = (sign: 1 | -1) => {
    const one = all.reduce((a, b) => (sign * (b.value - a.value) > 0 ? b : a));
    return Number.isFinite(one.value) ? one : null;
  };
  return { minimum: best(-1), maximum: best(1), local };
}
