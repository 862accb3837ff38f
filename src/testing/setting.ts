import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/testing.ts';
import {
  type CheckedDrawing,
  type Drawing,
  InputError,
  linkage,
  type Measure,
  type Motion,
  mobility,
  type Point,
  type TraceOptions,
  trace,
} from '../linkage/index.ts';
import { measureName } from '../words.ts';
import { coordinates, drawnValue, intrinsic, isAngle, sizeOf } from './measures.ts';
import type { Places } from './plane.ts';
import type { Where } from './violation.ts';

/** What the laws use of a motion. */
export type TracedMotion = Pick<Motion, 'drawn' | 'low' | 'high' | 'at' | 'read'>;

/** A function that moves a drawing: `trace` of `jounce/linkage`, or another one to check against the same laws. */
export type TraceFunction = (drawing: CheckedDrawing, options?: TraceOptions) => TracedMotion;

/** How the laws `mirror`, `translate`, `rotate` and `scale` change a linkage. */
export interface Transformation {
  readonly law: 'mirror' | 'translate' | 'rotate' | 'scale';
  /** Takes the place of a point to its new place. */
  place(at: Point): Point;
  /** Factor of every length. */
  readonly lengths: number;
  /** Factor of every angle: -1 for a mirror image. */
  readonly sense: 1 | -1;
}

/** How a linkage is checked; `P` and `B` are the names of its points, and of what has a direction. */
export interface LawOptions<T, P extends string = string, B extends string = string> {
  /**
   * What drives. Default, and where the drawing is at a dead point of it: the body that turns fastest as drawn; where none turns, the distance
   * that changes fastest.
   */
  readonly driver?: Measure<P, B>;
  /** Values of the driver to look between. Default: as far as it goes; an angle or a turn 3 radians either way. */
  readonly range?: readonly [from: number, to: number];
  /**
   * Share of the linkage's size, or part of a radian, by which a value may be off (default 1e-12); times what the
   * pose's own sensitivity makes of it, and times 1000 for a second derivative.
   */
  readonly tolerance?: number;
  /** What moves the drawing; for a drawing at a change point its options name the `branch` to take. Default: `trace`. */
  readonly trace?: TraceFunction;
  /**
   * Your data after a transformation: `place` applied to every point in it, lengths times `lengths`, angles times `sense`; null if your
   * data cannot be transformed so. By default, and for null, the built drawing is transformed.
   */
  redraw?(data: T, transformation: Transformation): T | null;
  /** Called with each part of a law that is left out. */
  skipped?(part: SkippedPart): void;
}

/** A part of a law that does not apply to the drawing, and was left out. */
export interface SkippedPart {
  /** Name of the law, as in `laws`. */
  readonly law: string;
  /** What was not judged. */
  readonly what: string;
  readonly reason: string;
}

/**
 * A law: returns if it holds for the drawing that `build` makes of `data`, throws LawViolation if it does not, and InputError if the
 * drawing or the options are faulty or the linkage cannot be driven.
 */
export type Law = <T, P extends string, B extends string, S extends string = never>(
  build: (data: T) => Drawing<P, B, S>,
  data: T,
  options?: LawOptions<T, NoInfer<P>, NoInfer<B | S>>,
) => void;

/** A drawing under a law, and the measures of size that its tolerances need. */
export interface Setting {
  readonly law: string;
  readonly drawing: CheckedDrawing;
  /** The drawing, or that of transformed data (null: not to be had), built anew. */
  build(): Drawing;
  redraw(transformation: Transformation): Drawing | null;
  readonly trace: TraceFunction;
  /** At a change point the number of the branch that is judged; null elsewhere. */
  readonly branch: number | null;
  skip(what: string, reason: string): void;
  readonly driver: Measure;
  /** Values of the driver to trace between, and whether they were given. */
  readonly range: { readonly from: number; readonly to: number };
  readonly ranged: boolean;
  readonly tolerance: number;
  /** Largest distance between two points of one body. */
  readonly size: number;
  /** Share of the size by which a place may be off: the tolerance, and the rounding of the coordinates. */
  readonly allowed: number;
}

const TOLERANCE = 1e-12;
/** How many times as far as a value a second derivative may be off: it feels the truncation of the motion's series. */
export const SECOND = 1000;
/** How often a coordinate is rounded on its way. */
const ROUNDINGS = 64;
/** How many poses are looked at along a motion. */
const POSES = 16;
/** Default range of an angle or a turn, radians either way: short of half a turn, so that no motion closes in it. */
const ANGLE = 3;
/** Changes by less than this a unit of way, in radians times the size or in lengths, count as none. */
const MIN_RATE = 1e-6;

/**
 * A law by its name and how it judges one motion. A drawing at a change point is judged along each of its branches. Where the driver is
 * `unfit` for the law, something else drives.
 */
export function lawOf(
  law: string,
  judge: (setting: Setting) => void,
  unfit: (measure: Measure) => boolean = () => false,
): Law {
  return (build, data, options = {}) => {
    refuse('options of laws', [...builderFaults(build), ...optionFaults(options)]);
    const drawing: CheckedDrawing = linkage<string, string, string>(build(data));
    const given: GivenTo = {
      law,
      drawing,
      build: () => build(data),
      redraw(transformation) {
        const redrawn = options.redraw?.(data, transformation) ?? null;
        return redrawn === null ? null : build(redrawn);
      },
      skip: (what, reason) => options.skipped?.({ law, what, reason }),
    };
    for (const branch of branchesOf(drawing)) judge(settingOf(given, options, branch, unfit));
  };
}

type GivenTo = Pick<Setting, 'law' | 'drawing' | 'build' | 'redraw' | 'skip'>;

/** The branches of a drawing at a change point, by number; null alone for a drawing of one motion. */
function branchesOf(drawing: CheckedDrawing): readonly (number | null)[] {
  try {
    trace(drawing, AS_DRAWN);
    return [null];
  } catch (error) {
    const [code, values] = issueOf(error);
    // Laws have no option to hold what is free.
    if (code === 'severalFreedoms') refuse('linkage', [fault('freedomsUnderLaws', '', values)]);
    if (code !== 'drawnAtBifurcation') throw error;
    return mobility(drawing).branches.map((_, k) => k);
  }
}

/** Code and values of what is wrong, if that is one thing. */
function issueOf(error: unknown): readonly [code?: string, values?: Diagnostic['values']] {
  if (!(error instanceof InputError) || error.issues.length !== 1) return [];
  return [error.issues[0].code, error.issues[0].values];
}

function settingOf(
  given: GivenTo,
  {
    driver,
    range,
    tolerance = TOLERANCE,
    trace: by = trace,
  }: Omit<LawOptions<unknown>, 'redraw' | 'skipped'>,
  branch: number | null,
  unfit: (measure: Measure) => boolean,
): Setting {
  const { drawing, skip } = given;
  const size = sizeOf(drawing);
  // Names that the drawing has not are refused here, whatever traces it. At its dead point the driver could go nowhere.
  const isUsed =
    driver !== undefined && movesAt(still(trace, drawing, branch), driver, size) && !unfit(driver);
  const used = isUsed ? driver : fastest(still(by, drawing, branch), drawing);
  if (driver !== undefined && !isUsed) {
    const reason = unfit(driver) ? 'is not the same elsewhere' : 'does not change in the drawn pose';
    skip(`the motion by ${measureName(driver)}`, `that ${reason}: ${measureName(used)} drives`);
  }
  const ranged = range !== undefined && (driver === undefined || isUsed);
  return {
    ...given,
    trace: by,
    branch,
    driver: used,
    range: rangeOf(ranged ? range : undefined, used, drawing),
    ranged,
    tolerance,
    size,
    allowed: allowedFor(tolerance, drawing, size),
  };
}

/** The drawn pose alone. */
const AS_DRAWN: TraceOptions = { from: 0, to: 0 };

/** The motion of that, by arc length. */
function still(by: TraceFunction, drawing: CheckedDrawing, branch: number | null): TracedMotion {
  return by(drawing, { ...AS_DRAWN, ...onBranch(branch) });
}

/** The options that take a branch in the drawn pose, and no other after it. */
function onBranch(branch: number | null): TraceOptions {
  return branch === null ? {} : { branch: [branch] };
}

function builderFaults(build: unknown): Diagnostic[] {
  return typeof build === 'function' ? [] : [fault('notAFunction', 'build', { got: show(build) })];
}

function optionFaults(options: unknown): Diagnostic[] {
  const faults = unknownOptions(options, ['driver', 'range', 'tolerance', 'trace', 'redraw', 'skipped']);
  const { range, tolerance = TOLERANCE, ...others } = (options ?? {}) as LawOptions<unknown>;
  if (range !== undefined && !(Array.isArray(range) && range.length === 2 && range[0] <= range[1])) {
    faults.push(fault('notADriverRange', 'range', { got: show(range) }));
  }
  if (!(Number.isFinite(tolerance) && tolerance > 0)) {
    faults.push(fault('shareNotPositive', 'tolerance', { got: show(tolerance) }));
  }
  for (const name of ['trace', 'redraw', 'skipped'] as const) {
    const given: unknown = others[name];
    if (given === undefined || typeof given === 'function') continue;
    faults.push(fault('notAFunction', name, { got: show(given) }));
  }
  return faults;
}

/** Share of the size by which a place of a drawing's points may be off. */
export function allowedFor(tolerance: number, { points }: CheckedDrawing, size: number): number {
  const farthest = Math.max(...Object.values(points).map(([x, y]) => Math.hypot(x, y)));
  return tolerance + (ROUNDINGS * Number.EPSILON * Math.max(farthest, size)) / size;
}

function rangeOf(
  given: readonly [number, number] | undefined,
  driver: Measure,
  drawing: CheckedDrawing,
): Setting['range'] {
  if (given !== undefined) return { from: given[0], to: given[1] };
  if (!isAngle(driver)) return { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
  const drawn = drawnValue(driver, drawing);
  return { from: drawn - ANGLE, to: drawn + ANGLE };
}

/** What moves most, for the way that the linkage goes, in the drawn pose: a turn if anything turns, else a length. */
function fastest(still: TracedMotion, drawing: CheckedDrawing): Measure {
  const most = (measures: readonly Measure[]) =>
    measures.reduce((best, one) => (rateIn(still, one) > rateIn(still, best) ? one : best));
  const turns = intrinsic(drawing).filter(isAngle);
  if (turns.length > 0 && movesAt(still, most(turns), sizeOf(drawing))) return most(turns);
  const lengths = intrinsic(drawing).filter((one) => !isAngle(one));
  const isLength = lengths.length > 0 && movesAt(still, most(lengths), sizeOf(drawing));
  return isLength ? most(lengths) : most(coordinates(drawing));
}

/** Rate of a measure by arc length in the drawn pose. */
function rateIn(still: TracedMotion, measure: Measure): number {
  return Math.abs(still.read(measure)(0).first ?? 0);
}

/** Whether a measure changes in the drawn pose. */
function movesAt(still: TracedMotion, measure: Measure, size: number): boolean {
  return (rateIn(still, measure) * size) / unitOf(measure, size) > MIN_RATE;
}

/** The drawing's motion by the driver, or that of another drawing of the same linkage. */
export function traced({ trace, branch, driver, range }: Setting, drawing: CheckedDrawing): TracedMotion {
  return trace(drawing, { driver, ...range, ...onBranch(branch) });
}

/** The drawing's whole motion, by arc length. */
export function tracedRound({ trace, branch, drawing }: Setting): TracedMotion {
  return trace(drawing, onBranch(branch));
}

/** How far past the drawn pose a motion to one side is traced, in the driver's unit. */
const MARGIN = 1e-3;

/** The motion of a drawing by the driver from the value that it has as drawn to another one. */
export function drivenTo(
  setting: Setting,
  drawing: CheckedDrawing,
  drawn: number,
  target: number,
): TracedMotion {
  const past = drawn - Math.sign(target - drawn) * MARGIN * unitOf(setting.driver, setting.size);
  return traced({ ...setting, range: { from: Math.min(past, target), to: Math.max(past, target) } }, drawing);
}

/** So many values of the driver, evenly from end to end. */
export function spread({ low, high }: TracedMotion, count: number): number[] {
  return Array.from({ length: count }, (_, k) =>
    Math.min(high.at, Math.max(low.at, low.at + (k / (count - 1)) * (high.at - low.at))),
  );
}

/** The driver at a share of the way from the drawn pose to its low (negative) or high end. */
export function placeAt({ drawn, low, high }: TracedMotion, share: number): number {
  return share < 0 ? drawn - share * (low.at - drawn) : drawn + share * (high.at - drawn);
}

/** A value of the driver that is in range but for rounding. */
export function clamp({ low, high }: TracedMotion, at: number): number {
  return Math.min(high.at, Math.max(low.at, at));
}

/** Unit of a measure: a radian, or the linkage's size. */
export function unitOf(measure: Measure, size: number): number {
  return isAngle(measure) ? 1 : size;
}

/** A value of the driver as a place in the travel. */
export function where({ driver }: Setting, at: number): Where {
  return { at, driver: measureName(driver) };
}

/** A pose, and where in the travel it is. */
export interface Pose {
  readonly where: Where;
  readonly places: Places;
  /** How far a part has turned, and the direction of a line, with all revolutions. */
  turn(part: string): number;
  angle(line: readonly [string, string]): number;
}

/** The pose at a value of the driver. */
export function poseAt(setting: Setting, motion: TracedMotion, at: number): Pose {
  return poseOf(motion, where(setting, at));
}

function poseOf(motion: TracedMotion, where: Where): Pose {
  const read = (measure: Measure) => motion.read(measure)(where.at).value;
  return {
    where,
    places: motion.at(where.at),
    turn: (part) => read({ turn: part }),
    angle: (line) => read({ angle: line }),
  };
}

/** Poses from end to end of a motion and, unless a range was given, along the arc length all the way round. */
export function poses(setting: Setting, motion: TracedMotion): Pose[] {
  const found = spread(motion, POSES).map((at) => poseAt(setting, motion, at));
  if (setting.ranged) return found;
  const round = tracedRound(setting);
  return [...found, ...spread(round, POSES).map((at) => poseOf(round, { at, driver: null }))];
}
