// The parameter t of a path: a measure that drives it, or the arc length itself, as a series beside each piece's own.

import { horner } from '../numerics/polynomial.ts';
import { type Forms, formSeries, packForms } from './form.ts';
import { type BoundMeasure, formsOf, measureSeries, unwrap, valueAt } from './measure.ts';
import { type Expander, ORDER, STRIDE } from './series.ts';

/** The parameter of a path: a measure, or the arc length itself. */
export interface Parameter {
  readonly measure: BoundMeasure | null;
  readonly forms: Forms;
  /** Workspace: the series of the measure's forms. */
  readonly wx: Float64Array;
  readonly wy: Float64Array;
}

/** A length that is down to this share of the size has come to nothing: it can grow again, but get no shorter. */
const NOTHING = 1e-11;

/** Whether the parameter is a length that has come to nothing at local s. */
export function vanishes({ measure }: Parameter, t: Float64Array, s: number, size: number): boolean {
  return measure?.kind === 'length' && measure.offset === 0 && horner(t, 0, ORDER, s) <= NOTHING * size;
}

/** Difference between a parameter and its series at the end of a piece that is no rounding, in its unit and size. */
const ASTRAY = 1e-10;

/** Steps below this share of the size are given up. */
const SHORTEST = 1e-12;

/** The part of a step s at whose end the parameter is what its series says, found by halving. */
export function acceptParameter(
  by: Parameter,
  z: Float64Array,
  t: Float64Array,
  s: number,
  size: number,
): number {
  const { measure } = by;
  if (measure === null) return s;
  if (measure.frame === null && (measure.kind === 'x' || measure.kind === 'y')) return s;
  let step = s;
  while (step !== 0) {
    const told = horner(t, 0, ORDER, step);
    const value = valueAt(measure, z, ORDER, step);
    const exact = measure.kind === 'angle' ? unwrap(value, told) : value;
    if (Math.abs(exact - told) <= ASTRAY * size * rateUnit(by, size)) return step;
    step = Math.abs(step) < SHORTEST * size ? 0 : 0.5 * step;
  }
  return step;
}

/** A parameter bound to its own forms. */
export function parameter(measure: BoundMeasure | null): Parameter {
  const forms = packForms(measure === null ? [] : formsOf(measure));
  const room = forms.count * STRIDE;
  return { measure, forms, wx: new Float64Array(room), wy: new Float64Array(room) };
}

/** Series of the parameter about the expander's present pose; an angle is continued from `near`. */
export function parameterSeries(e: Expander, by: Parameter, near: number | null): Float64Array {
  const t = new Float64Array(STRIDE);
  if (by.measure === null) {
    arcLength(e, near ?? 0, t);
    return t;
  }
  formSeries(by.forms, e.z, STRIDE, by.wx, by.wy);
  measureSeries(by.measure, by.wx, by.wy, ORDER, t);
  t[0] += by.measure.zero;
  if (near !== null && by.measure.kind === 'angle') t[0] = unwrap(t[0], near);
  return t;
}

/** Arc length from `start`: dt/ds = v with v^2 = |z'|^2, so that 2 v_0 v_m = [|z'|^2]_m - sum_{j=1..m-1} v_j v_{m-j}. */
function arcLength({ z }: Expander, start: number, t: Float64Array): void {
  const v = new Float64Array(ORDER);
  for (let m = 0; m < ORDER; m++) {
    let square = 0;
    for (let i = 0; i < z.length; i += STRIDE) {
      for (let j = 0; j <= m; j++) square += (j + 1) * z[i + j + 1] * (m - j + 1) * z[i + m - j + 1];
    }
    for (let j = 1; j < m; j++) square -= v[j] * v[m - j];
    v[m] = m === 0 ? Math.sqrt(square) : square / (2 * v[0]);
    t[m + 1] = v[m] / (m + 1);
  }
  t[0] = start;
}

/** Change over its first terms, in its unit and size, below which a parameter does not change at all. */
const UNCHANGED = 1e-11;

/** Whether the motion does not change the parameter at all. */
export function isStill(t: Float64Array, by: Parameter, reach: number, size: number): boolean {
  let change = 0;
  for (let k = ORDER; k >= 1; k--) change = (change + Math.abs(t[k])) * reach;
  return !(change > UNCHANGED * size * rateUnit(by, size));
}

/** What a rate of the parameter by arc length is measured in. */
export function rateUnit({ measure }: Parameter, size: number): number {
  return measure?.kind === 'angle' ? 1 / size : 1;
}
