// Reads measures along a path. At local arc length s of a piece the unknowns are shifted to their Taylor
// coefficients of order 0, 1, 2 there; forms and measures follow order by order (measure.ts); and derivatives by the
// parameter t come from those by s:
//
//   dm/dt = m' / t',   d2m/dt2 = (m'' - m' t'' / t') / t'^2.

import { arena } from '../numerics/arena.ts';
import { type Form, type Forms, packForms } from './form.ts';
import { type BoundMeasure, measureSeries } from './measure.ts';
import { type Path, unwrap } from './path.ts';
import { ORDER, STRIDE } from './series.ts';

/** Values kept a reading: m, dm/dt, d2m/dt2. */
const KEPT = 3;
/** Order of a reading with derivatives. */
const DERIVED = 2;

/** Entries of `Reader.at`: local arc length, and the Taylor coefficients of the parameter there. */
const S = 0;
const T = 1;
const T1 = 2;
const T2 = 3;

/** Measures bound to a path, with the workspace to read them. */
export interface Reader {
  readonly path: Path;
  readonly measures: readonly BoundMeasure[];
  /** Order to which each measure is read: 0 for the value alone, 2 with derivatives; and the highest of them. */
  readonly orders: Int32Array;
  readonly order: number;
  readonly forms: Forms;
  /** Form of each measure, and order to which each form is needed. */
  readonly formOf: Int32Array;
  readonly formOrders: Int32Array;
  /** Continuous angle of each measure at local 0 of each piece. */
  readonly base: Float64Array;
  /** Workspace: the unknowns, and the forms, at the place read. */
  readonly z: Float64Array;
  readonly wx: Float64Array;
  readonly wy: Float64Array;
  /** The readings: value, first and second derivative of each measure. */
  readonly m: Float64Array;
  /** Place read last: see the entries named above. */
  readonly at: Float64Array;
  /** Piece read last, -1 before the first. */
  piece: number;
}

/** Binds measures to a path, with derivatives where `derived` says so (default: all); measures of one form share it. */
export function reader(path: Path, measures: readonly BoundMeasure[], derived?: readonly boolean[]): Reader {
  const memory = arena();
  const count = measures.length;
  const orders = memory.ints(count);
  const formOf = memory.ints(count);
  const formOrders = memory.ints(count);
  const shared: Form[] = [];
  let order = 0;
  for (let i = 0; i < count; i++) {
    const { form } = measures[i];
    let f = shared.indexOf(form);
    if (f < 0) f = shared.push(form) - 1;
    formOf[i] = f;
    if (derived !== undefined && !derived[i]) continue;
    order = DERIVED;
    orders[i] = DERIVED;
    formOrders[f] = DERIVED;
  }
  const forms = packForms(shared, memory);
  const r: Reader = {
    path,
    measures,
    orders,
    order,
    forms,
    formOf,
    formOrders,
    base: memory.floats(path.pieces.length * count),
    z: memory.floats(path.system.unknowns * KEPT),
    wx: memory.floats(forms.count * KEPT),
    wy: memory.floats(forms.count * KEPT),
    m: memory.floats(count * KEPT),
    at: memory.floats(4),
    piece: -1,
  };
  if (measures.some(({ kind }) => kind === 'angle')) followAngles(r);
  return r;
}

/** Carries angles continuously from the drawn pose, where they are as drawn, over the pieces to both sides. */
function followAngles(r: Reader): void {
  const { path, measures, base, m } = r;
  const count = measures.length;
  const drawn = path.pieces.findIndex((piece) => piece.origin === 0);
  const settle = (p: number) => {
    for (let i = 0; i < count; i++) base[p * count + i] = m[i * KEPT];
  };
  readPiece(r, drawn, 0);
  settle(drawn);
  for (const way of [1, -1]) {
    for (let p = drawn + way; p >= 0 && p < path.pieces.length; p += way) {
      const before = path.pieces[p - way];
      readPiece(r, p - way, way > 0 ? before.hi : before.lo);
      settle(p);
    }
  }
}

/** Reads all measures in a piece at local arc length s: Taylor coefficients by s up to each one's order, in `r.m`. */
export function readPiece(r: Reader, p: number, s: number): void {
  const { path, measures, orders, formOf, base, wx, wy, m } = r;
  shift(path.pieces[p].z, s, r.order, r.z);
  shiftForms(r);
  const count = measures.length;
  for (let i = 0; i < count; i++) {
    const measure = measures[i];
    const from = formOf[i] * KEPT;
    const to = i * KEPT;
    measureSeries(measure, wx, wy, from, orders[i], m, to);
    if (measure.kind === 'angle') m[to] = unwrap(m[to] + measure.zero, base[p * count + i]);
  }
}

/** Taylor coefficients 0 .. order at s of the series of x and y of each free point. */
function shift(c: Float64Array, s: number, order: number, out: Float64Array): void {
  for (let x = 0, at = 0; x < c.length; x += 2 * STRIDE, at += 2 * KEPT) {
    const y = x + STRIDE;
    let x0 = c[x + ORDER];
    let y0 = c[y + ORDER];
    if (order === 0) {
      for (let k = ORDER - 1; k >= 0; k--) {
        x0 = x0 * s + c[x + k];
        y0 = y0 * s + c[y + k];
      }
    } else {
      let x1 = 0;
      let y1 = 0;
      let x2 = 0;
      let y2 = 0;
      for (let k = ORDER - 1; k >= 0; k--) {
        x2 = x2 * s + x1;
        y2 = y2 * s + y1;
        x1 = x1 * s + x0;
        y1 = y1 * s + y0;
        x0 = x0 * s + c[x + k];
        y0 = y0 * s + c[y + k];
      }
      out[at + 1] = x1;
      out[at + 2] = x2;
      out[at + KEPT + 1] = y1;
      out[at + KEPT + 2] = y2;
    }
    out[at] = x0;
    out[at + KEPT] = y0;
  }
}

/** The forms from the unknowns, each to its order. */
function shiftForms({ forms, formOrders, z, wx, wy }: Reader): void {
  const { count, start, free, re, im } = forms;
  for (let f = 0; f < count; f++) {
    const order = formOrders[f];
    for (let k = 0; k <= order; k++) {
      let x = k === 0 ? forms.x[f] : 0;
      let y = k === 0 ? forms.y[f] : 0;
      for (let q = start[f]; q < start[f + 1]; q++) {
        const j = 2 * free[q] * KEPT + k;
        x += re[q] * z[j] - im[q] * z[j + KEPT];
        y += re[q] * z[j + KEPT] + im[q] * z[j];
      }
      wx[f * KEPT + k] = x;
      wy[f * KEPT + k] = y;
    }
  }
}

/**
 * Reads all measures where the parameter has a value inside the path's range: `r.m` holds value, first and second
 * derivative by the parameter of each, as far as its order goes. At a dead point derivatives are not finite.
 */
export function readAt(r: Reader, t: number): void {
  const { at, m, orders } = r;
  locate(r, t);
  readPiece(r, r.piece, at[S]);
  if (r.order === 0) return;
  expandParameter(r.path.pieces[r.piece].t, at[S], at);
  const t1 = atDeadPoint(r.path, t) ? 0 : at[T1];
  const t2 = at[T2];
  const square = t1 * t1;
  for (let i = 0, q = 0; i < orders.length; i++, q += KEPT) {
    if (orders[i] === 0) continue;
    const first = m[q + 1] / t1;
    m[q + 1] = first;
    m[q + 2] = (2 * (m[q + 2] - first * t2)) / square;
  }
}

/** Taylor coefficients of the parameter at s. */
function expandParameter(c: Float64Array, s: number, at: Float64Array): void {
  let t = c[ORDER];
  let t1 = 0;
  let t2 = 0;
  for (let k = ORDER - 1; k >= 0; k--) {
    t2 = t2 * s + t1;
    t1 = t1 * s + t;
    t = t * s + c[k];
  }
  at[S] = s;
  at[T] = t;
  at[T1] = t1;
  at[T2] = t2;
}

function atDeadPoint({ low, high }: Path, t: number): boolean {
  return (t === low.at && low.how === 'deadPoint') || (t === high.at && high.how === 'deadPoint');
}

/** A correction below this share of a piece, made to second order, leaves less than rounding. */
const LAST_CORRECTION = 1e-5;
/** Rounds of bisection at most, where Newton does not come to rest (beside a dead point). */
const MOST_ROUNDS = 60;

/** Finds piece and local arc length of a parameter value: Newton on t(s) from the last place, kept in the piece. */
function locate(r: Reader, t: number): void {
  const { at } = r;
  const { pieces } = r.path;
  let p = r.piece;
  if (p < 0 || t < pieces[p].start || (p + 1 < pieces.length && t > pieces[p + 1].start)) {
    p = 0;
    while (p + 1 < pieces.length && t > pieces[p + 1].start) p++;
    r.piece = p;
    expandParameter(pieces[p].t, 0, at);
  }
  const { lo, hi, t: c } = pieces[p];
  const enough = LAST_CORRECTION * (hi - lo);
  let low = lo;
  let high = hi;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    // The step to second order: miss = t1 ds + t2 ds^2.
    const s = at[S];
    const miss = t - at[T];
    if (miss > 0) low = s;
    else high = s;
    const plain = miss / at[T1];
    let next = s + plain - (at[T2] * plain * plain) / at[T1];
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    else if (Math.abs(plain) <= enough) {
      at[S] = next;
      return;
    }
    if (next === s) return;
    expandParameter(c, next, at);
  }
}
