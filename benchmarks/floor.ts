// The floor of a line: an ideal pass of the same arithmetic, timed in the same run. It multiplies and adds as often as the orders of the
// series, their evaluation at all poses and the places made of them need, and makes one array for the columns; it checks, names, looks up
// and keeps nothing. Its numbers mean nothing. What no pass could leave out beside that - checking the input, building the system -
// is done as the library does it.

import { type ColumnPlan, NOBODY } from '../src/corner/columns.ts';
import type { CornerModel } from '../src/corner/model.ts';
import { laySweep, type SweepOptions, sweepReader } from '../src/corner/sweep.ts';
import { isPlain } from '../src/linkage/curves.ts';
import type { BoundMeasure } from '../src/linkage/measure.ts';
import type { Path } from '../src/linkage/path.ts';
import { taylorExpansion } from '../src/linkage/series.ts';
import { evaluateMany } from '../src/numerics/polynomial.ts';
import type { Task } from './measure.ts';

/** What is read of a path. */
interface Reading {
  readonly poses: number;
  /** Columns of the result, travel among them. */
  readonly columns: number;
  /** Series evaluated at every pose: of unknowns, of measures, of derivatives. */
  readonly series: number;
  /** Measures whose series is made of that of a form. */
  readonly measures: number;
  /** Terms c z in the places of points. */
  readonly terms: number;
}

/** What is read of the places of points at so many poses. */
export function placesOf(measures: readonly BoundMeasure[], unknowns: number, poses: number): Reading {
  const forms = new Set(measures.filter(isPlain).map(({ form }) => form));
  const terms = [...forms].reduce((sum, { free }) => sum + free.length, 0);
  return { poses, columns: measures.length, series: unknowns, measures: 0, terms };
}

/** The ideal pass of a corner's sweep. */
export function idealSweep(model: CornerModel, options: SweepOptions, needed: readonly Task[]): Task {
  const { plan, path, travel } = laySweep(model, options);
  return idealPass(path, readingOf(path, plan, travel.length), needed);
}

function readingOf(path: Path, plan: ColumnPlan, poses: number): Reading {
  const { measures, unknowns } = sweepReader(path, plan);
  const evaluated = plan.sinks.filter((to, k) => {
    const isPlace = k % 3 === 0 && isPlain(measures[Math.floor(k / 3)]);
    return to !== NOBODY && !isPlace;
  });
  return {
    ...placesOf(measures, unknowns.length + evaluated.length, poses),
    columns: plan.info.length,
    measures: measures.filter((measure) => !isPlain(measure)).length,
  };
}

/** Order of the inverse of the driver's series, and series of the driver and its derivatives, that places by arc length are found with. */
const INVERSE_ORDER = 10;
const DRIVER_SERIES = 3;

/** An ideal pass along a path, after the tasks that are needed besides. */
export function idealPass(path: Path, reading: Reading, needed: readonly Task[] = []): Task {
  const { pieces, system } = path;
  const { poses, columns, series, measures, terms } = reading;
  const { forms, unknowns } = system;
  const isByArc = pieces[0].inverse !== null;
  const rows = system.structure.rows.length + 1;
  const perUnknown = Math.ceil(multiplications(path) / unknowns);
  const order = Math.max(...pieces.map((piece) => piece.order));
  const width = order + 1;
  // Coefficients as those of a series that ends: nothing grows, and nothing becomes so small that it is slow.
  const decaying = (count: number) =>
    Float64Array.from({ length: count * width }, (_, k) => 0.3 ** (k % width) * Math.cos(k));
  const wx = decaying(Math.max(rows, forms.count));
  const wy = decaying(Math.max(rows, forms.count));
  const z = decaying(unknowns + 2);
  const answer = Float64Array.from({ length: unknowns * perUnknown }, Math.cos);
  const rhs = new Float64Array(Math.max(rows, perUnknown));
  const c = decaying(3);
  const m = new Float64Array(width);
  const x = Float64Array.from({ length: poses }, (_, k) => (2 * k) / (poses - 1) - 1);
  const share = Math.ceil(poses / pieces.length);
  const rowsOf = new Float64Array(4 * poses);

  return () => {
    for (const task of needed) task();
    const out = new Float64Array(columns * poses);
    for (const piece of pieces) {
      for (let k = 2; k <= piece.order; k++) {
        for (let i = 0; i < rows; i++) rhs[i] = convolved(i * width, k);
        for (let u = 0; u < unknowns; u++) {
          let sum = 0;
          for (let j = 0; j < perUnknown; j++) sum += answer[u * perUnknown + j] * rhs[j];
          z[u * width + k] = sum;
        }
        for (let q = 0; q < forms.free.length; q++) {
          const at = 2 * forms.free[q] * width + k;
          rowsOf[0] += forms.c[2 * q] * z[at] - forms.c[2 * q + 1] * z[at + width];
          rowsOf[1] += forms.c[2 * q] * z[at + width] + forms.c[2 * q + 1] * z[at];
        }
      }
      for (let i = 0; i < measures; i++)
        for (let k = 1; k <= piece.order; k++) m[k] = convolved(0, k) + m[k - 1];
    }
    for (let first = 0, p = 0; first < poses; first += share, p++) {
      const count = Math.min(share, poses - first);
      const degree = pieces[p].order;
      const mirrored = !isByArc && pieces.length === 1;
      if (isByArc) {
        evaluateMany(c, 0, INVERSE_ORDER, x, count, false, rowsOf, 0);
        for (let i = 0; i < DRIVER_SERIES; i++)
          evaluateMany(c, width, degree, x, count, false, rowsOf, poses);
      }
      for (let i = 0; i < series; i++)
        evaluateMany(c, 0, degree, x, count, mirrored, out, (i % columns) * poses + first);
    }
    for (let q = 0; q < terms; q++) {
      const to = ((2 * q) % columns) * poses;
      const next = ((2 * q + 1) % columns) * poses;
      for (let i = 0; i < poses; i++) {
        const zx = rowsOf[i];
        const zy = rowsOf[poses + i];
        out[to + i] = 0.5 * zx - 0.25 * zy;
        out[next + i] = 0.5 * zy + 0.25 * zx;
      }
    }
    return out;
  };

  function convolved(at: number, k: number): number {
    let real = 0;
    let imaginary = 0;
    for (let p = at + 1, q = at + k - 1; p < q; p++, q--) {
      real += wx[p] * wx[q];
      imaginary += wy[p] * wy[q];
    }
    return real + imaginary;
  }
}

/** Up to this many rows the solution matrix is used as it is; else what elimination leaves. */
const SMALL = 8;

/** Multiplications that take right-hand sides to the unknowns of an order. */
function multiplications({ pieces, system }: Path): number {
  const rows = system.structure.rows.length;
  if (rows <= SMALL) return system.unknowns * (rows + 1);
  const e = taylorExpansion(system);
  const { lowerStart, upperStart } = (pieces[0].inverse === null ? e.bordered[0].jacobian : e).elimination;
  return lowerStart[lowerStart.length - 1] + upperStart[upperStart.length - 1] + system.unknowns;
}
