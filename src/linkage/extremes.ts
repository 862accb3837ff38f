// Where a measure is stationary along a path: roots of the derivative of its curves.

import { horner, roots } from '../numerics/polynomial.ts';
import { partAt, valueOn } from './curves.ts';
import type { BoundMeasure } from './measure.ts';
import type { Path } from './path.ts';
import { curvesAt, reader } from './reader.ts';

/** Two places nearer than this share of a piece's unit are one. */
const SAME = 1e-9;
/** Terms that change a measure by less than this share of its scale are rounding. */
const UNCHANGED = 1e-12;

/** A place on a path where a measure is stationary. */
export interface StationaryPlace {
  /** Index of the piece and place in it. */
  readonly piece: number;
  readonly x: number;
  /** The driver there. */
  readonly at: number;
  /** The measure there. */
  readonly value: number;
}

/** All places on a path where a measure's derivative by arc length is zero, in order. */
export function extremes(path: Path, measure: BoundMeasure): StationaryPlace[] {
  const r = reader(path, [measure]);
  const { size } = path.system;
  const found: StationaryPlace[] = [];
  let before = 0;
  let lastWay = Number.NaN;
  path.pieces.forEach((piece, p) => {
    const { t } = piece;
    for (const curve of curvesAt(r, p, 0)) {
      const { from, to, centre, scale, order, c, isGood } = curve;
      if (!isGood) continue;
      const slope = c.subarray(partAt(order, 1), partAt(order, 2));
      const [low, high] = [(from - centre) / scale, (to - centre) / scale];
      let change = 0;
      for (let k = order; k >= 1; k--) change = (change + Math.abs(c[k])) * Math.max(high, -low);
      if (change <= UNCHANGED * (measure.kind === 'angle' ? 1 : Math.max(size, Math.abs(c[0])))) {
        before = 0;
        continue;
      }
      const places = roots(slope, low, high);
      const start = horner(slope, 0, order - 1, low);
      if (before * start < 0 && places.length === 0) places.push(low);
      before = horner(slope, 0, order - 1, high);
      for (const place of places) {
        const x = centre + scale * place;
        const way = piece.origin + x * piece.unit;
        if (Math.abs(lastWay - way) < SAME * piece.unit) continue;
        lastWay = way;
        found.push({ piece: p, x, at: horner(t, 0, t.length - 1, x), value: valueOn(curve, x) });
      }
    }
  });
  return found;
}
