import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse as refuseOptions } from '../errors/drivers.ts';
import { refusal, refuse } from '../errors/linkage.ts';
import { DEPENDENT_SHARE } from '../numerics/elimination.ts';
import { barMisfit } from './bar-misfit.ts';
import { type BoundChoice, leaving } from './branches.ts';
import { bifurcationDrawn, whyNotDriven } from './degrees-of-freedom.ts';
import type { Drawing, Point } from './drawing.ts';
import { type DrivenTask, drivenTask, driverFaults, type ScheduledDriver } from './drivers.ts';
import { extremes } from './extremes.ts';
import { isConstant } from './form.ts';
import { holdMeasures } from './hold-measures.ts';
import { isRecord } from './joints.ts';
import { layPath } from './lay-path.ts';
import { type BoundMeasure, bindMeasure, coordinates, type Measure, measureFaults } from './measure.ts';
import { drawnValue } from './measure-series.ts';
import { driverScale } from './parameter.ts';
import type { MotionEnd, NoPath, Path, Piece, Task } from './path.ts';
import { FIRST, READING, reader, readRows, SECOND } from './reader.ts';
import { poseAt, taylorExpansion } from './series.ts';
import { compile, type System } from './system.ts';

/** How a drawing is to be moved. */
export interface TraceOptions<P extends string = string, B extends string = string> {
  /**
   * What drives: a measure that changes with the motion (a coordinate, a length, an angle, a turn). Without a driver
   * the motion is followed by its arc length (0 as drawn), through dead points.
   */
  readonly driver?: Measure<P, B>;
  /**
   * In place of a driver several, one for each degree of freedom, all as functions of a parameter u: the motion is then a function of u.
   * It is followed from the drawn pose both ways, as far as u can go.
   */
  readonly drivers?: readonly ScheduledDriver<P, B>[];
  /** Smallest value of the driver, no more than the drawn one; default: as far as it goes. With `drivers` that of u, default 0. */
  readonly from?: number;
  /** Largest value of the driver, no less than the drawn one; default: as far as it goes. With `drivers` that of u, default 1. */
  readonly to?: number;
  /** Measures held at their drawn value, for a linkage of several degrees of freedom. */
  readonly hold?: readonly Measure<P, B>[];
  /** How far a redundant constraint may be violated, in the drawing's unit; default a millionth of its longest bar. */
  readonly tolerance?: number;
  /**
   * Which branch to take at bifurcations: one choice for all, or a list for the first, the second, ... on either side, after which the
   * motion ends. Default: it ends at the first. A drawing in a bifurcation needs one, for the drawn pose.
   */
  readonly branch?: BranchChoice<P, B> | readonly BranchChoice<P, B>[];
}

/**
 * A branch at a bifurcation:
 *
 * - `straight`: straight on;
 * - a number: that of `MotionEnd.branches`, from 0; in the drawn pose that of `Mobility.branches`;
 * - `{ measure, sign }`: the first on which the derivative of the measure by the driver has that sign, 1 or -1.
 */
export type BranchChoice<P extends string = string, B extends string = string> =
  | 'straight'
  | number
  | { readonly measure: Measure<P, B>; readonly sign: 1 | -1 };

/** A measure and its derivatives by the driver; a derivative is null where it does not exist (a dead point). */
export interface Reading {
  /** In the drawing's unit, or radians. */
  readonly value: number;
  /** d/d driver. */
  readonly first: number | null;
  /** d²/d driver². */
  readonly second: number | null;
}

/** A place on the motion where the derivative of a measure by arc length is zero. */
export interface Extreme {
  /** Driver there (arc length without a driver). */
  readonly at: number;
  /** The measure there. */
  readonly value: number;
}

/** A linkage's motion as a function of its driver; `P` and `B` are the names of its points, and of its bodies and telescopes. */
export interface Motion<P extends string = string, B extends string = string> {
  /** Value of the driver in the drawn pose. */
  readonly drawn: number;
  /** Where the motion ends on the side of smaller values of the driver, and how. */
  readonly low: MotionEnd;
  /** The same on the side of greater values. */
  readonly high: MotionEnd;
  /** Places of all points; throws InputError outside the range but for rounding, never extrapolates. */
  at(driver: number): Record<P, Point>;
  /** A measure as a function of the driver; throws InputError for an unknown name, and outside the range. */
  read(measure: Measure<P, B>): (driver: number) => Reading;
  /** Where a measure's derivative by arc length is zero: the dead points the linkage would have if that drove it. */
  extremes(measure: Measure<P, B>): Extreme[];
  /** The pieces behind it. */
  readonly path: Path;
  /** What `JSON.stringify` has of it. */
  toJSON(): Pick<Motion, 'drawn' | 'low' | 'high'>;
}

/**
 * Traces the motion of a linkage with one degree of freedom, in both directions from the drawn pose, as far as `from` and `to` or to
 * where it ends.
 *
 * @throws InputError for a faulty drawing, an unknown name, a driver range without the drawn value, and if the linkage has not exactly
 * one degree of freedom in the drawn pose: the message says what is underdetermined or overdetermined.
 */
export function trace<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  options: TraceOptions<NoInfer<P>, NoInfer<B | T>> = {},
): Motion<P, B | T> {
  refuseOptions('trace options', optionFaults(options));
  const { drivers, tolerance, branch } = options;
  if (drivers !== undefined) {
    const task = drivenTask(drawing, { ...options, drivers });
    const { system, measure } = task;
    const leave = leaving(measure, choices(system, branch));
    const path = tracePath(
      system,
      measure,
      task.from,
      task.to,
      tolerance,
      layPath,
      leave,
      branch !== undefined,
    );
    return motionOf(withStuckDrivers(path, task), drawnValue(measure));
  }
  const { driver, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY, hold } = options;
  const system = compile(hold === undefined || hold.length === 0 ? drawing : holdMeasures(drawing, hold));
  const measure = driver === undefined ? null : bindMeasure(system, driver, 'driver');
  const leave = leaving(measure, choices(system, branch));
  const path = tracePath(system, measure, from, to, tolerance, layPath, leave, branch !== undefined);
  const explained = (end: MotionEnd): MotionEnd => {
    if (end.body === undefined) return end;
    const misfit = barMisfit(drawing, end.body, options);
    return misfit === null ? end : { ...end, misfit };
  };
  const { low, high } = path;
  const whole = { ...path, low: explained(low), high: explained(high) };
  return motionOf(whole, measure === null ? 0 : drawnValue(measure));
}

/** A path whose dead points name the driver that cannot go on; where a driven length comes to nothing there is one. */
function withStuckDrivers(path: Path, { fromNothing, toNothing, stuckAt }: DrivenTask): Path {
  const ended = (end: MotionEnd, nothing: string | undefined, piece: Piece, x: number): MotionEnd => {
    if (nothing !== undefined && end.status === 'reached')
      return { ...end, status: 'deadPoint', driver: nothing };
    if (end.status !== 'deadPoint') return end;
    const pose = new Float64Array(path.system.unknowns);
    poseAt(piece, x, pose);
    const driver = stuckAt(pose);
    return driver === undefined ? end : { ...end, driver };
  };
  const { pieces, low, high } = path;
  const [first, last] = [pieces[0], pieces[pieces.length - 1]];
  return {
    ...path,
    low: ended(low, fromNothing, first, first.lo),
    high: ended(high, toNothing, last, last.hi),
  };
}

/** The choice at the n-th bifurcation on a side. */
function choices(system: System, branch: TraceOptions['branch']): (nth: number) => BoundChoice {
  const list = isList(branch) ? branch : [branch];
  const bound = list.map((one, k) =>
    typeof one === 'object'
      ? { measure: bindMeasure(system, one.measure, `branch[${k}].measure`), sign: one.sign }
      : one,
  );
  return (nth) => bound[isList(branch) ? nth : 0];
}

function isList<T>(value: T | readonly T[]): value is readonly T[] {
  return Array.isArray(value);
}

function optionFaults(options: TraceOptions): Diagnostic[] {
  const faults = unknownOptions(options, OPTIONS);
  const { driver, drivers, hold, tolerance, branch } = options ?? {};
  if (drivers !== undefined) {
    faults.push(...driverFaults(drivers, 'drivers', ['driver', 'from', 'to', 'schedule']));
    if (driver !== undefined) faults.push(fault('driverAndDrivers', 'driver'));
  }
  if (driver !== undefined) faults.push(...measureFaults(driver, 'driver'));
  if (hold !== undefined && !Array.isArray(hold)) {
    faults.push(fault('notAListOfMeasures', 'hold', { got: show(hold) }));
  } else hold?.forEach((one, k) => faults.push(...measureFaults(one, `hold[${k}]`)));
  if (tolerance !== undefined && !(Number.isFinite(tolerance) && tolerance > 0)) {
    faults.push(fault('toleranceNotPositive', 'tolerance', { got: show(tolerance) }));
  }
  if (branch !== undefined)
    for (const one of isList(branch) ? branch : [branch]) faults.push(...choiceFaults(one));
  return faults;
}

function choiceFaults(choice: unknown): Diagnostic[] {
  if (choice === 'straight' || (Number.isInteger(choice) && Number(choice) >= 0)) return [];
  if (!isRecord(choice)) return [fault('notABranch', 'branch', { got: show(choice) })];
  const faults = [
    ...unknownOptions(choice, ['measure', 'sign'], 'branch'),
    ...measureFaults(choice.measure, 'branch.measure'),
  ];
  if (Math.abs(Number(choice.sign)) !== 1)
    faults.push(fault('notASign', 'branch.sign', { got: show(choice.sign) }));
  return faults;
}

const OPTIONS = ['driver', 'drivers', 'from', 'to', 'hold', 'tolerance', 'branch'];

/** How far off an end a driver may be to count as that end, as a share of the greater end. */
const OFF_AN_END = 8 * Number.EPSILON;
/** Share of the size that a redundant constraint may miss by. */
const TOLERANCE = 1e-6;
/** A constraint that misses by a share of the size seems independent by more than that, the more the less things turn. */
const SEEMING = 100;

/** The path of a compiled drawing, as `trace`; `measure` null follows the arc length. `layBy` lays it; `leave` says what is done at bifurcations, `isChosen` whether it takes a branch. */
export function tracePath(
  system: System,
  measure: BoundMeasure | null,
  from: number,
  to: number,
  tolerance = TOLERANCE * system.size,
  layBy = layPath,
  leave?: Task['leave'],
  isChosen = false,
): Path {
  const drawn = measure === null ? 0 : drawnValue(measure);
  if (measure?.kind === 'length' && drawn === 0 && !isConstant(measure.form)) {
    throw refusal('linkage', [fault('driverOfNoLength', 'driver')]);
  }
  checkRange(from, to, drawn, driverScale(measure, system.size));
  const e = taylorExpansion(system);
  const task = { measure, from: Math.min(from, drawn), to: Math.max(to, drawn), tolerance, leave, isChosen };
  const lay = () => layBy(e, task);
  let path = lay();
  if (isLocked(path)) {
    // Rows that are redundant but for the tolerance are set aside like those that are so but for rounding.
    e.elimination.share = Math.min(0.1, (SEEMING * tolerance) / system.size);
    const loosened = lay();
    e.elimination.share = DEPENDENT_SHARE;
    if (rangeLength(loosened) > rangeLength(path)) path = loosened;
  }
  if ('fault' in path) {
    const change = isChosen && path.fault === 'degreesOfFreedom' ? bifurcationDrawn(e) : null;
    if (change !== null) throw refusal('linkage', [fault('drawnBranchMissing', 'branch', change.values)]);
    throw (
      system.further?.refusal() ??
      refusal('linkage', [
        path.fault === 'degreesOfFreedom' ? whyNotDriven(e) : fault('driverNeverChanges', 'driver'),
      ])
    );
  }
  return path;
}

function isLocked(path: Path | NoPath): boolean {
  return 'fault' in path
    ? path.fault === 'degreesOfFreedom'
    : path.low.status === 'locked' || path.high.status === 'locked';
}

function rangeLength(path: Path | NoPath): number {
  return 'fault' in path ? -1 : path.high.at - path.low.at;
}

function checkRange(from: number, to: number, drawn: number, scale: number): void {
  const faults: Diagnostic[] = [];
  // A bound that is the drawn value but for rounding is the drawn value.
  const rounding = 8 * Number.EPSILON * Math.max(Math.abs(drawn), scale);
  if (!(typeof from === 'number' && from <= drawn + rounding)) {
    faults.push(fault('rangeWithoutDrawnPose', 'from', { got: show(from), max: drawn }));
  }
  if (!(typeof to === 'number' && to >= drawn - rounding)) {
    faults.push(fault('rangeWithoutDrawnPose', 'to', { got: show(to), min: drawn }));
  }
  refuse('driver range', faults);
}

function motionOf(path: Path, drawn: number): Motion {
  const { system, low, high } = path;
  const names = system.structure.names;
  const rounding = OFF_AN_END * Math.max(Math.abs(low.at), Math.abs(high.at));
  const inRange = (driver: number): number => {
    const within = typeof driver === 'number' && driver >= low.at - rounding && driver <= high.at + rounding;
    if (within) return Math.min(Math.max(driver, low.at), high.at);
    throw refusal('driver value', [
      fault('outsideMotion', '', {
        got: show(driver),
        min: low.at,
        minStatus: low.status,
        max: high.at,
        maxStatus: high.status,
      }),
    ]);
  };
  const places = reader(path, coordinates(system), []);
  return {
    drawn,
    low,
    high,
    path,
    toJSON: () => ({ drawn, low, high }),
    at(driver) {
      readRows(places, Float64Array.of(inRange(driver)), 0);
      const { m } = places;
      return Object.fromEntries(
        names.map((name, p) => [name, [m[2 * p * READING], m[(2 * p + 1) * READING]] as const]),
      );
    },
    read(measure) {
      const r = reader(path, [bindMeasure(system, measure, 'measure')]);
      return (driver) => {
        readRows(r, Float64Array.of(inRange(driver)), 0);
        return { value: r.m[0], first: finite(r.m[FIRST]), second: finite(r.m[SECOND]) };
      };
    },
    extremes(measure) {
      return extremes(path, bindMeasure(system, measure, 'measure')).map(({ at, value }) => ({ at, value }));
    },
  };
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
