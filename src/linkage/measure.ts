// A measure is a scalar function of the pose. From the series of its form W(s), known up to order K about a pose,
// follow its own coefficients m_0 .. m_K; order 2 gives value, first and half the second derivative.
//
//   x, y     m = Re W or Im W
//   length   m^2 = N + o^2,  N = |W|^2:        2 m_0 m_k = N_k - sum_{j=1..k-1} m_j m_{k-j}
//   angle    m = arg W:  |W|^2 m' = Im(conj(W) W'):
//            k N_0 m_k = sum_{j=1..k} j Im(conj(W_{k-j}) W_j) - sum_{j=1..k-1} j m_j N_{k-j}
//
// Seen from a moving body, W is first turned back with it: conj(F) W takes its place, F the body's line over its drawn
// value, so that F = 1 as drawn and |F| = 1 throughout.

import { type Issue, show, throwIfAny } from '../errors.ts';
import { horner } from '../numerics/polynomial.ts';
import { addForms, constantForm, type Form, isConstant } from './form.ts';
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
export type Measure =
  | ({ readonly x: string } & Seen)
  | ({ readonly y: string } & Seen)
  | { readonly length: readonly [string, string]; readonly offset?: number }
  | ({ readonly angle: readonly [string, string] } & Seen)
  | ({ readonly turn: string } & Seen);

/**
 * `seenFrom` a moving body: as somebody who rides on it sees it, in the axes of the drawn pose. The coordinates of a point
 * are those it would have if the body were brought back to where it was drawn, with all else in its place about it.
 */
export interface Seen {
  readonly seenFrom?: string;
}

/** How a measure is computed from its form. */
export type MeasureKind = 'x' | 'y' | 'length' | 'angle';

/** A moving body from which something is seen: its line over its drawn value, and the points between which that is. */
export interface Frame {
  readonly form: Form;
  readonly ends: readonly [number, number];
}

/** A measure bound to a system. */
export interface BoundMeasure {
  readonly kind: MeasureKind;
  readonly form: Form;
  /** The body from which it is seen; null for the ground. */
  readonly frame: Frame | null;
  /** The point whose place the form is, or the two between which it is the line. */
  readonly ends: readonly [number] | readonly [number, number];
  /** Value added to a computed one: minus the drawn angle for a turn, the drawn place of the body seen from. */
  readonly zero: number;
  /** Whether it counts from the drawn pose, so that it is 0 there whatever is drawn. */
  readonly fromDrawn: boolean;
  /** Distance out of the plane, for a length. */
  readonly offset: number;
  /** Whether the form is a line of one body, so that its length is constant. */
  readonly rigid: boolean;
}

/**
 * Binds a measure to a system.
 *
 * @throws InputError for an unknown kind, point or body, or a direction between coincident points.
 */
export function bindMeasure(system: System, measure: Measure, path: string): BoundMeasure {
  const issues: Issue[] = [];
  const point = (name: unknown, at: string): number => {
    const p = system.structure.index.get(name as string);
    if (p !== undefined) return p;
    issues.push({
      path: at,
      problem: 'unknown point',
      got: show(name),
      allowed: [...system.structure.index.keys()].join(', '),
      advice: 'correct the name or add the point to the drawing',
    });
    return 0;
  };
  const bound = bind(system, measure, path, point, issues);
  throwIfAny('measure', issues);
  return bound as BoundMeasure;
}

function bind(
  system: System,
  measure: Measure,
  path: string,
  point: (name: unknown, at: string) => number,
  issues: Issue[],
): BoundMeasure | undefined {
  if (typeof measure === 'object' && measure !== null) {
    const seenFrom = 'seenFrom' in measure ? measure.seenFrom : undefined;
    const from = seenFrom === undefined ? null : basicPoints(system, seenFrom, `${path}.seenFrom`, issues);
    const frame = from === null ? null : frameOf(system, from);
    if ('x' in measure || 'y' in measure) {
      const kind = 'x' in measure ? 'x' : 'y';
      const p = point('x' in measure ? measure.x : measure.y, `${path}.${kind}`);
      const plain = coordinate(kind, system, p);
      if (from === null || frame === null) return plain;
      const [a] = from;
      return { ...plain, form: difference(system, a, p), ends: [a, p], frame, zero: system.places[a][kind] };
    }
    if ('length' in measure) {
      const { length, offset = 0 } = measure;
      if (!Number.isFinite(offset)) {
        issues.push({
          path: `${path}.offset`,
          problem: 'not a length',
          got: show(offset),
          allowed: 'a finite number',
        });
      }
      const [a, b] = [point(length[0], `${path}.length[0]`), point(length[1], `${path}.length[1]`)];
      const form = difference(system, a, b);
      return {
        kind: 'length',
        form,
        frame: null,
        ends: [a, b],
        zero: 0,
        fromDrawn: false,
        offset,
        rigid: false,
      };
    }
    if ('angle' in measure || 'turn' in measure) {
      const turn = 'turn' in measure;
      const [a, b] = turn
        ? basicPoints(system, measure.turn, `${path}.turn`, issues)
        : [point(measure.angle[0], `${path}.angle[0]`), point(measure.angle[1], `${path}.angle[1]`)];
      const form = difference(system, a, b);
      if (form.x === 0 && form.y === 0 && issues.length === 0) {
        issues.push({
          path,
          problem: 'direction between two points in one place',
          got: show(measure),
          advice: 'name two points that lie apart',
        });
      }
      return {
        kind: 'angle',
        form,
        frame,
        ends: [a, b],
        fromDrawn: turn,
        zero: turn ? -Math.atan2(form.y, form.x) : 0,
        offset: 0,
        rigid: frame === null && (turn || shareBody(system, a, b)),
      };
    }
  }
  issues.push({
    path,
    problem: 'unknown measure',
    got: show(measure),
    allowed: '{ x }, { y }, { length: [a, b] }, { angle: [a, b] }, { turn: body }',
  });
  return undefined;
}

/** A coordinate of a point by its index. */
export function coordinate(kind: 'x' | 'y', { places }: System, p: number): BoundMeasure {
  return {
    kind,
    form: places[p],
    frame: null,
    ends: [p],
    zero: 0,
    fromDrawn: false,
    offset: 0,
    rigid: false,
  };
}

/** The body whose line is between two points; null for one that never moves. */
function frameOf(system: System, ends: readonly [number, number]): Frame | null {
  const line = difference(system, ...ends);
  if (isConstant(line)) return null;
  const square = line.x * line.x + line.y * line.y;
  const form = addForms(constantForm(0, 0), line, line.x / square, -line.y / square, 1, 0);
  return { form, ends };
}

/** The forms of a measure, to be packed: its own, and that of the body from which it is seen. */
export function formsOf({ form, frame }: BoundMeasure): Form[] {
  return frame === null ? [form] : [form, frame.form];
}

function shareBody({ structure }: System, a: number, b: number): boolean {
  if (structure.fixed[a] && structure.fixed[b]) return true;
  for (const { points } of structure.bodies.values())
    if (points.includes(a) && points.includes(b)) return true;
  return false;
}

function basicPoints(system: System, name: string, path: string, issues: Issue[]): [number, number] {
  const body = system.structure.bodies.get(name);
  if (body !== undefined) return [body.a, body.b];
  issues.push({
    path,
    problem: 'unknown body',
    got: show(name),
    allowed: [...system.structure.bodies.keys()].join(', '),
    advice: 'correct the name or add the body to the drawing',
  });
  return [0, 0];
}

/**
 * Coefficients 0 .. order of a measure, written to `out[at ..]`, from those of its forms (`formsOf`, drawn values
 * included), one behind the other in `wx`, `wy`, which are overwritten. An angle comes out in (-pi, pi]; the caller
 * continues it.
 */
export function measureSeries(
  measure: BoundMeasure,
  wx: Float64Array,
  wy: Float64Array,
  order: number,
  out: Float64Array,
): void {
  if (measure.frame !== null) turnBack(wx, wy, order);
  switch (measure.kind) {
    case 'x':
      for (let k = 0; k <= order; k++) out[k] = wx[k];
      return;
    case 'y':
      for (let k = 0; k <= order; k++) out[k] = wy[k];
      return;
    case 'length': {
      const { offset } = measure;
      const start = Math.sqrt(wx[0] * wx[0] + wy[0] * wy[0] + offset * offset);
      out[0] = start;
      for (let k = 1; k <= order; k++) {
        let sum = 0;
        for (let j = 0; j <= k; j++) sum += wx[j] * wx[k - j] + wy[j] * wy[k - j];
        for (let j = 1; j < k; j++) sum -= out[j] * out[k - j];
        out[k] = (0.5 * sum) / start;
      }
      return;
    }
    case 'angle': {
      const square = wx[0] * wx[0] + wy[0] * wy[0];
      out[0] = Math.atan2(wy[0], wx[0]);
      for (let k = 1; k <= order; k++) {
        let sum = 0;
        for (let j = 1; j <= k; j++) {
          sum += j * (wx[k - j] * wy[j] - wy[k - j] * wx[j]);
        }
        for (let j = 1; j < k; j++) {
          let norm = 0;
          for (let i = 0; i <= k - j; i++) {
            norm += wx[i] * wx[k - j - i] + wy[i] * wy[k - j - i];
          }
          sum -= j * out[j] * norm;
        }
        out[k] = sum / (k * square);
      }
      return;
    }
  }
}

/** The series conj(F) W in place of that of W, F standing behind it. */
function turnBack(wx: Float64Array, wy: Float64Array, order: number): void {
  const f = order + 1;
  for (let k = order; k >= 0; k--) {
    let x = 0;
    let y = 0;
    for (let j = 0; j <= k; j++) {
      x += wx[f + j] * wx[k - j] + wy[f + j] * wy[k - j];
      y += wx[f + j] * wy[k - j] - wy[f + j] * wx[k - j];
    }
    wx[k] = x;
    wy[k] = y;
  }
}

/** Value of a measure where the unknowns' series z, of an order, stand at s; an angle in (-pi, pi] plus its zero. */
export function valueAt(
  { kind, form, frame, zero, offset }: BoundMeasure,
  z: Float64Array,
  order: number,
  s: number,
): number {
  let [x, y] = formAt(form, z, order, s);
  if (frame !== null) {
    const [fx, fy] = formAt(frame.form, z, order, s);
    [x, y] = [fx * x + fy * y, fx * y - fy * x];
  }
  if (kind === 'angle') return Math.atan2(y, x) + zero;
  if (kind === 'length') return Math.sqrt(x * x + y * y + offset * offset);
  return (kind === 'x' ? x : y) + zero;
}

function formAt({ x, y, free, re, im }: Form, z: Float64Array, order: number, s: number): [number, number] {
  let wx = x;
  let wy = y;
  for (let k = 0; k < free.length; k++) {
    const at = 2 * free[k] * (order + 1);
    const zx = horner(z, at, order, s);
    const zy = horner(z, at + order + 1, order, s);
    wx += re[k] * zx - im[k] * zy;
    wy += re[k] * zy + im[k] * zx;
  }
  return [wx, wy];
}

/** `value` plus the whole turns that bring it nearest to `near`. */
export function unwrap(value: number, near: number): number {
  return value + 2 * Math.PI * Math.round((near - value) / (2 * Math.PI));
}

/** Rows of a block of readings. */
export const BLOCK = 128;
/** Taylor coefficients kept of a reading: orders 0, 1, 2. */
export const KEPT = 3;

/**
 * conj(F) W for many poses at once, to order 2 or (`derived` false) 0, written to `outX`, `outY`: coefficient k of row i of W
 * stands at `wx[from + k * BLOCK + i]`, that of F at `frame` in place of `from`.
 */
export function turnBackBlock(
  wx: Float64Array,
  wy: Float64Array,
  from: number,
  frame: number,
  derived: boolean,
  rows: number,
  outX: Float64Array,
  outY: Float64Array,
): void {
  for (let k = 0; k < (derived ? KEPT : 1); k++) {
    for (let i = 0; i < rows; i++) {
      let x = 0;
      let y = 0;
      for (let j = 0; j <= k; j++) {
        const f = frame + j * BLOCK + i;
        const w = from + (k - j) * BLOCK + i;
        x += wx[f] * wx[w] + wy[f] * wy[w];
        y += wx[f] * wy[w] - wy[f] * wx[w];
      }
      outX[k * BLOCK + i] = x;
      outY[k * BLOCK + i] = y;
    }
  }
}

/**
 * A measure for many poses at once, to order 2 or (`derived` false) 0: coefficient k of row i of its form stands at
 * `wx[from + k * BLOCK + i]`, and that of the measure at `out[to + k * BLOCK + i]`.
 */
export function measureBlock(
  measure: BoundMeasure,
  wx: Float64Array,
  wy: Float64Array,
  from: number,
  derived: boolean,
  rows: number,
  out: Float64Array,
  to: number,
): void {
  switch (measure.kind) {
    case 'x':
    case 'y': {
      const w = measure.kind === 'x' ? wx : wy;
      for (let k = 0; k < (derived ? KEPT : 1); k++) {
        const zero = k === 0 ? measure.zero : 0;
        for (let i = k * BLOCK; i < k * BLOCK + rows; i++) out[to + i] = w[from + i] + zero;
      }
      return;
    }
    case 'length':
      lengthBlock(measure.offset, wx, wy, from, derived, rows, out, to);
      return;
    case 'angle':
      angleBlock(measure.zero, wx, wy, from, derived, rows, out, to);
      return;
  }
}

function lengthBlock(
  offset: number,
  wx: Float64Array,
  wy: Float64Array,
  from: number,
  derived: boolean,
  rows: number,
  out: Float64Array,
  to: number,
): void {
  const square = offset * offset;
  for (let i = 0; i < rows; i++) {
    const q = from + i;
    const x = wx[q];
    const y = wy[q];
    const length = Math.sqrt(x * x + y * y + square);
    out[to + i] = length;
    if (!derived) continue;
    const x1 = wx[q + BLOCK];
    const y1 = wy[q + BLOCK];
    const first = (x * x1 + y * y1) / length;
    const bend = x * wx[q + 2 * BLOCK] + y * wy[q + 2 * BLOCK];
    out[to + BLOCK + i] = first;
    out[to + 2 * BLOCK + i] = (0.5 * (x1 * x1 + y1 * y1 - first * first) + bend) / length;
  }
}

function angleBlock(
  zero: number,
  wx: Float64Array,
  wy: Float64Array,
  from: number,
  derived: boolean,
  rows: number,
  out: Float64Array,
  to: number,
): void {
  for (let i = 0; i < rows; i++) {
    const q = from + i;
    const x = wx[q];
    const y = wy[q];
    out[to + i] = Math.atan2(y, x) + zero;
    if (!derived) continue;
    const x1 = wx[q + BLOCK];
    const y1 = wy[q + BLOCK];
    const norm = x * x + y * y;
    const first = (x * y1 - y * x1) / norm;
    const bend = x * wy[q + 2 * BLOCK] - y * wx[q + 2 * BLOCK];
    out[to + BLOCK + i] = first;
    out[to + 2 * BLOCK + i] = (bend - first * (x * x1 + y * y1)) / norm;
  }
}
