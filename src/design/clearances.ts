// How far parts of the corner keep from each other, at each row of the travel and where they are nearest. There the distance goes with
// the coordinates as at a travel that stays: its slope by travel is 0. Parts are convex: a point, a line from joint to
// joint, the rectangle of the tyre. Of two convex shapes P and Q the distance is the largest gap that any direction n shows,
//
//   max over n of  min over Q of (n . q) - max over P of (n . p),
//
// attained by the normal of a side of either, or by the line between two corners; where they overlap it is minus the way that one
// must go to be clear (separating axes: C. Ericson, "Real-Time Collision Detection", 2005, sec. 5.2.1; from memory). It is
// smooth but where another direction takes over.

import { type CornerModel, carrierOf, pivotOf } from '../corner/model.ts';
import type { Tyre } from '../corner/tyre.ts';
import {
  combined,
  constant,
  type Dual,
  dual,
  length,
  minus,
  over,
  plus,
  scaled,
  times,
} from '../numerics/dual.ts';
import { DEGREES } from '../units.ts';
import type { DualPoint, Rows, Trial } from './trial.ts';

/** Distances to be kept over the travel, mm. Arms are straight lines between their joints, by name. */
export interface Clearances {
  /** From each arm to either end eye of the coilover; not from an arm to the eye on it. */
  readonly mountToArm?: Readonly<Record<string, number>>;
  /** From each arm to the spring's body. */
  readonly springToArm?: Readonly<Record<string, number>>;
  /** From the tyre to the spring's body. */
  readonly springToTyre?: number;
  /** The spring's body: its outer diameter, and how far from the centre of either end eye it begins, mm. */
  readonly spring?: { readonly diameter: number; readonly seatOffset: number };
  /** Tyre by its overall radius and width, or by its marking. */
  readonly tyre?: Tyre | string;
}

/** The same, the tyre as numbers. */
export type CheckedClearances = Omit<Clearances, 'tyre'> & { readonly tyre?: Tyre };

/** Clearance beyond the required distance, mm. */
export interface Margin {
  /** `spring`, or an end eye of the coilover by the name of its point. */
  readonly of: string;
  /** `tyre`, or an arm by its name. */
  readonly to: string;
  readonly travel: number;
  /** What is to be kept. */
  readonly distance: number;
  readonly clearance: Dual;
}

/** The arms of a corner: bodies that join the chassis to the upright, by the points where they do. */
export function armsOf({
  drawing: { bodies, ground },
  upright,
}: CornerModel): Record<string, [string, string]> {
  const arms: Record<string, [string, string]> = {};
  for (const [body, points] of Object.entries(bodies)) {
    if (body === upright) continue;
    const pivot = pivotOf(points, ground);
    const joint = points.find((point) => bodies[upright].includes(point));
    if (pivot !== undefined && joint !== undefined) arms[body] = [pivot, joint];
  }
  return arms;
}

/** Two parts that keep from each other. */
interface Pair extends Pick<Margin, 'of' | 'to' | 'distance'> {
  /** From one to the other at a row. */
  gap(at: Rows, row: number): Dual;
}

/** Rows between two of a trial at which the nearest place is looked for. */
const PARTS = 2;
/** Steps of parabolas about the nearest row and about what they find, as shares of the distance of those rows. */
const NARROWER = [1, 1 / 8, 1 / 128];

/** The margins of a trial, in an order that is the same for all: at each row, then where each pair is nearest. */
export function marginsOf(clearances: CheckedClearances, trial: Trial): Margin[] {
  const pairs = pairsOf(clearances, trial.model);
  if (pairs.length === 0) return [];
  const margin = ({ of, to, distance, gap }: Pair, at: Rows, row: number): Margin => {
    return { of, to, travel: at.travel[row], distance, clearance: scaled(gap(at, row), 1, -distance) };
  };
  const margins: Margin[] = [];
  for (let row = 0; row < trial.rows; row++) margins.push(...pairs.map((pair) => margin(pair, trial, row)));
  const finer = trial.finer(PARTS);
  for (const pair of pairs) {
    const at = nearestAt(pair, finer);
    const row = trial.travel.indexOf(at);
    margins.push(row < 0 ? margin(pair, trial.alone(at), 0) : margin(pair, trial, row));
  }
  return margins;
}

/** The travel at which two parts are nearest. */
function nearestAt({ gap }: Pair, finer: ReturnType<Trial['finer']>): number {
  const { travel, rows } = finer;
  const gaps = Array.from(travel, (_, row) => gap(finer, row).value);
  const nearest = gaps.indexOf(Math.min(...gaps));
  const row = travel[nearest];
  if (nearest === 0 || nearest === rows - 1) return row;
  const spacing = Math.min(row - travel[nearest - 1], travel[nearest + 1] - row);
  let at = row;
  for (const part of NARROWER) {
    const h = part * spacing;
    const [before, here, after] = [-h, 0, h].map((by) => gap(finer.at(at + by), 0).value);
    const bend = before - 2 * here + after;
    const way = (before - after) / (2 * bend);
    // Shapes that overlap may be nearest in a kink: the row itself counts there.
    if (!(bend > 0 && Math.abs(way) <= 1)) return row;
    at += h * way;
  }
  return at;
}

function pairsOf(clearances: CheckedClearances, model: CornerModel): Pair[] {
  const { mountToArm = {}, springToArm = {}, springToTyre, spring, tyre } = clearances;
  const { outer, inner } = model.shock;
  const arms = armsOf(model);
  const along = (arm: string, at: Rows, row: number) => arms[arm].map((point) => at.place(point, row));
  const pairs = Object.entries(mountToArm).flatMap(([arm, distance]) =>
    [outer, inner]
      .filter((eye) => carrierOf(model, eye) !== arm)
      .map((eye): Pair => {
        return {
          of: eye,
          to: arm,
          distance,
          gap: (at, row) => gapOf([at.place(eye, row)], along(arm, at, row)),
        };
      }),
  );
  if (spring === undefined) return pairs;
  const toSpring = (to: string, distance: number, other: (at: Rows, row: number) => DualPoint[]): Pair => ({
    of: 'spring',
    to,
    distance,
    gap(at, row) {
      const body = springBody(at.place(outer, row), at.place(inner, row), spring.seatOffset);
      return scaled(gapOf(body, other(at, row)), 1, -spring.diameter / 2);
    },
  });
  for (const [arm, distance] of Object.entries(springToArm)) {
    pairs.push(toSpring(arm, distance, (at, row) => along(arm, at, row)));
  }
  if (springToTyre !== undefined && tyre !== undefined) {
    pairs.push(toSpring('tyre', springToTyre, (at, row) => tyreCorners(tyre, at, row)));
  }
  return pairs;
}

/** The axis of the spring's body; where the eyes are too near to each other, their middle. */
function springBody(a: DualPoint, b: DualPoint, seatOffset: number): DualPoint[] {
  const [y, z] = line(a, b);
  const whole = length(y, z);
  if (whole.value <= 2 * seatOffset) {
    return [[combined(0.5, a[0], 0.5, b[0]), combined(0.5, a[1], 0.5, b[1])]];
  }
  const [u, v] = [over(y, whole), over(z, whole)];
  return [
    [combined(1, a[0], seatOffset, u), combined(1, a[1], seatOffset, v)],
    [combined(1, b[0], -seatOffset, u), combined(1, b[1], -seatOffset, v)],
  ];
}

/** Corners of the tyre's rectangle, leaning by its camber. */
function tyreCorners(
  { overallRadius: r, width }: Tyre,
  { model, place, column }: Rows,
  row: number,
): DualPoint[] {
  const [y, z] = place(model.wheelCentre, row);
  const camber = column('camber', row);
  const angle = camber.value / DEGREES;
  // Up the wheel is (sin, cos) of the camber, outward (cos, -sin).
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  const s = dual(sine, () => camber.by.map((d) => (cosine * d) / DEGREES));
  const c = dual(cosine, () => camber.by.map((d) => (-sine * d) / DEGREES));
  const corner = (out: number, up: number): DualPoint => [
    plus(y, combined(out, c, up, s)),
    plus(z, combined(-out, s, up, c)),
  ];
  const w = 0.5 * width;
  return [corner(-w, -r), corner(w, -r), corner(w, r), corner(-w, r)];
}

/** The distance of two convex shapes, by their corners in order; negative where they overlap. */
export function gapOf(P: readonly DualPoint[], Q: readonly DualPoint[]): Dual {
  let best = Number.NEGATIVE_INFINITY;
  let gap: (() => Dual) | null = null;
  /** Looks along a direction from P to Q; `exact` gives the same gap with derivatives. */
  const look = (ny: number, nz: number, exact: (p: DualPoint, q: DualPoint) => Dual) => {
    const size = Math.hypot(ny, nz);
    if (size === 0) return;
    const along = ([y, z]: DualPoint) => (ny * y.value + nz * z.value) / size;
    const p = P.reduce((a, b) => (along(b) > along(a) ? b : a));
    const q = Q.reduce((a, b) => (along(b) < along(a) ? b : a));
    const found = along(q) - along(p);
    if (found <= best) return;
    best = found;
    gap = () => exact(p, q);
  };
  for (const shape of [P, Q]) {
    const sides = shape.length > 2 ? shape.length : shape.length - 1;
    for (let i = 0; i < sides; i++) {
      const [a, b] = [shape[i], shape[(i + 1) % shape.length]];
      for (const sense of [1, -1]) {
        const [y, z] = [b[0].value - a[0].value, b[1].value - a[1].value];
        look(-sense * z, sense * y, (p, q) => {
          const [side, way] = [line(a, b), line(p, q)];
          const area = minus(times(side[0], way[1]), times(side[1], way[0]));
          return scaled(over(area, length(...side)), sense);
        });
      }
    }
  }
  for (const a of P) {
    for (const b of Q) {
      look(b[0].value - a[0].value, b[1].value - a[1].value, (p, q) => {
        const [n, way] = [line(a, b), line(p, q)];
        return over(plus(times(n[0], way[0]), times(n[1], way[1])), length(...n));
      });
    }
  }
  return gap === null ? constant(0, P[0][0]) : (gap as () => Dual)();
}

/** From one place to another. */
function line(a: DualPoint, b: DualPoint): DualPoint {
  return [minus(b[0], a[0]), minus(b[1], a[1])];
}
