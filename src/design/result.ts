import type { Corner } from '../corner/corner.ts';
import type { Point } from '../linkage/drawing.ts';
import type { SearchEnd } from '../numerics/minimiser.ts';
import type { Units } from '../units.ts';
import type { ActiveConstraint } from './active-constraints.ts';
import type { Range } from './box.ts';
import type { Objective } from './objectives.ts';

/**
 * How a design ended:
 *
 * - `targetsMet`: every value is what is wanted;
 * - `targetOutOfReach`: the searches ended, and some value is not: what came nearest is returned;
 * - `distanceOutOfReach`: no corner was met that keeps all distances: the one that lacks least is returned;
 * - `unfinished`: a value is not what is wanted, and the best search was not brought to its end;
 * - `cancelled`: the best until then is returned.
 */
export type DesignStatus =
  | 'targetsMet'
  | 'targetOutOfReach'
  | 'distanceOutOfReach'
  | 'unfinished'
  | 'cancelled';

/** One objective in a design. */
export interface ObjectiveResult {
  readonly quantity: Objective['of'];
  /** In words, and the unit of its values. */
  readonly label: string;
  readonly unit: string;
  /** What is wanted, in words. */
  readonly goal: string;
  /** Of the corner as drawn, in `unit`. */
  readonly initial: number;
  /** Of the design, in `unit`. */
  readonly achieved: number;
  /** The design's value less the nearest that is wanted: 0 within bounds. */
  readonly deviation: number;
  readonly met: boolean;
  /** Of all corners tried that keep their distances the value nearest to what is wanted; null where there is none. */
  readonly nearest: number | null;
}

/** Where a mount was, where it is, and what it could be, mm. */
export interface MovedMount {
  readonly from: Point;
  readonly to: Point;
  readonly box: { readonly y?: Range; readonly z?: Range };
}

/** A design of a trade-off: no other has every value as near as it. */
export interface TradeOff {
  /** Where it puts each mount, `[y, z]` in mm. */
  readonly mounts: Readonly<Record<string, Point>>;
  /** By objective, in their order and units. */
  readonly values: readonly number[];
  /** How far each is off what is wanted, in its unit: 0 where it is met. */
  readonly deviations: readonly number[];
}

/** What a search ended with. */
export interface SearchReport {
  /** Where it began: at the corner as drawn, at random, or at the best until then with one objective counting more. */
  readonly from: 'drawn' | 'random' | 'best';
  readonly status: SearchEnd;
  /** Weighted sum of squared misses of its best corner, by the weights that were given; null where it had none. */
  readonly misses: number | null;
}

/** What comes of a design: plain, frozen data. */
export interface Design {
  readonly status: DesignStatus;
  /** What its words, and the picture of `drawDesign`, are in; numbers stay in the library's units. */
  readonly units: Units;
  /** The best corner: keeping the distances comes first, then the weighted sum of squared misses. */
  readonly corner: Corner;
  /** The mounts that could move, by name. */
  readonly mounts: Readonly<Record<string, MovedMount>>;
  readonly objectives: readonly ObjectiveResult[];
  /** What holds the design: edges of boxes, and distances that are used up. */
  readonly active: readonly ActiveConstraint[];
  /** For two objectives and more; empty for one. */
  readonly tradeOff: readonly TradeOff[];
  readonly searches: readonly SearchReport[];
  /** Corners that were tried. */
  readonly trials: number;
  /** In sentences: what is met, what is not and why, what to bear in mind. */
  readonly reasons: readonly string[];
}
