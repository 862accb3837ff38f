import { InputError, type Issue, show, throwIfAny, unknownOptions } from '../errors.ts';
import { DEPENDENT_SHARE } from '../numerics/elimination.ts';
import type { Drawing, Point } from './drawing.ts';
import { extremes } from './extremes.ts';
import { isConstant } from './form.ts';
import { whyNotDriven } from './freedoms.ts';
import { giveOf } from './give.ts';
import { holding } from './hold.ts';
import { layPath } from './lay-path.ts';
import { type BoundMeasure, bindMeasure, coordinate, type Measure } from './measure.ts';
import { drawnValue } from './measure-series.ts';
import type { End, NoPath, Path } from './path.ts';
import { FIRST, READING, reader, readRows, SECOND } from './reader.ts';
import { taylorExpansion } from './series.ts';
import { compile, type System } from './system.ts';

/** How a drawing is to be moved. */
export interface TraceOptions<P extends string = string, B extends string = string> {
  /**
   * What drives: a measure that changes with the motion (a coordinate, a length, an angle, a turn). Without a driver
   * the motion is followed by its arc length (0 as drawn), through dead points.
   */
  readonly driver?: Measure<P, B>;
  /** Least value of the driver, no more than the drawn one; default: as far as it goes. */
  readonly from?: number;
  /** Greatest value of the driver, no less than the drawn one; default: as far as it goes. */
  readonly to?: number;
  /** Measures that keep their drawn values, for a linkage of more than one freedom. */
  readonly hold?: readonly Measure<P, B>[];
  /** By how much a redundant constraint may miss, in the drawing's unit; default a millionth of its longest bar. */
  readonly tolerance?: number;
}

/** A measure and its derivatives by the driver; a derivative is null where it does not exist (a dead point). */
export interface Reading {
  /** In the drawing's unit, or radians. */
  readonly value: number;
  /** d/d driver. */
  readonly first: number | null;
  /** d²/d driver². */
  readonly second: number | null;
}

/** A place on the motion where a measure is least or greatest, or stands still. */
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
  readonly low: End;
  /** The same on the side of greater values. */
  readonly high: End;
  /** Places of all points; throws InputError outside the range, never extrapolates. */
  at(driver: number): Record<P, Point>;
  /** A measure as a function of the driver; throws InputError for an unknown name, and outside the range. */
  read(measure: Measure<P, B>): (driver: number) => Reading;
  /** Where a measure's derivative by arc length is zero: the dead points the linkage would have if that drove it. */
  extremes(measure: Measure<P, B>): Extreme[];
  /** The pieces behind it. */
  readonly path: Path;
}

/**
 * Moves a drawing by one driver from its drawn pose, both ways, as far as `from` and `to`, a dead point, or home.
 *
 * @throws InputError for a faulty drawing, an unknown name, a driver range without the drawn value, and when the
 * linkage has not exactly one freedom in the drawn pose: the message says what is undetermined or over-determined.
 */
export function trace<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  options: TraceOptions<NoInfer<P>, NoInfer<B | T>> = {},
): Motion<P, B | T> {
  throwIfAny('trace options', unknownOptions('trace options', options, OPTIONS));
  const { driver, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY, hold, tolerance } = options;
  const system = compile(hold === undefined || hold.length === 0 ? drawing : holding(drawing, hold));
  const measure = driver === undefined ? null : bindMeasure(system, driver, 'driver');
  const path = tracePath(system, measure, from, to, tolerance);
  const explained = (end: End): End => {
    const by = end.how === 'locked' ? giveOf(drawing, (end.row ?? '').replace(/^body /, ''), options) : null;
    return by === null ? end : { ...end, by };
  };
  const { low, high } = path;
  const whole = { ...path, low: explained(low), high: explained(high) };
  return motionOf(whole, measure === null ? 0 : drawnValue(measure));
}

const OPTIONS = ['driver', 'from', 'to', 'hold', 'tolerance'];

/** Share of the size that a redundant constraint may miss by. */
const TOLERANCE = 1e-6;
/** A constraint that misses by a share of the size seems independent by more than that, the more the less things turn. */
const SEEMING = 100;

/** The path of a compiled drawing, as `trace`; `measure` null follows the arc length. `lay` lays it. */
export function tracePath(
  system: System,
  measure: BoundMeasure | null,
  from: number,
  to: number,
  tolerance = TOLERANCE * system.size,
  layBy = layPath,
): Path {
  const drawn = measure === null ? 0 : drawnValue(measure);
  if (measure?.kind === 'length' && drawn === 0 && !isConstant(measure.form)) {
    throw new InputError('linkage', [
      {
        path: 'driver',
        problem: 'a length of zero as drawn, whose rate does not exist',
        advice: 'drive something else, or draw the linkage in another pose',
      },
    ]);
  }
  checkRange(from, to, drawn);
  const e = taylorExpansion(system);
  const task = { measure, from: Math.min(from, drawn), to: Math.max(to, drawn), tolerance };
  const lay = () => layBy(e, task);
  let path = lay();
  if (isHeldUp(path)) {
    // What is redundant but for a tolerance is set aside as what is so but for rounding.
    e.elimination.share = Math.min(0.1, (SEEMING * tolerance) / system.size);
    const loosened = lay();
    e.elimination.share = DEPENDENT_SHARE;
    if (reachOf(loosened) > reachOf(path)) path = loosened;
  }
  if ('fault' in path) {
    throw new InputError(
      'linkage',
      path.fault === 'freedoms'
        ? whyNotDriven(e)
        : [
            {
              path: 'driver',
              problem: 'never changes when the linkage moves',
              advice: 'drive something that moves',
            },
          ],
    );
  }
  return path;
}

function isHeldUp(path: Path | NoPath): boolean {
  return 'fault' in path
    ? path.fault === 'freedoms'
    : path.low.how === 'locked' || path.high.how === 'locked';
}

function reachOf(path: Path | NoPath): number {
  return 'fault' in path ? -1 : path.high.at - path.low.at;
}

function checkRange(from: number, to: number, drawn: number): void {
  const issues: Issue[] = [];
  // A bound that is the drawn value but for rounding is the drawn value.
  const rounding = 8 * Number.EPSILON * Math.abs(drawn);
  if (!(typeof from === 'number' && from <= drawn + rounding)) {
    issues.push({
      path: 'from',
      problem: 'range without the drawn pose',
      got: show(from),
      allowed: `${drawn} or less`,
    });
  }
  if (!(typeof to === 'number' && to >= drawn - rounding)) {
    issues.push({
      path: 'to',
      problem: 'range without the drawn pose',
      got: show(to),
      allowed: `${drawn} or more`,
    });
  }
  if (issues.length > 0) throw new InputError('driver range', issues);
}

function motionOf(path: Path, drawn: number): Motion {
  const { system, low, high } = path;
  const names = system.structure.names;
  const inRange = (driver: number) => {
    if (driver >= low.at && driver <= high.at) return;
    throw new InputError('driver value', [
      {
        path: '',
        problem: 'outside the motion',
        got: show(driver),
        allowed: `${low.at} (${low.how}) to ${high.at} (${high.how})`,
      },
    ]);
  };
  const places = reader(
    path,
    system.places.flatMap((_, p) => [coordinate('x', system, p), coordinate('y', system, p)]),
    [],
  );
  return {
    drawn,
    low,
    high,
    path,
    at(driver) {
      inRange(driver);
      readRows(places, Float64Array.of(driver), 0);
      const { m } = places;
      return Object.fromEntries(
        names.map((name, p) => [name, [m[2 * p * READING], m[(2 * p + 1) * READING]] as const]),
      );
    },
    read(measure) {
      const r = reader(path, [bindMeasure(system, measure, 'measure')]);
      return (driver) => {
        inRange(driver);
        readRows(r, Float64Array.of(driver), 0);
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
