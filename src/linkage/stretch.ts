// A measure's own series can have a smaller reach than the motion's: near a length of zero, or where a direction turns
// fast. A piece is then walked in stretches over each of which the measure's series is good.

import { horner } from '../numerics/polynomial.ts';
import { formSeries, packForms } from './form.ts';
import { type BoundMeasure, formsOf, measureSeries, unwrap, valueAt } from './measure.ts';
import { ORDER, STRIDE } from './series.ts';

/** Relative truncation error up to which a measure's series is good for finding roots, and for following an angle. */
const TRUNCATION = 1e-10;
/** Difference between a measure and its series at the end of a stretch that is no truncation, as a share of its scale. */
const ASTRAY = 1e-8;
/** Rounding of a place, as a share of the size. */
const ROUNDING = 64 * Number.EPSILON;
/** More stretches than this in a piece are no use: the measure has a kink in it. */
const MOST = 400;
/** Shortest stretch, as a share of its piece. */
const SHORTEST = 1e-12;
/** Terms that change a measure by less than this share of its scale are rounding. */
const UNCHANGED = 1e-12;

/** A part of a piece over which a measure's series is good. */
export interface Stretch {
  /** Series of the measure about `from`. */
  readonly m: Float64Array;
  readonly from: number;
  readonly to: number;
  /** Whether the measure does not change here but for rounding. */
  readonly constant: boolean;
}

/** The stretches of a measure over a piece with the unknowns' series z, from lo to hi, of a system of a size. */
export function* stretches(
  measure: BoundMeasure,
  z: Float64Array,
  lo: number,
  hi: number,
  size: number,
): Generator<Stretch> {
  const forms = packForms(formsOf(measure));
  const wx = new Float64Array(forms.count * STRIDE);
  const wy = new Float64Array(forms.count * STRIDE);
  let from = lo;
  for (let count = 0; from < hi; count++) {
    formSeries(forms, z, STRIDE, wx, wy);
    for (let f = 0; f < wx.length; f += STRIDE) {
      taylorShift(wx, f, from);
      taylorShift(wy, f, from);
    }
    const m = new Float64Array(STRIDE);
    measureSeries(measure, wx, wy, ORDER, m);
    const scale = measure.kind === 'angle' ? 1 : Math.max(Math.hypot(wx[0], wy[0]), Math.abs(m[0]));
    let step = hi - from;
    for (let k = ORDER - 2; k <= ORDER; k++) {
      const c = Math.abs(m[k]);
      if (c > 0) step = Math.min(step, ((TRUNCATION * scale) / c) ** (1 / k));
    }
    const shortest = count > MOST ? hi - from : SHORTEST * (hi - lo);
    // What a direction is worth in lengths: rounding turns a short line more than a long one.
    const arm = measure.kind === 'angle' ? Math.hypot(wx[0], wy[0]) : 1;
    const bound = ASTRAY * scale + (ROUNDING * size) / arm;
    while (step > shortest && isAstray(measure, z, from, m, step, bound)) step *= 0.5;
    const to = Math.min(hi, from + Math.max(step, shortest));
    let change = 0;
    for (let k = ORDER; k >= 1; k--) change = (change + Math.abs(m[k])) * (to - from);
    yield { m, from, to, constant: change <= UNCHANGED * scale };
    from = to;
  }
}

/** Whether the series has lost the measure at the end of a step: past a place where it turns very fast. */
function isAstray(
  measure: BoundMeasure,
  z: Float64Array,
  from: number,
  m: Float64Array,
  step: number,
  bound: number,
): boolean {
  const told = horner(m, 0, ORDER, step);
  const value = valueAt(measure, z, ORDER, from + step) - measure.zero;
  const exact = measure.kind === 'angle' ? unwrap(value, told) : value;
  return Math.abs(exact - told) > bound;
}

/** Coefficients from c[at] on about s instead of about 0. */
function taylorShift(c: Float64Array, at: number, s: number): void {
  for (let j = 0; j < ORDER; j++) for (let k = ORDER - 1; k >= j; k--) c[at + k] += s * c[at + k + 1];
}
