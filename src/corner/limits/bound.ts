import type { Diagnostic } from '../../diagnostic.ts';
import type { Pose } from './travel-path.ts';

/**
 * How far a pose is from a limit: positive before it, 0 at it, negative beyond; smooth. mm or degrees, at the limit; `TOUCH`
 * of either is nothing.
 */
export type Margin = (pose: Pose) => number;

/** A limit touched to this is met: mm, or degrees. */
export const TOUCH = 1e-9;

/** Something that can end the travel. */
export interface Bound<Cause> {
  readonly cause: Cause;
  /** What of several: `lowerOuter`, `mount`, `arch[2]`; empty where there is but one. */
  readonly part: string;
  /** It is met in any of these ways; each is met where all of its margins are 0 or less. */
  readonly ways: readonly (readonly Margin[])[];
  /** Place among the options of what sets it; empty for the linkage itself. */
  readonly path: string;
  /** What is behind it where it is met in a pose, besides side and travel. */
  met(pose: Pose): Diagnostic['values'];
  /** What a drawn pose beyond it is called, and what is behind that. */
  misfit(pose: Pose): Pick<Diagnostic, 'code' | 'values'>;
}

/** The margin of a way: the largest of its own. */
export function marginOf(way: readonly Margin[], pose: Pose): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const margin of way) most = Math.max(most, margin(pose));
  return most;
}

/**
 * By how much a length, given as its square, is more than another: to first order in mm, smooth where the length vanishes.
 * Below a mm, which nothing on a car falls short of, it counts as less.
 */
export function over(length: number, square: number): number {
  return (square - length * length) / (2 * Math.max(length, 1));
}
