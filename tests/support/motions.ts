/** What tests do with a drawing's motion: where to look at it, and what it must keep. */
import { type Arbitrary, constantFrom, integer } from 'fast-check';
import type { Drawing, Measure, Motion, Point } from 'jounce/linkage';
import { expect } from 'vitest';
import { deepFreeze } from './freeze.ts';
import { rigidPairs, sizeOf } from './linkages.ts';
import { expectClose } from './tolerance.ts';

/** Drivers of every kind that a grown linkage has. */
export const drivers = constantFrom<Measure[]>(
  deepFreeze({ turn: 'crank' }),
  deepFreeze({ turn: 'first0' }),
  deepFreeze({ angle: ['O', 'P0'] }),
  deepFreeze({ x: 'X0' }),
  deepFreeze({ y: 'P0' }),
  deepFreeze({ length: ['O', 'P0'] }),
  deepFreeze({ length: ['O', 'Y0'], offset: 30 }),
);

/** Where to look in a motion: a share of the way from the drawn pose to its low (negative) or high end. */
export const share: Arbitrary<number> = integer({ min: -90, max: 90 }).map((percent) => percent / 100);

/** The driver at a share of the way to either end. */
export function placeAt({ drawn, low, high }: Motion, part: number): number {
  return part < 0 ? drawn - part * (low.at - drawn) : drawn + part * (high.at - drawn);
}

/** So many values of the driver, evenly from end to end. */
export function spread({ low, high }: Motion, count: number): number[] {
  return Array.from({ length: count }, (_, k) =>
    Math.min(high.at, Math.max(low.at, low.at + (k / (count - 1)) * (high.at - low.at))),
  );
}

/** How far two points are apart. */
export const distance = (a: readonly number[], b: readonly number[]): number =>
  Math.hypot(b[0] - a[0], b[1] - a[1]);

/** The same linkage with its points in other places. */
export function redrawn(drawing: Drawing, place: (at: Point, k: number) => Point): Drawing {
  const points = Object.entries(drawing.points).map(
    ([name, at], k) => [name, place(at as Point, k)] as const,
  );
  return deepFreeze({ ...drawing, points: Object.fromEntries(points) });
}

/** Expects every length inside a body as drawn, and the ground in its place. */
export function expectRigid(drawing: Drawing, places: Record<string, Point>): void {
  const scale = sizeOf(drawing);
  for (const [a, b] of rigidPairs(drawing)) {
    const wanted = distance(drawing.points[a], drawing.points[b]);
    expectClose(distance(places[a], places[b]), wanted, { times: 64, scale });
  }
  for (const name of drawing.ground) expect(places[name]).toEqual(drawing.points[name]);
}
