// A path is the row of its pieces: each a power series about its own pose (series.ts), good
// over [lo, hi], with the parameter t as a series beside it. Pieces are laid outward from the drawn pose, both ways.
// A dead point of the parameter is where dt/ds = 0 inside a piece: a root of a polynomial, not a failure.

import { derivative, horner, revert, rootBetween, roots } from '../numerics/polynomial.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { branches, KINK, markOf, turnedIn } from './bifurcation.ts';
import {
  acceptParameter,
  isStill,
  type Parameter,
  parameterSeries,
  rateUnit,
  vanishes,
} from './parameter.ts';
import {
  accept,
  type Expander,
  expand,
  ORDER,
  poseAt,
  reach,
  redundantRows,
  type Slack,
  STRIDE,
  tangentAt,
  worstRow,
} from './series.ts';
import type { System } from './system.ts';

/**
 * How the motion ends on one side:
 *
 * - `reached`: at the value asked for;
 * - `deadPoint`: the driver can go no farther, though the linkage can move on by other means (dt/ds = 0);
 * - `closed`: the motion came home to the drawn pose;
 * - `locked`: constraints that hold in the drawn pose contradict each other farther on; `row` names the worst;
 * - `undetermined`: the linkage gains a freedom here (a bifurcation): how it goes on is not determined;
 * - `gaveUp`: more than the permitted number of pieces, or on and on, far beyond the drawing, where no value was asked for.
 */
export type EndKind = 'reached' | 'deadPoint' | 'closed' | 'locked' | 'undetermined' | 'gaveUp';

/** One end of a motion. */
export interface End {
  /** Value of the driver there. */
  readonly at: number;
  readonly how: EndKind;
  /** For `locked`: what does not hold, in the drawing's names. */
  readonly row?: string;
  /**
   * For `locked` by a bar between two joints: by how much its length would have to give, at most, for the rest to move as
   * far as asked.
   */
  readonly by?: number;
}

/** A stretch of the motion. */
export interface Piece {
  /** Local lengths of the pieces from the drawn pose to local 0, summed. */
  readonly origin: number;
  /** Local range, lo <= 0 <= hi. */
  readonly lo: number;
  readonly hi: number;
  /** Parameter at lo. */
  readonly start: number;
  /** Series of the unknowns, contiguous per unknown. */
  readonly z: Float64Array;
  /** Series of the parameter. */
  readonly t: Float64Array;
  /** Inverse of that series to a lower order: local arc length by the parameter's distance from `t[0]`. */
  readonly inverse: Float64Array;
}

/** Pieces in order of the parameter, which grows along them, and how they end. */
export interface Path {
  readonly system: System;
  readonly pieces: readonly Piece[];
  readonly low: End;
  readonly high: End;
}

/** Most pieces on one side: far beyond any closed loop. */
const MOST_PIECES = 20_000;
/** The drawn pose counts as a dead point when dt/ds is below this, in units of the driver per size. */
const STILL = 1e-9;
/** Home is where the pose differs from the drawn one by less than this share of the size. */
const HOME = 1e-9;

/** Why there is no path from the drawn pose: not one freedom, or a parameter that the motion does not change. */
export type NoPath = { readonly fault: 'freedoms' } | { readonly fault: 'still' };

/**
 * Lays pieces from the drawn pose until the parameter is `from` on one side and `to` on the other, or ends before. Redundant
 * rows may miss by `tolerance`.
 */
export function layPath(
  e: Expander,
  by: Parameter,
  from: number,
  to: number,
  tolerance: number,
): Path | NoPath {
  const { system } = e;
  const pose = new Float64Array(system.unknowns);
  if (expand(e, pose, null) !== 1) return { fault: 'freedoms' };
  const t = parameterSeries(e, by, null);
  if (isStill(t, by, reach(e, null), system.size)) return { fault: 'still' };
  if (t[1] < 0) {
    flip(e.z);
    flip(t);
  }
  const z = e.z.slice();
  const drawn = { z, t, inverse: inverseOf(t), slack: { redundant: redundantRows(e), tolerance } };
  if (t[1] <= STILL * rateUnit(by, system.size)) {
    const end: End = { at: t[0], how: 'deadPoint' };
    const { inverse } = drawn;
    return { system, pieces: [{ origin: 0, lo: 0, hi: 0, start: t[0], z, t, inverse }], low: end, high: end };
  }
  const first = reach(e, t);
  const home = Number.isFinite(from) || Number.isFinite(to) ? null : tangentOf(z, system.unknowns);
  const mark = markOf(e, tangentOf(z, system.unknowns));

  const up = layOutward(e, by, drawn, first, mark, 1, to, home);
  if (up.end.how === 'closed') {
    return { system, pieces: up.pieces, low: { at: t[0], how: 'closed' }, high: up.end };
  }
  const down = layOutward(e, by, drawn, first, mark, -1, from, home);
  const pieces = down.pieces.slice(1).reverse();
  pieces.push({ ...down.pieces[0], hi: up.pieces[0].hi });
  pieces.push(...up.pieces.slice(1));
  return { system, pieces, low: down.end, high: up.end };
}

function layOutward(
  e: Expander,
  by: Parameter,
  drawn: Pick<Piece, 'z' | 't' | 'inverse'> & { readonly slack: Slack },
  first: number,
  drawnMark: string,
  way: 1 | -1,
  target: number,
  home: Float64Array | null,
): { pieces: Piece[]; end: End } {
  const { system } = e;
  const pieces: Piece[] = [];
  const pose = new Float64Array(system.unknowns);
  const along = new Float64Array(system.unknowns);
  let { z, t, inverse, slack } = drawn;
  let origin = 0;
  let step = first;
  let mark = drawnMark;
  for (;;) {
    const good = accept(e, z, way * step, slack, pose);
    const end = acceptParameter(by, z, t, good, system.size);
    let stop = end;
    let how: EndKind | null =
      good === 0 ? 'locked' : end === 0 || vanishes(by, t, end, system.size) ? 'deadPoint' : null;
    const locked = system.structure.rows[e.worstRow]?.name;
    const event = eventIn(t, way, end, target);
    if (event !== null) ({ s: stop, how } = event);
    const comesHome = home === null || pieces.length === 0 ? null : homeIn(z, home, way, end, system.size);
    if (comesHome !== null && Math.abs(comesHome) <= Math.abs(stop)) {
      stop = comesHome;
      how = 'closed';
    }
    const turned = turnedIn(e, z, mark, stop, pose, along);
    if (turned !== null && branches(e, z, turned, pose, along)) {
      stop = turned;
      how = 'undetermined';
    }
    const far = how !== null || Number.isFinite(target) ? null : farIn(z, stop, system, pose);
    if (far !== null) {
      stop = far;
      how = 'gaveUp';
    }
    const at = how === 'reached' ? target : horner(t, 0, ORDER, stop);
    const [lo, hi] = way > 0 ? [0, stop] : [stop, 0];
    pieces.push({ origin, lo, hi, start: way > 0 ? t[0] : at, z, t, inverse });
    if (how === 'locked') return { pieces, end: { at, how, row: locked } };
    if (how !== null) return { pieces, end: { at, how } };
    if (pieces.length === MOST_PIECES) return { pieces, end: { at, how: 'gaveUp' } };

    tangentAt(z, stop, along);
    poseAt(z, stop, pose);
    const tightest = worstRow(e, slack, pose);
    const freedoms = expand(e, pose, along);
    if (freedoms === 0) return { pieces, end: { at, how: 'locked', row: tightest } };
    if (freedoms > 1 || reach(e, null) < KINK * system.size) {
      return { pieces, end: { at, how: 'undetermined' } };
    }
    mark = markOf(e, e.tangent);
    origin += stop;
    z = e.z.slice();
    t = parameterSeries(e, by, at);
    inverse = inverseOf(t);
    slack = { ...slack, redundant: redundantRows(e) };
    step = reach(e, t);
  }
}

/** What slides without end, no value asked for, is followed until a point is so many extents from where it was drawn. */
const FARTHEST = 30;

/** Where in a piece a point gets that far, null if none does: the place, not a piece, ends it, and turns with the drawing. */
function farIn(z: Float64Array, end: number, { extent }: System, pose: Float64Array): number | null {
  const beyond = (s: number) => {
    poseAt(z, s, pose);
    let most = 0;
    for (let i = 0; i < pose.length; i += 2) most = Math.max(most, Math.hypot(pose[i], pose[i + 1]));
    return most - FARTHEST * extent;
  };
  return beyond(end) > 0 ? zeroBetween(beyond, 0, end) : null;
}

/** Order of the inverse series: a start for Newton, near enough in most of a piece for a single correction. */
const INVERSE_ORDER = 10;

function inverseOf(t: Float64Array): Float64Array {
  const inverse = new Float64Array(INVERSE_ORDER + 1);
  revert(t, inverse);
  return inverse;
}

/** What the parameter meets first between local 0 and `end`: the target, or a dead point. */
function eventIn(
  t: Float64Array,
  way: 1 | -1,
  end: number,
  target: number,
): { s: number; how: 'reached' | 'deadPoint' } | null {
  if (way * (t[0] - target) >= 0) return { s: 0, how: 'reached' };
  if (t[1] <= 0) return { s: 0, how: 'deadPoint' };
  const dead = firstRoot(derivative(t), way, end);
  // Up to there t grows steadily, so that it meets the target once or not at all.
  const last = dead ?? end;
  if (way * (horner(t, 0, ORDER, last) - target) >= 0) {
    const hit = way > 0 ? rootBetween(t, target, 0, last) : rootBetween(t, target, last, 0);
    return { s: hit, how: 'reached' };
  }
  return dead === null ? null : { s: dead, how: 'deadPoint' };
}

/** The root nearest to 0 between 0 and `end`. */
function firstRoot(c: Float64Array, way: 1 | -1, end: number): number | null {
  const found = way > 0 ? roots(c, 0, end) : roots(c, end, 0);
  return (way > 0 ? found[0] : found[found.length - 1]) ?? null;
}

/** Where in a piece the motion passes the drawn pose in the drawn sense, if it does. */
function homeIn(z: Float64Array, home: Float64Array, way: 1 | -1, end: number, size: number): number | null {
  const along = new Float64Array(STRIDE);
  for (let i = 0; i < home.length; i++) {
    for (let k = 0; k <= ORDER; k++) along[k] += home[i] * z[i * STRIDE + k];
  }
  const s = firstRoot(along, way, end);
  if (s === null) return null;
  for (let i = 0; i < home.length; i++) {
    if (Math.abs(horner(z, i * STRIDE, ORDER, s)) > HOME * size) return null;
  }
  return s;
}

function tangentOf(z: Float64Array, unknowns: number): Float64Array {
  const tangent = new Float64Array(unknowns);
  for (let i = 0; i < unknowns; i++) tangent[i] = z[i * STRIDE + 1];
  return tangent;
}

/** Reverses the sense of the arc length. */
function flip(series: Float64Array): void {
  for (let q = 0; q < series.length; q += STRIDE) {
    for (let k = 1; k <= ORDER; k += 2) series[q + k] = -series[q + k];
  }
}
