// The path in pieces whose local parameter is the driver itself. Predict: a series about the pose. Step length: to the
// requested value, or as far as the series is good. Accept: at the end every row holds, the driver has its value, and no block of the
// bordered Jacobian has changed its sign. If anything fails, the whole path is left to arc length, which finds the cause.

import { type Bordered, differ, marksOf } from '../numerics/bordered.ts';
import { smallArray } from '../numerics/small-array.ts';
import { type Closing, closing, driverHere, takeGradient } from './closing.ts';
import { drawnValue, unwrap } from './measure-series.ts';
import { ASTRAY, driverScale } from './parameter.ts';
import type { Path, Piece, Task } from './path.ts';
import {
  acceptStep,
  driverStepLength,
  expandByDriver,
  factoriseBordered,
  keptCoefficients,
  type RedundancyTolerance,
  type TaylorExpansion,
} from './series.ts';
import { usedUp } from './straight-parts.ts';

/** A piece must bring the driver on by this share of what is left of the way, or arc length does better. */
const WORTH = 1 / 3;

/** A piece, and what its ends are compared with. */
interface Predicted {
  readonly piece: Piece;
  readonly bordered: Bordered;
  readonly marks: string;
  readonly allowed: RedundancyTolerance;
}

/** The path of a task by its driver, where that goes all the way on both sides; else null. */
export function layByDriver(e: TaylorExpansion, task: Task): Path | null {
  const { measure, from, to } = task;
  if (measure === null || !(to - from < Number.POSITIVE_INFINITY)) return null;
  const by = closing(measure, e);
  if (by === null) return null;
  e.pose.fill(0);
  const drawn = predict(e, by, drawnValue(measure), from, to, 0, task.tolerance);
  if (drawn === null) return null;
  const pieces = [drawn.piece];
  // First the side on which the motion becomes faster: there it may come to a dead point, and the other be laid in vain.
  const { z, order } = drawn.piece;
  let growth = 0;
  for (let i = 0; i < z.length; i += order + 1) growth += z[i + 1] * z[i + 2];
  for (const target of growth > 0 ? [to, from] : [from, to]) {
    if (target === from) pieces.reverse();
    if (!layOutward(e, by, drawn, target, task, pieces)) return null;
    if (target === from) pieces.reverse();
  }
  return {
    system: e.system,
    pieces,
    low: { at: from, status: 'reached' },
    high: { at: to, status: 'reached' },
  };
}

/** Lays pieces from the drawn one to a target, behind those that there are; false where something is amiss. */
function layOutward(
  e: TaylorExpansion,
  by: Closing,
  drawn: Predicted,
  target: number,
  { to, tolerance }: Task,
  pieces: Piece[],
): boolean {
  for (let last = drawn; ; ) {
    const { t, origin, unit, lo, hi } = last.piece;
    const end = target === to ? hi : lo;
    if (!acceptPiece(e, by, last, end)) return false;
    if (end === (target - t[0]) / unit) return true;
    const here = t[0] + end * unit;
    const way = origin + end * unit;
    const next = predict(e, by, here, Math.min(here, target), Math.max(here, target), way, tolerance);
    if (next === null) return false;
    pieces.push(next.piece);
    last = next;
  }
}

/** The piece about the pose in `e.pose`, where the driver is `at`, towards both values; null if it is not worth it. */
function predict(
  e: TaylorExpansion,
  by: Closing,
  at: number,
  from: number,
  to: number,
  origin: number,
  tolerance: number,
): Predicted | null {
  const unit = Math.max(to - at, at - from);
  const bordered = unit === 0 ? null : expandByDriver(e, by, e.pose, unit);
  if (bordered === null) return null;
  const step = driverStepLength(e);
  if (!(step >= WORTH)) return null;
  const lo = Math.max((from - at) / unit, -step);
  const hi = Math.min((to - at) / unit, step);
  const t = smallArray(2);
  t[0] = at;
  t[1] = unit;
  const piece: Piece = {
    z: keptCoefficients(e),
    order: e.order,
    unit,
    lo,
    hi,
    origin,
    start: at + lo * unit,
    t,
    inverse: null,
  };
  return { piece, bordered, marks: marksOf(bordered), allowed: { redundant: e.redundant, tolerance } };
}

/** Whether a piece is good up to its end, whose pose is left in `e.pose`. */
function acceptPiece(
  e: TaylorExpansion,
  by: Closing,
  { piece, bordered, marks, allowed }: Predicted,
  end: number,
): boolean {
  if (end === 0) return true;
  const { pose, system } = e;
  if (acceptStep(e, piece, end, allowed, pose, 0) !== end) return false;
  if (usedUp(system, piece, end > 0 ? 1 : -1, end) !== null) return false;
  takeGradient(by, pose);
  const { measure } = by;
  const expected = piece.t[0] + end * piece.unit;
  const exact = measure.kind === 'angle' ? unwrap(driverHere(by), expected) : driverHere(by);
  if (!(Math.abs(exact - expected) <= ASTRAY * driverScale(measure, system.size))) return false;
  factoriseBordered(e, bordered);
  return !differ(marksOf(bordered), marks);
}
