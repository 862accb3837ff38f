// A smooth function on an interval is replaced by its Chebyshev interpolant, the polynomial through its values at the Chebyshev points
//
//   s = (a + b)/2 + (b - a)/2 x,   x_j = cos(pi j / N),   p(x) = sum_k c_k T_k(x)
//   c_k = w_k (2/N) sum_j w_j f(s_j) cos(pi j k / N),      w_0 = w_N = 1/2, else 1
//
// (L. N. Trefethen, "Approximation Theory and Approximation Practice", 2013, ch. 3 and 4; from memory). Where its last
// coefficients are not small the interval is halved. |T_k| <= 1, so that p keeps the sign of c_0 when |c_0| is more than
// the sum of the others. The roots of p' cut the interval into parts on which the function grows or falls; a zero in
// such a part shows in the signs at its ends, and is found on the function itself.

import { derivative, roots } from './polynomial.ts';
import { zeroBetween } from './zero.ts';

/** Degree: low enough that powers of x in place of T_k(x) cost no more than half of the digits. */
const N = 16;
/** Last coefficients that are compared with the largest, and the share of it that they may be. */
const TAIL = 3;
const SMALL = 1e-11;
/** An interval is not halved below this share of the first one: there is a kink in it. */
const SMALLEST_SHARE = 1 / 4_294_967_296; // 2^-32

/** Intervals after which none is halved any more: the function is rough everywhere. */
const MOST_INTERVALS = 512;

/** Points x_j, and w_k (2/N) w_j cos(pi j k / N) for each k and j. */
const X = Float64Array.from({ length: N + 1 }, (_, j) => Math.sin((Math.PI * (N - 2 * j)) / (2 * N)));
const WEIGHTS = Float64Array.from({ length: (N + 1) ** 2 }, (_, i) => {
  const [k, j] = [Math.floor(i / (N + 1)), i % (N + 1)];
  return ((half(k) * half(j) * 2) / N) * Math.cos((Math.PI * ((j * k) % (2 * N))) / N);
});
/** Powers of x in each T_k: T_{k+1} = 2 x T_k - T_{k-1}. */
const POWERS = powers();

function half(k: number): number {
  return k === 0 || k === N ? 0.5 : 1;
}

function powers(): Float64Array[] {
  const T = [Float64Array.of(1), Float64Array.of(0, 1)];
  for (let k = 1; k < N; k++) {
    const next = new Float64Array(k + 2);
    for (let i = 0; i <= k; i++) next[i + 1] = 2 * T[k][i];
    for (let i = 0; i < k; i++) next[i] -= T[k - 1][i];
    T.push(next);
  }
  return T;
}

/** The polynomial in place of a function on [from, to]. */
export interface ChebyshevInterpolant {
  readonly from: number;
  readonly to: number;
  /** Coefficients of T_0 .. T_N. */
  readonly c: Float64Array;
  /** Whether the function is the polynomial, to rounding; false where it has a kink. */
  readonly isGood: boolean;
}

/** Polynomials in place of f, interval by interval; `noise` is what f may be off by rounding. */
export function chebyshevInterpolants(
  f: (s: number) => number,
  from: number,
  to: number,
  noise: number,
): ChebyshevInterpolant[] {
  const found: ChebyshevInterpolant[] = [];
  interpolate(f, from, to, noise, SMALLEST_SHARE * (to - from), found);
  return found;
}

function interpolate(
  f: (s: number) => number,
  from: number,
  to: number,
  noise: number,
  smallest: number,
  found: ChebyshevInterpolant[],
): void {
  const values = chebyshevPoints(from, to);
  for (let j = 0; j <= N; j++) values[j] = f(values[j]);
  const c = new Float64Array(N + 1);
  let most = 0;
  for (let k = 0, i = 0; k <= N; k++) {
    let sum = 0;
    for (let j = 0; j <= N; j++, i++) sum += WEIGHTS[i] * values[j];
    c[k] = sum;
    most = Math.max(most, Math.abs(sum));
  }
  let tail = 0;
  for (let k = N - TAIL + 1; k <= N; k++) tail = Math.max(tail, Math.abs(c[k]));
  const good = tail <= Math.max(noise, SMALL * most);
  if (good || to - from <= smallest || found.length >= MOST_INTERVALS) {
    found.push({ from, to, c, isGood: good });
    return;
  }
  const middle = 0.5 * (from + to);
  interpolate(f, from, middle, noise, smallest, found);
  interpolate(f, middle, to, noise, smallest, found);
}

/** Where a function is looked at first on an interval: its Chebyshev points, descending. */
export function chebyshevPoints(from: number, to: number): Float64Array {
  const points = new Float64Array(N + 1);
  for (let j = 0; j <= N; j++) points[j] = placeOf(from, to, X[j]);
  return points;
}

function placeOf(from: number, to: number, x: number): number {
  if (x === 1) return to;
  return x === -1 ? from : 0.5 * (from + to) + 0.5 * (to - from) * x;
}

/** Whether the function is farther from zero than `tolerance` on all of the interval, by the bound of its coefficients. */
export function keepsAway({ c, isGood: good }: ChebyshevInterpolant, tolerance: number): boolean {
  let rest = tolerance + SMALL * Math.abs(c[0]);
  for (let k = 1; k <= N; k++) rest += Math.abs(c[k]);
  return good && Math.abs(c[0]) > rest;
}

/** Places inside the interval where the polynomial's derivative changes sign, ascending. */
export function turningPoints({ from, to, c }: ChebyshevInterpolant): number[] {
  const p = new Float64Array(N + 1);
  for (let k = 0; k <= N; k++) for (let i = 0; i <= k; i++) p[i] += c[k] * POWERS[k][i];
  return roots(derivative(p), -1, 1).map((x) => placeOf(from, to, x));
}

/**
 * The places on [from, to], ascending and with both ends, that a search for zeros of f must look at: all its zeros, and
 * where it turns. Between two of them f keeps its sign, and grows or falls throughout. Where f is farther from zero than
 * `tolerance`, its turns are left out. `noise` is what f may be off by rounding.
 *
 * Zeros are right to rounding. At a turn f differs from its least or greatest value by the square of a place's error.
 */
export function landmarks(
  f: (s: number) => number,
  from: number,
  to: number,
  tolerance: number,
  noise: number,
): number[] {
  const marks = [from];
  for (const proxy of chebyshevInterpolants(f, from, to, noise)) {
    if (keepsAway(proxy, tolerance)) continue;
    const inner = proxy.isGood
      ? turningPoints(proxy)
      : Array.from(X, (x) => placeOf(proxy.from, proxy.to, x)).reverse();
    for (const place of [proxy.from, ...inner, proxy.to]) addUpTo(f, place, marks);
  }
  addUpTo(f, to, marks);
  return marks;
}

/** Adds a place to the marks, and the zero before it if there is one. */
function addUpTo(f: (s: number) => number, place: number, marks: number[]): void {
  const last = marks[marks.length - 1];
  if (!(place > last)) return;
  if (f(last) * f(place) < 0) {
    const zero = zeroBetween(f, last, place);
    if (zero > last && zero < place) marks.push(zero);
  }
  marks.push(place);
}
