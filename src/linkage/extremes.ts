// Where a measure stands still along a path: roots of dm/ds. A measure's own series can have a smaller reach than
// the motion's (a length near zero, say), so each piece is walked in stretches over which it is good; a root found
// in a stretch is polished on the exact reading.

import { derivative, horner, roots } from '../numerics/polynomial.ts';
import { packForms } from './form.ts';
import { type BoundMeasure, measureSeries } from './measure.ts';
import { formSeries, type Path } from './path.ts';
import { FIRST, type Reader, reader, readPlace, SECOND } from './reader.ts';
import { ORDER, STRIDE } from './series.ts';

/** Relative truncation error up to which a measure's series is used to find roots, before polishing. */
const TRUNCATION = 1e-10;
/** Shortest stretch, as a share of its piece. */
const SHORTEST = 1e-3;
/** Two places nearer than this share of the system's size are one. */
const SAME = 1e-9;

/** A place on a path where a measure stands still. */
export interface Still {
  /** Index of the piece and local arc length in it. */
  readonly piece: number;
  readonly s: number;
  /** The path's parameter there. */
  readonly at: number;
  /** The measure there. */
  readonly value: number;
}

/** All places on a path where a measure's derivative by arc length is zero, in order. */
export function extremes(path: Path, measure: BoundMeasure): Still[] {
  const r = reader(path, [measure]);
  const found: Still[] = [];
  let before = 0;
  path.pieces.forEach((piece, p) => {
    const { z, t, lo, hi, origin } = piece;
    for (const { slope, from, to } of stretches(measure, z, lo, hi)) {
      const places = roots(slope, 0, to - from);
      const start = slope[0];
      if (before * start < 0 && places.length === 0) places.push(0);
      before = horner(slope, 0, ORDER - 1, to - from);
      for (const place of places) {
        const s = polish(r, p, from + place, lo, hi);
        const last = found[found.length - 1];
        const arc = origin + s;
        if (last && Math.abs(path.pieces[last.piece].origin + last.s - arc) < SAME * path.system.size)
          continue;
        readPlace(r, p, s);
        found.push({ piece: p, s, at: horner(t, 0, ORDER, s), value: r.m[0] });
      }
    }
  });
  return found;
}

interface Stretch {
  /** Series of dm/ds about `from`. */
  readonly slope: Float64Array;
  readonly from: number;
  readonly to: number;
}

function* stretches(measure: BoundMeasure, z: Float64Array, lo: number, hi: number): Generator<Stretch> {
  const forms = packForms([measure.form]);
  const wx = new Float64Array(STRIDE);
  const wy = new Float64Array(STRIDE);
  let from = lo;
  while (from < hi) {
    formSeries(forms, z, wx, wy);
    taylorShift(wx, from);
    taylorShift(wy, from);
    const m = new Float64Array(STRIDE);
    measureSeries(measure, wx, wy, 0, ORDER, m, 0);
    const scale = Math.max(measure.kind === 'angle' ? 1 : Math.hypot(wx[0], wy[0]), Math.abs(m[0]));
    let step = hi - from;
    for (let k = ORDER - 2; k <= ORDER; k++) {
      if (m[k] !== 0) step = Math.min(step, ((TRUNCATION * scale) / Math.abs(m[k])) ** (1 / k));
    }
    const to = Math.min(hi, from + Math.max(step, SHORTEST * (hi - lo)));
    yield { slope: derivative(m), from, to };
    from = to;
  }
}

/** Coefficients about s instead of about 0. */
function taylorShift(c: Float64Array, s: number): void {
  for (let j = 0; j < ORDER; j++) for (let k = ORDER - 1; k >= j; k--) c[k] += s * c[k + 1];
}

/** Newton on dm/ds with the exact reading. */
function polish(r: Reader, p: number, s: number, lo: number, hi: number): number {
  let best = s;
  for (let round = 0; round < 4; round++) {
    readPlace(r, p, best);
    const step = -r.m[FIRST] / (2 * r.m[SECOND]);
    if (!Number.isFinite(step)) break;
    best = Math.min(hi, Math.max(lo, best + step));
    if (Math.abs(step) <= Number.EPSILON * (hi - lo)) break;
  }
  return best;
}
