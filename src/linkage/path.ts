// A path is the row of its pieces: each a power series of the local arc length about its own pose (series.ts), good
// over [lo, hi], with the parameter t as a series beside it. Pieces are laid outward from the drawn pose, both ways.
// A dead point of the parameter is where dt/ds = 0 inside a piece: a root of a polynomial, not a failure.

import { borderedSign } from '../numerics/elimination.ts';
import { derivative, horner, revert, rootBetween, roots } from '../numerics/polynomial.ts';
import { applyForms, type Forms, packForms } from './form.ts';
import { type BoundMeasure, measureSeries } from './measure.ts';
import {
  accept,
  type Expander,
  expand,
  factorise,
  ORDER,
  poseAt,
  reach,
  STRIDE,
  tangentAt,
} from './series.ts';
import type { System } from './system.ts';

/**
 * How the motion ends on one side:
 *
 * - `reached`: at the value asked for;
 * - `deadPoint`: the driver can go no farther, though the linkage can move on by other means (dt/ds = 0);
 * - `closed`: the motion came home to the drawn pose;
 * - `locked`: constraints that hold in the drawn pose contradict each other farther on; `row` and `miss` say which;
 * - `undetermined`: the linkage gains a freedom here (a bifurcation): how it goes on is not determined;
 * - `gaveUp`: more than the permitted number of pieces.
 */
export type EndKind = 'reached' | 'deadPoint' | 'closed' | 'locked' | 'undetermined' | 'gaveUp';

/** One end of a motion. */
export interface End {
  /** Value of the driver there. */
  readonly at: number;
  readonly how: EndKind;
  /** For `locked`: what does not hold, in the drawing's names. */
  readonly row?: string;
}

/** A stretch of the motion. */
export interface Piece {
  /** Arc length from the drawn pose at local 0. */
  readonly origin: number;
  /** Local range, lo <= 0 <= hi. */
  readonly lo: number;
  readonly hi: number;
  /** Parameter at lo. */
  readonly start: number;
  /** Series of the unknowns, contiguous per unknown. */
  readonly z: Float64Array;
  /** Series of the parameter. */
  readonly t: Float64Array;
  /** Inverse of that series to a lower order: local arc length by the parameter's distance from `t[0]`. */
  readonly inverse: Float64Array;
}

/** Pieces in order of the parameter, which grows along them, and how they end. */
export interface Path {
  readonly system: System;
  readonly pieces: readonly Piece[];
  readonly low: End;
  readonly high: End;
}

/** The parameter of a path: a measure, or the arc length itself. */
export interface Parameter {
  readonly measure: BoundMeasure | null;
  readonly forms: Forms;
  /** Workspace: the series of the measure's form. */
  readonly wx: Float64Array;
  readonly wy: Float64Array;
}

/** Most pieces on one side: far beyond any closed loop. */
const MOST_PIECES = 20_000;
/** The drawn pose counts as a dead point when dt/ds is below this, in units of the driver per size. */
const STILL = 1e-9;
/** Home is where the pose differs from the drawn one by less than this share of the size. */
const HOME = 1e-9;

/** A parameter bound to its own form. */
export function parameter(measure: BoundMeasure | null): Parameter {
  const forms = packForms(measure === null ? [] : [measure.form]);
  return { measure, forms, wx: new Float64Array(STRIDE), wy: new Float64Array(STRIDE) };
}

/** The whole series of forms (drawn values included) from those of the unknowns. */
export function formSeries(forms: Forms, z: Float64Array, wx: Float64Array, wy: Float64Array): void {
  applyForms(forms, z, STRIDE, 0, ORDER, wx, wy);
  for (let f = 0; f < forms.count; f++) {
    wx[f * STRIDE] += forms.d[2 * f];
    wy[f * STRIDE] += forms.d[2 * f + 1];
  }
}

/** Value of a measure at local arc length s; an angle in (-pi, pi] plus its zero. */
export function valueAt({ kind, form, zero, offset }: BoundMeasure, z: Float64Array, s: number): number {
  let { x, y } = form;
  for (let k = 0; k < form.free.length; k++) {
    const at = 2 * form.free[k] * STRIDE;
    const zx = horner(z, at, ORDER, s);
    const zy = horner(z, at + STRIDE, ORDER, s);
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

/** Why there is no path from the drawn pose: not one freedom, or a parameter that the motion does not change. */
export type NoPath = { readonly fault: 'freedoms' } | { readonly fault: 'still' };

/** Lays pieces from the drawn pose until the parameter is `from` on one side and `to` on the other, or ends before. */
export function layPath(e: Expander, by: Parameter, from: number, to: number): Path | NoPath {
  const { system } = e;
  const pose = new Float64Array(system.unknowns);
  if (expand(e, pose, null) !== 1) return { fault: 'freedoms' };
  const t = parameterSeries(e, by, null);
  if (isStill(t, by, reach(e, null), system.size)) return { fault: 'still' };
  if (t[1] < 0) {
    flip(e.z);
    flip(t);
  }
  const z = e.z.slice();
  const drawn = { z, t, inverse: inverseOf(t) };
  if (t[1] <= STILL * unitOf(by, system.size)) {
    const end: End = { at: t[0], how: 'deadPoint' };
    return { system, pieces: [{ origin: 0, lo: 0, hi: 0, start: t[0], ...drawn }], low: end, high: end };
  }
  const first = reach(e, t);
  const home = Number.isFinite(from) || Number.isFinite(to) ? null : tangentOf(z, system.unknowns);
  const mark = markOf(e, tangentOf(z, system.unknowns));

  const up = layOutward(e, by, drawn, first, mark, 1, to, home);
  if (up.end.how === 'closed') {
    return { system, pieces: up.pieces, low: { at: t[0], how: 'closed' }, high: up.end };
  }
  const down = layOutward(e, by, drawn, first, mark, -1, from, home);
  const pieces = down.pieces.slice(1).reverse();
  pieces.push({ ...down.pieces[0], hi: up.pieces[0].hi });
  pieces.push(...up.pieces.slice(1));
  return { system, pieces, low: down.end, high: up.end };
}

function layOutward(
  e: Expander,
  by: Parameter,
  drawn: Pick<Piece, 'z' | 't' | 'inverse'>,
  first: number,
  drawnMark: string,
  way: 1 | -1,
  target: number,
  home: Float64Array | null,
): { pieces: Piece[]; end: End } {
  const { system } = e;
  const pieces: Piece[] = [];
  const pose = new Float64Array(system.unknowns);
  const along = new Float64Array(system.unknowns);
  let { z, t, inverse } = drawn;
  let origin = 0;
  let step = first;
  let mark = drawnMark;
  for (;;) {
    const held = accept(e, z, way * step, pose);
    const end = acceptParameter(by, z, t, held, system.size);
    let stop = end;
    let how: EndKind | null =
      held === 0 ? 'locked' : end === 0 || vanishes(by, t, end, system.size) ? 'deadPoint' : null;
    const locked = system.structure.rows[e.worstRow]?.name;
    const event = eventIn(t, way, end, target);
    if (event !== null) ({ s: stop, how } = event);
    const comesHome = home === null || pieces.length === 0 ? null : homeIn(z, home, way, end, system.size);
    if (comesHome !== null && Math.abs(comesHome) <= Math.abs(stop)) {
      stop = comesHome;
      how = 'closed';
    }
    const turned = turnedIn(e, z, mark, stop, pose, along);
    if (turned !== null) {
      stop = turned;
      how = 'undetermined';
    }
    const at = how === 'reached' ? target : horner(t, 0, ORDER, stop);
    const [lo, hi] = way > 0 ? [0, stop] : [stop, 0];
    pieces.push({ origin, lo, hi, start: way > 0 ? t[0] : at, z, t, inverse });
    if (how === 'locked') return { pieces, end: { at, how, row: locked } };
    if (how !== null) return { pieces, end: { at, how } };
    if (pieces.length === MOST_PIECES) return { pieces, end: { at, how: 'gaveUp' } };

    tangentAt(z, stop, along);
    poseAt(z, stop, pose);
    if (expand(e, pose, along) !== 1 || reach(e, null) < KINK * system.size) {
      return { pieces, end: { at, how: 'undetermined' } };
    }
    mark = markOf(e, e.tangent);
    origin += stop;
    z = e.z.slice();
    t = parameterSeries(e, by, at);
    inverse = inverseOf(t);
    step = reach(e, t);
  }
}

/** A length that is down to this share of the size has come to nothing: it can grow again, but get no shorter. */
const NOTHING = 1e-11;

function vanishes({ measure }: Parameter, t: Float64Array, s: number, size: number): boolean {
  return measure?.kind === 'length' && measure.offset === 0 && horner(t, 0, ORDER, s) <= NOTHING * size;
}

/** Difference between a parameter and its series at the end of a piece that is no rounding, in its unit and size. */
const ASTRAY = 1e-10;

/** The part of a step s at whose end the parameter is what its series says, found by halving. */
function acceptParameter(by: Parameter, z: Float64Array, t: Float64Array, s: number, size: number): number {
  const { measure } = by;
  if (measure === null || measure.kind === 'x' || measure.kind === 'y') return s;
  let step = s;
  while (step !== 0) {
    const told = horner(t, 0, ORDER, step);
    const value = valueAt(measure, z, step);
    const exact = measure.kind === 'angle' ? unwrap(value, told) : value;
    if (Math.abs(exact - told) <= ASTRAY * size * unitOf(by, size)) return step;
    step = Math.abs(step) < 1e-12 * size ? 0 : 0.5 * step;
  }
  return step;
}

/**
 * Where branches cross, rounding joins them by kinks of about its root: a motion whose series reaches no farther than
 * this share of the size has met such a place.
 */
const KINK = 3e-7;
/** First distance, as a share of the size, at which rank is looked for beyond a place where it is missing. */
const NEARBY = 1e-9;
/** Halvings that locate a bifurcation in a piece. */
const LOCATING = 50;

/**
 * Where in a piece, between local 0 and `stop`, the bordered determinant changes its sign: there a second branch of the
 * motion crosses this one (a bifurcation), and how it goes on is not determined. `mark` is that of local 0;
 * `pose` and `along` are workspace.
 */
function turnedIn(
  e: Expander,
  z: Float64Array,
  mark: string,
  stop: number,
  pose: Float64Array,
  along: Float64Array,
): number | null {
  if (stop === 0) return null;
  const markAt = (s: number) => {
    poseAt(z, s, pose);
    tangentAt(z, s, along);
    factorise(e, pose);
    return markOf(e, along);
  };
  if (!opposite(markAt(stop), mark)) return null;
  // Near the place rank is missing for a little way: the place is in the middle of that.
  const near = lastOf((s) => !opposite(markAt(s), mark), 0, stop);
  let beyond = stop;
  for (let far = NEARBY; far < 1 && markAt(beyond)[0] === '0'; far *= 2) {
    beyond = stop + Math.sign(stop) * far * e.system.size;
  }
  const far = lastOf((s) => markAt(s)[0] !== '0', beyond, near);
  return 0.5 * (near + far);
}

/** The end of the part from `from` towards `to` in which something holds, as it does at `from`, by halving. */
function lastOf(holds: (s: number) => boolean, from: number, to: number): number {
  let inside = from;
  let outside = to;
  for (let round = 0; round < LOCATING; round++) {
    const middle = 0.5 * (inside + outside);
    if (holds(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}

/** The dependent rows of the last elimination and the sign of the determinant bordered by the tangent: `+ 3 7`. */
function markOf({ elimination }: Expander, tangent: Float64Array): string {
  let mark = ['-', '0', '+'][borderedSign(elimination, tangent) + 1];
  const { pivotColumn } = elimination;
  for (let i = 0; i < pivotColumn.length; i++) if (pivotColumn[i] < 0) mark += ` ${i}`;
  return mark;
}

/** Whether the sign has changed; between different dependent rows it can't be told. */
function opposite(mark: string, before: string): boolean {
  if (mark[0] === '0') return true;
  return mark[0] !== before[0] && mark.slice(1) === before.slice(1);
}

/** Order of the inverse series: a start for Newton, near enough in most of a piece for a single correction. */
const INVERSE_ORDER = 10;

function inverseOf(t: Float64Array): Float64Array {
  const inverse = new Float64Array(INVERSE_ORDER + 1);
  revert(t, inverse);
  return inverse;
}

/** Series of the parameter about the expander's present pose; an angle is continued from `near`. */
function parameterSeries(e: Expander, by: Parameter, near: number | null): Float64Array {
  const t = new Float64Array(STRIDE);
  if (by.measure === null) {
    arcLength(e, near ?? 0, t);
    return t;
  }
  formSeries(by.forms, e.z, by.wx, by.wy);
  measureSeries(by.measure, by.wx, by.wy, 0, ORDER, t, 0);
  t[0] += by.measure.zero;
  if (near !== null && by.measure.kind === 'angle') t[0] = unwrap(t[0], near);
  return t;
}

/** Arc length from `start`: dt/ds = v with v^2 = |z'|^2, so that 2 v_0 v_m = [|z'|^2]_m - sum_{j=1..m-1} v_j v_{m-j}. */
function arcLength({ z }: Expander, start: number, t: Float64Array): void {
  const v = new Float64Array(ORDER);
  for (let m = 0; m < ORDER; m++) {
    let square = 0;
    for (let i = 0; i < z.length; i += STRIDE) {
      for (let j = 0; j <= m; j++) square += (j + 1) * z[i + j + 1] * (m - j + 1) * z[i + m - j + 1];
    }
    for (let j = 1; j < m; j++) square -= v[j] * v[m - j];
    v[m] = m === 0 ? Math.sqrt(square) : square / (2 * v[0]);
    t[m + 1] = v[m] / (m + 1);
  }
  t[0] = start;
}

/** Change over its first terms, in its unit and size, below which a parameter does not change at all. */
const UNCHANGED = 1e-11;

function isStill(t: Float64Array, by: Parameter, reach: number, size: number): boolean {
  let change = 0;
  for (let k = ORDER; k >= 1; k--) change = (change + Math.abs(t[k])) * reach;
  return !(change > UNCHANGED * size * unitOf(by, size));
}

/** What a rate of the parameter by arc length is measured in. */
function unitOf({ measure }: Parameter, size: number): number {
  return measure?.kind === 'angle' ? 1 / size : 1;
}

/** What the parameter meets first between local 0 and `end`: the target, or a dead point. */
function eventIn(
  t: Float64Array,
  way: 1 | -1,
  end: number,
  target: number,
): { s: number; how: 'reached' | 'deadPoint' } | null {
  if (way * (t[0] - target) >= 0) return { s: 0, how: 'reached' };
  if (t[1] <= 0) return { s: 0, how: 'deadPoint' };
  const dead = firstRoot(derivative(t), way, end);
  // Up to there t grows steadily, so that it meets the target once or not at all.
  const last = dead ?? end;
  if (way * (horner(t, 0, ORDER, last) - target) >= 0) {
    const hit = way > 0 ? rootBetween(t, target, 0, last) : rootBetween(t, target, last, 0);
    return { s: hit, how: 'reached' };
  }
  return dead === null ? null : { s: dead, how: 'deadPoint' };
}

/** The root nearest to 0 between 0 and `end`. */
function firstRoot(c: Float64Array, way: 1 | -1, end: number): number | null {
  const found = way > 0 ? roots(c, 0, end) : roots(c, end, 0);
  return (way > 0 ? found[0] : found[found.length - 1]) ?? null;
}

/** Where in a piece the motion passes the drawn pose in the drawn sense, if it does. */
function homeIn(z: Float64Array, home: Float64Array, way: 1 | -1, end: number, size: number): number | null {
  const along = new Float64Array(STRIDE);
  for (let i = 0; i < home.length; i++) {
    for (let k = 0; k <= ORDER; k++) along[k] += home[i] * z[i * STRIDE + k];
  }
  const s = firstRoot(along, way, end);
  if (s === null) return null;
  for (let i = 0; i < home.length; i++) {
    if (Math.abs(horner(z, i * STRIDE, ORDER, s)) > HOME * size) return null;
  }
  return s;
}

function tangentOf(z: Float64Array, unknowns: number): Float64Array {
  const tangent = new Float64Array(unknowns);
  for (let i = 0; i < unknowns; i++) tangent[i] = z[i * STRIDE + 1];
  return tangent;
}

/** Reverses the sense of the arc length. */
function flip(series: Float64Array): void {
  for (let q = 0; q < series.length; q += STRIDE) {
    for (let k = 1; k <= ORDER; k += 2) series[q + k] = -series[q + k];
  }
}
