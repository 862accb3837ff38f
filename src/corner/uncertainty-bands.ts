// To first order a column changes by the sum of its sensitivities times the errors of the coordinates. For normal errors along
// independent directions w_k (half-widths by coordinate) that is normal, with the half-width
//
//   w = sqrt(sum_k (sum_h dF/dh w_kh)^2)
//
// (the law of propagation of uncertainty, JCGM 100:2008, sec. 5.1.2 and 5.2.2; from memory). Independent coordinates have a
// direction each, and w = sqrt(sum_h (dF/dh w_h)^2).

import type { AllowedColumn } from './column-types.ts';
import type { ColumnInfo } from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import type { Spread } from './covariance.ts';
import { type ColumnValues, type Sensitivities, sensitivitiesOf } from './sensitivity.ts';
import type { SweepOptions } from './sweep.ts';
import { ownPlusMinus, type PlusMinus, spreadOf } from './uncertainty.ts';

/** 95 % uncertainty of the columns of a sweep. */
export interface UncertaintyBands {
  /** The columns of the sweep but for `travel`. */
  readonly info: readonly ColumnInfo[];
  /** Travel of the rows, mm. */
  readonly travel: Float64Array;
  /** By column, half-width of the 95 % band at each row in the column's unit; null where the column has no value. */
  readonly columns: Readonly<Record<string, ColumnValues>>;
  /** Half-widths of the coordinates that they were computed from, mm. */
  readonly plusMinus: Readonly<Record<string, number>>;
}

/**
 * 95 % bands of a sweep's columns, to first order. `plusMinus` gives the half-widths of the coordinates (default: those of the
 * corner). `monteCarlo` gives the same without that simplification.
 *
 * @throws InputError as `sweep`, and for a `plusMinus` that is missing or has unknown names or numbers below 0.
 */
export function uncertaintyBands<C extends Corner, const Name extends string>(
  corner: C,
  plusMinus?: PlusMinus,
  options?: SweepOptions<AllowedColumn<C, Name>>,
): UncertaintyBands;
export function uncertaintyBands(
  corner: Corner,
  plusMinus?: PlusMinus,
  options: SweepOptions = {},
): UncertaintyBands {
  const { info, travel, by } = sensitivitiesOf(modelOf(corner), options);
  const spread = spreadOf(ownPlusMinus(corner), plusMinus, Object.keys(by));
  return { info, travel, columns: bandColumns(info, travel.length, by, spread), plusMinus: spread.widths };
}

/** By column, half-widths of the 95 % bands at so many rows. */
export function bandColumns(
  info: readonly ColumnInfo[],
  rows: number,
  by: Sensitivities['by'],
  { directions }: Spread,
): Record<string, ColumnValues> {
  const coordinates = Object.keys(by);
  const column = (name: string): ColumnValues =>
    Array.from({ length: rows }, (_, i) => {
      if (coordinates.some((coordinate) => by[coordinate][name][i] === null)) return null;
      let square = 0;
      for (const direction of directions) {
        let change = 0;
        for (const [coordinate, width] of Object.entries(direction)) {
          change += (by[coordinate][name][i] as number) * width;
        }
        square += change * change;
      }
      return Math.sqrt(square);
    });
  return Object.fromEntries(info.map(({ name }) => [name, column(name)]));
}
