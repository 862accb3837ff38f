// Places of a motion where a quantity is stationary, in order of the driver. Of a measure they are the roots of its series' derivatives
// (linkage/extremes.ts). A transmission angle has a corner besides wherever theta passes 0 or pi, once at most between two places
// where theta is stationary for each. Of a velocity ratio they are the sign changes of d2m/dt2 on a grid, found by bracketing.
//
// At a dead point of the driver dt/ds = 0: a velocity ratio has no limit there unless dm/ds = 0 too, and then it is m'' / t'' by s.

import { extremes } from '../linkage/extremes.ts';
import type { BoundMeasure } from '../linkage/measure.ts';
import type { Path } from '../linkage/path.ts';
import { FIRST, READING, type Reader, reader, readPlace, readRows, SECOND } from '../linkage/reader.ts';
import { derivative, horner } from '../numerics/polynomial.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { type BoundQuantity, quantityOf, type Reading, wrapped } from './quantity.ts';

/** A value of a quantity, and where it has it. */
export interface Place {
  /** The driver there. */
  readonly at: number;
  readonly value: number;
}

/** Parts in which a velocity ratio is looked at. */
const PARTS = 400;

/**
 * Reads a quantity of a path at values of the driver; a derivative that does not exist is not finite, and a velocity ratio infinite
 * where it has no limit.
 */
export function quantityReader(path: Path, quantity: BoundQuantity): (at: number) => Reading {
  const r = reader(path, [quantity.measure]);
  return (at) => {
    const found = quantityOf(quantity, readingAt(r, at));
    if (quantity.kind !== 'velocityRatio' || Number.isFinite(found[0])) return found;
    const end = at === path.low.at ? 'low' : 'high';
    return [ratioAtDeadPoint(path, quantity.measure, end), Number.NaN, Number.NaN];
  };
}

/** A rate by arc length, as a share of the size (an angle: of 1 over it), that is rounding. */
const STILL = 1e-6;

/** A velocity ratio at an end of a path that is a dead point of the driver; infinite where it has no limit. */
function ratioAtDeadPoint(path: Path, measure: BoundMeasure, end: 'low' | 'high'): number {
  const { pieces, system } = path;
  const p = end === 'low' ? 0 : pieces.length - 1;
  const { lo, hi, t, unit } = pieces[p];
  const x = end === 'low' ? lo : hi;
  const r = reader(path, [measure]);
  readPlace(r, p, x);
  const [rate, second] = [r.m[FIRST], r.m[SECOND]];
  if (Math.abs(rate) > STILL * (measure.kind === 'angle' ? 1 / system.size : 1)) {
    return Math.sign(rate) * Number.POSITIVE_INFINITY;
  }
  const curvature = derivative(derivative(t));
  return second / (horner(curvature, 0, curvature.length - 1, x) / (unit * unit));
}

/** The first measure of a reader at a value of the driver. */
export function readingAt(r: Reader, at: number): Reading {
  readRows(r, Float64Array.of(at), 0);
  return [r.m[0], r.m[FIRST], r.m[SECOND]];
}

/** So many values of the driver, evenly spaced from end to end of a path. */
export function spread({ low, high }: Path, count: number): Float64Array {
  const all = Float64Array.from({ length: count }, (_, k) => low.at + ((high.at - low.at) * k) / (count - 1));
  all[count - 1] = high.at;
  return all;
}

/** Readings of many measures at many values of the driver, each row as soon as it is read. */
export function readMany(
  r: Reader,
  at: Float64Array,
  take: (row: number, reading: (measure: number) => Reading) => void,
): void {
  for (let first = 0; first < at.length; ) {
    const rows = readRows(r, at, first);
    for (let j = 0; j < rows; j++) {
      take(first + j, (i) => {
        const q = i * READING + j;
        return [r.m[q], r.m[q + FIRST], r.m[q + SECOND]];
      });
    }
    first += rows;
  }
}

/** Where a quantity is stationary, or has a corner. */
export function stationaryPlaces(path: Path, quantity: BoundQuantity): Place[] {
  if (quantity.kind === 'velocityRatio') return ratioPlaces(path, quantity);
  const found = extremes(path, quantity.measure).map(({ at, value }): Place => ({ at, value }));
  return quantity.kind === 'measure' ? found : anglePlaces(path, quantity, found);
}

function anglePlaces(path: Path, quantity: BoundQuantity, found: readonly Place[]): Place[] {
  const { measure, zero } = quantity;
  const r = reader(path, [measure], [false]);
  const theta = (at: number) => readingAt(r, at)[0] - zero;
  const places: Place[] = [];
  let [from, before] = [path.low.at, theta(path.low.at)];
  const pass = (to: number, after: number) => {
    const [least, most] = before < after ? [before, after] : [after, before];
    const here: Place[] = [];
    for (let k = Math.floor(least / Math.PI) + 1; k * Math.PI < most; k++) {
      const at = zeroBetween((t) => theta(t) - k * Math.PI, from, to);
      here.push({ at, value: k % 2 === 0 ? 0 : Math.PI });
    }
    places.push(...here.sort((a, b) => a.at - b.at));
    [from, before] = [to, after];
  };
  for (const { at, value } of found) {
    pass(at, value - zero);
    places.push({ at, value: Math.abs(wrapped(value - zero)) });
  }
  pass(path.high.at, theta(path.high.at));
  return places;
}

function ratioPlaces(path: Path, quantity: BoundQuantity): Place[] {
  const read = quantityReader(path, quantity);
  const grid = spread(path, PARTS + 1);
  const places: Place[] = [];
  let [from, before] = [grid[0], read(grid[0])[1]];
  for (const to of grid.subarray(1)) {
    const after = read(to)[1];
    if (before * after < 0) {
      const at = zeroBetween((t) => read(t)[1], from, to);
      places.push({ at, value: read(at)[0] });
    } else if (after === 0) places.push({ at: to, value: read(to)[0] });
    [from, before] = [to, after];
  }
  return places;
}

/** The ends of a stretch of a path, and the stationary places of a quantity in it. */
export function placesOf(
  path: Path,
  quantity: BoundQuantity,
  from: number,
  to: number,
  stationary: readonly Place[] = stationaryPlaces(path, quantity),
): Place[] {
  const r = reader(path, [quantity.measure]);
  const ends: Place[] = [];
  readMany(r, Float64Array.of(from, to), (row, reading) => {
    ends.push({ at: row === 0 ? from : to, value: quantityOf(quantity, reading(0))[0] });
  });
  return [ends[0], ...stationary.filter(({ at }) => at > from && at < to), ends[1]];
}

/** Where a quantity is greatest (sense 1) or least (-1). */
export function extremeOf(places: readonly Place[], sense: 1 | -1): number {
  return places.reduce((a, b) => (sense * (b.value - a.value) > 0 ? b : a)).at;
}
