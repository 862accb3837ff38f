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
import {
  BIFURCATION_STEP_FRACTION,
  locateBifurcation,
  type Signs,
  signsAtStart,
  signsBeyond,
} from './bifurcation.ts';
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
  longestStep,
  poseAt,
  type RedundancyTolerance,
  reverse,
  type Series,
  stepLength,
  type TaylorExpansion,
  tangentAt,
  worstRow,
} from './series.ts';
import { dot, singularPose } from './singular-pose.ts';
import { usedUp } from './straight-parts.ts';
import type { System } from './system.ts';

/** The drawn pose counts as a dead point when dt/dx is below this share of the driver's scale. */
const DEAD_POINT_TOLERANCE = 1e-9;
/** The motion has closed where the pose differs from the drawn one by less than this share of the size. */
const CLOSURE_TOLERANCE = 1e-9;
/** Its tangent then makes an angle of no more than this cosine with the drawn one. */
const PARALLEL = 0.999;
/** A bifurcation so near to a closure, in sizes, is the drawn pose. */
const SAME_PLACE = 1e-6;
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
  const { measure, from } = task;
  const { size } = system;
  pose.fill(0);
  const isBranch = expandByArcLength(e, pose, null) !== 1;
  if (isBranch && !expandWhereDrawn(e, task)) return { fault: 'degreesOfFreedom' };
  const scale = driverScale(measure, size);
  const t = driverSeries(e, measure, null);
  if (isConstantDriver(t, stepLength(e, null, 1), scale)) return { fault: 'constantDriver' };
  if (t[1] < 0) {
    reverse(e);
    for (let k = 1; k < t.length; k += 2) t[k] = -t[k];
  }
  const drawn = predicted(e, task, t, 0, isBranch ? 1 : null);
  if (t[1] <= DEAD_POINT_TOLERANCE * scale) {
    const end: MotionEnd = { at: t[0], status: 'deadPoint' };
    return { system, pieces: [pieceOf(drawn, size, 0, 1, t[0])], low: end, high: end };
  }
  const drawnTangent = Float64Array.from(e.tangent);
  const drawnDown = isBranch ? { ...drawn, signs: signsBeyond(e, drawn.series, -1) } : drawn;
  const passed = isBranch ? 1 : 0;
  const up = layOutward(e, task, drawn, 1, drawnTangent, passed);
  if (up.end.status === 'closed' && !Number.isFinite(from)) {
    return { system, pieces: up.pieces, low: { at: t[0], status: 'closed' }, high: up.end };
  }
  const down = layOutward(e, task, drawnDown, -1, drawnTangent, passed);
  const pieces = down.pieces.slice(1).reverse();
  pieces.push({ ...down.pieces[0], hi: up.pieces[0].hi });
  pieces.push(...up.pieces.slice(1));
  return { system, pieces, low: down.end, high: up.end };
}

/** Expands the motion on a branch where one is drawn in which several meet, and one is chosen. */
function expandWhereDrawn(e: TaylorExpansion, { leave }: Task): boolean {
  const singular = leave === undefined ? null : singularPose(e, e.pose);
  if (leave === undefined || singular === null) return false;
  if (Math.hypot(...singular.pose) > CLOSURE_TOLERANCE * e.system.size) return false;
  return leave(e, singular, null, 1, 0, e.none).isTaken;
}

/** The last expansion as a prediction, the driver's series beside it; about a singular pose on the side `beyond`. */
function predicted(
  e: TaylorExpansion,
  { measure, tolerance }: Task,
  t: Float64Array,
  origin: number,
  beyond: 1 | -1 | null = null,
): Predicted {
  const inverse = smallArray(INVERSE_ORDER + 1);
  revert(t, inverse);
  const series = { z: keptCoefficients(e), order: e.order };
  return {
    series,
    t,
    inverse,
    origin,
    step: stepLength(e, t, driverScale(measure, e.system.size)),
    allowed: { redundant: e.redundant, tolerance },
    signs: beyond === null ? signsAtStart(e) : signsBeyond(e, series, beyond),
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
  drawnTangent: Float64Array,
  passed: number,
): Side {
  const { system, pose, along } = e;
  const { size } = system;
  const target = requested(task, system, drawn.t[0], way);
  const pieces: Piece[] = [];
  let bifurcations = passed;
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
    let isSingular = status === 'bifurcation';
    if (status !== null && !isSingular) return { pieces, end: { at, status } };
    if (pieces.length === MAX_PIECES) return { pieces, end: { at, status: 'stepLimit' } };

    tangentAt(series, x, along);
    poseAt(series, x, pose);
    if (!isSingular) {
      const worst = worstRow(e, allowed, pose);
      const degreesOfFreedom = expandByArcLength(e, pose, along);
      if (degreesOfFreedom === 0)
        return { pieces, end: { at, status: 'locked', ...system.structure.rows[worst].of } };
      isSingular = degreesOfFreedom > 1 || stepLength(e, null, 1) < BIFURCATION_STEP_FRACTION;
    }
    if (isSingular) {
      const next = passBifurcation(e, task, pieces, allowed, way, bifurcations++);
      if ('status' in next) return { pieces, end: next };
      now = next;
    } else now = predicted(e, task, driverSeries(e, task.measure, at), now.origin + x * size);
  }
}

/** A length changes by no more than this, per unit of arc length. */
const GREATEST_RATE = 10;

/** The requested value of the driver; none for a length that no path comes to. */
function requested({ measure, from, to }: Task, system: System, drawn: number, way: 1 | -1): number {
  const target = way > 0 ? to : from;
  const reach = GREATEST_RATE * MAX_PIECES * longestStep(system) * system.size;
  return measure?.unit == null && Math.abs(target - drawn) > reach ? way * Number.POSITIVE_INFINITY : target;
}

/** The singular pose near the end of the pieces, which are cut there: the end of the motion, or the start of a branch. */
function passBifurcation(
  e: TaylorExpansion,
  task: Task,
  pieces: Piece[],
  allowed: RedundancyTolerance,
  way: 1 | -1,
  nth: number,
): MotionEnd | Predicted {
  const { measure, leave } = task;
  const { size } = e.system;
  const singular = singularPose(e, e.pose);
  if (singular !== null) cutAt(e, pieces, singular.pose, allowed, way);
  const last = pieces[pieces.length - 1];
  const x = way > 0 ? last.hi : last.lo;
  const at = horner(last.t, 0, last.t.length - 1, x);
  const end = { at, status: 'bifurcation' } as const;
  if (leave === undefined || singular === null || singular.tangents === null) return end;
  const arriving = new Float64Array(e.pose.length);
  tangentAt(last, x, arriving);
  const length = way * Math.hypot(...arriving);
  for (let i = 0; i < arriving.length; i++) arriving[i] /= length;
  const { branches, isTaken, isMissing } = leave(e, singular, arriving, way, nth, allowed.redundant);
  if (!isTaken) return { ...end, branches, ...(isMissing ? { choice: 'missing' } : {}) };
  const t = driverSeries(e, measure, at);
  if (!(t[1] > DEAD_POINT_TOLERANCE * driverScale(measure, size))) return { ...end, branches };
  return predicted(e, task, t, last.origin + x * size, way);
}

/** A piece is cut at a pose that it comes to within this share of the size. One shorter than KINK is a kink of rounding, for which the one before it stands. */
const NEAR = 1e-6;
const KINK = 1e-3;
/** Newton steps to the place of a piece nearest to a pose. */
const NEAREST_ROUNDS = 4;

/** Cuts the last pieces where they come nearest to a pose. */
function cutAt(
  e: TaylorExpansion,
  pieces: Piece[],
  target: Float64Array,
  allowed: RedundancyTolerance,
  way: 1 | -1,
): void {
  const { along, system } = e;
  const off = new Float64Array(target.length);
  for (let k = pieces.length - 1; k >= 0; k--) {
    const piece = pieces[k];
    let x = way > 0 ? piece.hi : piece.lo;
    for (let round = 0; round < NEAREST_ROUNDS; round++) {
      poseAt(piece, x, off);
      for (let i = 0; i < off.length; i++) off[i] -= target[i];
      tangentAt(piece, x, along);
      x -= dot(off, along) / dot(along, along);
    }
    if (!(way * x >= 0 && Math.hypot(...off) <= NEAR * system.size)) return;
    if (acceptStep(e, piece, x, allowed, e.pose, 0) !== x) return;
    pieces.length = k + 1;
    const isUp = way > 0;
    const start = isUp ? piece.start : horner(piece.t, 0, piece.t.length - 1, x);
    pieces[k] = { ...piece, start, ...(isUp ? { hi: x } : { lo: x }) };
    if (Math.abs(x) > KINK) return;
  }
}

/** What happens first in a piece whose rows hold up to `good`. */
function firstEvent(
  e: TaylorExpansion,
  { measure, isChosen = false }: Task,
  { series, t, signs }: Predicted,
  good: number,
  way: 1 | -1,
  target: number,
  drawnTangent: Float64Array | null,
): Event {
  const { system, along } = e;
  const { size } = system;
  const isOpen = !Number.isFinite(target);
  const end = acceptDriver(measure, series, t, good, size);
  const isDead = end === 0 || vanishes(measure, t, end, size);
  let nearest: Event = { x: end, status: good === 0 ? 'locked' : isDead ? 'deadPoint' : null };
  const events = [
    () => targetOrDeadPoint(t, way, nearest.x, target),
    () => usedUp(system, series, way, nearest.x),
    () =>
      drawnTangent === null || !isOpen ? null : closure(system, series, drawnTangent, along, way, nearest.x),
    () => {
      const { x: end, status, row } = nearest;
      // A direction of no length is one that may turn.
      const last = row === undefined ? end : (1 - SHORT_OF) * end;
      const x = last === 0 ? null : locateBifurcation(e, series, signs, last, isChosen);
      // Of a linkage drawn in a bifurcation the motion closes there.
      if (x === null || (status === 'closed' && Math.abs(end - x) < SAME_PLACE)) return null;
      return { x, status: 'bifurcation' } as const;
    },
    () => (nearest.status !== null || !isOpen ? null : farAway(e, series, nearest.x)),
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
  tangent: Float64Array,
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
  tangentAt({ z, order }, x, tangent);
  if (dot(tangent, drawnTangent) < PARALLEL * Math.hypot(...tangent)) return null;
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
