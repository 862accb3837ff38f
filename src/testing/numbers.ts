// Numbers for arbitraries, that shrink towards round ones.

import type { Point } from '../linkage/index.ts';
import type { Arbitrary, FastCheck } from './fast-check.ts';

/** Whole tenths of a unit, from `low` to `high` units; shrinks to `plain` units by way of whole units. */
export function tenths(fc: FastCheck, low: number, plain: number, high: number): Arbitrary<number> {
  return fc
    .tuple(fc.integer({ min: low - plain, max: high - plain - 1 }), fc.nat({ max: 9 }))
    .map(([whole, tenth]) => 10 * (plain + whole) + tenth);
}

/** Whole numbers from `low` to `high`; shrinks to `plain`. */
export function whole(fc: FastCheck, low: number, plain: number, high: number): Arbitrary<number> {
  return fc.integer({ min: low - plain, max: high - plain }).map((number) => plain + number);
}

/** Half the side of the square in which points are drawn. */
const REACH = 500;
/** Coordinates are whole multiples of this, a power of two: far from the origin they are still exact. */
const FINE = 1 / 1024;

/** A point of the square of 1000. */
export function place(fc: FastCheck): Arbitrary<Point> {
  const coordinate = fc.integer({ min: -REACH / FINE, max: REACH / FINE }).map((parts) => parts * FINE);
  return fc.tuple(coordinate, coordinate);
}

/**
 * How the points of one drawing are rounded, all alike: not at all, as a rule, or to whole units, or to tens, which is what
 * it shrinks to. (Were each to shrink by itself, one could hold the other at a fraction: points are kept apart.) Zero is never -0.
 */
export function rounding(fc: FastCheck): Arbitrary<(at: Point) => Point> {
  return fc.constantFrom(10, 1, ...Array.from({ length: 8 }, () => FINE)).map(
    (grain) =>
      ([x, y]: Point): Point => [grain * Math.round(x / grain) + 0, grain * Math.round(y / grain) + 0],
  );
}
