// Reads measures along a path, many places at a time: a row of a measure is one evaluation of its curve (curves.ts), and one of
// each derivative; a coordinate is made of the unknowns' rows. Where x is the driver itself that is all. By arc length s the places
// are found from the driver first, by Newton's method, and
//
//   dm/dt = m' / t',   d2m/dt2 = (m'' - m' t'' / t') / t'^2.

import { areMirrored, evaluateMany, rootBetween } from '../numerics/polynomial.ts';
import { smallArray } from '../numerics/small-array.ts';
import { type Curve, curvesOf, derive, isPlain, partAt, readAt, valueOn } from './curves.ts';
import type { Form } from './form.ts';
import type { BoundMeasure } from './measure.ts';
import { unwrap, valueAt } from './measure-series.ts';
import type { Path, Piece } from './path.ts';
import type { Structure } from './structure.ts';

/** Rows of a block of readings. */
export const BLOCK = 256;
/** Room of one reading: its value and two derivatives for a block of rows. */
export const READING = 3 * BLOCK;
/** Where first and second derivative stand, from the value on. */
export const FIRST = BLOCK;
export const SECOND = 2 * BLOCK;

/** Where values go in place of `m`, at their own rows, as plus + times x value. */
export interface Sink {
  readonly out: Float64Array;
  readonly plus: number;
  readonly times: number;
}

/**
 * For value, first and second derivative of each measure in turn; false where nobody asks for it, left out for `m`. Values of a
 * coordinate go as they are.
 */
export type Sinks = readonly (Sink | false | undefined)[];

/** Measures bound to a path, with the workspace to read a block of rows: readings are to be taken from it at once. */
export interface Reader {
  readonly path: Path;
  readonly measures: readonly BoundMeasure[];
  /** Whether each measure is read with derivatives, and whether any is. */
  readonly derived: readonly boolean[];
  readonly anyDerived: boolean;
  /** Whether each measure has its value from the rows of the unknowns, and those unknowns. */
  readonly placed: readonly boolean[];
  readonly unknowns: readonly number[];
  /** The curves of each piece and measure, and of the driver by arc length, once needed. */
  readonly curves: (readonly Curve[] | undefined)[];
  readonly drivers: (Float64Array | undefined)[];
  /** Workspace: the unknowns of a block, and places in a part of a piece. */
  readonly z: Float64Array;
  readonly y: Float64Array;
  /** The readings: measure i at row j has its value at `m[i * READING + j]`, derivatives FIRST and SECOND farther. */
  readonly m: Float64Array;
  /** Place of each row in its piece; by arc length the driver there, and its derivatives by that. */
  readonly x: Float64Array;
  readonly t: Float64Array;
  /** Where readings go while rows are read, and the first row there. */
  sinks: Sinks;
  first: number;
}

/**
 * Binds measures to a path, with derivatives where `derived` says so (default: all). `apart` reads each coordinate on a curve of its own, in
 * place of making all of them of the unknowns: less work where they are of few points.
 */
export function reader(
  path: Path,
  measures: readonly BoundMeasure[],
  derived: readonly boolean[] = measures.map(() => true),
  apart = false,
): Reader {
  const unknowns: number[] = [];
  const placed = measures.map((measure) => !apart && isPlain(measure));
  for (const [i, measure] of measures.entries()) {
    if (!placed[i]) continue;
    for (const j of measure.form.free) if (!unknowns.includes(2 * j)) unknowns.push(2 * j, 2 * j + 1);
  }
  return {
    path,
    measures,
    derived,
    anyDerived: derived.includes(true),
    placed,
    unknowns,
    curves: [],
    drivers: [],
    sinks: [],
    first: 0,
    ...workspaceOf(path.system.structure, path.system.unknowns, measures.length),
  };
}

type Workspace = Pick<Reader, 'z' | 'y' | 'm' | 'x' | 't'>;

const workspaces = new WeakMap<Structure, Workspace>();

/** Workspace that all readers of a structure share: what a reading leaves there is good until the next. */
function workspaceOf(structure: Structure, unknowns: number, measures: number): Workspace {
  const before = workspaces.get(structure);
  if (before !== undefined && before.m.length >= measures * READING) return before;
  const workspace = {
    z: new Float64Array(unknowns * BLOCK),
    y: new Float64Array(BLOCK),
    m: new Float64Array(measures * READING),
    x: new Float64Array(BLOCK),
    t: new Float64Array(READING),
  };
  workspaces.set(structure, workspace);
  return workspace;
}

/**
 * Reads all measures at the driver's values `t[from ..]`, as many as lie in one piece and fill a block, into rows
 * 0, 1, .. of `r.m`: values, first and second derivatives by the driver. Values that have a sink go there, to rows `from`, and
 * so on. Returns how many rows were read. The values must lie in the path's range. At a dead point derivatives are not finite.
 */
export function readRows(r: Reader, t: Float64Array, from: number, sinks: Sinks = []): number {
  const { path, derived, m } = r;
  const { pieces } = path;
  const p = pieceAt(path, t[from]);
  const piece = pieces[p];
  const top = p + 1 < pieces.length ? pieces[p + 1].start : Number.POSITIVE_INFINITY;
  const bottom = p > 0 ? piece.start : Number.NEGATIVE_INFINITY;
  const most = Math.min(BLOCK, t.length - from);
  let rows = 1;
  while (rows < most && t[from + rows] >= bottom && t[from + rows] <= top) rows++;
  locate(r, p, t, from, rows);
  const isByArc = piece.inverse !== null;
  // By arc length derivatives by the driver are made in `m`.
  r.sinks = isByArc ? sinks.map((sink, k) => (k % 3 === 0 ? sink : undefined)) : sinks;
  r.first = from;
  readPlaces(r, p, rows);
  if (!isByArc || !r.anyDerived) return rows;
  readDriver(r, p, t, from, rows);
  r.sinks = sinks;
  for (let i = 0; i < derived.length; i++) {
    if (!derived[i]) continue;
    byDriver(m, i * READING, rows, r.t);
    for (const at of [FIRST, SECOND]) for (let j = at; j < at + rows; j++) put(r, i, j, m[i * READING + j]);
  }
  return rows;
}

/** Puts a reading of the measure i into its sink, or into `m`, at a row of its value or a derivative there. */
function put({ sinks, first, m }: Reader, i: number, at: number, value: number): void {
  const sink = sinks[3 * i + Math.floor(at / BLOCK)];
  if (sink) sink.out[first + (at % BLOCK)] = sink.plus + sink.times * value;
  else m[i * READING + at] = value;
}

/** Reads all measures at a place of a piece, into row 0: values and derivatives by the piece's own way. */
export function readPlace(r: Reader, piece: number, x: number): void {
  r.x[0] = x;
  r.sinks = [];
  readPlaces(r, piece, 1);
}

/** The same at several places, no more than a block, into rows 0, 1, ..: the bits of each are those of `readPlace`. */
export function readPlacesOf(r: Reader, piece: number, x: Float64Array): void {
  r.x.set(x);
  r.sinks = [];
  readPlaces(r, piece, x.length);
}

/** The piece that holds a value of the driver. */
export function pieceAt({ pieces }: Path, t: number): number {
  let p = pieces.length - 1;
  while (p > 0 && t < pieces[p].start) p--;
  return p;
}

/** A correction below this share of a piece, made to second order, leaves less than rounding. */
const LAST_CORRECTION = 1e-6;

/**
 * Places of values of the driver in a piece. By arc length: a start from the inverse series, one correction, and more where
 * that was a large one. What comes out depends on the piece and the value alone, not on what was read before.
 */
function locate(r: Reader, p: number, t: Float64Array, from: number, rows: number): void {
  const { x, y, t: driver } = r;
  const { pieces, low, high } = r.path;
  const { lo, hi, t: c, inverse, unit } = pieces[p];
  const start = c[0];
  if (inverse === null) {
    for (let j = 0; j < rows; j++) x[j] = (t[from + j] - start) / unit;
    return;
  }
  for (let j = 0; j < rows; j++) y[j] = t[from + j] - start;
  evaluateMany(inverse, 0, inverse.length - 1, y, rows, false, x, 0);
  for (let j = 0; j < rows; j++) if (!(x[j] >= lo && x[j] <= hi)) x[j] = 0.5 * (lo + hi);
  evaluateDriver(r, p, rows);
  // At a dead point the ends are known more precisely than from a value of t.
  const bottom = p === 0 ? low.at : Number.NaN;
  const top = p === pieces.length - 1 ? high.at : Number.NaN;
  for (let j = 0; j < rows; j++) {
    const value = t[from + j];
    if (value === bottom) x[j] = lo;
    else if (value === top) x[j] = hi;
    else {
      // value - t = t' ds + t'' ds^2 / 2, the first solution put into the second term.
      const rate = driver[FIRST + j];
      const plain = (value - driver[j]) / rate;
      if (Math.abs(plain) <= LAST_CORRECTION * (hi - lo) * unit)
        x[j] += (plain - (0.5 * driver[SECOND + j] * plain * plain) / rate) / unit;
      else x[j] = rootBetween(c, value, lo, hi, x[j]);
    }
  }
}

/** The driver and its derivatives by the way of a piece at the places `r.x`, into `r.t`. */
function evaluateDriver(r: Reader, p: number, rows: number): void {
  const { t, unit } = r.path.pieces[p];
  const order = t.length - 1;
  let c = r.drivers[p];
  if (c === undefined) {
    c = smallArray(3 * order);
    c.set(t);
    derive(c, order, 1 / unit);
    r.drivers[p] = c;
  }
  r.t.fill(0, SECOND, SECOND + rows);
  for (let part = 0; part < 3 && part <= order; part++)
    evaluateMany(c, partAt(order, part), order - part, r.x, rows, false, r.t, part * BLOCK);
}

/**
 * The driver and its derivatives by the piece's own way, into `r.t`, where rows of values `t[from ..]` have been located. At a dead
 * point its rate is zero.
 */
export function readDriver(r: Reader, p: number, t: Float64Array, from: number, rows: number): void {
  evaluateDriver(r, p, rows);
  const { low, high } = r.path;
  const deadLow = low.status === 'deadPoint' ? low.at : Number.NaN;
  const deadHigh = high.status === 'deadPoint' ? high.at : Number.NaN;
  for (let j = 0; j < rows; j++) {
    const value = t[from + j];
    if (value === deadLow || value === deadHigh) r.t[FIRST + j] = 0;
  }
}

/** Derivatives by a piece's way of a measure at `m[q ..]` made such by the driver, whose own are `t`. */
export function byDriver(m: Float64Array, q: number, rows: number, t: Float64Array): void {
  for (let j = 0; j < rows; j++) {
    const rate = t[FIRST + j];
    const first = m[q + FIRST + j] / rate;
    m[q + FIRST + j] = first;
    m[q + SECOND + j] = (m[q + SECOND + j] - first * t[SECOND + j]) / (rate * rate);
  }
}

/** Reads all measures at the places `r.x` of a piece: values and derivatives by the piece's own way. */
function readPlaces(r: Reader, p: number, rows: number): void {
  const { path, measures, derived, placed, unknowns, x, z } = r;
  const { z: c, order } = path.pieces[p];
  const mirrored = areMirrored(x, rows);
  for (let k = 0; k < unknowns.length; k++)
    evaluateMany(c, unknowns[k] * (order + 1), order, x, rows, mirrored, z, unknowns[k] * BLOCK);
  for (let i = 0; i < measures.length; ) i += placed[i] ? readCoordinates(r, i, rows) : 1;
  for (let i = 0; i < measures.length; i++) {
    if (placed[i] && !derived[i]) continue;
    const curves = curvesAt(r, p, i);
    const [curve] = curves;
    if (curve.centre !== 0 || curve.scale !== 1 || !curve.isGood) readParts(r, p, i, curves, rows);
    else readCurve(r, i, curve, x, 0, rows, mirrored);
  }
}

/** Rows `row`, .. of the measure i from one of its curves, at places s in it. */
function readCurve(
  r: Reader,
  i: number,
  { c, order }: Curve,
  s: Float64Array,
  row: number,
  rows: number,
  mirrored: boolean,
): void {
  const last = r.derived[i] ? 2 : 0;
  for (let part = r.placed[i] ? 1 : 0; part <= last; part++) {
    const sink = r.sinks[3 * i + part];
    if (sink === false) continue;
    const [out, to] = sink ? [sink.out, r.first + row] : [r.m, i * READING + part * BLOCK + row];
    const at = partAt(order, part);
    evaluateMany(c, at, order - part, s, rows, mirrored, out, to, sink?.plus, sink?.times);
  }
}

/** Rows of the coordinate i, and of the next measure if it is the other one of that point; returns how many they were. */
function readCoordinates({ measures, sinks, first, y, z, m }: Reader, i: number, rows: number): 1 | 2 {
  const { kind, form } = measures[i];
  const next = measures[i + 1];
  const isPair = kind === 'x' && next?.kind === 'y' && next.form === form;
  const [sink, other] = [sinks[3 * i], sinks[3 * i + 3]];
  const [out, to] = sink ? [sink.out, first] : [m, i * READING];
  let [otherOut, otherTo] = [y, 0];
  if (isPair) [otherOut, otherTo] = other ? [other.out, first] : [m, (i + 1) * READING];
  if (kind === 'x') placeRows(form, z, rows, out, to, otherOut, otherTo);
  else placeRows(form, z, rows, otherOut, otherTo, out, to);
  return isPair ? 2 : 1;
}

/** Rows of a point's two coordinates from those of the unknowns: W = d + sum c z. */
function placeRows(
  { x, y, free, re, im }: Form,
  z: Float64Array,
  rows: number,
  outX: Float64Array,
  toX: number,
  outY: Float64Array,
  toY: number,
): void {
  if (free.length === 0) {
    outX.fill(x, toX, toX + rows);
    outY.fill(y, toY, toY + rows);
  }
  for (let q = 0; q < free.length; q++) {
    const at = 2 * free[q] * BLOCK;
    const cRe = re[q];
    const cIm = im[q];
    for (let i = 0; i < rows; i++) {
      const zx = z[at + i];
      const zy = z[at + BLOCK + i];
      outX[toX + i] = (q === 0 ? x : outX[toX + i]) + (cRe * zx - cIm * zy);
      outY[toY + i] = (q === 0 ? y : outY[toY + i]) + (cIm * zx + cRe * zy);
    }
  }
}

/** Rows of a measure that has several curves over a piece: those in one of them together, places without one alone. */
function readParts(r: Reader, p: number, i: number, curves: readonly Curve[], rows: number): void {
  const { x, y } = r;
  const curveAt = (place: number) => curves.find(({ to }) => place <= to) ?? curves[curves.length - 1];
  for (let j = 0; j < rows; ) {
    const curve = curveAt(x[j]);
    const { c, centre, scale } = curve;
    if (!curve.isGood) {
      const readings = readAt(r.path.pieces[p], r.measures[i], x[j], c[0]);
      for (let part = 0; part < 3; part++) put(r, i, part * BLOCK + j, readings[part]);
      j++;
      continue;
    }
    let count = 0;
    do {
      y[count] = (x[j + count] - centre) / scale;
      count++;
    } while (j + count < rows && curveAt(x[j + count]) === curve);
    readCurve(r, i, curve, y, j, count, false);
    j += count;
  }
}

/** The curves of a measure over a piece, made when they are first needed. */
export function curvesAt(r: Reader, p: number, i: number): readonly Curve[] {
  const { path, measures, curves } = r;
  const { pieces } = path;
  const known = curves[p * measures.length + i];
  if (known !== undefined) return known;
  const way = Math.sign(pieces[p].origin);
  // An angle is continued from the drawn pose, or from the last piece that has its curves.
  let from = p;
  if (measures[i].kind === 'angle')
    while (pieces[from].origin !== 0 && curves[(from - way) * measures.length + i] === undefined) from -= way;
  for (let k = from; ; k += way) {
    const piece = pieces[k];
    const isContinued = measures[i].kind === 'angle' && piece.origin !== 0;
    const made = curvesOf(path, piece, measures[i], isContinued ? endOf(r, k - way, i, way > 0) : null);
    curves[k * measures.length + i] = made;
    if (k === p) return made;
  }
}

/** Value of a measure at the upper or lower end of a piece. */
function endOf(r: Reader, p: number, i: number, isUpper: boolean): number {
  const curves = curvesAt(r, p, i);
  const curve = curves[isUpper ? curves.length - 1 : 0];
  const piece: Piece = r.path.pieces[p];
  const x = isUpper ? piece.hi : piece.lo;
  return curve.isGood ? valueOn(curve, x) : unwrap(valueAt(r.measures[i], piece, x), curve.c[0]);
}
