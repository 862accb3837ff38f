/** Linkages of one degree of freedom, each drawn in a pose it can move from. */
import * as fc from 'fast-check';
import type { Drawing, Measure, Point } from 'jounce/linkage';
import { linkages as drawings } from 'jounce/testing';
import { type Assembly, type FourBar, fourBarAngles } from '../judges/four-bar.ts';
import { deepFreeze } from './freeze.ts';

/**
 * A four-bar with the ground pins A (0, 0) and D (ground, 0), drawn at a crank angle: bodies crank A-B, coupler B-C,
 * rocker D-C.
 */
export function fourBar(bars: FourBar, crank: number, assembly: Assembly = 'open'): Drawing {
  const angles = fourBarAngles(bars, crank, assembly);
  if (angles === null) throw new Error(`no pose at the crank angle ${crank}`);
  const B: Point = [bars.crank * Math.cos(crank), bars.crank * Math.sin(crank)];
  const C: Point = [
    bars.ground + bars.rocker * Math.cos(angles.rocker),
    bars.rocker * Math.sin(angles.rocker),
  ];
  return deepFreeze({
    points: { A: [0, 0], B, C, D: [bars.ground, 0] },
    ground: ['A', 'D'],
    bodies: { crank: ['A', 'B'], coupler: ['B', 'C'], rocker: ['D', 'C'] },
  });
}

/** A drawing with the body that may drive it. */
export interface Grown {
  readonly drawing: Drawing;
  readonly crank: 'crank';
}

/**
 * Linkages of jounce/testing of so many pairs, deeply frozen. A failing one is not shrunk: that ends in special positions,
 * which fail for other reasons.
 */
function grown(minPairs: number, maxPairs: number): fc.Arbitrary<Grown> {
  return fc.noShrink(
    drawings(fc, { minPairs, maxPairs }).map((drawing) => deepFreeze({ drawing, crank: 'crank' as const })),
  );
}

/** Four-bars with a third point on coupler and rocker. */
export const fourBars = grown(1, 1);
/** Six-bars of every kind: a four-bar and a second pair. */
export const sixBars = grown(2, 2);
/** Four-bars to ten-bars. */
export const linkages = grown(1, 4);

/** Every pair of points of every body: what a motion must keep. */
export function rigidPairs({ bodies }: Drawing): [string, string][] {
  return Object.values(bodies).flatMap((names) =>
    names.flatMap((a, k) => names.slice(k + 1).map((b): [string, string] => [a, b])),
  );
}

/** Distances between all points, and turns of all bodies: measures that do not depend on where the drawing lies. */
export function intrinsic({ points, bodies }: Drawing): Measure[] {
  const names = Object.keys(points);
  const lengths = names.flatMap((a, k) => names.slice(k + 1).map((b): Measure => ({ length: [a, b] })));
  return [...lengths, ...Object.keys(bodies).map((turn): Measure => ({ turn }))];
}

const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Largest distance between two points of one body. */
export function sizeOf(drawing: Drawing): number {
  return Math.max(...rigidPairs(drawing).map(([a, b]) => apart(drawing.points[a], drawing.points[b])));
}
