// A path is the row of its pieces: each a power series of the local arc length about its own pose (series.ts), good
// over [lo, hi], with the parameter t as a series beside it. Pieces are laid outward from the drawn pose, both ways.
// A dead point of the parameter is where dt/ds = 0 inside a piece: a root of a polynomial, not a failure.

import { derivative, horner, revert, rootBetween, roots } from '../numerics/polynomial.ts';
import { applyForms, type Forms, packForms } from './form.ts';
import { type BoundMeasure, measureSeries } from './measure.ts';
import { accept, type Expander, expand, ORDER, poseAt, reach, STRIDE, tangentAt } from './series.ts';
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

/** `value` plus the whole turns that bring it nearest to `near`. */
export function unwrap(value: number, near: number): number {
  return value + 2 * Math.PI * Math.round((near - value) / (2 * Math.PI));
}

/** What the expansion about the drawn pose found: number of freedoms, when that isn't one. */
export interface NoPath {
  readonly freedoms: number;
}

/** Lays pieces from the drawn pose until the parameter is `from` on one side and `to` on the other, or ends before. */
export function layPath(e: Expander, by: Parameter, from: number, to: number): Path | NoPath {
  const { system } = e;
  const pose = new Float64Array(system.unknowns);
  const freedoms = expand(e, pose, null);
  if (freedoms !== 1) return { freedoms };
  let t = parameterSeries(e, by, 0, null);
  if (t[1] < 0) {
    flip(e.z);
    flip(t);
  }
  const drawn = { z: e.z.slice(), t, inverse: inverseOf(t) };
  const scale = by.measure?.kind === 'angle' ? 1 / system.size : 1;
  if (t[1] <= STILL * scale) {
    const end: End = { at: t[0], how: 'deadPoint' };
    return { system, pieces: [{ origin: 0, lo: 0, hi: 0, start: t[0], ...drawn }], low: end, high: end };
  }
  const first = reach(e, by.measure === null ? null : t);
  const home = Number.isFinite(from) || Number.isFinite(to) ? null : tangentOf(drawn.z, system.unknowns);

  const up = layOutward(1, to);
  if (up.end.how === 'closed') {
    return { system, pieces: up.pieces, low: { at: drawn.t[0], how: 'closed' }, high: up.end };
  }
  const down = layOutward(-1, from);
  const pieces = down.pieces.slice(1).reverse();
  pieces.push({ ...down.pieces[0], hi: up.pieces[0].hi });
  pieces.push(...up.pieces.slice(1));
  return { system, pieces, low: down.end, high: up.end };

  function layOutward(way: 1 | -1, target: number): { pieces: Piece[]; end: End } {
    const pieces: Piece[] = [];
    const along = new Float64Array(system.unknowns);
    let origin = 0;
    let step = first;
    e.z.set(drawn.z);
    t = drawn.t;
    for (;;) {
      const z = pieces.length === 0 ? drawn.z : e.z.slice();
      const inverse = pieces.length === 0 ? drawn.inverse : inverseOf(t);
      const end = accept(e, way * step, pose);
      const event = eventIn(t, way, end, target);
      const comesHome = home === null || pieces.length === 0 ? null : homeIn(z, home, way, end, system.size);
      const stop =
        comesHome !== null && (event === null || Math.abs(comesHome) <= Math.abs(event.s))
          ? comesHome
          : (event?.s ?? end);
      const at = horner(t, 0, ORDER, stop);
      pieces.push({
        origin,
        lo: Math.min(0, stop),
        hi: Math.max(0, stop),
        start: way > 0 ? t[0] : at,
        z,
        t,
        inverse,
      });
      if (comesHome !== null && stop === comesHome) return { pieces, end: { at, how: 'closed' } };
      if (event !== null)
        return { pieces, end: { at: event.how === 'reached' ? target : at, how: event.how } };
      if (end === 0)
        return { pieces, end: { at, how: 'locked', row: system.structure.rows[e.worstRow].name } };
      if (pieces.length === MOST_PIECES) return { pieces, end: { at, how: 'gaveUp' } };
      tangentAt(z, stop, along);
      poseAt(z, stop, pose);
      if (expand(e, pose, along) !== 1) return { pieces, end: { at, how: 'undetermined' } };
      origin += stop;
      t = parameterSeries(e, by, origin, at);
      step = reach(e, by.measure === null ? null : t);
    }
  }
}

/** Order of the inverse series: a start for Newton, near enough in most of a piece for a single correction. */
const INVERSE_ORDER = 10;

function inverseOf(t: Float64Array): Float64Array {
  const inverse = new Float64Array(INVERSE_ORDER + 1);
  revert(t, inverse);
  return inverse;
}

/** Series of the parameter about the expander's present pose; an angle is continued from `near`. */
function parameterSeries(e: Expander, by: Parameter, origin: number, near: number | null): Float64Array {
  const t = new Float64Array(STRIDE);
  if (by.measure === null) {
    t[0] = origin;
    t[1] = 1;
    return t;
  }
  formSeries(by.forms, e.z, by.wx, by.wy);
  measureSeries(by.measure, by.wx, by.wy, 0, ORDER, t, 0);
  t[0] += by.measure.zero;
  if (near !== null && by.measure.kind === 'angle') t[0] = unwrap(t[0], near);
  return t;
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
