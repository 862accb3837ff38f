// Points as complex numbers p = x + i y. The unknowns are the displacements z_j of a few free points from their
// drawn places. In a body with the basic points a and b every other point is p = a + c (b - a), c constant, so
// that every place, and every difference of places, is an affine form of the unknowns:
//
//   W = d + w,   w = sum_j c_j z_j,   d the drawn value.
//
// Natural coordinates: J. Garcia de Jalon, E. Bayo, "Kinematic and Dynamic Simulation of Multibody Systems", 1994.

import type { Arena } from '../numerics/arena.ts';

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
  const free = [...a.free];
  const re = [...a.re];
  const im = [...a.im];
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
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly start: Int32Array;
  readonly free: Int32Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Packs forms into flat arrays. */
export function packForms(forms: readonly Form[], memory: Arena): Forms {
  const count = forms.length;
  let entries = 0;
  for (const form of forms) entries += form.free.length;
  const packed = {
    count,
    x: memory.floats(count),
    y: memory.floats(count),
    start: memory.ints(count + 1),
    free: memory.ints(entries),
    re: memory.floats(entries),
    im: memory.floats(entries),
  };
  let q = 0;
  for (let f = 0; f < count; f++) {
    const form = forms[f];
    packed.x[f] = form.x;
    packed.y[f] = form.y;
    for (let k = 0; k < form.free.length; k++, q++) {
      packed.free[q] = form.free[k];
      packed.re[q] = form.re[k];
      packed.im[q] = form.im[k];
    }
    packed.start[f + 1] = q;
  }
  return packed;
}

/**
 * The variable parts w of the first `count` forms, orders `from` to `to`: `outX[f * stride + k]`, `outY` alike, from
 * the unknowns `z[2 j * stride + k]` (x) and `z[(2 j + 1) * stride + k]` (y).
 */
export function applyForms(
  forms: Forms,
  count: number,
  z: Float64Array,
  stride: number,
  from: number,
  to: number,
  outX: Float64Array,
  outY: Float64Array,
): void {
  const { start, free, re, im } = forms;
  for (let f = 0; f < count; f++) {
    for (let k = from; k <= to; k++) {
      let x = 0;
      let y = 0;
      for (let q = start[f]; q < start[f + 1]; q++) {
        const j = 2 * free[q] * stride + k;
        const zx = z[j];
        const zy = z[j + stride];
        x += re[q] * zx - im[q] * zy;
        y += re[q] * zy + im[q] * zx;
      }
      outX[f * stride + k] = x;
      outY[f * stride + k] = y;
    }
  }
}
