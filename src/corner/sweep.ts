import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/corner.ts';
import { extremes, type StationaryPlace } from '../linkage/extremes.ts';
import { type BoundMeasure, bindMeasure } from '../linkage/measure.ts';
import { drawnValue } from '../linkage/measure-series.ts';
import { tracePath } from '../linkage/motion.ts';
import type { MotionEnd, MotionStatus, Path } from '../linkage/path.ts';
import { type Reader, reader, readRows, type Sink } from '../linkage/reader.ts';
import { compile } from '../linkage/system.ts';
import type { AllowedColumn, ColumnOf, Columns, Pose, Row } from './column-types.ts';
import {
  type ColumnInfo,
  type ColumnPlan,
  NOBODY,
  planColumns,
  type Recipe,
  type TravelReference,
  unknownColumns,
} from './columns.ts';
import { type Corner, modelOf } from './corner.ts';
import type { CornerModel } from './model.ts';

/** How a corner is swept; all optional. */
export interface SweepOptions<Name extends string = string> {
  /** Upward travel to reach, mm, 0 or more; default 80. */
  readonly bump?: number;
  /** Downward travel to reach, mm, as a positive number; default 80. */
  readonly droop?: number;
  /** Whose travel is the axis: `contactPatch` (default) or `wheelCentre`. Ratios stay per contact-patch travel. */
  readonly travelReference?: TravelReference;
  /** Distance between rows, mm; default 5. Rows stand at its multiples, and at both ends. */
  readonly step?: number;
  /** Names of the columns beside `travel`; default all. */
  readonly columns?: readonly Name[];
}

/** One end of a sweep: the travel there, mm (droop negative), and how the motion ended. */
export interface SweepEnd {
  readonly travel: number;
  readonly status: MotionStatus;
  /** For `locked`: what does not hold there. */
  readonly constraint?: string;
}

/** A corner swept through its travel; `Name` says which columns it has beside `travel`. */
export interface Sweep<Name extends string = string> {
  /** Name, unit and meaning of each column, in the order of a table. */
  readonly info: readonly ColumnInfo[];
  readonly columns: Columns<Name>;
  /**
   * The pose at any travel in the range, mm, bump positive. At a dead point ratios and rates do not exist: they are
   * null there. Throws InputError outside the range.
   */
  at(travel: number): Pose<Name>;
  /** One flat object per row. No row stands at a dead point, so only the instant centre has nulls. */
  rows(): Row<Name>[];
  readonly end: { readonly bump: SweepEnd; readonly droop: SweepEnd };
}

/** More rows than this are taken for a mistyped step. */
const MOST_ROWS = 1_000_000;

/**
 * Sweeps a corner from droop to bump, to the given travel or as far as the linkage moves.
 *
 * `end` gives the travel reached on each side, and how the motion ended. A dead point is named, never passed.
 *
 * Without `columns` it has all columns; its type has those of every corner of the kind. Name other columns, such as
 * `shockOtherMountY`, in `columns`.
 *
 * @throws InputError for options out of range, unknown columns, and a corner without exactly one degree of freedom.
 */
export function sweep<C extends Corner, const Name extends string = ColumnOf<C['kind']>>(
  corner: C,
  options?: SweepOptions<AllowedColumn<C, Name>>,
): Sweep<Name>;
export function sweep(corner: Corner, options: SweepOptions = {}): Sweep {
  return sweepModel(modelOf(corner), options);
}

/** Sweeps the model of a corner, as `sweep`. */
export function sweepModel(model: CornerModel, options: SweepOptions): Sweep {
  const laid = laySweep(model, options);
  const { plan, path, drawn, end, travel } = laid;
  const { info } = plan;
  const r = sweepReader(path, plan);
  const columns = readColumns(laid, r, model);
  return {
    info,
    columns,
    at(given) {
      const travel = withinEnds(given, end);
      readRows(r, driverOf(Float64Array.of(travel), drawn, path, new Float64Array(1)), 0);
      const dead =
        (travel === end.bump.travel && end.bump.status === 'deadPoint') ||
        (travel === end.droop.travel && end.droop.status === 'deadPoint');
      const values = plan.recipes.map((recipe) =>
        dead && recipe.byTravel ? null : firstOf(recipe, r.m, model),
      );
      return rowOf(info, (c) => (c === 0 ? travel : values[c - 1]));
    },
    rows: () => Array.from(travel, (_, i) => rowOf(info, (c) => columns[info[c].name][i])),
    end,
  };
}

/** What a sweep goes along, before anything is read of it. */
export interface LaidSweep {
  readonly plan: ColumnPlan;
  /** What drives, and its value as drawn. */
  readonly measure: BoundMeasure;
  readonly drawn: number;
  readonly path: Path;
  readonly end: Sweep['end'];
  /** Travel of the rows, and the driver there. */
  readonly travel: Float64Array;
  readonly driver: Float64Array;
  /** Behind those two in one buffer: room for the planned columns. */
  readonly room: Float64Array;
}

/** Checks the options and lays the path. */
export function laySweep(model: CornerModel, options: SweepOptions): LaidSweep {
  const plan = checkOptions(options, model);
  const { bump = 80, droop = 80, travelReference = 'contactPatch', step = 5 } = options;
  const system = compile(model.drawing);
  const measure = bindMeasure(system, { y: model[travelReference] }, 'travelReference');
  const drawn = drawnValue(measure);
  const path = tracePath(system, measure, drawn - droop, drawn + bump);
  let end = { droop: endOf(path.low, drawn, -droop), bump: endOf(path.high, drawn, bump) };
  if (travelReference !== 'contactPatch') {
    end = beforeStillPatch(
      end,
      extremes(path, bindMeasure(system, { y: model.contactPatch }, 'travel')),
      drawn,
    );
  }
  const rows = travelsOf(end, step, plan.recipes.length);
  driverOf(rows.travel, drawn, path, rows.driver);
  return { plan, measure, drawn, path, end, ...rows };
}

/** Reads what a plan wants along a path. */
export function sweepReader(path: Path, { measures, derived }: ColumnPlan): Reader {
  const bound = measures.map((measure) => bindMeasure(path.system, measure, 'measure'));
  return reader(path, bound, derived);
}

/** Value of a column at the first row of the readings, null where it is not defined. */
function firstOf(recipe: Recipe, m: Float64Array, model: CornerModel): number | null {
  if (recipe.gaps) {
    const value: (number | null)[] = [null];
    recipe.fill(m, 1, value, 0, model);
    return value[0];
  }
  const value = new Float64Array(1);
  recipe.fill(m, 1, value, 0, model);
  return Number.isFinite(value[0]) ? value[0] : null;
}

function rowOf(info: readonly ColumnInfo[], value: (column: number) => number | null): Pose {
  return Object.fromEntries(info.map(({ name }, c) => [name, value(c)])) as Pose;
}

/** How far beyond an end a travel may be, as a share of that: the ends of two sweeps to one dead point differ by roundings. */
const ROUNDING = 16 * Number.EPSILON;

/** A travel of the sweep; one beyond an end by rounding is that end. */
function withinEnds(travel: number, { droop, bump }: Ends): number {
  if (typeof travel === 'number') {
    if (travel >= droop.travel && travel <= bump.travel) return travel;
    const end = travel > 0 ? bump.travel : droop.travel;
    if (Math.abs(travel - end) <= ROUNDING * Math.abs(end)) return end;
  }
  throw refusal('travel', [
    fault('outsideSweep', '', {
      got: show(travel),
      min: droop.travel,
      minStatus: droop.status,
      max: bump.travel,
      maxStatus: bump.status,
    }),
  ]);
}

type Ends = Sweep['end'];

/** An end as travel; where the travel asked for was reached it is just that, without the rounding of drawn + travel. */
function endOf({ at, status, constraint }: MotionEnd, drawn: number, asked: number): SweepEnd {
  const travel = status === 'reached' ? asked + 0 : at - drawn;
  return constraint === undefined ? { travel, status } : { travel, status, constraint };
}

/** The ends brought in to where the contact patch stands still: ratios per its travel do not exist there. */
function beforeStillPatch(end: Ends, still: readonly StationaryPlace[], drawn: number): Ends {
  let { droop, bump } = end;
  for (const { at } of still) {
    if (at > drawn && at - drawn < bump.travel) bump = { travel: at - drawn, status: 'deadPoint' };
    if (at <= drawn && at - drawn > droop.travel) droop = { travel: at - drawn, status: 'deadPoint' };
  }
  return { droop, bump };
}

/** The driver at each travel into `driver`, kept in the path's range against rounding. */
export function driverOf(
  travel: Float64Array,
  drawn: number,
  { low, high }: Path,
  driver: Float64Array,
): Float64Array {
  const least = low.at;
  const most = high.at;
  for (let i = 0; i < driver.length; i++) driver[i] = Math.min(most, Math.max(least, drawn + travel[i]));
  return driver;
}

/** Share of a step below which two rows would be one. */
const NO_STEP = 1e-9;

/**
 * Multiples of the step, and both ends but for a dead point, where ratios do not exist; with room for the driver and so many
 * columns, in one buffer: of all that a short sweep does, making arrays takes the longest.
 */
function travelsOf(
  { droop, bump }: Ends,
  step: number,
  columns: number,
): Pick<LaidSweep, 'travel' | 'driver' | 'room'> {
  // A multiple that is an end but for rounding is that end.
  const first = Math.floor(droop.travel / step + NO_STEP) + 1;
  const last = Math.ceil(bump.travel / step - NO_STEP) - 1;
  const withDroop = droop.status === 'deadPoint' ? 0 : 1;
  const withBump = bump.status === 'deadPoint' || bump.travel === droop.travel ? 0 : 1;
  const inner = Math.max(0, last - first + 1);
  const rows = withDroop + inner + withBump;
  const { buffer } = new Float64Array((columns + 2) * rows);
  const travel = new Float64Array(buffer, 0, rows);
  if (withDroop === 1) travel[0] = droop.travel;
  for (let k = 0; k < inner; k++) travel[withDroop + k] = (first + k) * step;
  if (withBump === 1) travel[withDroop + inner] = bump.travel;
  const driver = new Float64Array(buffer, rows * WIDTH, rows);
  return { travel, driver, room: new Float64Array(buffer, 2 * rows * WIDTH) };
}

const WIDTH = Float64Array.BYTES_PER_ELEMENT;

function readColumns({ plan, travel, driver, room }: LaidSweep, r: Reader, model: CornerModel): Columns {
  const { info, recipes, sinks } = plan;
  const rows = travel.length;
  const columns: Record<string, Float64Array | (number | null)[]> = { travel };
  const filled = recipes.map(({ gaps }, c) => {
    // Without gaps every entry is finite: rows stand at no dead point. With gaps a list of numbers takes less room until one is null.
    const column = gaps
      ? new Array<number | null>(rows)
      : new Float64Array(room.buffer, room.byteOffset + c * rows * WIDTH, rows);
    columns[info[c + 1].name] = column;
    return column;
  });
  const straight = sinks.map((c): Sink | false | undefined => {
    if (c < 0) return c === NOBODY ? false : undefined;
    return { out: filled[c] as Float64Array, plus: recipes[c].plus(model), times: recipes[c].times };
  });
  const { m } = r;
  for (let first = 0; first < rows; ) {
    const read = readRows(r, driver, first, straight);
    for (let c = 0; c < recipes.length; c++) {
      const { itself, fill } = recipes[c];
      if (sinks[itself] === c) continue;
      fill(m, read, filled[c] as Float64Array & (number | null)[], first, model);
    }
    first += read;
  }
  return columns as unknown as Columns;
}

const OPTIONS = ['bump', 'droop', 'travelReference', 'step', 'columns'];

/** Checks the options; returns the plan of the columns asked for. */
function checkOptions(options: SweepOptions, model: CornerModel): ColumnPlan {
  const faults = unknownOptions(options, OPTIONS);
  const { bump = 80, droop = 80, travelReference = 'contactPatch', step = 5, columns } = options ?? {};
  if (!isDistance(bump)) faults.push(notADistance('bump', bump));
  if (!isDistance(droop)) faults.push(notADistance('droop', droop));
  if (travelReference !== 'contactPatch' && travelReference !== 'wheelCentre') {
    faults.push(
      fault('unknownChoice', 'travelReference', {
        got: show(travelReference),
        allowed: ['contactPatch', 'wheelCentre'],
      }),
    );
  }
  if (!(isDistance(step) && step > 0)) {
    faults.push(fault('notAStep', 'step', { got: show(step), maxRows: MOST_ROWS }));
  } else if (isDistance(bump) && isDistance(droop) && (bump + droop) / step > MOST_ROWS) {
    faults.push(fault('tooManyRows', 'step', { got: show(step), maxRows: MOST_ROWS }));
  }
  if (columns !== undefined && !Array.isArray(columns)) {
    faults.push(fault('notAListOfColumns', 'columns', { got: show(columns) }));
    throw refusal('sweep options', faults);
  }
  const plan = planColumns(model, travelReference, columns);
  if (columns !== undefined && plan.recipes.length < columns.length)
    faults.push(...unknownColumns(columns, model));
  refuse('sweep options', faults);
  return plan;
}

function isDistance(value: unknown): boolean {
  return typeof value === 'number' && Number.isFinite(value) && value >= 0;
}

function notADistance(path: string, value: unknown): Diagnostic {
  return fault('notADistance', path, { got: show(value) });
}
