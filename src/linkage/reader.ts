// Reads measures along a path, many places at a time. At local arc length s of a piece the unknowns are shifted to
// their Taylor coefficients of order 0, 1, 2 there; forms and measures follow order by order (measure.ts); and
// derivatives by the parameter t come from those by s:
//
//   dm/dt = m' / t',   d2m/dt2 = (m'' - m' t'' / t') / t'^2.

import { hornerMany, rootBetween, taylorMany } from '../numerics/polynomial.ts';
import { type Form, type Forms, packForms } from './form.ts';
import { BLOCK, type BoundMeasure, KEPT, measureBlock, turnBackBlock, unwrap, valueAt } from './measure.ts';
import type { Path, Piece } from './path.ts';
import { ORDER, STRIDE } from './series.ts';
import { stretches } from './stretch.ts';
import type { Structure } from './structure.ts';

/** Room of one reading: its coefficients for a block of rows. */
export const READING = KEPT * BLOCK;
/** Where first and second derivative stand, from the value on. */
export const FIRST = BLOCK;
export const SECOND = 2 * BLOCK;

/** Measures bound to a path, with the workspace to read a block of rows: readings are to be taken from it at once. */
export interface Reader {
  readonly path: Path;
  readonly measures: readonly BoundMeasure[];
  /** Whether each measure is read with derivatives, and whether any is. */
  readonly derived: readonly boolean[];
  readonly anyDerived: boolean;
  readonly forms: Forms;
  readonly formOf: readonly number[];
  /** Form of the body that a measure is seen from, -1 for the ground. */
  readonly frameOf: readonly number[];
  readonly formDerived: readonly boolean[];
  /** For each free point whether the forms want it with derivatives, as a value, or not at all. */
  readonly wanted: readonly ('derived' | 'value' | 'no')[];
  /** For each measure that is an angle, and each piece: where the angle is known without its whole turns. */
  readonly knots: readonly (readonly Knots[])[];
  /** Workspace: the unknowns, and the forms, of a block. */
  readonly z: Float64Array;
  readonly wx: Float64Array;
  readonly wy: Float64Array;
  /** Workspace: a form seen from a body. */
  readonly seenX: Float64Array;
  readonly seenY: Float64Array;
  /** The readings: measure i at row j has its value at `m[i * READING + j]`, derivatives FIRST and SECOND farther. */
  readonly m: Float64Array;
  /** Local arc length of each row, and the Taylor coefficients 0, 1, 2 of the parameter there. */
  readonly s: Float64Array;
  readonly t: Float64Array;
}

/** Binds measures to a path, with derivatives where `derived` says so (default: all); measures of one form share it. */
export function reader(path: Path, measures: readonly BoundMeasure[], derived?: readonly boolean[]): Reader {
  const count = measures.length;
  const withDerivatives = measures.map((_, i) => derived === undefined || derived[i] === true);
  const shared: Form[] = [];
  const formDerived: boolean[] = [];
  const share = (form: Form, derivatives: boolean) => {
    let f = shared.indexOf(form);
    if (f < 0) {
      f = shared.push(form) - 1;
      formDerived.push(false);
    }
    if (derivatives) formDerived[f] = true;
    return f;
  };
  const formOf = measures.map(({ form }, i) => share(form, withDerivatives[i]));
  const frameOf = measures.map(({ frame }, i) =>
    frame === null ? -1 : share(frame.form, withDerivatives[i]),
  );
  return {
    path,
    measures,
    derived: withDerivatives,
    anyDerived: withDerivatives.includes(true),
    forms: packForms(shared),
    formOf,
    frameOf,
    formDerived,
    wanted: wantedPoints(path.system.structure.freePoints.length, shared, formDerived),
    knots: measures.map((measure) => (measure.kind === 'angle' ? followAngle(path, measure) : [])),
    ...workspaceOf(path.system.structure, path.system.unknowns, shared.length, count),
  };
}

type Workspace = Pick<Reader, 'z' | 'wx' | 'wy' | 'seenX' | 'seenY' | 'm' | 's' | 't'>;

const workspaces = new WeakMap<Structure, Workspace>();

/** Workspace that all readers of a structure share: what a reading leaves there is good until the next. */
function workspaceOf(structure: Structure, unknowns: number, forms: number, measures: number): Workspace {
  const before = workspaces.get(structure);
  if (before !== undefined && before.wx.length >= forms * READING && before.m.length >= measures * READING) {
    return before;
  }
  const workspace = {
    z: new Float64Array(unknowns * READING),
    wx: new Float64Array(forms * READING),
    wy: new Float64Array(forms * READING),
    seenX: new Float64Array(READING),
    seenY: new Float64Array(READING),
    m: new Float64Array(measures * READING),
    s: new Float64Array(BLOCK),
    t: new Float64Array(READING),
  };
  workspaces.set(structure, workspace);
  return workspace;
}

function wantedPoints(count: number, forms: readonly Form[], derived: readonly boolean[]): Reader['wanted'] {
  const wanted = new Array<Reader['wanted'][number]>(count).fill('no');
  for (let f = 0; f < forms.length; f++) {
    for (const j of forms[f].free)
      if (derived[f] || wanted[j] === 'no') wanted[j] = derived[f] ? 'derived' : 'value';
  }
  return wanted;
}

/** Places in a piece, ascending, and the continuous angle at each: from one to the next it turns by less than pi. */
interface Knots {
  readonly s: readonly number[];
  readonly angle: readonly number[];
}

/** Carries an angle continuously from the drawn pose, where it is as drawn, to both sides. */
function followAngle(path: Path, measure: BoundMeasure): Knots[] {
  const { pieces } = path;
  const knots = new Array<Knots>(pieces.length);
  const drawn = pieces.findIndex((piece) => piece.origin === 0);
  const at = (p: number, s: number, near: number) => unwrap(valueAt(measure, pieces[p].z, ORDER, s), near);
  const start = valueAt(measure, pieces[drawn].z, ORDER, 0);
  for (const way of [1, -1]) {
    let angle = start;
    for (let p = drawn; p >= 0 && p < pieces.length; p += way) {
      const { z, lo, hi } = pieces[p];
      const [from, to] = way > 0 ? [0, hi] : [lo, 0];
      const starts = measure.rigid
        ? [from]
        : [...stretches(measure, z, from, to, path.system.size)].map((stretch) => stretch.from);
      const places = way > 0 ? [...starts.slice(1), to] : starts.reverse();
      const s = [0];
      const angles = [angle];
      for (const place of places) {
        angle = at(p, place, angle);
        s.push(place);
        angles.push(angle);
      }
      if (way < 0) {
        s.reverse();
        angles.reverse();
      }
      const before = knots[p];
      knots[p] =
        before === undefined
          ? { s, angle: angles }
          : { s: [...s, ...before.s], angle: [...angles, ...before.angle] };
    }
  }
  return knots;
}

/** The angle at the knot nearest below s. */
function nearestAngle({ s: places, angle }: Knots, s: number): number {
  let i = places.length - 1;
  while (i > 0 && places[i] > s) i--;
  return angle[i];
}

/** Reads all measures in a piece at one local arc length, into row 0: Taylor coefficients by s. */
export function readPlace(r: Reader, piece: number, s: number): void {
  r.s[0] = s;
  readPlaces(r, piece, 1);
}

/** Reads all measures in a piece at the local arc lengths `r.s`: Taylor coefficients by s. */
function readPlaces(r: Reader, piece: number, rows: number): void {
  const { path, measures, derived, formOf, frameOf, knots, wanted, s, z, wx, wy, seenX, seenY, m } = r;
  const c = path.pieces[piece].z;
  for (let i = 0; i < 2 * wanted.length; i++) {
    const want = wanted[i >> 1];
    if (want === 'derived') taylorMany(c, i * STRIDE, ORDER, s, rows, BLOCK, z, i * READING);
    else if (want === 'value') hornerMany(c, i * STRIDE, ORDER, s, rows, z, i * READING);
  }
  applyFormsMany(r, rows);
  const count = measures.length;
  for (let i = 0; i < count; i++) {
    const measure = measures[i];
    const to = i * READING;
    const form = formOf[i] * READING;
    if (frameOf[i] < 0) measureBlock(measure, wx, wy, form, derived[i], rows, m, to);
    else {
      turnBackBlock(wx, wy, form, frameOf[i] * READING, derived[i], rows, seenX, seenY);
      measureBlock(measure, seenX, seenY, 0, derived[i], rows, m, to);
    }
    if (measure.kind !== 'angle') continue;
    const known = knots[i][piece];
    for (let j = 0; j < rows; j++) m[to + j] = unwrap(m[to + j], nearestAngle(known, s[j]));
  }
}

/** The forms of all rows from the unknowns, each as far as it is needed. */
function applyFormsMany({ forms, formDerived, z, wx, wy }: Reader, rows: number): void {
  const { count, start, free, c, d } = forms;
  for (let f = 0; f < count; f++) {
    const orders = formDerived[f] ? KEPT : 1;
    for (let k = 0; k < orders; k++) {
      const to = f * READING + k * BLOCK;
      const x = k === 0 ? d[2 * f] : 0;
      const y = k === 0 ? d[2 * f + 1] : 0;
      for (let i = to; i < to + rows; i++) {
        wx[i] = x;
        wy[i] = y;
      }
      for (let q = start[f]; q < start[f + 1]; q++) {
        const fromX = 2 * free[q] * READING + k * BLOCK;
        const fromY = fromX + READING;
        const cRe = c[2 * q];
        const cIm = c[2 * q + 1];
        for (let i = 0; i < rows; i++) {
          const zx = z[fromX + i];
          const zy = z[fromY + i];
          wx[to + i] += cRe * zx - cIm * zy;
          wy[to + i] += cRe * zy + cIm * zx;
        }
      }
    }
  }
}

/**
 * Reads all measures at the parameter values `t[from ..]`, as many as lie in one piece and fill a block, into rows
 * 0, 1, .. of `r.m`: values, first and second derivatives by the parameter. Returns how many rows were read. The
 * values must lie in the path's range. At a dead point derivatives are not finite.
 */
export function readRows(r: Reader, t: Float64Array, from: number): number {
  const { path, derived, s, t: taylor, m } = r;
  const { pieces, low, high } = path;
  const p = pieceAt(path, t[from]);
  const piece = pieces[p];
  const top = p + 1 < pieces.length ? pieces[p + 1].start : Number.POSITIVE_INFINITY;
  const bottom = p > 0 ? piece.start : Number.NEGATIVE_INFINITY;
  const most = Math.min(BLOCK, t.length - from);
  let rows = 1;
  while (rows < most && t[from + rows] >= bottom && t[from + rows] <= top) rows++;

  locate(r, piece, t, from, rows);
  // The ends are known to better than a value of t tells where t stands still; and at a dead point dt/ds is zero.
  const bottomEnd = p === 0 ? low.at : Number.NaN;
  const topEnd = p === pieces.length - 1 ? high.at : Number.NaN;
  for (let j = 0; j < rows; j++) {
    const value = t[from + j];
    if (value === bottomEnd) s[j] = piece.lo;
    else if (value === topEnd) s[j] = piece.hi;
  }
  readPlaces(r, p, rows);
  if (!r.anyDerived) return rows;
  parameterAt(r, p, t, from, rows);
  for (let i = 0; i < derived.length; i++) if (derived[i]) byParameter(m, i * READING, rows, taylor);
  return rows;
}

/**
 * The Taylor coefficients by s of the parameter, into `r.t`, where rows of values `t[from ..]` have been located in a
 * piece. At a dead point its rate is zero.
 */
export function parameterAt(r: Reader, piece: number, t: Float64Array, from: number, rows: number): void {
  const { s, t: taylor } = r;
  const { pieces, low, high } = r.path;
  taylorMany(pieces[piece].t, 0, ORDER, s, rows, BLOCK, taylor, 0);
  const deadLow = low.how === 'deadPoint' ? low.at : Number.NaN;
  const deadHigh = high.how === 'deadPoint' ? high.at : Number.NaN;
  for (let j = 0; j < rows; j++) {
    const value = t[from + j];
    if (value === deadLow || value === deadHigh) taylor[FIRST + j] = 0;
  }
}

/** Taylor coefficients by s of a measure at `m[q ..]` made derivatives by the parameter, whose own are `taylor`. */
export function byParameter(m: Float64Array, q: number, rows: number, taylor: Float64Array): void {
  for (let j = 0; j < rows; j++) {
    const rate = taylor[FIRST + j];
    const first = m[q + FIRST + j] / rate;
    m[q + FIRST + j] = first;
    m[q + SECOND + j] = (2 * (m[q + SECOND + j] - first * taylor[SECOND + j])) / (rate * rate);
  }
}

/** The piece that holds a value of the parameter. */
export function pieceAt({ pieces }: Path, t: number): number {
  let p = pieces.length - 1;
  while (p > 0 && t < pieces[p].start) p--;
  return p;
}

/** A correction below this share of a piece, made to second order, leaves less than rounding. */
const LAST_CORRECTION = 1e-6;

/**
 * Local arc lengths of parameter values in a piece: a start from the inverse series, one correction, and more where
 * that was a large one. What comes out depends on the piece and the value alone, not on what was read before.
 */
function locate(r: Reader, piece: Piece, t: Float64Array, from: number, rows: number): void {
  const { s, t: taylor } = r;
  const { lo, hi, t: c, inverse } = piece;
  const enough = LAST_CORRECTION * (hi - lo);
  for (let j = 0; j < rows; j++) taylor[j] = t[from + j] - c[0];
  hornerMany(inverse, 0, inverse.length - 1, taylor, rows, s, 0);
  for (let j = 0; j < rows; j++) if (!(s[j] >= lo && s[j] <= hi)) s[j] = 0.5 * (lo + hi);
  taylorMany(c, 0, ORDER, s, rows, BLOCK, taylor, 0);
  for (let j = 0; j < rows; j++) {
    // miss = t1 ds + t2 ds^2, the first solution put into the second term.
    const rate = taylor[FIRST + j];
    const plain = (t[from + j] - taylor[j]) / rate;
    if (Math.abs(plain) <= enough) s[j] += plain - (taylor[SECOND + j] * plain * plain) / rate;
    else s[j] = rootBetween(c, t[from + j], lo, hi, s[j]);
  }
}
