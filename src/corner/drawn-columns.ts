// Columns of what is drawn many times over, its coordinates off by normal errors. What comes out makes no use of derivatives: half-widths
// are half the distance of the 2.5th from the 97.5th percentile.

import { InputError } from '../errors/input-error.ts';
import { normal, quantile, uniform } from '../numerics/random.ts';
import type { ColumnInfo } from './columns.ts';
import { HALF_WIDTH, type Spread } from './covariance.ts';
import type { ColumnValues } from './sensitivity.ts';

/** Fewer values than this have no 2.5th percentile but their least. */
export const FEWEST = 40;
export const TAIL = 0.025;

/** What many draws make of columns. */
export interface DrawnColumns {
  /** By column, half-width of the 95 % interval at each row; null where fewer than 40 draws have a value. */
  readonly columns: Readonly<Record<string, ColumnValues>>;
  /** Draws that could not be moved; they count in nothing else. */
  readonly failedDraws: number;
  /** For each row the draws whose linkage reached it. */
  readonly drawsPerRow: readonly number[];
}

/** Columns of a draw, and which of its rows is which of those that all have in common. */
export interface Draw {
  readonly columns: Readonly<Record<string, ArrayLike<number | null>>>;
  readonly common: Iterable<readonly [row: number, own: number]>;
}

/** Draws errors of coordinates so many times; `draw` sweeps what has them, mm, and throws InputError where it cannot be moved. */
export function drawnColumns(
  info: readonly ColumnInfo[],
  rows: number,
  { directions }: Spread,
  { draws, seed }: { readonly draws: number; readonly seed: number },
  draw: (errors: Readonly<Record<string, number>>) => Draw,
): DrawnColumns {
  const samples = info.map(() => Array.from({ length: rows }, () => new Float64Array(draws)));
  const counts = info.map(() => new Int32Array(rows));
  const drawsPerRow = new Array<number>(rows).fill(0);
  let failedDraws = 0;
  const next = normal(uniform(seed));
  for (let n = 0; n < draws; n++) {
    const errors = errorsAlong(directions, next);
    const drawn = movedOrNot(() => draw(errors));
    if (drawn === null) {
      failedDraws++;
      continue;
    }
    for (const [row, own] of drawn.common) {
      drawsPerRow[row]++;
      info.forEach(({ name }, c) => {
        const value = drawn.columns[name][own];
        if (value !== null) samples[c][row][counts[c][row]++] = value;
      });
    }
  }
  const halfWidth = (values: Float64Array) => {
    if (values.length < FEWEST) return null;
    values.sort();
    return 0.5 * (quantile(values, 1 - TAIL) - quantile(values, TAIL));
  };
  const column = (c: number): ColumnValues =>
    samples[c].map((values, i) => halfWidth(values.subarray(0, counts[c][i])));
  return {
    columns: Object.fromEntries(info.map(({ name }, c) => [name, column(c)])),
    failedDraws,
    drawsPerRow,
  };
}

/** Errors of the coordinates, mm: each direction times a normal number. */
function errorsAlong(directions: Spread['directions'], next: () => number): Record<string, number> {
  const errors: Record<string, number> = {};
  for (const direction of directions) {
    const times = next();
    for (const [name, width] of Object.entries(direction)) {
      errors[name] = (errors[name] ?? 0) + (times * width) / HALF_WIDTH;
    }
  }
  return errors;
}

/** What a draw gives, or null where the drawing is none that can be moved. */
function movedOrNot<T>(move: () => T): T | null {
  try {
    return move();
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
