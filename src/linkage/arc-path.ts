// The path in pieces by arc length. Predict: a series about the pose, and the driver's beside it. Step length: as far as both are
// good. Accept: at the end every row holds, and the driver is what its series says. Then of all that may happen in a step, the
// event nearest to its start ends the piece, and the motion with it:
//
//   target, dead point   t(x) takes the requested value, or dt/dx = 0: roots of polynomials, not failures
//   closure              the motion returns to the drawn pose
//   bifurcation          a second branch crosses (bifurcation.ts)
//   unbounded            no value was requested, and a point is far beyond the drawing
//
// Else the pose at the end is brought to rounding, and is the start of the next piece.

import { derivative, firstRoot, horner, revert, rootBetween } from '../numerics/polynomial.ts';
import { smallArray } from '../numerics/small-array.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { BIFURCATION_STEP_FRACTION, locateBifurcation, type Signs, signsAtStart } from './bifurcation.ts';
import { acceptDriver, driverScale, driverSeries, isConstantDriver, vanishes } from './parameter.ts';
import {
  MAX_PIECES,
  type MotionEnd,
  type MotionStatus,
  type NoPath,
  type Path,
  type Piece,
  type Task,
} from './path.ts';
import {
  acceptStep,
  expandByArcLength,
  keptCoefficients,
  poseAt,
  type RedundancyTolerance,
  reverse,
  type Series,
  stepLength,
  type TaylorExpansion,
  tangentAt,
  worstRow,
} from './series.ts';
import { usedUp } from './straight-parts.ts';
import type { System } from './system.ts';

/** The drawn pose counts as a dead point when dt/dx is below this share of the driver's scale. */
const DEAD_POINT_TOLERANCE = 1e-9;
/** The motion has closed where the pose differs from the drawn one by less than this share of the size. */
const CLOSURE_TOLERANCE = 1e-9;
/** An unbounded motion, no value requested, is followed until a point is so many extents from where it was drawn. */
const MAX_EXTENTS = 30;
/** A bifurcation is looked for up to this share of the way before the place where a straight part of rope is used up. */
const SHORT_OF = 1e-6;
/** Order of the inverse of the driver's series: a start for Newton, near enough in most of a piece for a single correction. */
const INVERSE_ORDER = 10;

/** A series about a pose, before anything is known of its end. */
interface Predicted {
  readonly series: Series;
  readonly t: Float64Array;
  readonly inverse: Float64Array;
  readonly origin: number;
  /** How far the series is good. */
  readonly step: number;
  readonly allowed: RedundancyTolerance;
  readonly signs: Signs;
}

/** Something that happens in a piece, at x; `status` null: the end of the piece, and the motion continues. */
interface Event {
  readonly x: number;
  readonly status: MotionStatus | null;
  /** For `locked`: the row that stops it. */
  readonly row?: number;
}

/** Pieces of one side, outward, and the end. */
interface Side {
  readonly pieces: Piece[];
  readonly end: MotionEnd;
}

/** The path of a task by arc length. */
export function layByArcLength(e: TaylorExpansion, task: Task): Path | NoPath {
  const { system, pose } = e;
  const { measure, from, to } = task;
  const { size } = system;
  pose.fill(0);
  if (expandByArcLength(e, pose, null) !== 1) return { fault: 'degreesOfFreedom' };
  const scale = driverScale(measure, size);
  const t = driverSeries(e, measure, null);
  if (isConstantDriver(t, stepLength(e, null, 1), scale)) return { fault: 'constantDriver' };
  if (t[1] < 0) {
    reverse(e);
    for (let k = 1; k < t.length; k += 2) t[k] = -t[k];
  }
  const drawn = predicted(e, task, t, 0);
  if (t[1] <= DEAD_POINT_TOLERANCE * scale) {
    const end: MotionEnd = { at: t[0], status: 'deadPoint' };
    return { system, pieces: [pieceOf(drawn, size, 0, 1, t[0])], low: end, high: end };
  }
  const isOpen = !Number.isFinite(from) && !Number.isFinite(to);
  const drawnTangent = isOpen ? Float64Array.from(e.tangent) : null;
  const up = layOutward(e, task, drawn, 1, drawnTangent);
  if (up.end.status === 'closed') {
    return { system, pieces: up.pieces, low: { at: t[0], status: 'closed' }, high: up.end };
  }
  const down = layOutward(e, task, drawn, -1, drawnTangent);
  const pieces = down.pieces.slice(1).reverse();
  pieces.push({ ...down.pieces[0], hi: up.pieces[0].hi });
  pieces.push(...up.pieces.slice(1));
  return { system, pieces, low: down.end, high: up.end };
}

/** The last expansion as a prediction, the driver's series beside it. */
function predicted(
  e: TaylorExpansion,
  { measure, tolerance }: Task,
  t: Float64Array,
  origin: number,
): Predicted {
  const inverse = smallArray(INVERSE_ORDER + 1);
  revert(t, inverse);
  return {
    series: { z: keptCoefficients(e), order: e.order },
    t,
    inverse,
    origin,
    step: stepLength(e, t, driverScale(measure, e.system.size)),
    allowed: { redundant: e.redundant, tolerance },
    signs: signsAtStart(e),
  };
}

/** A prediction up to x, where the driver is `at`. */
function pieceOf(
  { series, t, inverse, origin }: Predicted,
  unit: number,
  x: number,
  way: 1 | -1,
  at: number,
): Piece {
  const { z, order } = series;
  const isUp = way > 0;
  return { z, order, unit, lo: isUp ? 0 : x, hi: isUp ? x : 0, origin, start: isUp ? t[0] : at, t, inverse };
}

function layOutward(
  e: TaylorExpansion,
  task: Task,
  drawn: Predicted,
  way: 1 | -1,
  drawnTangent: Float64Array | null,
): Side {
  const { system, pose, along } = e;
  const { size } = system;
  const target = way > 0 ? task.to : task.from;
  const pieces: Piece[] = [];
  for (let now = drawn; ; ) {
    const { series, t, allowed } = now;
    const good = acceptStep(e, series, way * now.step, allowed, pose);
    const { worstRow: violated } = e;
    const event = firstEvent(e, task, now, good, way, target, pieces.length === 0 ? null : drawnTangent);
    const { x, status } = event;
    const at = status === 'reached' ? target : horner(t, 0, t.length - 1, x);
    pieces.push(pieceOf(now, size, x, way, at));
    if (status === 'locked')
      return { pieces, end: { at, status, ...system.structure.rows[event.row ?? violated]?.of } };
    if (status !== null) return { pieces, end: { at, status } };
    if (pieces.length === MAX_PIECES) return { pieces, end: { at, status: 'stepLimit' } };

    tangentAt(series, x, along);
    poseAt(series, x, pose);
    const worst = worstRow(e, allowed, pose);
    const degreesOfFreedom = expandByArcLength(e, pose, along);
    if (degreesOfFreedom === 0)
      return { pieces, end: { at, status: 'locked', ...system.structure.rows[worst].of } };
    if (degreesOfFreedom > 1 || stepLength(e, null, 1) < BIFURCATION_STEP_FRACTION) {
      return { pieces, end: { at, status: 'bifurcation' } };
    }
    now = predicted(e, task, driverSeries(e, task.measure, at), now.origin + x * size);
  }
}

/** What happens first in a piece whose rows hold up to `good`. */
function firstEvent(
  e: TaylorExpansion,
  { measure }: Task,
  { series, t, signs }: Predicted,
  good: number,
  way: 1 | -1,
  target: number,
  drawnTangent: Float64Array | null,
): Event {
  const { size } = e.system;
  const end = acceptDriver(measure, series, t, good, size);
  const isDead = end === 0 || vanishes(measure, t, end, size);
  let nearest: Event = { x: end, status: good === 0 ? 'locked' : isDead ? 'deadPoint' : null };
  const events = [
    () => targetOrDeadPoint(t, way, nearest.x, target),
    () => usedUp(e.system, series, way, nearest.x),
    () => (drawnTangent === null ? null : closure(e.system, series, drawnTangent, way, nearest.x)),
    () => {
      // A direction of no length is one that may turn.
      const last = nearest.row === undefined ? nearest.x : (1 - SHORT_OF) * nearest.x;
      const x = last === 0 ? null : locateBifurcation(e, series, signs, last);
      return x === null ? null : ({ x, status: 'bifurcation' } as const);
    },
    () => (nearest.status !== null || Number.isFinite(target) ? null : farAway(e, series, nearest.x)),
  ];
  for (const find of events) {
    const event = find();
    if (event !== null && Math.abs(event.x) <= Math.abs(nearest.x)) nearest = event;
  }
  return nearest;
}

/** What comes first between x = 0 and `end`: the requested value of the driver, or a dead point. */
function targetOrDeadPoint(t: Float64Array, way: 1 | -1, end: number, target: number): Event | null {
  if (way * (t[0] - target) >= 0) return { x: 0, status: 'reached' };
  if (t[1] <= 0) return { x: 0, status: 'deadPoint' };
  const dead = firstRoot(derivative(t), way, end);
  // Up to there t grows steadily, so that it meets the target once or not at all.
  const last = dead ?? end;
  if (way * (horner(t, 0, t.length - 1, last) - target) >= 0) {
    const x = way > 0 ? rootBetween(t, target, 0, last) : rootBetween(t, target, last, 0);
    return { x, status: 'reached' };
  }
  return dead === null ? null : { x: dead, status: 'deadPoint' };
}

/** Where in a piece the motion passes the drawn pose along the drawn tangent, if it does. */
function closure(
  { size, structure }: System,
  { z, order }: Series,
  drawnTangent: Float64Array,
  way: 1 | -1,
  end: number,
): Event | null {
  // A turn has not come back with the places.
  const places = 2 * structure.freePoints.length;
  const along = new Float64Array(order + 1);
  for (let i = 0; i < places; i++)
    for (let k = 0; k <= order; k++) along[k] += drawnTangent[i] * z[i * (order + 1) + k];
  const x = firstRoot(along, way, end);
  if (x === null) return null;
  for (let i = 0; i < places; i++) {
    if (Math.abs(horner(z, i * (order + 1), order, x)) > CLOSURE_TOLERANCE * size) return null;
  }
  return { x, status: 'closed' };
}

/** Where a point gets that far, if one does: a place, not the end of a piece, so that it turns with the drawing. */
function farAway({ system, pose }: TaylorExpansion, series: Series, end: number): Event | null {
  const places = 2 * system.structure.freePoints.length;
  const beyond = (x: number) => {
    poseAt(series, x, pose);
    let most = 0;
    for (let i = 0; i < places; i += 2) most = Math.max(most, Math.hypot(pose[i], pose[i + 1]));
    return most - MAX_EXTENTS * system.extent;
  };
  return beyond(end) > 0 ? { x: zeroBetween(beyond, 0, end), status: 'unbounded' } : null;
}
