// The constraint rows of a system at a pose: residuals, and their Jacobian J.

import { type Elimination, eliminate, elimination } from '../numerics/elimination.ts';
import { applyForms } from './form.ts';
import { turnMissing } from './measure-rows.ts';
import type { System } from './system.ts';

/** Workspace for the rows of a system; made once for a structure, and overwritten at every use. */
export interface Rows {
  /** The system it works on at present. */
  system: System;
  /** Forms a and b of each row, and its factor k. */
  readonly formA: Int32Array;
  readonly formB: Int32Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Whether a row is that of a turn, 1 if so. */
  readonly turns: Uint8Array;
  /** Row i has the Jacobian's entries `start[i] .. start[i + 1] - 1`: two for each of its free points, from `beside[i]` its measures. */
  readonly start: readonly number[];
  readonly beside: readonly number[];
  readonly column: readonly number[];
  /** For each pair of entries those of forms a and b behind it, -1 for none. */
  readonly entryA: Int32Array;
  readonly entryB: Int32Array;
  readonly jacobian: Float64Array;
  /** Of the last `residual` call: the residuals, the whole forms W, and the row with the largest residual. */
  readonly residuals: Float64Array;
  readonly wholeX: Float64Array;
  readonly wholeY: Float64Array;
  worstRow: number;
  /** The Jacobian eliminated row by row as listed: gives the rank and the redundant rows. */
  readonly elimination: Elimination;
}

/** Workspace for the rows of a system's structure. */
export function rowsOf(system: System): Rows {
  const { unknowns, forms, structure } = system;
  const { rows } = structure;
  const start = [0];
  const beside: number[] = [];
  const column: number[] = [];
  const entryA: number[] = [];
  const entryB: number[] = [];
  const firstMeasure = 2 * structure.freePoints.length;
  for (const { a, b, defines, measures = [] } of rows) {
    const pairs = new Map<number, [number, number]>();
    for (let q = forms.start[b]; q < forms.start[b + 1]; q++) pairs.set(forms.free[q], [-1, q]);
    for (let q = forms.start[a]; q < forms.start[a + 1]; q++) {
      pairs.set(forms.free[q], [q, pairs.get(forms.free[q])?.[1] ?? -1]);
    }
    for (const [free, [ofA, ofB]] of pairs) {
      column.push(2 * free, 2 * free + 1);
      entryA.push(defines === 'turn' ? -1 : ofA);
      entryB.push(ofB);
    }
    beside.push(column.length);
    for (const [measure] of measures) column.push(firstMeasure + measure);
    start.push(column.length);
  }
  return {
    system,
    formA: Int32Array.from(rows, ({ a }) => a),
    formB: Int32Array.from(rows, ({ b }) => b),
    re: Float64Array.from(rows, ({ re }) => re),
    im: Float64Array.from(rows, ({ im }) => im),
    turns: Uint8Array.from(rows, ({ defines }) => (defines === 'turn' ? 1 : 0)),
    start,
    beside,
    column,
    entryA: Int32Array.from(entryA),
    entryB: Int32Array.from(entryB),
    jacobian: new Float64Array(column.length),
    residuals: new Float64Array(rows.length),
    wholeX: new Float64Array(forms.count),
    wholeY: new Float64Array(forms.count),
    worstRow: -1,
    elimination: elimination({ columns: unknowns, start, column }),
  };
}

/** Largest residual of all rows at a pose, as a length; the residuals themselves go to `residuals`. */
export function residual(e: Rows, pose: Float64Array): number {
  const { system, formA, formB, re, im, turns, start, beside, column, residuals, wholeX, wholeY } = e;
  const { forms, scale, factors, size, further } = system;
  const { d } = forms;
  applyForms(forms, pose, 1, 0, 0, wholeX, wholeY);
  let worst = -1;
  let next = 0;
  for (let i = 0; i < residuals.length; i++) {
    const a = formA[i];
    const b = formB[i];
    const ax = wholeX[a];
    const ay = wholeY[a];
    const bx = wholeX[b];
    const by = wholeY[b];
    // conj(d_a) w_b + conj(w_a) (d_b + w_b)
    const dx = d[2 * a];
    const dy = d[2 * a + 1];
    const fullX = d[2 * b] + bx;
    const fullY = d[2 * b + 1] + by;
    const real = dx * bx + dy * by + ax * fullX + ay * fullY;
    const imaginary = dx * by - dy * bx + ax * fullY - ay * fullX;
    let left = re[i] * real - im[i] * imaginary;
    if (turns[i] === 1) {
      const turn = pose[column[beside[i]]] / size;
      left = scale[i] * size * turnMissing(dx * fullX + dy * fullY, dx * by - dy * bx, turn);
      next++;
    } else for (let q = beside[i]; q < start[i + 1]; q++) left += factors[next++] * pose[column[q]];
    residuals[i] = left;
  }
  further?.residuals(pose, wholeX, wholeY, residuals);
  for (let i = 0; i < residuals.length; i++) {
    const length = Math.abs(residuals[i]) / scale[i];
    if (length > worst) {
      worst = length;
      e.worstRow = i;
    }
  }
  for (let f = 0; f < wholeX.length; f++) {
    wholeX[f] += d[2 * f];
    wholeY[f] += d[2 * f + 1];
  }
  return worst;
}

/** Entries of the Jacobian at the pose of the last `residual`: d/dz of Re(k conj(W_a) W_b). */
export function fillJacobian(e: Rows): void {
  const { system, formA, formB, re, im, start, beside, entryA, entryB, jacobian, wholeX, wholeY } = e;
  const { forms, factors } = system;
  const { c } = forms;
  let pair = 0;
  let next = 0;
  for (let i = 0; i < re.length; i++) {
    const a = formA[i];
    const b = formB[i];
    // Re(gB c_b z) with gB = k conj(W_a); Re(gA c_a z) with gA = conj(k) conj(W_b)
    const gBx = re[i] * wholeX[a] + im[i] * wholeY[a];
    const gBy = im[i] * wholeX[a] - re[i] * wholeY[a];
    const gAx = re[i] * wholeX[b] - im[i] * wholeY[b];
    const gAy = -im[i] * wholeX[b] - re[i] * wholeY[b];
    for (let q = start[i]; q < beside[i]; q += 2, pair++) {
      const ofA = entryA[pair];
      const ofB = entryB[pair];
      let hx = 0;
      let hy = 0;
      if (ofB >= 0) {
        hx += gBx * c[2 * ofB] - gBy * c[2 * ofB + 1];
        hy += gBx * c[2 * ofB + 1] + gBy * c[2 * ofB];
      }
      if (ofA >= 0) {
        hx += gAx * c[2 * ofA] - gAy * c[2 * ofA + 1];
        hy += gAx * c[2 * ofA + 1] + gAy * c[2 * ofA];
      }
      jacobian[q] = hx;
      jacobian[q + 1] = -hy;
    }
    for (let q = beside[i]; q < start[i + 1]; q++) jacobian[q] = factors[next++];
  }
  system.further?.jacobian(wholeX, wholeY, start, jacobian);
}

/** Eliminates the Jacobian at a pose; returns the largest residual there. */
export function factorise(e: Rows, pose: Float64Array): number {
  const largest = residual(e, pose);
  fillJacobian(e);
  eliminate(e.elimination, e.jacobian, e.system.scale);
  return largest;
}

/** A row of the Jacobian, divided by its scale, is empty below this. */
export const EMPTY = 1e-12;
