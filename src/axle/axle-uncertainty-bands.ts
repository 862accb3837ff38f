import type { ColumnInfo } from '../corner/columns.ts';
import type { ColumnValues } from '../corner/sensitivity.ts';
import type { PlusMinus } from '../corner/uncertainty.ts';
import { bandColumns } from '../corner/uncertainty-bands.ts';
import type { AxleLinkage } from './axle.ts';
import { spreadOfAxle } from './axle-coordinates.ts';
import { axleSensitivities } from './axle-sensitivity.ts';
import type { AxleSweepOptions } from './sweep-axle.ts';

/** 95 % uncertainty of the columns of an axle. */
export interface AxleUncertaintyBands {
  /** The columns of the sweep but for `heave` and `roll`. */
  readonly info: readonly ColumnInfo[];
  /** Heave of the rows, mm: bump of both wheels positive. */
  readonly heave: Float64Array;
  /** Roll of the rows, degrees, left side up positive. */
  readonly roll: Float64Array;
  /** By column, half-width of the 95 % band at each row in the column's unit; null where the column has no value. */
  readonly columns: Readonly<Record<string, ColumnValues>>;
  /** Half-widths of the coordinates that they were computed from, mm. */
  readonly plusMinus: Readonly<Record<string, number>>;
}

/**
 * 95 % bands of the columns of `sweepAxle`, to first order. `plusMinus` gives the half-widths of the coordinates, by the names of
 * `axleSensitivities` (default: those of the corners, with bar and springs exact). A corner that stands on both sides has one error of each
 * coordinate, on both sides: it was measured by hand on one of them. Two corners have errors of their own.
 *
 * @throws InputError as `sweepAxle`, and for a `plusMinus` that is missing or has unknown names or numbers below 0.
 */
export function axleUncertaintyBands(
  axle: AxleLinkage,
  plusMinus?: PlusMinus,
  options?: AxleSweepOptions,
): AxleUncertaintyBands {
  const { info, heave, roll, by } = axleSensitivities(axle, options);
  const spread = spreadOfAxle(axle, plusMinus, Object.keys(by));
  return {
    info,
    heave,
    roll,
    columns: bandColumns(info, heave.length, by, spread),
    plusMinus: spread.widths,
  };
}
