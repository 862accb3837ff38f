// Kutzbach's count M = 3 (n - 1) - 2 j1 - j2 (n links with the ground, j1 joints of one freedom, j2 of two; a pin of m links
// counts m - 1 times) knows topology alone; what really is free shows in the rank of the constraints as drawn.

import type { Drawing } from './drawing.ts';
import { freedomsOf } from './freedoms.ts';
import { tightBars } from './give.ts';
import { type TraceOptions, trace } from './motion.ts';
import type { End } from './path.ts';
import { rowsOf } from './rows.ts';
import type { Structure } from './structure.ts';
import { compile } from './system.ts';

/** What a drawing leaves free, and what it holds more than once; all names are the drawing's own. */
export interface Mobility {
  /** Kutzbach's count, from the topology alone; negative for what is held more often than needed. */
  readonly kutzbach: number;
  /** Freedoms of the drawn pose, by the rank of its constraints. */
  readonly freedoms: number;
  /** How many constraints could be taken out without a change in the drawn pose. */
  readonly redundant: number;
  /** Constraints that depend on each other in the drawn pose: what is redundant is among these. */
  readonly dependent: readonly string[];
  /** Points that the freedoms of the drawn pose move. */
  readonly moving: readonly string[];
  /**
   * Of a linkage that does not move, or locks: bars without which it would, and by how much each would have to give for
   * all of the motion (drawing's unit), the least first.
   */
  readonly tight: readonly { readonly body: string; readonly by: number }[];
  /** A dependent constraint that contradicts the others as soon as the linkage moves; null when there is none. */
  readonly contradicting: string | null;
}

/**
 * Counts and ranks the constraints of a drawing, and says by name what is redundant, contradicting or undetermined.
 *
 * @throws InputError for a faulty drawing.
 */
export function mobility(drawing: Drawing): Mobility {
  const system = compile(drawing);
  const { structure } = system;
  const { freedoms, redundant, dependent, moving } = freedomsOf(rowsOf(system));
  const locked = freedoms === 1 && redundant > 0 ? lockOf(drawing) : null;
  const stuck = locked !== null || (freedoms === 0 && system.unknowns > 0);
  return {
    kutzbach: kutzbach(structure),
    freedoms,
    redundant,
    dependent,
    moving,
    tight: stuck ? tightBars(drawing) : [],
    contradicting: locked,
  };
}

function lockOf(drawing: Drawing): string | null {
  const { low, high } = trace(drawing);
  for (const { how, row } of [low, high]) if (how === 'locked') return row ?? null;
  return null;
}

function kutzbach({ names, fixed, bodies, telescopes, drawn }: Structure): number {
  const links = [...bodies.values()].filter(({ points }) => !points.every((p) => fixed[p]));
  const joined = fixed.map(Number);
  for (const { points } of links) for (const p of points) joined[p]++;
  // A point on no link is a freedom in each direction.
  const freedoms = names.reduce((left, _, p) => left - 2 * (joined[p] - 1), 3 * links.length);
  const { held = [], sliders = {}, angles = {} } = drawn;
  return (
    freedoms - telescopes.length - held.length - Object.keys(sliders).length - Object.keys(angles).length
  );
}

/** How far a linkage moves. */
export interface Range {
  /** Value of the driver in the drawn pose. */
  readonly drawn: number;
  readonly low: End;
  readonly high: End;
}

/**
 * The range of a linkage's driver: from dead point to dead point, or round a closed loop and home (`closed` at both ends;
 * without a driver the arc length of the motion).
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
