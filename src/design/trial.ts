// A corner with some coordinates at trial values, at the rows of its travel: each column and each place with its exact
// derivatives by those coordinates (corner/sensitivity.ts).

import { type HardpointCoordinate, moveHardpoints } from '../corner/hardpoint-coordinates.ts';
import { type CornerModel, carrierOf } from '../corner/model.ts';
import { ratedColumns } from '../corner/sensitivity.ts';
import type { SweepOptions } from '../corner/sweep.ts';
import { type Diagnostic, fault } from '../diagnostic.ts';
import { InputError } from '../errors/input-error.ts';
import type { Point } from '../linkage/drawing.ts';
import { type Dual, dual } from '../numerics/dual.ts';

/** A place with its derivatives. */
export type DualPoint = readonly [y: Dual, z: Dual];

/** Where in the travel: full droop, the design ride height, full bump of the travel. */
export type Station = 'droop' | 'design' | 'bump';

/** A corner as it is tried. */
export interface Trial {
  readonly model: CornerModel;
  readonly travel: Float64Array;
  readonly rows: number;
  /** The row as drawn. */
  readonly ride: number;
  /** A column at a row. */
  column(name: string, row: number): Dual;
  /** A point at a row. */
  place(point: string, row: number): DualPoint;
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
  const { points } = model.drawing;
  let found: ReturnType<typeof ratedColumns>;
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
  const column = (name: string, row: number): Dual =>
    dual(columns[name][row] as number, () => coordinates.map((one) => rates[one.name][name][row] as number));
  const fixed = (point: string, axis: 0 | 1): Dual =>
    dual(points[point][axis], () => coordinates.map((one) => one.shift[point]?.[axis] ?? 0));
  return {
    model,
    travel,
    rows: travel.length,
    ride: travel.indexOf(0),
    column,
    place: (point, row) =>
      carrierOf(model, point) === null
        ? [fixed(point, 0), fixed(point, 1)]
        : [column(`${point}Y`, row), column(`${point}Z`, row)],
  };
}
