// A path is the row of its pieces, each a power series about its own pose (series.ts), with the driver as a series beside it.

import type { Point } from './drawing.ts';
import type { BoundMeasure } from './measure.ts';
import type { Series, TaylorExpansion } from './series.ts';
import type { SingularPose } from './singular-pose.ts';
import type { System } from './system.ts';

/**
 * How the motion ends on one side:
 *
 * - `reached`: at the requested value of the driver;
 * - `deadPoint`: the driver cannot go farther (dt/ds = 0), though another driver could move the linkage on;
 * - `closed`: the motion has returned to the drawn pose;
 * - `locked`: constraints that agree in the drawn pose contradict each other farther on; `constraint` names the worst, or a rope of
 *   which a straight part is used up;
 * - `bifurcation`: a second branch crosses here, and the motion could continue either way;
 * - `unbounded`: no value was requested, or a length out of reach, and a point is 30 extents of the drawing from where it was drawn;
 * - `stepLimit`: the path has 20 000 pieces on this side and has not ended, as on the way to a distant value of a crank.
 */
export type MotionStatus =
  | 'reached'
  | 'deadPoint'
  | 'closed'
  | 'locked'
  | 'bifurcation'
  | 'unbounded'
  | 'stepLimit';

/** One end of a motion. */
export interface MotionEnd {
  /** Value of the driver there. */
  readonly at: number;
  readonly status: MotionStatus;
  /**
   * For `deadPoint` of several drivers: the one that cannot go on, whatever the others do, as `drivers[1]` or `hold[0]`. Missing where
   * they stand in each other's way.
   */
  readonly driver?: string;
  /** For `locked`: the constraint that is violated, by the drawing's names. */
  readonly constraint?: string;
  /** For `locked` by a body that cannot stay rigid: its name. */
  readonly body?: string;
  /**
   * For `locked` by a bar between two joints: how far its length would have to change, at most, for the rest to move as far as
   * requested. In the drawing's unit.
   */
  readonly misfit?: number;
  /**
   * For `bifurcation`: the ways on, straight on first, then those on which the driver goes on. Missing where they touch, or more than five
   * directions meet.
   */
  readonly branches?: readonly Branch[];
  /** For `bifurcation`: `missing` where `branch` chose one that is not among `branches`. */
  readonly choice?: 'missing';
}

/** A way on from a bifurcation; rates are per unit of arc length (of `trace` without a driver), away from it. */
export interface Branch {
  /** Rate of the driver: the motion can go on here if it keeps its sign. 1 without a driver. */
  readonly driver: number;
  /** Velocity of each point. */
  readonly velocities: Readonly<Record<string, Point>>;
  /** Angular velocity of each body, and of each joint with a direction of its own; counter-clockwise positive. */
  readonly turns: Readonly<Record<string, number>>;
}

/** A stretch of the motion, as a series of the unknowns in a local parameter x. */
export interface Piece extends Series {
  /** What x = 1 stands for: so much of the driver, or a length along the tangent. */
  readonly unit: number;
  /** Local range in x, lo <= 0 <= hi. */
  readonly lo: number;
  readonly hi: number;
  /** Way from the drawn pose to x = 0: that of the pieces between them, each in its unit, summed. */
  readonly origin: number;
  /** Driver at lo. */
  readonly start: number;
  /** Series of the driver: where x is the driver itself it has two terms. */
  readonly t: Float64Array;
  /** By arc length: the inverse of that series to a lower order, x by the driver's distance from `t[0]`. */
  readonly inverse: Float64Array | null;
}

/** Pieces in order of the driver, which grows along them, and how they end. */
export interface Path {
  readonly system: System;
  readonly pieces: readonly Piece[];
  readonly low: MotionEnd;
  readonly high: MotionEnd;
}

/** Why there is no path from the drawn pose: not exactly one degree of freedom, or a driver that the motion does not change. */
export type NoPath = { readonly fault: 'degreesOfFreedom' } | { readonly fault: 'constantDriver' };

/** What is to be laid: the way from the drawn pose to two values of the driver. */
export interface Task {
  /** What drives; null for arc length. */
  readonly measure: BoundMeasure | null;
  readonly from: number;
  readonly to: number;
  /** How far a redundant row may be violated, as a length. */
  readonly tolerance: number;
  /** What is done at bifurcations; without it the motion ends there, and nothing is said of the branches. */
  readonly leave?: Leave | undefined;
  /** Whether `leave` takes a branch, so that no place is passed where one leaves. */
  readonly isChosen?: boolean;
}

/**
 * Says which branches leave a singular pose, come to along a unit tangent (null: drawn there) on the side `way` as the `nth` of them, and
 * expands the motion on the one to take, if there is one: `e.tangent` along x. One is missing if it is chosen and not there.
 */
export type Leave = (
  e: TaylorExpansion,
  singular: SingularPose,
  arriving: Float64Array | null,
  way: 1 | -1,
  nth: number,
  redundant: Uint8Array,
) => { readonly branches: readonly Branch[]; readonly isTaken: boolean; readonly isMissing: boolean };

/** Limit of pieces on one side: far beyond any closed loop. */
export const MAX_PIECES = 20_000;
