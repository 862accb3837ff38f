// Points as complex numbers p = x + i y. The unknowns are the displacements z_j of a few free points from their
// drawn places. In a body with the basic points a and b every other point is p = a + c (b - a), c constant, so
// that every place, and every difference of places, is an affine form of the unknowns:
//
//   W = d + w,   w = sum_j c_j z_j,   d the drawn value.
//
// Natural coordinates: J. Garcia de Jalon, E. Bayo, "Kinematic and Dynamic Simulation of Multibody Systems", 1994.

import { smallArray } from '../numerics/small-array.ts';

/** An affine form W = (x + i y) + sum_k (re[k] + i im[k]) z[free[k]]. */
export interface Form {
  readonly x: number;
  readonly y: number;
  readonly free: readonly number[];
  readonly re: readonly number[];
  readonly im: readonly number[];
}

/** The form that is the constant x + i y. */
export function constantForm(x: number, y: number): Form {
  return { x, y, free: [], re: [], im: [] };
}

/** The sum a + (cRe + i cIm) b, entries merged; its drawn value is given, so that it can be exact. */
export function addForms(a: Form, b: Form, cRe: number, cIm: number, x: number, y: number): Form {
  if (b.free.length === 0) return { x, y, free: a.free, re: a.re, im: a.im };
  const free = a.free.slice();
  const re = a.re.slice();
  const im = a.im.slice();
  for (let k = 0; k < b.free.length; k++) {
    const addRe = cRe * b.re[k] - cIm * b.im[k];
    const addIm = cRe * b.im[k] + cIm * b.re[k];
    const at = free.indexOf(b.free[k]);
    if (at < 0) {
      free.push(b.free[k]);
      re.push(addRe);
      im.push(addIm);
    } else {
      re[at] += addRe;
      im[at] += addIm;
    }
  }
  return { x, y, free, re, im };
}

/** Many forms in flat arrays: form f has the entries `start[f] .. start[f + 1] - 1`. */
export interface Forms {
  readonly count: number;
  readonly start: readonly number[];
  /** Free point of each entry, and its coefficient as `c[2 q] + i c[2 q + 1]`. */
  readonly free: readonly number[];
  readonly c: Float64Array;
  /** Drawn value of each form as `d[2 f] + i d[2 f + 1]`. */
  readonly d: Float64Array;
}

/** Packs forms into flat arrays. */
export function packForms(forms: readonly Form[]): Forms {
  const start = [0];
  const free: number[] = [];
  for (const form of forms) {
    for (const j of form.free) free.push(j);
    start.push(free.length);
  }
  const c = smallArray(2 * free.length);
  const d = smallArray(2 * forms.length);
  for (let f = 0, q = 0; f < forms.length; f++) {
    const { x, y, re, im } = forms[f];
    d[2 * f] = x;
    d[2 * f + 1] = y;
    for (let k = 0; k < re.length; k++, q++) {
      c[2 * q] = re[k];
      c[2 * q + 1] = im[k];
    }
  }
  return { count: forms.length, start, free, c, d };
}

/**
 * The variable parts w of all forms, orders `from` to `to`: `outX[f * stride + k]`, `outY` alike, from the unknowns
 * `z[2 j * stride + k]` (x) and `z[(2 j + 1) * stride + k]` (y).
 */
export function applyForms(
  forms: Forms,
  z: Float64Array,
  stride: number,
  from: number,
  to: number,
  outX: Float64Array,
  outY: Float64Array,
): void {
  const { count, start, free, c } = forms;
  for (let f = 0; f < count; f++) {
    for (let k = from; k <= to; k++) {
      let x = 0;
      let y = 0;
      for (let q = start[f]; q < start[f + 1]; q++) {
        const j = 2 * free[q] * stride + k;
        const zx = z[j];
        const zy = z[j + stride];
        x += c[2 * q] * zx - c[2 * q + 1] * zy;
        y += c[2 * q] * zy + c[2 * q + 1] * zx;
      }
      outX[f * stride + k] = x;
      outY[f * stride + k] = y;
    }
  }
}

/** Whether a form does not depend on the unknowns. */
export function isConstant({ re, im }: Form): boolean {
  return re.every((c) => c === 0) && im.every((c) => c === 0);
}

/** How far a form goes with the unknowns. */
export function variablePart({ free, re, im }: Form, z: ArrayLike<number>): [x: number, y: number] {
  let [x, y] = [0, 0];
  free.forEach((j, k) => {
    x += re[k] * z[2 * j] - im[k] * z[2 * j + 1];
    y += re[k] * z[2 * j + 1] + im[k] * z[2 * j];
  });
  return [x, y];
}
