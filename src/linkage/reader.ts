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

/** Values and derivatives kept a reading: m, dm/dt, d2m/dt2. */
const KEPT = 3;

/** Measures bound to a path, with the workspace to read them. */
export interface Reader {
  readonly path: Path;
  readonly measures: readonly BoundMeasure[];
  /** Order to which each measure is read: 0 for the value alone, 2 with derivatives. */
  readonly orders: readonly number[];
  /** The highest of them. */
  readonly order: number;
  readonly forms: Forms;
  /** Order to which each form is needed. */
  readonly formOrders: readonly number[];
  readonly formOf: readonly number[];
  /** Continuous angle of each measure at local 0 of each piece. */
  readonly base: Float64Array;
  readonly z: Float64Array;
  readonly wx: Float64Array;
  readonly wy: Float64Array;
  readonly m: Float64Array;
  /** Last piece found, local arc length there, and the parameter's Taylor coefficients there. */
  piece: number;
  s: number;
  t: number;
  t1: number;
  t2: number;
}

/** Binds measures to a path, with derivatives where `derived` says so (default: all); measures of one form share it. */
export function reader(path: Path, measures: readonly BoundMeasure[], derived?: readonly boolean[]): Reader {
  const orders = measures.map((_, i) => (derived === undefined || derived[i] ? 2 : 0));
  const shared: Form[] = [];
  const formOrders: number[] = [];
  const formOf = measures.map(({ form }, i) => {
    let at = shared.indexOf(form);
    if (at < 0) {
      at = shared.push(form) - 1;
      formOrders.push(orders[i]);
    } else formOrders[at] = Math.max(formOrders[at], orders[i]);
    return at;
  });
  const memory = arena();
  const forms = packForms(shared, memory);
  const r: Reader = {
    path,
    measures,
    orders,
    order: Math.max(0, ...orders),
    forms,
    formOrders,
    formOf,
    base: memory.floats(path.pieces.length * measures.length),
    z: memory.floats(path.system.unknowns * KEPT),
    wx: memory.floats(forms.count * KEPT),
    wy: memory.floats(forms.count * KEPT),
    m: memory.floats(measures.length * KEPT),
    piece: -1,
    s: 0,
    t: 0,
    t1: 0,
    t2: 0,
  };
  if (measures.some((measure) => measure.kind === 'angle')) followAngles(r);
  return r;
}

/** Carries angles continuously from the drawn pose, where they are as drawn, over the pieces to both sides. */
function followAngles(r: Reader): void {
  const { path, measures, base, m } = r;
  const count = measures.length;
  const drawn = path.pieces.findIndex((piece) => piece.origin === 0);
  readPiece(r, drawn, 0);
  for (let i = 0; i < count; i++) base[drawn * count + i] = m[i * KEPT];
  for (const way of [1, -1]) {
    for (let p = drawn + way; p >= 0 && p < path.pieces.length; p += way) {
      for (let i = 0; i < count; i++) base[p * count + i] = base[(p - way) * count + i];
      const before = path.pieces[p - way];
      readPiece(r, p - way, way > 0 ? before.hi : before.lo);
      for (let i = 0; i < count; i++) base[p * count + i] = m[i * KEPT];
    }
  }
}

/** Reads all measures in a piece at local arc length s: Taylor coefficients by s up to each one's order, in `r.m`. */
export function readPiece(r: Reader, p: number, s: number): void {
  const { path, measures, orders, forms, formOrders, formOf, base, z, wx, wy, m } = r;
  shift(path.pieces[p].z, path.system.unknowns, s, r.order, z);
  const { start, free, re, im } = forms;
  for (let f = 0; f < forms.count; f++) {
    for (let k = 0; k <= formOrders[f]; k++) {
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
  const count = measures.length;
  for (let i = 0; i < count; i++) {
    const measure = measures[i];
    const at = formOf[i] * KEPT;
    if (measure.kind === 'x') for (let k = 0; k < KEPT; k++) m[i * KEPT + k] = wx[at + k];
    else if (measure.kind === 'y') for (let k = 0; k < KEPT; k++) m[i * KEPT + k] = wy[at + k];
    else {
      measureSeries(measure, wx, wy, at, orders[i], m, i * KEPT);
      if (measure.kind === 'angle') m[i * KEPT] = unwrap(m[i * KEPT] + measure.zero, base[p * count + i]);
    }
  }
}

/** Taylor coefficients 0 .. order at s of the series of x and y of each free point. */
function shift(c: Float64Array, unknowns: number, s: number, order: number, out: Float64Array): void {
  for (let i = 0; i < unknowns; i += 2) {
    const fromX = i * STRIDE;
    const fromY = fromX + STRIDE;
    let x = c[fromX + ORDER];
    let y = c[fromY + ORDER];
    const at = i * KEPT;
    if (order === 0) {
      for (let k = ORDER - 1; k >= 0; k--) {
        x = x * s + c[fromX + k];
        y = y * s + c[fromY + k];
      }
    } else {
      let x1 = 0;
      let y1 = 0;
      let x2 = 0;
      let y2 = 0;
      for (let k = ORDER - 1; k >= 0; k--) {
        x2 = x2 * s + x1;
        y2 = y2 * s + y1;
        x1 = x1 * s + x;
        y1 = y1 * s + y;
        x = x * s + c[fromX + k];
        y = y * s + c[fromY + k];
      }
      out[at + 1] = x1;
      out[at + 2] = x2;
      out[at + KEPT + 1] = y1;
      out[at + KEPT + 2] = y2;
    }
    out[at] = x;
    out[at + KEPT] = y;
  }
}

/**
 * Reads all measures where the parameter has a value inside the path's range: `r.m` holds value, first and second
 * derivative by the parameter of each, as far as its order goes. At a dead point derivatives are not finite.
 */
export function readAt(r: Reader, t: number): void {
  locate(r, t);
  readPiece(r, r.piece, r.s);
  if (r.order === 0) return;
  expandParameter(r, r.s);
  const t1 = atDeadPoint(r.path, t) ? 0 : r.t1;
  const { m, orders, t2 } = r;
  const square = t1 * t1;
  for (let i = 0; i < orders.length; i++) {
    if (orders[i] === 0) continue;
    const q = i * KEPT;
    const first = m[q + 1] / t1;
    m[q + 1] = first;
    m[q + 2] = (2 * (m[q + 2] - first * t2)) / square;
  }
}

/** Taylor coefficients of the parameter at s in the present piece. */
function expandParameter(r: Reader, s: number): void {
  const c = r.path.pieces[r.piece].t;
  let t = c[ORDER];
  let t1 = 0;
  let t2 = 0;
  for (let k = ORDER - 1; k >= 0; k--) {
    t2 = t2 * s + t1;
    t1 = t1 * s + t;
    t = t * s + c[k];
  }
  r.s = s;
  r.t = t;
  r.t1 = t1;
  r.t2 = t2;
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
  const { pieces } = r.path;
  let p = r.piece;
  if (p < 0 || t < pieces[p].start || (p + 1 < pieces.length && t > pieces[p + 1].start)) {
    p = 0;
    while (p + 1 < pieces.length && t > pieces[p + 1].start) p++;
    r.piece = p;
    expandParameter(r, 0);
  }
  const { lo, hi } = pieces[p];
  let low = lo;
  let high = hi;
  const enough = LAST_CORRECTION * (hi - lo);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    // The step to second order: miss = t1 ds + t2 ds^2.
    const miss = t - r.t;
    if (miss > 0) low = r.s;
    else high = r.s;
    const plain = miss / r.t1;
    const step = plain - (r.t2 * plain * plain) / r.t1;
    const last = Math.abs(plain) <= enough;
    let next = r.s + step;
    if (!(next >= low && next <= high)) {
      next = 0.5 * (low + high);
    } else if (last) {
      r.s = next;
      return;
    }
    if (next === r.s) return;
    expandParameter(r, next);
  }
}
