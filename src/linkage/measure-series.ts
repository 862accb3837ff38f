// Values of a measure, and its power series from that of the unknowns: with W(x) its form,
//
//   x, y     m = Re W or Im W
//   length   m^2 = N + o^2,  N = |W|^2:        2 m_0 m_k = N_k - sum_{j=1..k-1} m_j m_{k-j}
//   angle    m = arg W:  |W|^2 m' = Im(conj(W) W'):
//            k N_0 m_k = sum_{j=1..k} j Im(conj(W_{k-j}) W_j) - sum_{j=1..k-1} j m_j N_{k-j}
//
// In the first sum of an angle the terms j and k - j go together; the second one vanishes for a line of one body.

import { horner, shift } from '../numerics/polynomial.ts';
import type { Form } from './form.ts';
import type { BoundMeasure } from './measure.ts';
import { type Series, STRIDE } from './series.ts';

/** Workspace: the series of a measure's form, of the line of the body that it is relative to, and N. */
const WX = new Float64Array(STRIDE);
const WY = new Float64Array(STRIDE);
const FX = new Float64Array(STRIDE);
const FY = new Float64Array(STRIDE);
const NORM = new Float64Array(STRIDE);

/**
 * Coefficients 0 .. order of a measure into `out`, from those of the unknowns, `stride` apart; about `place` and in
 * (x - place) / scale, where those are given. An angle comes out in (-pi, pi], plus its zero; the caller continues it.
 * Returns the size of W at 0.
 */
export function measureSeries(
  measure: BoundMeasure,
  z: Float64Array,
  stride: number,
  order: number,
  out: Float64Array,
  place = 0,
  scale = 1,
): number {
  const { kind, form, frame, zero } = measure;
  formSeries(form, z, stride, order, place, scale, WX, WY);
  if (frame !== null) {
    formSeries(frame.form, z, stride, order, place, scale, FX, FY);
    turnBack(order);
  }
  const start = WX[0] * WX[0] + WY[0] * WY[0];
  if (kind === 'length') lengthSeries(measure.offset, start, order, out);
  else if (kind === 'angle') angleSeries(measure.rigid, start, order, out);
  else out.set((kind === 'x' ? WX : WY).subarray(0, order + 1));
  out[0] += zero;
  return Math.sqrt(start);
}

function formSeries(
  { x, y, free, re, im }: Form,
  z: Float64Array,
  stride: number,
  order: number,
  place: number,
  scale: number,
  wx: Float64Array,
  wy: Float64Array,
): void {
  wx.fill(0, 0, order + 1);
  wy.fill(0, 0, order + 1);
  for (let q = 0; q < free.length; q++) {
    const cRe = re[q];
    const cIm = im[q];
    const from = 2 * free[q] * stride;
    for (let k = 0; k <= order; k++) {
      const zx = z[from + k];
      const zy = z[from + stride + k];
      wx[k] += cRe * zx - cIm * zy;
      wy[k] += cRe * zy + cIm * zx;
    }
  }
  wx[0] += x;
  wy[0] += y;
  if (place === 0 && scale === 1) return;
  shift(wx, order, place, scale);
  shift(wy, order, place, scale);
}

/** conj(F) W in place of W. */
function turnBack(order: number): void {
  for (let k = order; k >= 0; k--) {
    let x = 0;
    let y = 0;
    for (let j = 0; j <= k; j++) {
      x += FX[j] * WX[k - j] + FY[j] * WY[k - j];
      y += FX[j] * WY[k - j] - FY[j] * WX[k - j];
    }
    WX[k] = x;
    WY[k] = y;
  }
}

function lengthSeries(offset: number, square: number, order: number, out: Float64Array): void {
  const start = Math.sqrt(square + offset * offset);
  out[0] = start;
  for (let k = 1; k <= order; k++) {
    let sum = 0;
    for (let p = 0, q = k; p < q; p++, q--) sum += WX[p] * WX[q] + WY[p] * WY[q];
    for (let p = 1, q = k - 1; p < q; p++, q--) sum -= out[p] * out[q];
    if ((k & 1) === 0) {
      const h = k >> 1;
      sum += 0.5 * (WX[h] * WX[h] + WY[h] * WY[h] - out[h] * out[h]);
    }
    // Of a length that is nothing throughout, too.
    out[k] = sum === 0 ? 0 : sum / start;
  }
}

function angleSeries(isRigid: boolean, square: number, order: number, out: Float64Array): void {
  out[0] = Math.atan2(WY[0], WX[0]);
  NORM[0] = square;
  for (let k = 1; k <= order; k++) {
    let sum = 0;
    let norm = 0;
    let i = 0;
    let j = k;
    for (; j > i; j--, i++) {
      sum += (j - i) * (WX[i] * WY[j] - WY[i] * WX[j]);
      norm += WX[i] * WX[j] + WY[i] * WY[j];
    }
    if (!isRigid) {
      NORM[k] = 2 * norm + (i === j ? WX[j] * WX[j] + WY[j] * WY[j] : 0);
      for (let n = 1; n < k; n++) sum -= n * out[n] * NORM[k - n];
    }
    out[k] = sum / (k * square);
  }
}

/** Value of a measure where a series stands at x; an angle in (-pi, pi] plus its zero. */
export function valueAt(
  { kind, form, frame, zero, offset }: BoundMeasure,
  series: Series,
  x: number,
): number {
  let [u, v] = formAt(form, series, x);
  if (frame !== null) {
    const [fx, fy] = formAt(frame.form, series, x);
    [u, v] = [fx * u + fy * v, fx * v - fy * u];
  }
  return valueFrom(kind, u, v, offset) + zero;
}

/** Value of a measure in the drawn pose: relative to a body it is the same, F being 1 there. */
export function drawnValue({ kind, form, zero, offset }: BoundMeasure): number {
  return valueFrom(kind, form.x, form.y, offset) + zero;
}

function valueFrom(kind: BoundMeasure['kind'], x: number, y: number, offset: number): number {
  if (kind === 'angle') return Math.atan2(y, x);
  if (kind === 'length') return Math.sqrt(x * x + y * y + offset * offset);
  return kind === 'x' ? x : y;
}

function formAt({ x, y, free, re, im }: Form, { z, order }: Series, s: number): [number, number] {
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
