// Derivatives of the columns of an axle by its coordinates: central differences of fourth order,
//
//   F' = (8 (F(h) - F(-h)) - (F(2h) - F(-2h))) / (12 h),      error h^4 F^(5) / 30,
//
// with h so small beside the lengths of an axle that what is left is rounding of the sweeps over h.

import type { ColumnInfo } from '../corner/columns.ts';
import type { ColumnValues } from '../corner/sensitivity.ts';
import type { AxleLinkage } from './axle.ts';
import { coordinatesOf } from './axle-coordinates.ts';
import { type AxleSweep, type AxleSweepOptions, sweepAxle } from './sweep-axle.ts';

/** How the columns of an axle change with each of its hardpoint coordinates. */
export interface AxleSensitivities {
  /** The columns of the sweep but for `heave` and `roll`; a derivative has their unit a mm. */
  readonly info: readonly ColumnInfo[];
  /** Heave of the rows, as `sweepAxle` has them, mm: bump of both wheels positive. */
  readonly heave: Float64Array;
  /** Roll of the rows, degrees, left side up positive. */
  readonly roll: Float64Array;
  /**
   * By coordinate, then by column: one entry a row, null where the column has none. Where one corner stands on both sides its coordinates have
   * their own names (`lowerInnerY`) and move both wheels, else `leftLowerInnerY` and `rightLowerInnerY`. Further `barLinkMountY`,
   * `barLeverEndY`, `barLeverLength` or `barAxisY`, `thirdSpringMountY`, `rollSpringLeftMountY` and the like.
   */
  readonly by: Readonly<Record<string, Readonly<Record<string, ColumnValues>>>>;
}

/** mm: h. */
const STEP = 0.02;
const STENCIL = [1, -1, 2, -2].map((times) => times * STEP);

/**
 * Derivatives of every column of `sweepAxle` at every row by every hardpoint coordinate, in the column's unit a mm, at the same heave and roll.
 *
 * One coordinate is moved and the drawing otherwise kept, as in `sensitivities` of a corner. A corner that stands on both sides moves on both:
 * a hand measurement of one side serves for both, so that its error is on both. To have the sides apart, make the axle of two corners.
 *
 * @throws InputError as `sweepAxle`.
 */
export function axleSensitivities(axle: AxleLinkage, options?: AxleSweepOptions): AxleSensitivities {
  const swept = sweepAxle(axle, options);
  const poses = posesIn(swept);
  const { names, moved } = coordinatesOf(axle);
  const { info, heave, roll } = poses;
  const by = (coordinate: string) => {
    const differences = (heave.length === 0 ? [] : STENCIL).map((by) =>
      alignedColumns(poses, sweepAxle(moved({ [coordinate]: by }), poses.options)),
    );
    const column = ({ name }: ColumnInfo): ColumnValues =>
      Array.from(heave, (_, row) => {
        const [up, down, farUp, farDown] = differences.map((columns) => columns(name, row));
        if (up === null || down === null || farUp === null || farDown === null) return null;
        return (8 * (up - down) - (farUp - farDown)) / (12 * STEP);
      });
    return Object.fromEntries(info.map((one) => [one.name, column(one)]));
  };
  return { info, heave, roll, by: Object.fromEntries(names.map((name) => [name, by(name)])) };
}

/** The rows of a sweep as poses for another. */
export interface PosesIn {
  readonly info: readonly ColumnInfo[];
  readonly heave: Float64Array;
  readonly roll: Float64Array;
  readonly options: AxleSweepOptions;
}

export function posesIn({ info, columns: { heave, roll } }: AxleSweep): PosesIn {
  return {
    info: info.slice(2),
    heave,
    roll,
    options: { heave: [...heave], roll: [...roll], along: 'path' },
  };
}

/** Which rows of a sweep of such poses are which of them: those out of reach are missing. */
export function* commonPoses({ heave, roll }: PosesIn, { columns }: AxleSweep): Generator<[number, number]> {
  for (let row = 0, own = 0; own < columns.heave.length; row++) {
    if (heave[row] !== columns.heave[own] || roll[row] !== columns.roll[own]) continue;
    yield [row, own];
    own++;
  }
}

/** The values of such a sweep, by column and pose; null where there is none. */
function alignedColumns(poses: PosesIn, swept: AxleSweep): (column: string, row: number) => number | null {
  const own = new Map(commonPoses(poses, swept));
  const columns = valuesOf(swept);
  return (column, row) => {
    const at = own.get(row);
    return at === undefined ? null : columns[column][at];
  };
}

/** The columns of a sweep by their names. */
export function valuesOf({ columns }: AxleSweep): Readonly<Record<string, ArrayLike<number | null>>> {
  return columns as Readonly<Record<string, ArrayLike<number | null>>>;
}
