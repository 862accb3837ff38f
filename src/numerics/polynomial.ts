// Polynomials sum_k c[k] s^k, coefficients contiguous from an offset in a longer array.
//
// Real roots in an interval: in the Bernstein basis of [lo, hi] a polynomial has at most as many roots as its
// coefficients change sign, and none or one exactly when they change 0 or 1 times; else the interval is halved
// (de Casteljau). G. Farin, "Curves and Surfaces for CAGD", ch. 5 (from memory); R. T. Farouki, V. T. Rajan,
// "Algorithms for polynomials in Bernstein form", CAGD 5, 1988 (from memory).

import { smallArray } from './small-array.ts';

/** An interval is not halved below this share of the first one: two roots closer than that count as one. */
const SMALLEST_SHARE = 1 / 1_099_511_627_776; // 2^-40

/** A polynomial vanishes at an end of an interval if it is below this share of its largest coefficient there. */
const END = 8 * Number.EPSILON;

/** Value at s of the polynomial of the given degree. */
export function horner(c: Float64Array, offset: number, degree: number, s: number): number {
  let value = c[offset + degree];
  for (let k = degree - 1; k >= 0; k--) value = value * s + c[offset + k];
  return value;
}

/** Whether places lie mirrored about 0: the first opposite the last, and so on. */
export function areMirrored(s: Float64Array, count: number): boolean {
  for (let i = 0, j = count - 1; i <= j; i++, j--) if (s[i] !== -s[j]) return false;
  return true;
}

/**
 * Values `out[to + i]` of one polynomial at many places `s[0 .. count - 1]`, its even and odd powers apart: E(s^2) + s O(s^2); as
 * `plus` + `times` x value where those are given.
 * Of two `mirrored` places one evaluation serves both; the bits are the same with and without.
 */
export function evaluateMany(
  c: Float64Array,
  offset: number,
  degree: number,
  s: Float64Array,
  count: number,
  mirrored: boolean,
  out: Float64Array,
  to: number,
  plus = 0,
  times = 1,
): void {
  const isEven = (degree & 1) === 0;
  const top = isEven ? c[offset + degree] : 0;
  const start = offset + degree - (isEven ? 1 : 0);
  const last = mirrored ? (count - 1) >> 1 : count - 1;
  const opposite = to + count - 1;
  const isScaled = plus !== 0 || times !== 1;
  // Four places at a time: their chains of operations are independent and run side by side. The last is done again where fewer are left.
  for (let i0 = 0; i0 <= last; i0 += 4) {
    const i1 = Math.min(i0 + 1, last);
    const i2 = Math.min(i0 + 2, last);
    const i3 = Math.min(i0 + 3, last);
    const s0 = s[i0];
    const s1 = s[i1];
    const s2 = s[i2];
    const s3 = s[i3];
    const y0 = s0 * s0;
    const y1 = s1 * s1;
    const y2 = s2 * s2;
    const y3 = s3 * s3;
    let e0 = top;
    let e1 = top;
    let e2 = top;
    let e3 = top;
    let o0 = 0;
    let o1 = 0;
    let o2 = 0;
    let o3 = 0;
    for (let k = start; k > offset; k -= 2) {
      const odd = c[k];
      const even = c[k - 1];
      o0 = o0 * y0 + odd;
      e0 = e0 * y0 + even;
      o1 = o1 * y1 + odd;
      e1 = e1 * y1 + even;
      o2 = o2 * y2 + odd;
      e2 = e2 * y2 + even;
      o3 = o3 * y3 + odd;
      e3 = e3 * y3 + even;
    }
    o0 *= s0;
    o1 *= s1;
    o2 *= s2;
    o3 *= s3;
    const d0 = e0 - o0;
    const d1 = e1 - o1;
    const d2 = e2 - o2;
    const d3 = e3 - o3;
    e0 += o0;
    e1 += o1;
    e2 += o2;
    e3 += o3;
    out[to + i0] = isScaled ? plus + times * e0 : e0;
    out[to + i1] = isScaled ? plus + times * e1 : e1;
    out[to + i2] = isScaled ? plus + times * e2 : e2;
    out[to + i3] = isScaled ? plus + times * e3 : e3;
    if (!mirrored) continue;
    out[opposite - i0] = isScaled ? plus + times * d0 : d0;
    out[opposite - i1] = isScaled ? plus + times * d1 : d1;
    out[opposite - i2] = isScaled ? plus + times * d2 : d2;
    out[opposite - i3] = isScaled ? plus + times * d3 : d3;
  }
}

/** The polynomial about another place: its coefficients in (s - place) * scale^-1, in place of those in s. */
export function shift(c: Float64Array, degree: number, place: number, scale: number): void {
  for (let j = 0; j < degree; j++) for (let k = degree - 1; k >= j; k--) c[k] += place * c[k + 1];
  let power = scale;
  for (let k = 1; k <= degree; k++) {
    c[k] *= power;
    power *= scale;
  }
}

/**
 * The inverse of a power series: with x = sum_{k>=1} c_k s^k (c_0 is left out of account) the coefficients b of
 * s = sum_{n>=1} b_n x^n, as many as `b` holds. From [x^n] sum_k c_k s(x)^k = 0 for n >= 2:
 *
 *   b_1 = 1 / c_1,   b_n = - sum_{k=2..n} c_k [x^n] s(x)^k / c_1.
 */
export function revert(c: Float64Array, b: Float64Array): void {
  const width = b.length;
  // powers[k width + n] is [x^n] s(x)^k.
  const powers = smallArray(width * width);
  b[0] = 0;
  b[1] = 1 / c[1];
  powers[width + 1] = b[1];
  for (let n = 2; n < width; n++) {
    let sum = 0;
    for (let k = 2; k <= n; k++) {
      // [x^n] s^k = sum_j b_j [x^(n-j)] s^(k-1); s^(k-1) begins with x^(k-1).
      let coefficient = 0;
      for (let j = 1; j <= n - k + 1; j++) coefficient += b[j] * powers[(k - 1) * width + n - j];
      powers[k * width + n] = coefficient;
      sum += c[k] * coefficient;
    }
    b[n] = -sum / c[1];
    powers[width + n] = b[n];
  }
}

/** Coefficients of the derivative. */
export function derivative(c: Float64Array): Float64Array {
  const slope = smallArray(c.length - 1);
  for (let k = 0; k < slope.length; k++) slope[k] = (k + 1) * c[k + 1];
  return slope;
}

/**
 * Roots in [lo, hi] where the polynomial changes sign or is exactly zero at an end of a halved interval, ascending; two
 * that can't be told apart by rounding count as one.
 */
export function roots(c: Float64Array, lo: number, hi: number): number[] {
  const reach = Math.max(Math.abs(lo), Math.abs(hi));
  let rest = 0;
  for (let k = c.length - 1; k >= 1; k--) rest = (rest + Math.abs(c[k])) * reach;
  if (Math.abs(c[0]) > rest) return [];
  const found: number[] = [];
  const b = bernstein(c, lo, hi);
  // A root on an end of the interval may be off it by rounding, to either side.
  const rounding = END * b.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  for (const end of [0, b.length - 1]) if (Math.abs(b[end]) <= rounding) b[end] = 0;
  isolate(c, b, lo, hi, (hi - lo) * SMALLEST_SHARE, found);
  if (b[b.length - 1] === 0) append(found, hi, hi - lo);
  return found;
}

/** Roots in [lo, hi): one on the right-hand end is left to the next interval. */
function isolate(
  c: Float64Array,
  b: Float64Array,
  lo: number,
  hi: number,
  smallest: number,
  found: number[],
): void {
  if (b[0] === 0) append(found, lo, hi - lo);
  const changes = signChanges(b);
  if (changes === 0) return;
  if (changes === 1 && b[0] !== 0) {
    append(found, bracketed(c, 0, lo, hi, b[0] < 0, 0.5 * (lo + hi)), hi - lo);
    return;
  }
  if (hi - lo <= smallest) {
    append(found, 0.5 * (lo + hi), hi - lo);
    return;
  }
  const middle = 0.5 * (lo + hi);
  isolate(c, halved(b), lo, middle, smallest, found);
  isolate(c, b, middle, hi, smallest, found);
}

/** Adds a root unless rounding made it of the last one, found from the other side of a halving. */
function append(found: number[], root: number, width: number): void {
  const last = found[found.length - 1];
  const apart = 4 * Number.EPSILON * Math.max(Math.abs(root), width);
  if (found.length === 0 || root > last + apart) found.push(root);
}

function signChanges(b: Float64Array): number {
  let changes = 0;
  let last = 0;
  for (const value of b) {
    if (value === 0) continue;
    if (last * value < 0) changes++;
    last = Math.sign(value);
  }
  return changes;
}

/** The root nearest to 0 between 0 and `end`, which lies that way; null if there is none. */
export function firstRoot(c: Float64Array, way: 1 | -1, end: number): number | null {
  const found = way > 0 ? roots(c, 0, end) : roots(c, end, 0);
  return (way > 0 ? found[0] : found[found.length - 1]) ?? null;
}

/**
 * Where a polynomial that grows, or falls, from lo to hi takes a value; an end where rounding puts the value outside.
 * Newton from `start` (default: the middle), kept inside a shrinking bracket.
 */
export function rootBetween(c: Float64Array, target: number, lo: number, hi: number, start?: number): number {
  const degree = c.length - 1;
  const rising = horner(c, 0, degree, lo) < horner(c, 0, degree, hi);
  return bracketed(c, target, lo, hi, rising, start ?? 0.5 * (lo + hi));
}

function bracketed(
  c: Float64Array,
  target: number,
  lo: number,
  hi: number,
  rising: boolean,
  start: number,
): number {
  const degree = c.length - 1;
  let s = start;
  for (let round = 0; round < 100; round++) {
    let value = c[degree];
    let slope = 0;
    for (let k = degree - 1; k >= 0; k--) {
      slope = slope * s + value;
      value = value * s + c[k];
    }
    const residual = value - target;
    if (residual === 0) return s;
    if (residual < 0 === rising) lo = s;
    else hi = s;
    const newton = s - residual / slope;
    const next = newton > lo && newton < hi ? newton : 0.5 * (lo + hi);
    if (Math.abs(next - s) <= Number.EPSILON * Math.abs(next)) return next;
    s = next;
  }
  return s;
}

/** Bernstein coefficients on [lo, hi]: Taylor shift to lo, then the binomial transform of q_j / C(n, j). */
function bernstein(c: Float64Array, lo: number, hi: number): Float64Array {
  const n = c.length - 1;
  const b = c.slice();
  for (let j = 0; j < n; j++) for (let k = n - 1; k >= j; k--) b[k] += lo * b[k + 1];
  let scale = 1;
  for (let j = 0; j <= n; j++) {
    b[j] *= scale;
    scale *= ((hi - lo) * (j + 1)) / Math.max(1, n - j);
  }
  for (let round = 1; round <= n; round++) for (let i = n; i >= round; i--) b[i] += b[i - 1];
  return b;
}

/** The same polynomial on the left half of its interval; `b` becomes what it is on the right one (de Casteljau). */
function halved(b: Float64Array): Float64Array {
  const n = b.length - 1;
  const left = smallArray(n + 1);
  for (let round = 0; round <= n; round++) {
    left[round] = b[0];
    for (let i = 0; i < n - round; i++) b[i] = 0.5 * (b[i] + b[i + 1]);
  }
  return left;
}
