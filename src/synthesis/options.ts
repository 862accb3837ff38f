import { type Diagnostic, fault, show, unknownName, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/synthesis.ts';
import { type CheckedDrawing, checkDrawing, type Drawing, isPoint } from '../linkage/drawing.ts';
import { frozenCopy } from '../linkage/freeze.ts';
import { holdMeasures } from '../linkage/hold-measures.ts';
import { isRecord } from '../linkage/joints.ts';
import { type Measure, measureFaults } from '../linkage/measure.ts';
import { compile, type System } from '../linkage/system.ts';
import type { Bounds, Box } from '../numerics/box.ts';
import { type BoundBounds, PARTS, type QuantityBounds } from './bounds.ts';
import type { BoundObjective, SynthesisObjective } from './objectives.ts';
import { type BoundQuantity, bindOrFault, bindQuantity, type Quantity } from './quantity.ts';
import { checkSearch, SEARCH_OPTIONS, type SearchOptions } from './search-options.ts';
import type { Bound, Coordinate, Plan } from './trial.ts';

/** What of a linkage may move, what for, and within what. */
export interface SynthesisOptions<P extends string = string, B extends string = string>
  extends SearchOptions {
  /** What drives the motion that the linkage has to make. */
  readonly driver: Measure<P, B>;
  /** Smallest value of the driver, in its unit, no more than the drawn one. */
  readonly from: number;
  /** Largest value of the driver, in its unit, no less than the drawn one. */
  readonly to: number;
  /** Measures held at their drawn value, for a linkage of several degrees of freedom. */
  readonly hold?: readonly Measure<P, B>[];
  /**
   * Boxes of the points that may be drawn elsewhere, by name, each axis that is given; lengths and angles follow. The drawing must
   * lie in them.
   */
  readonly move: { readonly [Name in P]?: { readonly x?: Bounds; readonly y?: Bounds } };
  readonly objectives: readonly SynthesisObjective<P, B>[];
  /** What must hold at every place of the motion. */
  readonly bounds?: readonly QuantityBounds<P, B>[];
}

/** Options that have been checked. */
export interface CheckedSynthesis {
  readonly plan: Plan;
  readonly boxes: readonly Box[];
  /** By objective. */
  readonly weights: readonly number[];
  readonly first: readonly number[];
  readonly starts: number;
  readonly seed: number;
}

const OPTIONS = ['driver', 'from', 'to', 'hold', 'move', 'objectives', 'bounds', ...SEARCH_OPTIONS];
const AXES = ['x', 'y'] as const;
/** Default tolerance, as a share of the size or of a radian. */
const TOLERANCE = 1e-3;
const WHAT = 'synthesis options';

/**
 * Checks a drawing and what it is to be designed for, all but what only moving it can show.
 *
 * @throws InputError with every issue.
 */
export function checkSynthesis(drawing: Drawing, options: SynthesisOptions): CheckedSynthesis {
  checkDrawing(drawing);
  const faults = unknownOptions(options, OPTIONS);
  refuse(
    WHAT,
    faults.filter(({ path }) => path === ''),
  );
  const { driver, from, to, hold = [] } = options;
  faults.push(...measureFaults(driver, 'driver'));
  for (const [name, value] of Object.entries({ from, to })) {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', name, { got: show(value) }));
  }
  if (from > to) faults.push(fault('rangeReversed', 'from', { got: show([from, to]) }));
  if (!Array.isArray(hold)) faults.push(fault('notAListOfMeasures', 'hold', { got: show(hold) }));
  else hold.forEach((one, k) => faults.push(...measureFaults(one, `hold[${k}]`)));
  const moved = moveFaults(drawing, options.move, faults);
  const { starts, seed } = checkSearch(options, faults);
  const objectives = listOf('objectives', options.objectives, 'noSynthesisObjectives', faults);
  const bounds =
    options.bounds === undefined ? [] : listOf('bounds', options.bounds, 'noQuantityBounds', faults);
  objectives.forEach((one, k) => objectiveFaults(`objectives[${k}]`, one, options, faults));
  bounds.forEach((one, k) => boundsFaults(`bounds[${k}]`, one, faults));
  refuse(WHAT, faults);

  const { points } = drawing;
  const held = frozenCopy(holdMeasures(drawing, hold)) as CheckedDrawing;
  const system = compile(held);
  bindOrFault(system, driver, 'driver', faults);
  const asDrawn = bindAll(system, options, [], [], faults);
  refuse(WHAT, faults);
  const driverScale = scaleOf(system, bindOrFault(system, driver, 'driver', faults)?.kind);
  const toleranceOf = (given: number | undefined, { kind, measure }: BoundQuantity): number => {
    if (given !== undefined) return given;
    if (kind === 'transmissionAngle') return TOLERANCE;
    return (TOLERANCE * scaleOf(system, measure.kind)) / (kind === 'velocityRatio' ? driverScale : 1);
  };
  const tolerances = asDrawn.objectives.map(({ quantities }, k) =>
    toleranceOf(options.objectives[k].tolerance, quantities[0]),
  );
  const room = asDrawn.bounds.map(({ quantity }, k) => toleranceOf(bounds[k].tolerance, quantity));
  const parts = bounds.map(({ quantity }) => (isConstant(drawing, quantity) ? 1 : PARTS));
  return {
    plan: {
      drawing: held,
      driver,
      from,
      to,
      coordinates: moved.map(({ coordinate }) => coordinate),
      tolerances,
      bind(at) {
        const wrong: Diagnostic[] = [];
        const bound = bindAll(at, options, room, parts, wrong);
        refuse(WHAT, wrong);
        return bound;
      },
    },
    boxes: moved.map(({ box }) => box),
    weights: options.objectives.map(({ weight = 1 }) => weight),
    first: moved.map(({ coordinate: { point, axis } }) => points[point][axis]),
    starts,
    seed,
  };
}

/** What a measure is compared with: the size of a linkage, or a radian. */
function scaleOf({ size }: System, kind: string | undefined): number {
  return kind === 'angle' ? 1 : size;
}

/** Whether a quantity is the length between two points of one body. */
function isConstant({ bodies, ground }: Drawing, quantity: Quantity): boolean {
  if (!('length' in quantity)) return false;
  return [ground, ...Object.values(bodies)].some((part) =>
    [...quantity.length].every((name) => part.includes(name)),
  );
}

/** Objectives and bounds bound to a system; null among them where something is wrong. */
function bindAll(
  system: System,
  { objectives, bounds = [] }: SynthesisOptions,
  tolerances: readonly number[],
  parts: readonly number[],
  faults: Diagnostic[],
): Bound {
  const quantity = (one: Quantity, path: string) => bindQuantity(system, one, path, faults) as BoundQuantity;
  return {
    objectives: objectives.map((objective, k): BoundObjective => {
      const path = `objectives[${k}]`;
      if ('path' in objective) {
        const { path: point, through, at = null, relativeTo } = objective;
        const frame = relativeTo === undefined ? {} : { relativeTo };
        const before = faults.length;
        const x = quantity({ x: point, ...frame }, path);
        // What is wrong with one coordinate is wrong with the other.
        const y = faults.length > before ? x : quantity({ y: point, ...frame }, path);
        return { kind: 'path', through, at, quantities: [x, y] };
      }
      const quantities = [quantity(objective.quantity, `${path}.quantity`)] as const;
      if ('extreme' in objective) {
        const { extreme, target } = objective;
        return { kind: 'extreme', extreme, target, quantities };
      }
      const { at, values, offset } = objective;
      return { kind: 'function', at, values, isFree: offset === 'free', quantities };
    }),
    bounds: bounds.map(
      (one, k): BoundBounds => ({
        quantity: quantity(one.quantity, `bounds[${k}].quantity`),
        min: one.min ?? null,
        max: one.max ?? null,
        tolerance: tolerances[k],
        parts: parts[k],
      }),
    ),
  };
}

function moveFaults(
  { points }: CheckedDrawing,
  move: unknown,
  faults: Diagnostic[],
): { coordinate: Coordinate; box: Box }[] {
  const names = Object.keys(points);
  if (!isRecord(move) || Object.keys(move).length === 0) {
    faults.push(fault('nothingMoves', 'move', { got: show(move), points: names }));
    return [];
  }
  return Object.entries(move).flatMap(([point, box]) => {
    const path = `move.${point}`;
    if (!names.includes(point)) {
      faults.push(unknownName(path, 'point', point, names));
      return [];
    }
    const known = isRecord(box) ? box : {};
    faults.push(...(isRecord(box) ? unknownOptions(box, AXES, path) : []));
    if (!AXES.some((axis) => known[axis] !== undefined)) {
      faults.push(fault('emptyMove', path, { got: show(box) }));
    }
    return ([0, 1] as const).flatMap((axis) => {
      const range = known[AXES[axis]];
      if (range === undefined) return [];
      const at = `${path}.${AXES[axis]}`;
      if (
        !(Array.isArray(range) && range.length === 2 && range.every(Number.isFinite) && range[0] < range[1])
      ) {
        faults.push(fault('notAnInterval', at, { got: show(range) }));
        return [];
      }
      const [least, most] = range;
      const drawn = points[point][axis];
      if (drawn < least || drawn > most) {
        faults.push(fault('boxWithoutDrawnPoint', at, { got: show(range), drawn }));
      }
      return [{ coordinate: { point, axis }, box: { least, most } }];
    });
  });
}

function listOf<T>(path: string, list: readonly T[], code: string, faults: Diagnostic[]): readonly T[] {
  if (Array.isArray(list) && list.length > 0) return list;
  faults.push(fault(code, path, { got: show(list) }));
  return [];
}

const COUNTED = ['tolerance', 'weight'];
const EXTREMES = ['minimum', 'maximum', 'range'];

function objectiveFaults(
  path: string,
  objective: unknown,
  { from, to }: SynthesisOptions,
  faults: Diagnostic[],
): void {
  const kind = isRecord(objective)
    ? (['path', 'extreme', 'values'] as const).find((key) => key in objective)
    : undefined;
  if (!isRecord(objective) || kind === undefined) {
    faults.push(fault('notASynthesisObjective', path, { got: show(objective) }));
    return;
  }
  const { at, through, values, extreme, target, offset, tolerance, weight } = objective;
  const fields = {
    path: ['path', 'through', 'at', 'relativeTo'],
    extreme: ['quantity', 'extreme', 'target'],
    values: ['quantity', 'at', 'values', 'offset'],
  }[kind];
  faults.push(...unknownOptions(objective, [...fields, ...COUNTED], path));
  // A range that is itself at fault is no measure for the points.
  const range = Number.isFinite(from) && Number.isFinite(to) ? { from, to } : undefined;
  const precisionPoints = (count: number) => {
    const isOne = (t: number) => Number.isFinite(t) && (range === undefined || (t >= from && t <= to));
    if (Array.isArray(at) && at.length === count && at.every(isOne)) return;
    faults.push(fault('notPrecisionPoints', `${path}.at`, { got: show(at), count, ...range }));
  };
  if (kind === 'path') {
    const places = listOf(`${path}.through`, through as readonly unknown[], 'noPlaces', faults);
    places.forEach((place, k) => {
      if (!isPoint(place)) faults.push(fault('notAPoint', `${path}.through[${k}]`, { got: show(place) }));
    });
    if (at !== undefined) precisionPoints(places.length);
  } else if (kind === 'values') {
    const all = listOf(`${path}.values`, values as readonly unknown[], 'noValues', faults);
    all.forEach((value, k) => {
      if (!Number.isFinite(value))
        faults.push(fault('notFinite', `${path}.values[${k}]`, { got: show(value) }));
    });
    precisionPoints(all.length);
    if (offset !== undefined && offset !== 'free') {
      faults.push(fault('unknownChoice', `${path}.offset`, { got: show(offset), allowed: ['free'] }));
    }
  } else {
    if (!EXTREMES.includes(extreme as string)) {
      faults.push(fault('unknownChoice', `${path}.extreme`, { got: show(extreme), allowed: EXTREMES }));
    }
    if (!Number.isFinite(target)) faults.push(fault('notFinite', `${path}.target`, { got: show(target) }));
  }
  positiveFaults(path, { tolerance }, faults);
  if (weight !== undefined && !(Number.isFinite(weight) && (weight as number) >= 0)) {
    faults.push(fault('outOfRange', `${path}.weight`, { got: show(weight), min: 0 }));
  }
}

function boundsFaults(path: string, bounds: unknown, faults: Diagnostic[]): void {
  if (!isRecord(bounds)) {
    faults.push(fault('notQuantityBounds', path, { got: show(bounds) }));
    return;
  }
  faults.push(...unknownOptions(bounds, ['quantity', 'min', 'max', 'tolerance'], path));
  const { min, max, tolerance } = bounds;
  for (const [name, value] of Object.entries({ min, max })) {
    if (value !== undefined && !Number.isFinite(value)) {
      faults.push(fault('notFinite', `${path}.${name}`, { got: show(value) }));
    }
  }
  if (min === undefined && max === undefined)
    faults.push(fault('notQuantityBounds', path, { got: show(bounds) }));
  if ((min as number) >= (max as number))
    faults.push(fault('boundsNotApart', path, { got: show([min, max]) }));
  positiveFaults(path, { tolerance }, faults);
}

function positiveFaults(path: string, values: Readonly<Record<string, unknown>>, faults: Diagnostic[]): void {
  for (const [name, value] of Object.entries(values)) {
    if (value === undefined || (Number.isFinite(value) && (value as number) > 0)) continue;
    faults.push(fault('outOfRange', `${path}.${name}`, { got: show(value), above: 0 }));
  }
}
