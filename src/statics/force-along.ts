// The force of loads along a motion, by virtual work. With w the way along the motion, and m', m'' the derivatives of a measure by it,
//
//   Q = sum F m',   Q' = sum (F_m m'^2 + F m''),
//
// and for a force f on a point p that turns with a body, f = R(turn) f_0, Q = sum f . p',  Q' = sum (f . p'' + turn' (i f) . p').
// w is the path's own: the driver where a piece is laid by it, else the length along its tangent; so dead points of the driver are no
// exception. From piece to piece its scale changes, the sign of Q does not.

import type { Point } from '../linkage/drawing.ts';
import { coordinates } from '../linkage/measure.ts';
import type { Path, Piece } from '../linkage/path.ts';
import { FIRST, READING, type Reader, reader, readPlace, SECOND } from '../linkage/reader.ts';
import { dot } from '../linkage/singular-pose.ts';

import { horner } from '../numerics/polynomial.ts';
import type { BoundLoads } from './motion-loads.ts';

/** The force along a motion at a place. */
export interface ForceAt {
  readonly Q: number;
  readonly slope: number;
  /** The forces of all loads without their signs, summed: what Q is small beside. */
  readonly size: number;
}

/** A path as a line of places w, 0 at its lower end; round a closed motion w may go on. */
export interface Line {
  readonly path: Path;
  readonly length: number;
  readonly isClosed: boolean;
  /** The drawn pose. */
  readonly drawn: number;
  /** Change points in which it takes a branch that is not straight on. */
  readonly kinks: readonly number[];
  /** Places that cut it into so many parts at least, ends of pieces among them, and both sides of each kink. */
  readonly cut: (parts: number) => number[];
  readonly driverAt: (w: number) => number;
  /** Derivative of the driver by w; 0 at a dead point. */
  readonly driverRateAt: (w: number) => number;
  readonly poseAt: (w: number) => Record<string, Point>;
  readonly unknownsAt: (w: number) => Float64Array;
  readonly read: (r: Reader, w: number) => void;
}

/** A path as a line. */
export function lineOf(path: Path): Line {
  const { pieces, system, low, high } = path;
  const ends = [0];
  for (const { lo, hi, unit } of pieces) ends.push(ends[ends.length - 1] + (hi - lo) * unit);
  const length = ends[pieces.length];
  const isClosed = low.status === 'closed' && high.status === 'closed';
  const own = pieces.findIndex(({ origin }) => origin === 0);
  const placeOf = (w: number): [number, number] => {
    const inside = isClosed && (w < 0 || w > length) ? w - length * Math.floor(w / length) : w;
    let p = 0;
    while (p < pieces.length - 1 && inside > ends[p + 1]) p++;
    const { lo, hi, unit } = pieces[p];
    return [p, inside === ends[p + 1] ? hi : lo + (inside - ends[p]) / unit];
  };
  const read = (r: Reader, w: number) => readPlace(r, ...placeOf(w));
  const { names } = system.structure;
  const kinks = ends.filter((_, p) => p > 0 && p < pieces.length && isKink(pieces[p - 1], pieces[p]));
  const places = reader(path, coordinates(system), []);
  return {
    path,
    length,
    isClosed,
    drawn: ends[own] - pieces[own].lo * pieces[own].unit,
    kinks,
    read,
    cut: (parts) => {
      const marks = [0];
      pieces.forEach((_, p) => {
        const own = Math.max(LEAST, Math.ceil((parts * (ends[p + 1] - ends[p])) / length));
        for (let k = 1; k < own; k++) marks.push(ends[p] + ((ends[p + 1] - ends[p]) * k) / own);
        marks.push(ends[p + 1]);
        if (kinks.includes(ends[p + 1])) marks.push(ends[p + 1] + BEYOND * length);
      });
      return marks;
    },
    driverAt: (w) => {
      const [p, x] = placeOf(w);
      if (w === 0) return low.at;
      if (w === length) return high.at;
      return horner(pieces[p].t, 0, pieces[p].t.length - 1, x);
    },
    driverRateAt: (w) => {
      const [p, x] = placeOf(w);
      const isDead = (w === 0 && low.status === 'deadPoint') || (w === length && high.status === 'deadPoint');
      return isDead ? 0 : rateAt(pieces[p], x);
    },
    unknownsAt: (w) => {
      const [p, x] = placeOf(w);
      const { z, order } = pieces[p];
      return Float64Array.from({ length: system.unknowns }, (_, j) => horner(z, j * (order + 1), order, x));
    },
    poseAt: (w) => {
      read(places, w);
      const { m } = places;
      return Object.fromEntries(
        names.map((name, p) => [name, [m[2 * p * READING], m[(2 * p + 1) * READING]] as const]),
      );
    },
  };
}

/** Parts into which a piece is cut at least. */
const LEAST = 4;
/** How far the other side of a kink is from it, as a share of the length. */
const BEYOND = 1e-12;
/** The cosine between the tangents of two pieces is nearer to 1 than this where the motion goes straight on. */
const STRAIGHT = 1e-6;

function isKink(before: Piece, after: Piece): boolean {
  const [one, other] = [tangentOf(before, before.hi), tangentOf(after, after.lo)];
  return dot(one, other) < (1 - STRAIGHT) * Math.sqrt(dot(one, one) * dot(other, other));
}

function tangentOf({ z, order }: Piece, x: number): Float64Array {
  return Float64Array.from({ length: z.length / (order + 1) }, (_, j) => {
    let rate = 0;
    for (let k = order; k >= 1; k--) rate = rate * x + k * z[j * (order + 1) + k];
    return rate;
  });
}

function rateAt({ t, unit }: Piece, x: number): number {
  let rate = 0;
  for (let k = t.length - 1; k >= 1; k--) rate = rate * x + k * t[k];
  return rate / unit;
}

/** Loads along a line. */
export interface LoadsAlong {
  readonly force: (w: number) => ForceAt;
  /** Null where one of them turns with a body and has none. */
  readonly potential: (w: number) => number | null;
}

/** The force, and the potential, of loads along a line. */
export function loadsAlong(line: Line, { measures, terms }: BoundLoads): LoadsAlong {
  const r = reader(line.path, measures);
  const force = (w: number) => {
    line.read(r, w);
    const { m } = r;
    let [Q, slope, size] = [0, 0, 0];
    for (const term of terms) {
      if ('law' in term) {
        const q = term.i * READING;
        const [value, first, second] = [m[q], m[q + FIRST], m[q + SECOND]];
        const F = term.law.force(value);
        Q += F * first;
        slope += term.law.rate(value) * first * first + F * second;
        size += Math.abs(F * first);
        continue;
      }
      const [x, y, turn] = [term.x * READING, term.y * READING, term.turn * READING];
      const [c, s] = [Math.cos(m[turn]), Math.sin(m[turn])];
      const [fx, fy] = [c * term.force[0] - s * term.force[1], s * term.force[0] + c * term.force[1]];
      Q += fx * m[x + FIRST] + fy * m[y + FIRST];
      slope += fx * m[x + SECOND] + fy * m[y + SECOND];
      slope += m[turn + FIRST] * (fx * m[y + FIRST] - fy * m[x + FIRST]);
      size += Math.hypot(fx, fy) * Math.hypot(m[x + FIRST], m[y + FIRST]);
    }
    return { Q, slope, size };
  };
  const potential = (w: number) => {
    line.read(r, w);
    let sum = 0;
    for (const term of terms) {
      if (!('law' in term)) return null;
      sum += term.law.potential(r.m[term.i * READING]);
    }
    return sum;
  };
  return { force, potential };
}
