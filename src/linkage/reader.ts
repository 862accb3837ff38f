// Reads measures along a path. At local arc length s of a piece the unknowns are shifted to their Taylor
// coefficients of order 0, 1, 2 there; forms and measures follow order by order (measure.ts); and derivatives by the
// parameter t come from those by s:
//
//   dm/dt = m' / t',   d2m/dt2 = (m'' - m' t'' / t') / t'^2.

import { applyForms, type Form, type Forms, packForms } from './form.ts';
import { type BoundMeasure, measureSeries } from './measure.ts';
import { type Path, unwrap } from './path.ts';
import { ORDER, STRIDE } from './series.ts';

/** Values and derivatives kept a reading: m, dm/dt, d2m/dt2. */
const KEPT = 3;

/** Measures bound to a path, with the workspace to read them. */
export interface Reader {
  readonly path: Path;
  readonly measures: readonly BoundMeasure[];
  /** The first so many measures are read with derivatives, the others as values alone. */
  readonly derived: number;
  readonly forms: Forms;
  /** The first so many forms are those of the measures with derivatives. */
  readonly derivedForms: number;
  readonly formOf: Int32Array;
  /** Continuous angle of each measure at local 0 of each piece. */
  readonly base: Float64Array;
  readonly z: Float64Array;
  readonly wx: Float64Array;
  readonly wy: Float64Array;
  readonly m: Float64Array;
  /** Last piece found and local arc length there. */
  piece: number;
  s: number;
}

/** Binds measures to a path, the first `derived` of them with derivatives; measures of one form share it. */
export function reader(path: Path, measures: readonly BoundMeasure[], derived = measures.length): Reader {
  const shared: Form[] = [];
  let derivedForms = 0;
  const formOf = Int32Array.from(measures, (measure, i) => {
    let at = shared.indexOf(measure.form);
    if (at < 0) at = shared.push(measure.form) - 1;
    if (i < derived) derivedForms = shared.length;
    return at;
  });
  const forms = packForms(shared);
  const r: Reader = {
    path,
    measures,
    derived,
    forms,
    derivedForms,
    formOf,
    base: new Float64Array(path.pieces.length * measures.length),
    z: new Float64Array(path.system.unknowns * KEPT),
    wx: new Float64Array(forms.count * KEPT),
    wy: new Float64Array(forms.count * KEPT),
    m: new Float64Array(measures.length * KEPT),
    piece: -1,
    s: 0,
  };
  if (measures.some((measure) => measure.kind === 'angle')) followAngles(r);
  return r;
}

/** Carries angles continuously from the drawn pose, where they are as drawn, over the pieces to both sides. */
function followAngles(r: Reader): void {
  const { path, measures, base, m } = r;
  const count = measures.length;
  const drawn = path.pieces.findIndex((piece) => piece.origin === 0);
  readPiece(r, drawn, 0, 0);
  for (let i = 0; i < count; i++) base[drawn * count + i] = m[i * KEPT];
  for (const way of [1, -1]) {
    for (let p = drawn + way; p >= 0 && p < path.pieces.length; p += way) {
      for (let i = 0; i < count; i++) base[p * count + i] = base[(p - way) * count + i];
      const before = path.pieces[p - way];
      readPiece(r, p - way, way > 0 ? before.hi : before.lo, 0);
      for (let i = 0; i < count; i++) base[p * count + i] = m[i * KEPT];
    }
  }
}

/** Reads all measures in a piece at local arc length s, to order 0, 1 or 2: Taylor coefficients by s, in `r.m`. */
export function readPiece(r: Reader, p: number, s: number, order: number): void {
  const { path, measures, derived, forms, derivedForms, formOf, base, z, wx, wy, m } = r;
  const piece = path.pieces[p];
  shift(piece.z, path.system.unknowns, s, order, z);
  applyForms(forms, forms.count, z, KEPT, 0, wx, wy);
  for (let k = 1; k <= order; k++) applyForms(forms, derivedForms, z, KEPT, k, wx, wy);
  for (let f = 0; f < forms.count; f++) {
    wx[f * KEPT] += forms.x[f];
    wy[f * KEPT] += forms.y[f];
  }
  const count = measures.length;
  for (let i = 0; i < count; i++) {
    const measure = measures[i];
    measureSeries(measure, wx, wy, formOf[i] * KEPT, i < derived ? order : 0, m, i * KEPT);
    if (measure.kind === 'angle') {
      m[i * KEPT] = unwrap(m[i * KEPT] + measure.zero, base[p * count + i]);
    }
  }
}

/** Taylor coefficients 0 .. order at s of each series. */
function shift(c: Float64Array, unknowns: number, s: number, order: number, out: Float64Array): void {
  if (order === 0) {
    for (let i = 0; i < unknowns; i++) {
      const from = i * STRIDE;
      let value = c[from + ORDER];
      for (let k = ORDER - 1; k >= 0; k--) value = value * s + c[from + k];
      out[i * KEPT] = value;
    }
    return;
  }
  for (let i = 0; i < unknowns; i++) {
    const from = i * STRIDE;
    let value = c[from + ORDER];
    let first = 0;
    let second = 0;
    for (let k = ORDER - 1; k >= 0; k--) {
      second = second * s + first;
      first = first * s + value;
      value = value * s + c[from + k];
    }
    out[i * KEPT] = value;
    out[i * KEPT + 1] = first;
    out[i * KEPT + 2] = second;
  }
}

/**
 * Reads all measures where the parameter has a value inside the path's range: `r.m` holds value, first and second
 * derivative by the parameter of each (as far as `order` goes). At a dead point derivatives are not finite.
 */
export function readAt(r: Reader, t: number, order: number): void {
  locate(r, t);
  const piece = r.path.pieces[r.piece];
  readPiece(r, r.piece, r.s, order);
  if (order === 0) return;
  const c = piece.t;
  let value = c[ORDER];
  let t1 = 0;
  let t2 = 0;
  for (let k = ORDER - 1; k >= 0; k--) {
    t2 = t2 * r.s + t1;
    t1 = t1 * r.s + value;
    value = value * r.s + c[k];
  }
  if (atDeadPoint(r.path, t)) t1 = 0;
  const { m, derived } = r;
  for (let q = 0; q < derived * KEPT; q += KEPT) {
    const first = m[q + 1] / t1;
    m[q + 1] = first;
    m[q + 2] = (2 * (m[q + 2] - first * t2)) / (t1 * t1);
  }
}

function atDeadPoint({ low, high }: Path, t: number): boolean {
  return (t === low.at && low.how === 'deadPoint') || (t === high.at && high.how === 'deadPoint');
}

/** Finds piece and local arc length of a parameter value: Newton on t(s), kept inside the piece. */
function locate(r: Reader, t: number): void {
  const { pieces } = r.path;
  const near = r.piece;
  let p = near >= 0 && t >= pieces[near].start ? near : 0;
  while (p + 1 < pieces.length && t > pieces[p + 1].start) p++;
  const { t: c, lo, hi } = pieces[p];
  // Start from the last place in the same piece, else from the series' own beginning.
  let s = p === near ? r.s : 0;
  let low = lo;
  let high = hi;
  for (let round = 0; round < 60; round++) {
    let value = c[ORDER];
    let slope = 0;
    for (let k = ORDER - 1; k >= 0; k--) {
      slope = slope * s + value;
      value = value * s + c[k];
    }
    const miss = value - t;
    if (miss === 0) break;
    if (miss < 0) low = s;
    else high = s;
    let next = s - miss / slope;
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const moved = Math.abs(next - s);
    s = next;
    // Newton converges quadratically: after a step this small the next would be below rounding.
    if (moved <= 1e-9 * (hi - lo) || low >= high) break;
  }
  r.piece = p;
  r.s = s;
}
