// A path is the row of its pieces, each a power series about its own pose (series.ts), with the driver as a series beside it.

import type { BoundMeasure } from './measure.ts';
import type { Series } from './series.ts';
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
export type MotionStatus = 'reached' | 'deadPoint' | 'closed' | 'locked' | 'undetermined' | 'gaveUp';

/** One end of a motion. */
export interface MotionEnd {
  /** Value of the driver there. */
  readonly at: number;
  readonly status: MotionStatus;
  /** For `locked`: what does not hold, in the drawing's names. */
  readonly constraint?: string;
  /**
   * For `locked` by a bar between two joints: by how much its length would have to give, at most, for the rest to move as
   * far as asked.
   */
  readonly misfit?: number;
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

/** Why there is no path from the drawn pose: not one freedom, or a driver that the motion does not change. */
export type NoPath = { readonly fault: 'freedoms' } | { readonly fault: 'still' };

/** What is to be laid: the way from the drawn pose to two values of the driver. */
export interface Task {
  /** What drives; null for arc length. */
  readonly measure: BoundMeasure | null;
  readonly from: number;
  readonly to: number;
  /** What redundant rows may miss by, as a length. */
  readonly tolerance: number;
}

/** Most pieces on one side: far beyond any closed loop. */
export const MAX_PIECES = 20_000;
