// A measure is a scalar function of the pose, made of one form W. Relative to a moving body, W is first turned back with the body:
// conj(F) W takes its place, F the body's line over its drawn value, so that F = 1 as drawn and |F| = 1 throughout.

import { type Diagnostic, fault, show, unknownName } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { addForms, constantForm, type Form, isConstant } from './form.ts';
import { isRecord } from './joints.ts';
import { type Kinds, kindFaults, kindsOf } from './kinds.ts';
import { difference, type System } from './system.ts';

/**
 * What can be driven, held, bounded or read, as plain data:
 *
 * - `{ x: 'P' }`, `{ y: 'P' }`: a coordinate of a point;
 * - `{ length: ['A', 'B'] }`: distance of two points; `offset` is a constant distance out of the plane, so that the
 *   length is sqrt(planar^2 + offset^2);
 * - `{ angle: ['A', 'B'] }`: direction of the line from A to B, radians from +x, counter-clockwise positive, in
 *   (-pi, pi] as drawn and continuous from there;
 * - `{ turn: 'body' }`: rotation of a body from its drawn pose, radians, counter-clockwise positive, continuous.
 */
export type Measure<P extends string = string, B extends string = string> =
  | ({ readonly x: P } & Frame<B>)
  | ({ readonly y: P } & Frame<B>)
  | { readonly length: readonly [P, P]; readonly offset?: number }
  | ({ readonly angle: readonly [P, P] } & Frame<B>)
  | ({ readonly turn: B } & Frame<B>);

/**
 * The frame of a measure: the ground, or a moving body with the axes of the drawn pose (`relativeTo`). Relative to a body, a point has
 * the coordinates that it would have if body and point together were brought back to where the body was drawn.
 */
export interface Frame<B extends string = string> {
  readonly relativeTo?: B;
}

/** How a measure is computed from its form. */
export type MeasureKind = 'x' | 'y' | 'length' | 'angle';

/** A moving body as frame of a measure: its line over its drawn value, and the two points of that line. */
export interface MovingFrame {
  readonly form: Form;
  readonly ends: readonly [number, number];
}

/** A measure bound to a system. */
export interface BoundMeasure {
  readonly kind: MeasureKind;
  readonly form: Form;
  /** The body that it is relative to; null for the ground. */
  readonly frame: MovingFrame | null;
  /** The point whose place the form is, or the two between which it is the line. */
  readonly ends: readonly [number] | readonly [number, number];
  /** Value added to a computed one: minus the drawn angle for a turn, the drawn place of the body that it is relative to. */
  readonly zero: number;
  /** Whether it counts from the drawn pose, so that it is 0 there whatever is drawn. */
  readonly fromDrawn: boolean;
  /** Distance out of the plane, for a length. */
  readonly offset: number;
  /** Whether the form is a line of one body, so that its length is constant. */
  readonly rigid: boolean;
  /** What changes are measured by where that is no length: an angle by a radian, a parameter by its range; else null. */
  readonly unit: number | null;
}

/**
 * Binds a measure to a system.
 *
 * @throws InputError for an unknown kind, key, point or body, two kinds in one, or a direction between coincident points.
 */
export function bindMeasure(system: System, measure: Measure, path: string): BoundMeasure {
  refuse('measure', measureFaults(measure, path));
  const faults: Diagnostic[] = [];
  const { index } = system.structure;
  const point = (name: unknown, at: string): number => {
    const p = index.get(name as string);
    if (p !== undefined) return p;
    faults.push(unknownName(at, 'point', name, [...index.keys()]));
    return 0;
  };
  const bound = bind(system, measure, path, point, faults);
  refuse('measure', faults);
  return bound;
}

function bind(
  system: System,
  measure: Measure,
  path: string,
  point: (name: unknown, at: string) => number,
  faults: Diagnostic[],
): BoundMeasure {
  const relativeTo = 'relativeTo' in measure ? measure.relativeTo : undefined;
  const from =
    relativeTo === undefined ? null : basicPoints(system, relativeTo, `${path}.relativeTo`, faults);
  const frame = from === null ? null : frameOf(system, from);
  if ('x' in measure || 'y' in measure) {
    const kind = 'x' in measure ? 'x' : 'y';
    const p = point('x' in measure ? measure.x : measure.y, `${path}.${kind}`);
    if (from === null || frame === null) return coordinate(kind, system, p);
    const [a] = from;
    return { ...plain(kind, difference(system, a, p), [a, p]), frame, zero: system.places[a][kind] };
  }
  if ('length' in measure) {
    const { length, offset = 0 } = measure;
    if (!Number.isFinite(offset)) {
      faults.push(fault('notFinite', `${path}.offset`, { got: show(offset) }));
    }
    const [a, b] = [point(length[0], `${path}.length[0]`), point(length[1], `${path}.length[1]`)];
    return { ...plain('length', difference(system, a, b), [a, b]), offset };
  }
  const turn = 'turn' in measure;
  const [a, b] = turn
    ? basicPoints(system, measure.turn, `${path}.turn`, faults)
    : [point(measure.angle[0], `${path}.angle[0]`), point(measure.angle[1], `${path}.angle[1]`)];
  const form = difference(system, a, b);
  if (form.x === 0 && form.y === 0 && faults.length === 0) {
    faults.push(fault('coincidentPoints', path, { of: 'direction', got: show(measure) }));
  }
  return {
    ...plain('angle', form, [a, b]),
    frame,
    zero: turn ? -Math.atan2(form.y, form.x) : 0,
    fromDrawn: turn,
    rigid: frame === null && (turn || shareBody(system, a, b)),
  };
}

/** Kinds of measure. */
const MEASURES: Kinds = {
  x: ['relativeTo'],
  y: ['relativeTo'],
  length: ['offset'],
  angle: ['relativeTo'],
  turn: ['relativeTo'],
};

/** What keeps a value from being a measure of any drawing. */
export function measureFaults(measure: unknown, path: string): Diagnostic[] {
  if (!isRecord(measure)) return [fault('unknownMeasure', path, { got: show(measure) })];
  if (kindsOf(measure, MEASURES).length === 0) {
    return [fault('unknownMeasure', path, { got: show(measure) })];
  }
  const faults = kindFaults('measure', measure, MEASURES, path);
  for (const kind of ['length', 'angle']) {
    const ends = measure[kind];
    if (!(kind in measure) || (Array.isArray(ends) && ends.length === 2)) continue;
    faults.push(fault('notAPair', `${path}.${kind}`, { got: show(ends) }));
  }
  return faults;
}

/** A coordinate of a point by its index. */
export function coordinate(kind: 'x' | 'y', { places }: System, p: number): BoundMeasure {
  return plain(kind, places[p], [p]);
}

/** A parameter that is an unknown of its own, the one of that index: `drawn` as drawn, and over `span` in all. */
export function parameterMeasure(
  index: number,
  drawn: number,
  perUnknown: number,
  span: number,
): BoundMeasure {
  const [re, im] = index % 2 === 0 ? [perUnknown, 0] : [0, -perUnknown];
  return { ...plain('x', { x: drawn, y: 0, free: [index >> 1], re: [re], im: [im] }, [0]), unit: span };
}

function plain(kind: MeasureKind, form: Form, ends: BoundMeasure['ends']): BoundMeasure {
  return {
    kind,
    form,
    ends,
    frame: null,
    zero: 0,
    fromDrawn: false,
    offset: 0,
    rigid: false,
    unit: kind === 'angle' ? 1 : null,
  };
}

/** The body whose line is between two points; null for one that never moves. */
function frameOf(system: System, ends: readonly [number, number]): MovingFrame | null {
  const line = difference(system, ...ends);
  if (isConstant(line)) return null;
  const square = line.x * line.x + line.y * line.y;
  const form = addForms(constantForm(0, 0), line, line.x / square, -line.y / square, 1, 0);
  return { form, ends };
}

function shareBody({ structure }: System, a: number, b: number): boolean {
  if (structure.fixed[a] && structure.fixed[b]) return true;
  for (const { points } of structure.bodies.values())
    if (points.includes(a) && points.includes(b)) return true;
  return false;
}

function basicPoints(
  { structure: { bodies } }: System,
  name: string,
  path: string,
  faults: Diagnostic[],
): [number, number] {
  const body = bodies.get(name);
  if (body !== undefined) return [body.a, body.b];
  faults.push(unknownName(path, 'body', name, [...bodies.keys()]));
  return [0, 0];
}

/** x and y of each place of a system. */
export function coordinates(system: System): BoundMeasure[] {
  return system.places.flatMap((_, p) => [coordinate('x', system, p), coordinate('y', system, p)]);
}
