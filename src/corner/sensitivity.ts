import { readPoses, readRates, sensor } from '../linkage/sensitivity.ts';
import type { AllowedColumn } from './column-types.ts';
import type { ColumnInfo } from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import { type HardpointCoordinate, hardpointsOf } from './hardpoint-coordinates.ts';
import type { CornerModel } from './model.ts';
import { laySweep, type Sweep, type SweepOptions, sweepReader } from './sweep.ts';

/** A column of numbers, null where there is none. */
export type ColumnValues = readonly (number | null)[];

/** How the columns of a sweep change with each coordinate of the drawing. */
export interface Sensitivities {
  /** The columns of the sweep but for `travel`; a derivative has their unit a mm. */
  readonly info: readonly ColumnInfo[];
  /** Travel of the rows, mm, as `sweep` has them. */
  readonly travel: Float64Array;
  /**
   * By coordinate (`lowerInnerY`), then by column: one entry a row, null where the column has none. The coordinates are
   * those of the corner as data: y outboard, mirrored if it was.
   */
  readonly by: Readonly<Record<string, Readonly<Record<string, ColumnValues>>>>;
}

/**
 * Derivatives of every column at every row by every hardpoint coordinate, in the column's unit a mm: exact, at the same
 * travel from the drawn ride height.
 *
 * One coordinate is moved, the drawing is otherwise kept and the corner swept anew from there, with the lengths that it
 * then has. Where the wheel was given by its camber, that is kept and the contact patch goes with the wheel centre;
 * where it was given by the contact patch alone, the camber follows.
 *
 * @throws InputError as `sweep`.
 */
export function sensitivities<C extends Corner, const Name extends string>(
  corner: C,
  options?: SweepOptions<AllowedColumn<C, Name>>,
): Sensitivities;
export function sensitivities(corner: Corner, options: SweepOptions = {}): Sensitivities {
  return sensitivitiesOf(modelOf(corner), options);
}

/** Sensitivities of the model of a corner. */
export function sensitivitiesOf(model: CornerModel, options: SweepOptions): Sensitivities {
  const { info, travel, by } = ratedColumns(model, options, hardpointsOf(model));
  return { info, travel, by };
}

/** Columns of a sweep with their derivatives with respect to some coordinates. */
export interface RatedColumns extends Sensitivities {
  readonly columns: Readonly<Record<string, ColumnValues>>;
  readonly end: Sweep['end'];
}

/** Columns of a corner's model with their derivatives with respect to some of its coordinates. */
export function ratedColumns(
  model: CornerModel,
  options: SweepOptions,
  inputs: readonly HardpointCoordinate[],
): RatedColumns {
  const { plan, measure, path, end, travel, driver } = laySweep(model, options);
  const { recipes } = plan;
  const info = plan.info.slice(1);
  const s = sensor(
    sweepReader(path, plan),
    measure,
    inputs.map(({ shift }) => shift),
  );
  const values = info.map((): (number | null)[] => []);
  const found = inputs.map(() => info.map((): (number | null)[] => []));
  for (let first = 0; first < travel.length; ) {
    const rows = readPoses(s, driver, first);
    const { m } = s.reader;
    recipes.forEach(({ fill }, c) => {
      fill(m, rows, values[c] as Float64Array & (number | null)[], first, model);
    });
    for (let k = 0; k < inputs.length; k++) {
      readRates(s, k, rows);
      recipes.forEach(({ rate, drawn }, c) => {
        const constant = drawn(inputs[k], model);
        for (let i = 0; i < rows; i++) {
          const value = rate(m, s.rates, i, model) + constant;
          found[k][c].push(Number.isFinite(value) ? value : null);
        }
      });
    }
    first += rows;
  }
  const byColumn = (columns: ColumnValues[]) =>
    Object.fromEntries(columns.map((column, c) => [info[c].name, column]));
  return {
    info,
    travel,
    end,
    columns: byColumn(values),
    by: Object.fromEntries(inputs.map(({ name }, k) => [name, byColumn(found[k])])),
  };
}
