import type { Corner } from '../corner/corner.ts';
import type { Diagnostic } from '../diagnostic.ts';
import type { Point } from '../linkage/drawing.ts';
import type { Bounds } from '../numerics/box.ts';
import type { SearchReport } from '../numerics/multistart.ts';
import type { Objective } from './objectives.ts';

/**
 * How a design ended:
 *
 * - `targetsMet`: every value meets its goal;
 * - `targetUnreachable`: the searches ended, and some value does not: the nearest is returned;
 * - `clearanceUnreachable`: no corner was found that keeps all clearances: the one with the smallest shortfall is returned;
 * - `evaluationLimit`: a value misses its goal, and the best search reached its limit of evaluations;
 * - `cancelled`: the best so far is returned.
 */
export type DesignStatus =
  | 'targetsMet'
  | 'targetUnreachable'
  | 'clearanceUnreachable'
  | 'evaluationLimit'
  | 'cancelled';

/** One objective in a design. */
export interface ObjectiveResult {
  /** As it was given. */
  readonly objective: Objective;
  /** Of its values. */
  readonly unit: string;
  /** Of the corner as given, in `unit`. */
  readonly initial: number;
  /** Of the design, in `unit`. */
  readonly achieved: number;
  /** The design's value minus the nearest that meets the goal: 0 within bounds, in `unit`. */
  readonly deviation: number;
  readonly met: boolean;
  /** Of all corners tried that keep their clearances the value nearest to the goal; null where there is none. */
  readonly nearest: number | null;
}

/** Where a mount was, where it is, and what it could be, mm. */
export interface MovedMount {
  readonly from: Point;
  readonly to: Point;
  readonly box: { readonly y?: Bounds; readonly z?: Bounds };
}

/** A design of a trade-off: no other has every value as near as it. */
export interface TradeOff {
  /** Where it puts each mount, `[y, z]` in mm. */
  readonly mounts: Readonly<Record<string, Point>>;
  /** By objective, in their order and units. */
  readonly values: readonly number[];
  /** How far each is from its goal, in its unit: 0 where it is met. */
  readonly deviations: readonly number[];
}

/** What comes of a design: plain, frozen data. */
export interface Design {
  readonly status: DesignStatus;
  /** The best corner: keeping the clearances comes first, then the weighted sum of squared deviations. */
  readonly corner: Corner;
  /** The mounts that could move, by name. */
  readonly mounts: Readonly<Record<string, MovedMount>>;
  readonly objectives: readonly ObjectiveResult[];
  /** What limits the design: edges of boxes, and clearances that are used up. */
  readonly active: readonly Diagnostic[];
  /** For two objectives and more; empty for one. */
  readonly tradeOff: readonly TradeOff[];
  readonly searches: readonly SearchReport[];
  /** Corners that were tried. */
  readonly trials: number;
  /** How it ended, what is met, what is not and why (`active` among it), what to bear in mind. */
  readonly diagnostics: readonly Diagnostic[];
}
