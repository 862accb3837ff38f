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
/** Coordinates are whole multiples of the inverse of this power of two: far from the origin they are still exact. */
const GRID = 1024;

/** A point of the square of 1000; its coordinates shrink to whole units, and those to whole tens. */
export function place(fc: FastCheck): Arbitrary<Point> {
  const coordinate = fc
    .tuple(
      fc.integer({ min: -REACH / 10, max: REACH / 10 - 1 }),
      fc.nat({ max: 9 }),
      fc.nat({ max: GRID - 1 }),
    )
    .map(([tens, ones, part]) => 10 * tens + ones + part / GRID);
  return fc.tuple(coordinate, coordinate);
}
