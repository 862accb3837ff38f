// A measure is a scalar function of the pose. From the series of its form W(s), known up to order K about a pose,
// follow its own coefficients m_0 .. m_K; order 2 gives value, first and half the second derivative.
//
//   x, y     m = Re W or Im W
//   length   m^2 = N + o^2,  N = |W|^2:        2 m_0 m_k = N_k - sum_{j=1..k-1} m_j m_{k-j}
//   angle    m = arg W:  |W|^2 m' = Im(conj(W) W'):
//            k N_0 m_k = sum_{j=1..k} j Im(conj(W_{k-j}) W_j) - sum_{j=1..k-1} j m_j N_{k-j}

import { type Issue, show, throwIfAny } from '../errors.ts';
import { horner } from '../numerics/polynomial.ts';
import type { Form } from './form.ts';
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
  | { readonly x: string }
  | { readonly y: string }
  | { readonly length: readonly [string, string]; readonly offset?: number }
  | { readonly angle: readonly [string, string] }
  | { readonly turn: string };

/** How a measure is computed from its form. */
export type MeasureKind = 'x' | 'y' | 'length' | 'angle';

/** A measure bound to a system. */
export interface BoundMeasure {
  readonly kind: MeasureKind;
  readonly form: Form;
  /** The point whose place the form is, or the two between which it is the line. */
  readonly ends: readonly [number] | readonly [number, number];
  /** Value added to a computed one: minus the drawn angle for a turn. */
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
    if ('x' in measure) return coordinate('x', system, point(measure.x, `${path}.x`));
    if ('y' in measure) return coordinate('y', system, point(measure.y, `${path}.y`));
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
      return { kind: 'length', form, ends: [a, b], zero: 0, fromDrawn: false, offset, rigid: false };
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
        ends: [a, b],
        fromDrawn: turn,
        zero: turn ? -Math.atan2(form.y, form.x) : 0,
        offset: 0,
        rigid: turn || shareBody(system, a, b),
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
  return { kind, form: places[p], ends: [p], zero: 0, fromDrawn: false, offset: 0, rigid: false };
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
 * Coefficients 0 .. order of a measure, written to `out[at ..]`, from those of its form W (drawn value included) at
 * `wx[from ..]`, `wy[from ..]`. An angle comes out in (-pi, pi]; the caller continues it.
 */
export function measureSeries(
  measure: BoundMeasure,
  wx: Float64Array,
  wy: Float64Array,
  from: number,
  order: number,
  out: Float64Array,
  at: number,
): void {
  switch (measure.kind) {
    case 'x':
      for (let k = 0; k <= order; k++) out[at + k] = wx[from + k];
      return;
    case 'y':
      for (let k = 0; k <= order; k++) out[at + k] = wy[from + k];
      return;
    case 'length': {
      const { offset } = measure;
      const start = Math.sqrt(wx[from] * wx[from] + wy[from] * wy[from] + offset * offset);
      out[at] = start;
      for (let k = 1; k <= order; k++) {
        let sum = 0;
        for (let j = 0; j <= k; j++) sum += wx[from + j] * wx[from + k - j] + wy[from + j] * wy[from + k - j];
        for (let j = 1; j < k; j++) sum -= out[at + j] * out[at + k - j];
        out[at + k] = (0.5 * sum) / start;
      }
      return;
    }
    case 'angle': {
      const square = wx[from] * wx[from] + wy[from] * wy[from];
      out[at] = Math.atan2(wy[from], wx[from]);
      for (let k = 1; k <= order; k++) {
        let sum = 0;
        for (let j = 1; j <= k; j++) {
          sum += j * (wx[from + k - j] * wy[from + j] - wy[from + k - j] * wx[from + j]);
        }
        for (let j = 1; j < k; j++) {
          let norm = 0;
          for (let i = 0; i <= k - j; i++) {
            norm += wx[from + i] * wx[from + k - j - i] + wy[from + i] * wy[from + k - j - i];
          }
          sum -= j * out[at + j] * norm;
        }
        out[at + k] = sum / (k * square);
      }
      return;
    }
  }
}

/** Value of a measure where the unknowns' series z, of an order, stand at s; an angle in (-pi, pi] plus its zero. */
export function valueAt(
  { kind, form, zero, offset }: BoundMeasure,
  z: Float64Array,
  order: number,
  s: number,
): number {
  let { x, y } = form;
  for (let k = 0; k < form.free.length; k++) {
    const at = 2 * form.free[k] * (order + 1);
    const zx = horner(z, at, order, s);
    const zy = horner(z, at + order + 1, order, s);
    x += form.re[k] * zx - form.im[k] * zy;
    y += form.re[k] * zy + form.im[k] * zx;
  }
  if (kind === 'angle') return Math.atan2(y, x) + zero;
  if (kind === 'length') return Math.sqrt(x * x + y * y + offset * offset);
  return kind === 'x' ? x : y;
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
 * The same for many poses at once, to order 2 or (`derived` false) 0: coefficient k of row i of the form stands at
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
        for (let i = k * BLOCK; i < k * BLOCK + rows; i++) out[to + i] = w[from + i];
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
