// Exact derivatives of readings by shifts of the drawn places, along a path. With W + eps V for a form and its change by
// an input (form-rates.ts), the rows f = Re(k conj(W_a) W_b) - Re(k conj(d_a) d_b) = 0 hold to first order in eps when
//
//   Re(k (conj(V_a) W_b + conj(W_a) V_b)) = Re(k (conj(d˙_a) d_b + conj(d_a) d˙_b)),   V = W˙ + sum_j c_j y_j
//
// y being the change of the unknowns. W(s) and V(s) are power series of the arc length s about a pose, and order by order
//
//   J y_k = [k = 0] Re(k (conj(d˙_a) d_b + conj(d_a) d˙_b))
//           - Re(k sum_{j=0..k} (conj(V_{a,j}) W_{b,k-j} + conj(W_{a,k-j}) V_{b,j}))     with V_k = W˙_k so far:
//
// with |d_a|˙ q_k added for a measure q of a coupling, whose factor is -|d_a|, and without the terms of V_a and d˙_a for a turn, whose
// rate is Im(conj(W) dW) (measure-rows.ts). J is the Jacobian of the motion itself, factorised once a pose for all inputs and orders.
// What J leaves open is how the poses of the two motions correspond: by the driver, as far from its drawn value in both. Each y_k takes
// as much of the tangent as makes the driver's own change t˙_k that of its drawn value for k = 0, and 0 above.
//
// A measure m(W) changes by a quotient of series, order by order as well:
//
//   x, y     m˙ = Re V or Im V
//   length   m m˙ = Re(conj(W) V)
//   angle    |W|^2 m˙ = Im(conj(W) V)
//
// Relative to a body, conj(F) W takes the place of W, and conj(F˙) W + conj(F) V that of V.
//
// and as the driver's series stays what it was, derivatives by the driver follow from those by s as for the reading
// itself (reader.ts). Rows that are redundant are left out as in the motion: where an input makes them contradict the
// others, the derivative is that of the linkage without them.

import { solve } from '../numerics/elimination.ts';
import { evaluateMany } from '../numerics/polynomial.ts';
import { derive, partAt } from './curves.ts';
import { addForms as combineForms, constantForm, type Form, type Forms, packForms } from './form.ts';
import { type RatedForm, ratedLine, rateForms, type Shift } from './form-rates.ts';
import type { BoundMeasure } from './measure.ts';
import type { Piece } from './path.ts';
import { BLOCK, byDriver, pieceAt, READING, type Reader, readDriver, readRows, SECOND } from './reader.ts';
import { factorise } from './rows.ts';
import { taylorExpansion } from './series.ts';
import type { RowPlan } from './structure.ts';

/** Taylor coefficients kept of a series about a pose: orders 0, 1, 2. */
const KEPT = 3;

/** A reader of measures with what their derivatives by shifts need, and the workspace for a block of rows. */
export interface Sensor {
  readonly reader: Reader;
  readonly driver: BoundMeasure;
  /** Orders kept: as many as the reader's measures want. */
  readonly orders: number;
  /** Forms of the rows, then those of the measures, then the driver's. */
  readonly forms: Forms;
  /** The same forms' derivatives, by each shift. */
  readonly shifts: readonly Forms[];
  /** For each measure, and last the driver, the index of its form; relative to a body, that of its product. */
  readonly formOf: readonly number[];
  /** The same with the form itself where it is relative to a body. */
  readonly ownForm: readonly number[];
  /** Products conj(F) W of measures relative to bodies, behind the forms. */
  readonly products: readonly FrameProduct[];
  /** By each shift, what the drawn place of the body that a coordinate is relative to adds to it. */
  readonly zeros: readonly (readonly number[])[];
  /** The block's unknowns, forms W and denominators of measures, laid out like readings; and the driver. */
  readonly z: Float64Array;
  readonly w: Plane;
  readonly under: Float64Array;
  readonly t: Float64Array;
  /** What takes right-hand sides to unknowns: entry (u, i) of row j at `answer[(u * rows + i) * BLOCK + j]`. */
  readonly answer: Float64Array;
  /** The block's changes V; of one order right-hand sides, unknowns and what is taken of the tangent; the driver's. */
  readonly v: Plane;
  readonly rhs: Float64Array;
  readonly y: Float64Array;
  readonly along: Float64Array;
  readonly drive: Float64Array;
  /** Derivatives of the readings by the last shift, laid out like `reader.m`. */
  readonly rates: Float64Array;
}

/** Both coordinates of the forms of a block. */
interface Plane {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** A product conj(F) W of two forms, by index. */
interface FrameProduct {
  readonly frame: number;
  readonly form: number;
  readonly product: number;
}

/** Makes a sensor for a reader of a path that `driver` drives. */
export function sensor(reader: Reader, driver: BoundMeasure, shifts: readonly Shift[]): Sensor {
  const { system } = reader.path;
  const { places, forms } = rateForms(system, shifts);
  const all: RatedForm[] = [...forms];
  const bound = [...reader.measures, driver];
  const indexOf = (form: RatedForm) => {
    const known = all.indexOf(form);
    return known >= 0 ? known : all.push(form) - 1;
  };
  const ownForm = bound.map(({ ends: [a, b] }) =>
    indexOf(b === undefined ? places[a] : ratedLine(places[a], places[b])),
  );
  const frames = bound.map(({ frame }) =>
    frame === null ? -1 : indexOf(overDrawn(ratedLine(places[frame.ends[0]], places[frame.ends[1]]))),
  );
  const seen: FrameProduct[] = [];
  const formOf = ownForm.map((form, i) => {
    if (frames[i] < 0) return form;
    const product = all.length + seen.length;
    seen.push({ frame: frames[i], form, product });
    return product;
  });
  const zeros = shifts.map((_, k) =>
    bound.map(({ kind, frame }) => {
      if (frame === null || (kind !== 'x' && kind !== 'y')) return 0;
      return places[frame.ends[0]].rates[k][kind];
    }),
  );
  const count = all.length + seen.length;
  const { unknowns } = system;
  const rows = system.structure.rows.length;
  const room = (count: number) => new Float64Array(count * READING);
  return {
    reader,
    driver,
    orders: reader.anyDerived ? KEPT : 1,
    forms: packForms(all.map(({ value }) => value)),
    shifts: shifts.map((_, k) => packForms(all.map(({ rates }) => withoutZeros(rates[k])))),
    formOf,
    ownForm,
    products: seen,
    zeros,
    z: room(unknowns),
    w: { x: room(count), y: room(count) },
    under: room(bound.length),
    t: room(1),
    answer: new Float64Array(unknowns * rows * BLOCK),
    v: { x: room(count), y: room(count) },
    rhs: new Float64Array(rows * BLOCK),
    y: new Float64Array(unknowns * BLOCK),
    along: new Float64Array(BLOCK),
    drive: room(1),
    rates: room(reader.measures.length),
  };
}

/** A line L over its drawn value d: (L/d)˙ = L˙/d - L d˙/d^2. */
function overDrawn({ value, rates }: RatedForm): RatedForm {
  const square = value.x * value.x + value.y * value.y;
  const [re, im] = [value.x / square, -value.y / square];
  const nothing = constantForm(0, 0);
  return {
    value: combineForms(nothing, value, re, im, 1, 0),
    rates: rates.map((rate) => {
      const [x, y] = [rate.x * re - rate.y * im, rate.x * im + rate.y * re];
      const own = combineForms(nothing, rate, re, im, 0, 0);
      return combineForms(own, value, -(x * re - y * im), -(x * im + y * re), 0, 0);
    }),
  };
}

/** A form without the entries that are nothing. */
function withoutZeros({ x, y, free, re, im }: Form): Form {
  const kept = free.map((_, k) => k).filter((k) => re[k] !== 0 || im[k] !== 0);
  return { x, y, free: kept.map((k) => free[k]), re: kept.map((k) => re[k]), im: kept.map((k) => im[k]) };
}

/** Reads a block of rows as `readRows`, and makes their poses ready for `readRates`. */
export function readPoses(s: Sensor, t: Float64Array, from: number): number {
  const { reader, orders, forms, z, w, under } = s;
  const rows = readRows(reader, t, from);
  const p = pieceAt(reader.path, t[from]);
  readDriver(reader, p, t, from, rows);
  s.t.set(reader.t);
  expandUnknowns(reader.path.pieces[p], reader.x, rows, z);
  drawForms(forms, KEPT, rows, w);
  addForms(forms, z, 0, KEPT - 1, rows, w);
  for (const seen of s.products) for (let k = 0; k < KEPT; k++) fillProduct(seen, k, rows, w, [w, w]);
  fillAnswers(s, rows);
  [...reader.measures, s.driver].forEach((measure, i) => {
    if (measure.kind === 'x' || measure.kind === 'y') return;
    squareBlock(s, i, orders, rows);
    if (measure.kind === 'length') rootBlock(measure.offset, orders, rows, under, i * READING);
  });
  return rows;
}

/** The derivatives of the block's readings by a shift, into `s.rates`. Where none exists they are not finite. */
export function readRates(s: Sensor, shift: number, rows: number): void {
  const { reader, driver, orders, forms, z, w, t, v, along, drive, formOf, rates } = s;
  const moves = s.shifts[shift];
  drawForms(moves, orders, rows, v);
  addForms(moves, z, 0, orders - 1, rows, v);
  const drivenAt = formOf.length - 1;
  const drawn = drawnRate(driver, s, drivenAt, moves) + s.zeros[shift][drivenAt];
  for (let k = 0; k < orders; k++) {
    solveOrder(s, moves, k, rows);
    addForms(forms, s.y, k, k, rows, v, 0);
    for (const seen of s.products) fillProduct(seen, k, rows, v, [v, w], [w, v]);
    rateOrder(driver, s, drivenAt, k, rows, drive, 0);
    // What is missing of the driver's change, made up along the tangent.
    const wanted = k === 0 ? drawn - s.zeros[shift][drivenAt] : 0;
    for (let j = 0; j < rows; j++) {
      along[j] = (wanted - drive[k * BLOCK + j]) / t[BLOCK + j];
      drive[k * BLOCK + j] = wanted;
    }
    for (let f = 0; f < forms.count + s.products.length; f++) {
      const from = f * READING + BLOCK;
      const to = f * READING + k * BLOCK;
      for (let j = 0; j < rows; j++) {
        v.x[to + j] += along[j] * w.x[from + j];
        v.y[to + j] += along[j] * w.y[from + j];
      }
    }
  }
  for (let i = 0; i < reader.measures.length; i++) {
    const measure = reader.measures[i];
    const to = i * READING;
    const last = reader.derived[i] ? KEPT : 1;
    for (let k = 0; k < last; k++) rateOrder(measure, s, i, k, rows, rates, to);
    const start = measure.fromDrawn ? drawnRate(measure, s, i, moves) : -s.zeros[shift][i];
    for (let j = to; j < to + rows; j++) rates[j] -= start;
    if (!reader.derived[i]) continue;
    for (let j = to + SECOND; j < to + SECOND + rows; j++) rates[j] *= 2;
    byDriver(rates, to, rows, t);
  }
}

/** Taylor coefficients 0, 1, 2 of the unknowns by the way of a piece, at many places. */
function expandUnknowns({ z: c, order, unit }: Piece, x: Float64Array, rows: number, z: Float64Array): void {
  const width = order + 1;
  const w = new Float64Array(3 * order);
  for (let i = 0, to = 0; i * width < c.length; i++, to += READING) {
    for (let k = 0; k < width; k++) w[k] = c[i * width + k];
    derive(w, order, 1 / unit);
    for (let part = 0; part < KEPT; part++)
      evaluateMany(w, partAt(order, part), order - part, x, rows, false, z, to + part * BLOCK);
    for (let j = to + SECOND; j < to + SECOND + rows; j++) z[j] *= 0.5;
  }
}

/** Forms of a block at their drawn values, with nothing above order 0. */
function drawForms({ count, d }: Forms, orders: number, rows: number, { x, y }: Plane): void {
  for (let f = 0; f < count; f++) {
    for (let k = 0; k < orders; k++) {
      const at = f * READING + k * BLOCK;
      x.fill(k === 0 ? d[2 * f] : 0, at, at + rows);
      y.fill(k === 0 ? d[2 * f + 1] : 0, at, at + rows);
    }
  }
}

/**
 * Adds the variable parts of forms, orders `from` to `to` of a block, from unknowns of `stride` each whose order k
 * stands `k * step` from their start.
 */
function addForms(
  { count, start, free, c }: Forms,
  z: Float64Array,
  from: number,
  to: number,
  rows: number,
  { x, y }: Plane,
  step = BLOCK,
): void {
  const stride = step === 0 ? BLOCK : READING;
  for (let f = 0; f < count; f++) {
    for (let q = start[f]; q < start[f + 1]; q++) {
      const re = c[2 * q];
      const im = c[2 * q + 1];
      for (let k = from; k <= to; k++) {
        const at = f * READING + k * BLOCK;
        const zx = 2 * free[q] * stride + k * step;
        const zy = zx + stride;
        for (let j = 0; j < rows; j++) {
          x[at + j] += re * z[zx + j] - im * z[zy + j];
          y[at + j] += re * z[zy + j] + im * z[zx + j];
        }
      }
    }
  }
}

/** Order k of the product conj(F) W of a block, or of the sum of such products, F and W from two planes. */
function fillProduct(
  { frame, form, product }: FrameProduct,
  k: number,
  rows: number,
  { x, y }: Plane,
  ...planes: readonly (readonly [F: Plane, W: Plane])[]
): void {
  const at = product * READING + k * BLOCK;
  x.fill(0, at, at + rows);
  y.fill(0, at, at + rows);
  for (let n = 0; n <= k; n++) {
    const [f, w] = [frame * READING + n * BLOCK, form * READING + (k - n) * BLOCK];
    for (const [F, W] of planes) {
      for (let j = 0; j < rows; j++) {
        x[at + j] += F.x[f + j] * W.x[w + j] + F.y[f + j] * W.y[w + j];
        y[at + j] += F.x[f + j] * W.y[w + j] - F.y[f + j] * W.x[w + j];
      }
    }
  }
}

/** For each row of the block the matrix that takes right-hand sides to unknowns, its free column zero. */
function fillAnswers({ reader, z, answer }: Sensor, rows: number): void {
  const e = taylorExpansion(reader.path.system);
  const { elimination, residuals: rhs, x, pose } = e;
  const { unknowns } = e.system;
  for (let j = 0; j < rows; j++) {
    for (let u = 0; u < unknowns; u++) pose[u] = z[u * READING + j];
    factorise(e, pose);
    const determined = elimination.rank === unknowns - 1;
    for (let i = 0; i < rhs.length; i++) {
      rhs.fill(0);
      rhs[i] = 1;
      solve(elimination, rhs, x);
      const counts = elimination.pivotColumn[i] >= 0;
      for (let u = 0; u < unknowns; u++) {
        answer[(u * rhs.length + i) * BLOCK + j] = determined ? (counts ? x[u] : 0) : Number.NaN;
      }
    }
  }
}

/** |W|^2 of a block, as many orders. */
function squareBlock({ w: { x, y }, formOf, under }: Sensor, i: number, orders: number, rows: number): void {
  const [from, to] = [formOf[i] * READING, i * READING];
  for (let k = 0; k < orders; k++) {
    for (let j = 0; j < rows; j++) {
      let sum = 0;
      for (let n = 0; n <= k; n++) {
        const a = from + n * BLOCK + j;
        const b = from + (k - n) * BLOCK + j;
        sum += x[a] * x[b] + y[a] * y[b];
      }
      under[to + k * BLOCK + j] = sum;
    }
  }
}

/** sqrt(|W|^2 + offset^2) of a block in place of |W|^2: m_0 m_k = (N_k - sum_{j=1..k-1} m_j m_{k-j}) / 2. */
function rootBlock(offset: number, orders: number, rows: number, m: Float64Array, at: number): void {
  for (let j = at; j < at + rows; j++) {
    m[j] = Math.sqrt(m[j] + offset * offset);
    if (orders === 1) continue;
    m[j + BLOCK] *= 0.5 / m[j];
    m[j + SECOND] = (0.5 * (m[j + SECOND] - m[j + BLOCK] * m[j + BLOCK])) / m[j];
  }
}

/** y_k of a block but for the tangent, into `s.y`. */
function solveOrder(s: Sensor, moves: Forms, k: number, rows: number): void {
  const { reader, forms, w, v, z, rhs, y, answer } = s;
  const { unknowns, structure } = reader.path.system;
  const plans = structure.rows;
  for (let i = 0; i < plans.length; i++) {
    const { a, b, re, im, defines, measures } = plans[i];
    const at = i * BLOCK;
    rhs.fill(k === 0 ? constantRate(forms, moves, plans[i]) : 0, at, at + rows);
    if (defines === 'value' && measures !== undefined) {
      const rate = lengthRate(forms, moves, a);
      const q = (2 * structure.freePoints.length + measures[0][0]) * READING + k * BLOCK;
      for (let j = 0; j < rows; j++) rhs[at + j] += rate * z[q + j];
    }
    for (let n = 0; n <= k; n++) {
      const [va, vb] = [a * READING + n * BLOCK, b * READING + n * BLOCK];
      const [wa, wb] = [a * READING + (k - n) * BLOCK, b * READING + (k - n) * BLOCK];
      if (defines === 'turn') {
        for (let j = 0; j < rows; j++) rhs[at + j] -= w.x[wa + j] * v.y[vb + j] - w.y[wa + j] * v.x[vb + j];
        continue;
      }
      if (a === b) {
        for (let j = 0; j < rows; j++) {
          rhs[at + j] -= 2 * re * (v.x[va + j] * w.x[wa + j] + v.y[va + j] * w.y[wa + j]);
        }
        continue;
      }
      for (let j = 0; j < rows; j++) {
        const ax = v.x[va + j];
        const ay = v.y[va + j];
        const bx = v.x[vb + j];
        const by = v.y[vb + j];
        const cx = w.x[wa + j];
        const cy = w.y[wa + j];
        const dx = w.x[wb + j];
        const dy = w.y[wb + j];
        const real = ax * dx + ay * dy + cx * bx + cy * by;
        const imaginary = ax * dy - ay * dx + cx * by - cy * bx;
        rhs[at + j] -= re * real - im * imaginary;
      }
    }
  }
  for (let u = 0; u < unknowns; u++) {
    const to = u * BLOCK;
    y.fill(0, to, to + rows);
    for (let i = 0; i < plans.length; i++) {
      const from = (u * plans.length + i) * BLOCK;
      for (let j = 0; j < rows; j++) y[to + j] += answer[from + j] * rhs[i * BLOCK + j];
    }
  }
}

/** Re(k (conj(d˙_a) d_b + conj(d_a) d˙_b)) of a row. */
function constantRate({ d }: Forms, { d: rate }: Forms, { a, b, re, im, defines }: RowPlan): number {
  const [ax, ay, bx, by] = [d[2 * a], d[2 * a + 1], d[2 * b], d[2 * b + 1]];
  const [dx, dy] = [rate[2 * b], rate[2 * b + 1]];
  const [cx, cy] = defines === 'turn' ? [0, 0] : [rate[2 * a], rate[2 * a + 1]];
  const real = cx * bx + cy * by + ax * dx + ay * dy;
  const imaginary = cx * by - cy * bx + ax * dy - ay * dx;
  return re * real - im * imaginary;
}

/** |d_a|˙ of a form. */
function lengthRate({ d }: Forms, { d: rate }: Forms, a: number): number {
  const [x, y] = [d[2 * a], d[2 * a + 1]];
  return (x * rate[2 * a] + y * rate[2 * a + 1]) / Math.sqrt(x * x + y * y);
}

/** m˙_k of measure i of a block, the driver the last; its orders below k are in `out` already. */
function rateOrder(
  { kind }: BoundMeasure,
  { w, v, under, formOf }: Sensor,
  i: number,
  k: number,
  rows: number,
  out: Float64Array,
  to: number,
): void {
  const [form, below] = [formOf[i] * READING, i * READING];
  const at = to + k * BLOCK;
  if (kind === 'x' || kind === 'y') {
    const rate = kind === 'x' ? v.x : v.y;
    for (let j = 0; j < rows; j++) out[at + j] = rate[form + k * BLOCK + j];
    return;
  }
  for (let j = 0; j < rows; j++) {
    let sum = 0;
    for (let n = 0; n <= k; n++) {
      const [a, b] = [form + n * BLOCK + j, form + (k - n) * BLOCK + j];
      sum += kind === 'length' ? w.x[a] * v.x[b] + w.y[a] * v.y[b] : w.x[a] * v.y[b] - w.y[a] * v.x[b];
      if (n > 0) sum -= under[below + n * BLOCK + j] * out[to + (k - n) * BLOCK + j];
    }
    out[at + j] = sum / under[below + j];
  }
}

/** Derivative of a measure's value in the drawn pose. */
function drawnRate(
  { kind, offset }: BoundMeasure,
  { forms, ownForm }: Sensor,
  measure: number,
  moves: Forms,
): number {
  // Relative to a body it is the same: as drawn F is 1, whatever is drawn.
  const f = 2 * ownForm[measure];
  const [x, y] = [forms.d[f], forms.d[f + 1]];
  const [xRate, yRate] = [moves.d[f], moves.d[f + 1]];
  if (kind === 'x') return xRate;
  if (kind === 'y') return yRate;
  if (kind === 'length') return (x * xRate + y * yRate) / Math.sqrt(x * x + y * y + offset * offset);
  return (x * yRate - y * xRate) / (x * x + y * y);
}
