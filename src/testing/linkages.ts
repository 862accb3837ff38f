// Linkages grown pair by pair. A pair of bars that joins two points which move differently in a new pin adds two bodies,
// three pins and so no degree of freedom; what it starts from, a crank on the ground, has one. Every length is taken from the
// drawing, so that each of them closes.

import type { CheckedDrawing, Point } from '../linkage/index.ts';
import type { Arbitrary, FastCheck } from './fast-check.ts';
import { place, rounding } from './numbers.ts';
import { distance, offset } from './plane.ts';

/** All points are drawn at least this far apart. */
const APART = 40;
/** The two bars of a pair are drawn at an angle whose sine is at least this: away from in line, its dead point. */
export const BEND = 0.2;

/**
 * Random linkages of one degree of freedom, in a square of 1000: a body `crank` (O on the ground, A), and `first0`, `second0`, ... in
 * pairs that meet in P0, ...; each of these carries a further point (X0, Y0, ...), which others may hang on; G0, ... are
 * ground. The first pair makes a four-bar. They shrink to fewer pairs and to whole tens.
 */
export function linkages(
  fc: FastCheck,
  { minPairs = 1, maxPairs = 4 }: { readonly minPairs?: number; readonly maxPairs?: number } = {},
): Arbitrary<CheckedDrawing> {
  const pair = fc.record({
    from: fc.nat({ max: 99 }),
    to: fc.option(fc.nat({ max: 99 }), { nil: null }),
    ground: place(fc),
    pin: place(fc),
    onFirst: place(fc),
    onSecond: place(fc),
  });
  return fc
    .tuple(rounding(fc), place(fc), place(fc), fc.array(pair, { minLength: minPairs, maxLength: maxPairs }))
    .map(([rounded, pivot, pin, growth]) => grow(rounded, pivot, pin, growth))
    .filter((drawing) => drawing !== null);
}

/** A pair of bars: what the first hangs on and what the second (null: new ground), where they meet, further points. */
interface Pair {
  readonly from: number;
  readonly to: number | null;
  readonly ground: Point;
  readonly pin: Point;
  readonly onFirst: Point;
  readonly onSecond: Point;
}

function grow(
  rounded: (at: Point) => Point,
  pivot: Point,
  crankPin: Point,
  growth: readonly Pair[],
): CheckedDrawing | null {
  const points: Record<string, Point> = { O: rounded(pivot), A: rounded(crankPin) };
  const ground = ['O'];
  const bodies: Record<string, readonly string[]> = { crank: ['O', 'A'] };
  const moving = ['A'];
  for (const [k, pair] of growth.entries()) {
    const [pin, onFirst, onSecond] = [`P${k}`, `X${k}`, `Y${k}`];
    const from = moving[pair.from % moving.length];
    const others = [...moving, ...ground].filter(
      (name) => !Object.values(bodies).some((body) => body.includes(name) && body.includes(from)),
    );
    let to = pair.to === null ? undefined : others[pair.to % others.length];
    if (to === undefined) {
      to = `G${k}`;
      points[to] = rounded(pair.ground);
      ground.push(to);
    }
    points[pin] = rounded(pair.pin);
    points[onFirst] = rounded(pair.onFirst);
    points[onSecond] = rounded(pair.onSecond);
    bodies[`first${k}`] = [from, pin, onFirst];
    bodies[`second${k}`] = [to, pin, onSecond];
    moving.push(pin, onFirst, onSecond);
    if (bend(points[from], points[pin], points[to]) < BEND) return null;
  }
  return areApart(Object.values(points)) ? { points, ground, bodies } : null;
}

/** Sine of the angle at `pin` between the lines to two other points. */
export function bend(from: Point, pin: Point, to: Point): number {
  return Math.abs(offset(from, pin, to)) / distance(from, pin);
}

/** Whether no two of some points are drawn close to each other. */
export function areApart(points: readonly Point[]): boolean {
  return points.every((a, k) => points.slice(k + 1).every((b) => distance(a, b) >= APART));
}
