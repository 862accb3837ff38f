// A curve is the power series of a measure over a piece, or over a part of it where the measure's own series does not reach as far as
// the motion's: near a length of zero, or where a direction turns fast. Behind it stand those of its two derivatives, so that a
// row is one evaluation each.
//
// A series is good when its last terms are rounding and it meets the measure at both ends: past a length of nothing it goes on
// as if there had been none. Where it is not, the part is halved; and in what is too short for that, each place is
// expanded about by itself.

import { horner } from '../numerics/polynomial.ts';
import { power } from '../numerics/power.ts';
import { smallArray } from '../numerics/small-array.ts';
import type { BoundMeasure } from './measure.ts';
import { measureSeries, unwrap, valueAt } from './measure-series.ts';
import type { Path, Piece } from './path.ts';
import { STRIDE } from './series.ts';

/** Truncation error allowed at the end of a curve, as a share of what the measure is made of. */
const TRUNCATION = 1e-14;
/** Difference between a measure and its curve at an end that is no rounding, as a share of the same. */
const ASTRAY = 1e-11;
/** A part below this share of its piece is not halved: the measure has a kink in it. */
const SHORTEST = 1 / 1_099_511_627_776; // 2^-40
/** Nor is any once there are so many: it is rough everywhere. */
const MOST = 512;

/** A measure over a part of a piece: a series in (x - centre) / scale, or none. */
export interface Curve {
  readonly from: number;
  readonly to: number;
  readonly centre: number;
  readonly scale: number;
  readonly order: number;
  /** Coefficients of the value, and behind them those of its derivatives by the piece's own way, unit x. */
  readonly c: Float64Array;
  /** Whether the series is good on all of the part; else each place in it is to be expanded about. */
  readonly isGood: boolean;
}

/** Where the coefficients of the value (part 0) and of the derivatives (1, 2) stand. */
export const partAt = (order: number, part: number): number => part * order + Math.min(part, 1);

/** Whether a measure is a coordinate, not relative to a body: its series is as good as that of the motion. */
export function isPlain({ kind, frame }: BoundMeasure): boolean {
  return frame === null && (kind === 'x' || kind === 'y');
}

/** The curves of a measure over a piece of a path, ascending; `neighbour` is the piece's one towards the drawn pose, for an angle. */
export function curvesOf(path: Path, piece: Piece, measure: BoundMeasure, neighbour: number | null): Curve[] {
  const { lo, hi } = piece;
  const whole = curveAbout(piece, measure, lo, hi, 0, 1, path.system.size);
  const curves = whole === null ? [] : [whole];
  if (whole === null) cut(piece, measure, lo, hi, SHORTEST * (hi - lo), path.system.size, curves);
  if (measure.kind === 'angle') unwind(piece, measure, curves, neighbour);
  return curves;
}

function cut(
  piece: Piece,
  measure: BoundMeasure,
  from: number,
  to: number,
  shortest: number,
  size: number,
  curves: Curve[],
): void {
  const scale = 0.5 * (to - from);
  const centre = from + scale;
  const curve = curveAbout(piece, measure, from, to, centre, scale, size);
  if (curve !== null) {
    curves.push(curve);
    return;
  }
  if (to - from <= shortest || curves.length >= MOST) {
    curves.push({ from, to, centre, scale, order: 0, c: new Float64Array(1), isGood: false });
    return;
  }
  cut(piece, measure, from, centre, shortest, size, curves);
  cut(piece, measure, centre, to, shortest, size, curves);
}

/** The series of a measure about a centre if it is good from end to end. */
function curveAbout(
  piece: Piece,
  measure: BoundMeasure,
  from: number,
  to: number,
  centre: number,
  scale: number,
  size: number,
): Curve | null {
  const { z, order, unit } = piece;
  const c = smallArray(3 * order);
  const arm = measureSeries(measure, z, order + 1, order, c, centre, scale);
  const curve = { from, to, centre, scale, order, c, isGood: true };
  if (!isPlain(measure)) {
    const made = measure.kind === 'angle' ? Math.max(1, size / arm) : Math.max(size, Math.abs(c[0]));
    const far = Math.max(to - centre, centre - from) / scale;
    let last = 0;
    for (let k = order - 2; k <= order; k++) last = Math.max(last, Math.abs(c[k]) * power(far, k));
    if (!(last <= TRUNCATION * made)) return null;
    for (const x of [from, to]) {
      const expected = valueOn(curve, x);
      const value = valueAt(measure, piece, x);
      const exact = measure.kind === 'angle' ? unwrap(value, expected) : value;
      if (!(Math.abs(exact - expected) <= ASTRAY * made)) return null;
    }
  }
  derive(c, order, 1 / (scale * unit));
  return curve;
}

/** Fills in the coefficients of the derivatives. */
export function derive(c: Float64Array, order: number, rate: number): void {
  const [first, second] = [partAt(order, 1), partAt(order, 2)];
  for (let k = 1; k <= order; k++) c[first + k - 1] = k * rate * c[k];
  for (let k = 1; k < order; k++) c[second + k - 1] = k * rate * c[first + k];
}

/** Value of a good curve at x. */
export function valueOn({ c, order, centre, scale }: Curve, x: number): number {
  return horner(c, 0, order, (x - centre) / scale);
}

/** A measure and its derivatives at a place, expanded about by itself; an angle is continued from `near`. */
export function readAt(
  piece: Piece,
  measure: BoundMeasure,
  x: number,
  near: number,
): [number, number, number] {
  measureSeries(measure, piece.z, piece.order + 1, piece.order, AT, x, 1 / piece.unit);
  return [measure.kind === 'angle' ? unwrap(AT[0], near) : AT[0], AT[1], 2 * AT[2]];
}

const AT = new Float64Array(STRIDE);

/** Gives the curves of an angle their whole turns, outward from x = 0, where it is that of the neighbour, or as drawn. */
function unwind(
  piece: Piece,
  measure: BoundMeasure,
  curves: readonly Curve[],
  neighbour: number | null,
): void {
  const start = neighbour ?? valueAt(measure, piece, 0);
  let middle = curves.findIndex(({ to }) => to >= 0);
  if (middle < 0) middle = curves.length - 1;
  for (const way of [1, -1]) {
    let near = start;
    for (let k = middle; k >= 0 && k < curves.length; k += way) {
      const curve = curves[k];
      const [inner, outer] = way > 0 ? [curve.from, curve.to] : [curve.to, curve.from];
      const place = k === middle ? 0 : inner;
      if (!curve.isGood) {
        curve.c[0] = near;
        near = unwrap(valueAt(measure, piece, outer), near);
        continue;
      }
      if (k !== middle || way > 0) curve.c[0] += unwrap(valueOn(curve, place), near) - valueOn(curve, place);
      near = valueOn(curve, outer);
    }
  }
}
