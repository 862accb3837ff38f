// Where a measure stands still along a path: roots of dm/ds over the stretches in which the measure's series is good
// (stretch.ts), each polished on the exact reading.

import { derivative, horner, roots } from '../numerics/polynomial.ts';
import type { BoundMeasure } from './measure.ts';
import type { Path } from './path.ts';
import { FIRST, type Reader, reader, readPlace, SECOND } from './reader.ts';
import { ORDER } from './series.ts';
import { stretches } from './stretch.ts';

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
    for (const { m, from, to, constant } of stretches(measure, z, lo, hi, path.system.size)) {
      if (constant) {
        before = 0;
        continue;
      }
      const slope = derivative(m);
      const places = roots(slope, 0, to - from);
      const start = slope[0];
      if (before * start < 0 && places.length === 0) places.push(0);
      before = horner(slope, 0, ORDER - 1, to - from);
      for (const place of places) {
        const s = polish(r, p, from + place, from, to);
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
