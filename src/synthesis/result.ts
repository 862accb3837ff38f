import type { Diagnostic } from '../diagnostic.ts';
import type { CheckedDrawing, Point } from '../linkage/drawing.ts';
import type { Bounds } from '../numerics/box.ts';
import type { SearchReport } from '../numerics/multistart.ts';
import type { PrecisionPoint, SynthesisObjective } from './objectives.ts';

/**
 * How a synthesis ended:
 *
 * - `targetsMet`: every deviation is within its tolerance;
 * - `targetUnreachable`: the searches ended, and some deviation is not: the nearest is returned;
 * - `boundUnreachable`: no linkage was found that keeps all bounds: the one with the smallest violation is returned;
 * - `evaluationLimit`: a deviation is too large, and the best search reached its limit of evaluations;
 * - `cancelled`: the best so far is returned.
 */
export type SynthesisStatus =
  | 'targetsMet'
  | 'targetUnreachable'
  | 'boundUnreachable'
  | 'evaluationLimit'
  | 'cancelled';

/** What came of an objective. */
export interface SynthesisObjectiveResult<P extends string = string, B extends string = string> {
  /** As it was given. */
  readonly objective: SynthesisObjective<P, B>;
  /** A deviation up to this counts as met. */
  readonly tolerance: number;
  /** Largest deviation as drawn, without sign, in the unit of the quantity. */
  readonly initialError: number;
  /** Largest deviation of the linkage found, in that unit: of a function its structural error at the precision points. */
  readonly error: number;
  readonly met: boolean;
  /** At each precision point in the order given; of an extreme that one. */
  readonly points: readonly PrecisionPoint[];
}

/** Where a point was drawn, where it is now, and where it could be. */
export interface MovedPoint {
  /** As given, `[x, y]` in the unit of the drawing. */
  readonly from: Point;
  /** In the linkage found, `[x, y]` in the unit of the drawing. */
  readonly to: Point;
  readonly box: { readonly x?: Bounds; readonly y?: Bounds };
}

/** What comes of a synthesis: plain, frozen data. */
export interface Synthesis<P extends string = string, B extends string = string, T extends string = string> {
  readonly status: SynthesisStatus;
  /** The best linkage: keeping the bounds comes first, then the weighted sum of squared deviations. */
  readonly drawing: CheckedDrawing<P, B, T>;
  /** The points that could move, by name. */
  readonly moved: { readonly [Name in P]?: MovedPoint };
  readonly objectives: readonly SynthesisObjectiveResult<P, B | T>[];
  readonly searches: readonly SearchReport[];
  /** Linkages that were tried. */
  readonly trials: number;
  /** What limits the linkage (edges of boxes, bounds), how many could not be tried and why, what to bear in mind. */
  readonly diagnostics: readonly Diagnostic[];
}
