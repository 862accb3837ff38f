// Kutzbach's count M = 3 (n - 1) - 2 j1 - j2 (n links with the ground, j1 joints of one degree of freedom, j2 of two; a pin of m links
// counts m - 1 times) depends on the topology alone. The true degrees of freedom follow from the rank of the constraints as drawn.

import { barMisfits } from './bar-misfit.ts';
import { branchesAt } from './branches.ts';
import { countFreedom } from './degrees-of-freedom.ts';
import type { Drawing } from './drawing.ts';
import { type TraceOptions, trace } from './motion.ts';
import type { Branch, MotionEnd } from './path.ts';
import { rowsOf } from './rows.ts';
import { taylorExpansion } from './series.ts';
import { singularPose } from './singular-pose.ts';
import type { Structure } from './structure.ts';
import { compile, type System } from './system.ts';

/** Degrees of freedom and redundant constraints of a drawing, by the drawing's names. */
export interface Mobility {
  /** Kutzbach's count, from the topology alone; negative where constraints outnumber coordinates. */
  readonly kutzbach: number;
  /** Degrees of freedom of the drawn pose, by the rank of its constraints. */
  readonly degreesOfFreedom: number;
  /** How many constraints could be removed without a change of mobility in the drawn pose. */
  readonly redundant: number;
  /** Constraints that depend on each other in the drawn pose; the redundant ones are among these. */
  readonly dependent: readonly string[];
  /**
   * Points that have a velocity in the drawn pose, to first order: some of them may lock at once, as a bar that is stretched straight
   * lets its middle move. `trace` tells a motion from such a velocity.
   */
  readonly moving: readonly string[];
  /** Of a drawing at a bifurcation the branches that cross there, those first on which less turns: `branch` of `trace` takes one. */
  readonly branches: readonly Branch[];
  /**
   * Of a linkage that does not move, or locks: bars without which it would move, and how far the length of each would have to change
   * over the whole motion (drawing's unit), smallest first.
   */
  readonly misfits: readonly { readonly body: string; readonly misfit: number }[];
  /** A dependent constraint that contradicts the others as soon as the linkage moves; null if there is none. */
  readonly contradicting: string | null;
}

/**
 * Counts and ranks the constraints of a drawing, and names those that are redundant or contradict each other.
 *
 * @throws InputError for a faulty drawing.
 */
export function mobility(drawing: Drawing): Mobility {
  const system = compile(drawing);
  const { structure } = system;
  const { degreesOfFreedom, redundant, dependent, moving } = countFreedom(rowsOf(system));
  const locked = degreesOfFreedom === 1 && redundant > 0 ? lockOf(drawing) : null;
  const stuck = locked !== null || (degreesOfFreedom === 0 && system.unknowns > 0);
  return {
    kutzbach: kutzbach(structure),
    degreesOfFreedom,
    redundant,
    dependent,
    moving,
    branches: degreesOfFreedom > 1 && redundant > 0 ? branchesOf(system) : [],
    misfits: stuck ? barMisfits(drawing) : [],
    contradicting: locked,
  };
}

function branchesOf(system: System): Branch[] {
  const e = taylorExpansion(system);
  const singular = singularPose(e, e.pose.fill(0));
  return singular === null ? [] : branchesAt(e, singular, null, null, 1).map(({ branch }) => branch);
}

function lockOf(drawing: Drawing): string | null {
  const { low, high } = trace(drawing);
  return [low, high].find(({ status }) => status === 'locked')?.constraint ?? null;
}

function kutzbach({ names, fixed, bodies, rows }: Structure): number {
  const links = [...bodies.values()].filter(({ points }) => !points.every((p) => fixed[p]));
  const joined = fixed.map(Number);
  for (const { points } of links) for (const p of points) joined[p]++;
  // A point on no link is free in both directions.
  const degreesOfFreedom = names.reduce((left, _, p) => left - 2 * (joined[p] - 1), 3 * links.length);
  return (
    degreesOfFreedom - rows.filter(({ of, defines }) => of.body === undefined && defines === undefined).length
  );
}

/** How far a linkage moves. */
export interface Range {
  /** Value of the driver in the drawn pose. */
  readonly drawn: number;
  readonly low: MotionEnd;
  readonly high: MotionEnd;
}

/**
 * The range of a linkage's driver: from dead point to dead point, or once round a closed motion (`closed` at both ends; without a
 * driver the arc length).
 *
 * @throws InputError as `trace`.
 */
export function range<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  options: Omit<TraceOptions<NoInfer<P>, NoInfer<B | T>>, 'from' | 'to'> = {},
): Range {
  const { drawn, low, high } = trace(drawing, options);
  return { drawn, low, high };
}
