// The driver as local parameter of a piece: the row that closes the system. With W the driver's form about a pose, W_0 there, and
// t = t_0 + h x the driver, order by order
//
//   x, y     g . Z_1 = h,  g . Z_k = 0
//   length   |W|^2 + o^2 = (L_0 + h x)^2:     L_0 g . Z_k = ([k = 2] h^2 - sum_{j=1..k-1} Re(conj(w_j) w_{k-j})) / 2
//   angle    Im(conj(W_0) exp(-i h x) W) = 0:  |W_0|^2 g . Z_k = - sum_{j=1..k} Im((-i h)^j conj(W_0) w_{k-j}) / j!,  w_0 = W_0
//
// g being the driver's gradient; so the driver needs no series of its own, and none has to be inverted.

import type { BoundMeasure } from './measure.ts';

/** A driver as local parameter, and its workspace. */
export interface Closing {
  readonly measure: BoundMeasure;
  /** Gradient at the pose last looked at, in the columns of the measure's form. */
  readonly gradient: Float64Array;
  /** Series of the form. */
  readonly wx: Float64Array;
  readonly wy: Float64Array;
  /** 1 / |W_0|^2, and the length at the pose. */
  perSquare: number;
  length: number;
}

/** The driver as local parameter; null for one relative to a moving body, which has no such row. */
export function closing(
  measure: BoundMeasure,
  work: Pick<Closing, 'gradient' | 'wx' | 'wy'>,
): Closing | null {
  if (measure.frame !== null) return null;
  const { gradient, wx, wy } = work;
  return { measure, gradient, wx, wy, perSquare: 0, length: 0 };
}

/** Takes the gradient at a pose; returns its length. */
export function takeGradient(c: Closing, pose: Float64Array): number {
  const { gradient, wx, wy } = c;
  const { kind, form, offset } = c.measure;
  const { free, re, im } = form;
  let { x, y } = form;
  for (let q = 0; q < free.length; q++) {
    const zx = pose[2 * free[q]];
    const zy = pose[2 * free[q] + 1];
    x += re[q] * zx - im[q] * zy;
    y += re[q] * zy + im[q] * zx;
  }
  wx[0] = x;
  wy[0] = y;
  // The gradient is that of Re(conj(u) W).
  let ux = kind === 'x' ? 1 : 0;
  let uy = kind === 'y' ? 1 : 0;
  const square = x * x + y * y;
  if (kind === 'length') {
    c.length = Math.sqrt(square + offset * offset);
    ux = x / c.length;
    uy = y / c.length;
  } else if (kind === 'angle') {
    c.perSquare = 1 / square;
    ux = -y * c.perSquare;
    uy = x * c.perSquare;
  }
  let norm = 0;
  for (let q = 0; q < free.length; q++) {
    const gx = ux * re[q] + uy * im[q];
    const gy = uy * re[q] - ux * im[q];
    gradient[2 * free[q]] = gx;
    gradient[2 * free[q] + 1] = gy;
    norm += gx * gx + gy * gy;
  }
  return Math.sqrt(norm);
}

/** The driver at the pose whose gradient was taken last; an angle in (-pi, pi] plus its zero. */
export function driverHere({ measure: { kind, zero }, wx, wy, length }: Closing): number {
  if (kind === 'angle') return Math.atan2(wy[0], wx[0]) + zero;
  return (kind === 'length' ? length : kind === 'x' ? wx[0] : wy[0]) + zero;
}

/** Takes order k of the unknowns, of `stride` coefficients each. */
export function takeOrder({ measure, wx, wy }: Closing, z: Float64Array, stride: number, k: number): void {
  const { kind, form } = measure;
  if (kind === 'x' || kind === 'y') return;
  const { free, re, im } = form;
  let x = 0;
  let y = 0;
  for (let q = 0; q < free.length; q++) {
    const zx = z[2 * free[q] * stride + k];
    const zy = z[(2 * free[q] + 1) * stride + k];
    x += re[q] * zx - im[q] * zy;
    y += re[q] * zy + im[q] * zx;
  }
  wx[k] = x;
  wy[k] = y;
}

/** g . Z_k for k >= 2, where x = 1 stands for so much of the driver. */
export function closingOrder(
  { measure, wx, wy, perSquare, length }: Closing,
  k: number,
  unit: number,
): number {
  if (measure.kind === 'length') {
    let sum = k === 2 ? unit * unit : 0;
    for (let j = 1; j < k; j++) sum -= wx[j] * wx[k - j] + wy[j] * wy[k - j];
    return (0.5 * sum) / length;
  }
  if (measure.kind !== 'angle') return 0;
  const ax = wx[0];
  const ay = wy[0];
  let sum = 0;
  // (-i h)^j / j!
  let re = 1;
  let im = 0;
  for (let j = 1; j <= k; j++) {
    const turned = -re * (unit / j);
    re = im * (unit / j);
    im = turned;
    const x = ax * wx[k - j] + ay * wy[k - j];
    const y = ax * wy[k - j] - ay * wx[k - j];
    sum -= re * y + im * x;
  }
  return sum * perSquare;
}
