// A corner with some coordinates at trial values, at the rows of its travel: each column and each place with its exact
// derivatives by those coordinates (corner/sensitivity.ts).

import { type HardpointCoordinate, moveHardpoints } from '../corner/hardpoint-coordinates.ts';
import { type CornerModel, carrierOf } from '../corner/model.ts';
import { type RatedColumns, ratedColumns } from '../corner/sensitivity.ts';
import { type SweepOptions, sweepModel } from '../corner/sweep.ts';
import { type Diagnostic, fault } from '../diagnostic.ts';
import { InputError } from '../errors/input-error.ts';
import type { Point } from '../linkage/drawing.ts';
import { type Dual, dual } from '../numerics/dual.ts';

/** A place with its derivatives. */
export type DualPoint = readonly [y: Dual, z: Dual];

/** Where in the travel: full droop, the design ride height, full bump of the travel. */
export type Station = 'droop' | 'design' | 'bump';

/** A corner at some rows of its travel. */
export interface Rows {
  readonly model: CornerModel;
  readonly travel: Float64Array;
  readonly rows: number;
  /** A column at a row. */
  column(name: string, row: number): Dual;
  /** A point at a row. */
  place(point: string, row: number): DualPoint;
}

/** A corner as it is tried. */
export interface Trial extends Rows {
  /** The row as drawn. */
  readonly ride: number;
  /** The same at so many times the rows, and at one travel: values without derivatives. */
  finer(times: number): Rows & { at(travel: number): Rows };
  /** The same at one travel. */
  alone(travel: number): Rows;
}

/** Row of a station. */
export function rowAt({ ride, rows }: Trial, station: Station): number {
  return { droop: 0, design: ride, bump: rows - 1 }[station];
}

/** What is tried. */
export interface TrialPlan {
  readonly model: CornerModel;
  readonly coordinates: readonly HardpointCoordinate[];
  readonly sweep: Required<Pick<SweepOptions, 'bump' | 'droop' | 'step'>> & SweepOptions;
}

/** Why a trial has no figures. */
export type NoTrial = Diagnostic;

/** The corner's model with its coordinates at x, mm. */
export function placedAt({ model, coordinates }: TrialPlan, x: readonly number[]): CornerModel {
  const drawn = model.drawing.points;
  const by = coordinates.map(({ name, point, axis }, i) => [name, x[i] - drawn[point][axis]]);
  const moved = moveHardpoints(model, Object.fromEntries(by));
  // Where they were put, without the rounding of the way there.
  const points: Record<string, Point> = { ...moved.drawing.points };
  coordinates.forEach(({ point, axis }, i) => {
    const [y, z] = points[point];
    points[point] = axis === 0 ? [x[i], z] : [y, x[i]];
  });
  return { ...moved, drawing: { ...moved.drawing, points } };
}

/** The corner with its coordinates at x, mm; or why it can't be tried. */
export function tryAt(plan: TrialPlan, x: readonly number[]): Trial | NoTrial {
  const { coordinates, sweep } = plan;
  const model = placedAt(plan, x);
  let found: RatedColumns;
  try {
    found = ratedColumns(model, sweep, coordinates);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return fault('linkageCannotMove', '');
  }
  const { columns, by: rates, travel, end } = found;
  for (const side of ['droop', 'bump'] as const) {
    if (end[side].status !== 'reached') {
      return fault('travelNotReached', '', { side, travel: end[side].travel });
    }
  }
  for (const [name, column] of Object.entries(columns)) {
    if (column.includes(null) || coordinates.some((one) => rates[one.name][name].includes(null))) {
      return fault('columnNotDefined', '', { column: name });
    }
  }
  return {
    ...rowsOf(model, coordinates, found),
    ride: travel.indexOf(0),
    finer(times) {
      const swept = sweepModel(model, { ...sweep, step: sweep.step / times });
      const rows = (travel: Float64Array, value: Value): Rows => valuesOf(model, travel, value);
      return {
        ...rows(swept.columns.travel, (name, row) => swept.columns[name][row] as number),
        at(travel) {
          const pose: Readonly<Record<string, number | null>> = swept.at(travel);
          return rows(Float64Array.of(travel), (name) => pose[name] as number);
        },
      };
    },
    alone(at) {
      const [bump, droop] = [Math.max(at, 0), Math.max(-at, 0)];
      const one = rowsOf(
        model,
        coordinates,
        ratedColumns(model, { ...sweep, bump, droop, step: bump + droop || 1 }, coordinates),
      );
      const row = at > 0 ? one.rows - 1 : 0;
      return {
        model,
        travel: Float64Array.of(at),
        rows: 1,
        column: (name) => one.column(name, row),
        place: (point) => one.place(point, row),
      };
    },
  };
}

type Value = (name: string, row: number) => number;

/** Rows of columns with their derivatives. */
function rowsOf(
  model: CornerModel,
  coordinates: readonly HardpointCoordinate[],
  { columns, by: rates, travel }: RatedColumns,
): Rows {
  const { points } = model.drawing;
  const column = (name: string, row: number): Dual =>
    dual(columns[name][row] as number, () => coordinates.map((one) => rates[one.name][name][row] as number));
  const fixed = (point: string, axis: 0 | 1): Dual =>
    dual(points[point][axis], () => coordinates.map((one) => one.shift[point]?.[axis] ?? 0));
  return {
    model,
    travel,
    rows: travel.length,
    column,
    place: (point, row) =>
      carrierOf(model, point) === null
        ? [fixed(point, 0), fixed(point, 1)]
        : [column(`${point}Y`, row), column(`${point}Z`, row)],
  };
}

/** Rows of values without derivatives. */
function valuesOf(model: CornerModel, travel: Float64Array, value: Value): Rows {
  const column = (name: string, row: number): Dual => dual(value(name, row), () => []);
  return {
    model,
    travel,
    rows: travel.length,
    column,
    place(point, row) {
      if (carrierOf(model, point) !== null) return [column(`${point}Y`, row), column(`${point}Z`, row)];
      const [y, z] = model.drawing.points[point];
      return [dual(y, () => []), dual(z, () => [])];
    },
  };
}
