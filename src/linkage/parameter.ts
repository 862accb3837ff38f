// What a path by arc length is a function of: a measure that drives it, or the arc length itself, as a series beside that of each
// piece.

import { horner } from '../numerics/polynomial.ts';
import { smallArray } from '../numerics/small-array.ts';
import { isPlain } from './curves.ts';
import type { BoundMeasure } from './measure.ts';
import { measureSeries, unwrap, valueAt } from './measure-series.ts';
import { type Series, STRIDE, type TaylorExpansion } from './series.ts';

/** A length that is down to this share of the size has come to nothing: it can grow again, but get no shorter. */
const NOTHING = 1e-11;
/** Difference between a driver and its series at the end of a piece that is no rounding, as a share of its scale. */
export const ASTRAY = 1e-10;
/** Steps below this share of the size are given up. */
const SHORTEST = 1e-12;
/** Change over its first terms, as a share of its scale, below which a driver does not change at all. */
const UNCHANGED = 1e-11;

/** What changes of a driver are measured by: the system's size, or a unit of its own. */
export function driverScale(measure: BoundMeasure | null, size: number): number {
  return measure?.unit ?? size;
}

/** Whether the driver is a length that has come to nothing at x. */
export function vanishes(measure: BoundMeasure | null, t: Float64Array, x: number, size: number): boolean {
  return (
    measure?.kind === 'length' && measure.offset === 0 && horner(t, 0, t.length - 1, x) <= NOTHING * size
  );
}

/** The part of a step at whose end the driver is what its series `t` says, found by halving; 0 when none does. */
export function acceptDriver(
  measure: BoundMeasure | null,
  series: Series,
  t: Float64Array,
  step: number,
  size: number,
): number {
  if (measure === null || isPlain(measure)) return step;
  let end = step;
  while (end !== 0) {
    const expected = horner(t, 0, t.length - 1, end);
    const value = valueAt(measure, series, end);
    const exact = measure.kind === 'angle' ? unwrap(value, expected) : value;
    if (Math.abs(exact - expected) <= ASTRAY * driverScale(measure, size)) return end;
    end = Math.abs(end) < SHORTEST ? 0 : 0.5 * end;
  }
  return end;
}

/** Series of the driver about the pose of the last expansion; an angle is continued from `near`. */
export function driverSeries(
  e: TaylorExpansion,
  measure: BoundMeasure | null,
  near: number | null,
): Float64Array {
  const t = smallArray(e.order + 1);
  if (measure === null) {
    arcLength(e, near ?? 0, t);
    return t;
  }
  measureSeries(measure, e.z, STRIDE, e.order, t);
  if (near !== null && measure.kind === 'angle') t[0] = unwrap(t[0], near);
  return t;
}

/** Arc length from `start`: dt/dx = v with v^2 = |z'|^2, so that 2 v_0 v_m = [|z'|^2]_m - sum_{j=1..m-1} v_j v_{m-j}. */
function arcLength({ z, order }: TaylorExpansion, start: number, t: Float64Array): void {
  const v = new Float64Array(order);
  for (let m = 0; m < order; m++) {
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

/** Whether the motion does not change the driver at all. */
export function isConstantDriver(t: Float64Array, step: number, scale: number): boolean {
  let change = 0;
  for (let k = t.length - 1; k >= 1; k--) change = (change + Math.abs(t[k])) * step;
  return !(change > UNCHANGED * scale);
}
