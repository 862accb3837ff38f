/** Linkages of one freedom, each drawn in a pose it can move from. */
import { type Arbitrary, array, boolean, integer, noShrink, record, tuple } from 'fast-check';
import type { Drawing, Measure, Point } from 'jounce/linkage';
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

/** Half the side of the square in which points are drawn. */
const REACH = 500;
/** All points are drawn at least this far apart. */
const APART = 40;
/** The two bars of a pair are drawn at an angle whose sine is at least this: away from in line. */
const BEND = 0.2;
/** Coordinates are whole multiples of this power of two: far from the origin they are still exact. */
const GRID = 2 ** -10;

const coordinate = integer({ min: -REACH / GRID, max: REACH / GRID }).map((n) => n * GRID);
const place: Arbitrary<Point> = tuple(coordinate, coordinate);

/** One pair of bars: where it hangs on, where the two bars meet, and a third point on either. */
const pair = record({
  from: integer({ min: 0, max: 99 }),
  to: integer({ min: 0, max: 99 }),
  toGround: boolean(),
  ground: place,
  pin: place,
  onFirst: place,
  onSecond: place,
});

const apart = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Sine of the angle at b between the lines to a and c. */
function bend(a: Point, b: Point, c: Point): number {
  const cross = (a[0] - b[0]) * (c[1] - b[1]) - (a[1] - b[1]) * (c[0] - b[0]);
  return Math.abs(cross) / (apart(a, b) * apart(b, c));
}

/**
 * Linkages grown from a crank on the ground pair by pair: each pair of bars joins two points that move differently
 * in a new pin, and so adds no freedom. As lengths are taken from the drawing, every one of them closes. A failing one
 * is not shrunk: that ends in special positions, which fail for other reasons.
 */
export function grown(pairs: { minPairs: number; maxPairs: number }): Arbitrary<Grown> {
  const growth = array(pair, { minLength: pairs.minPairs, maxLength: pairs.maxPairs });
  return noShrink(
    tuple(place, place, growth)
      .map(([pivot, pin, pairsDrawn]) => grow(pivot, pin, pairsDrawn))
      .filter((found) => found !== null),
  );
}

function grow(
  pivot: Point,
  pin: Point,
  growth: readonly (typeof pair extends Arbitrary<infer P> ? P : never)[],
): Grown | null {
  const points: Record<string, Point> = { O: pivot, A: pin };
  const ground = ['O'];
  const bodies: Record<string, string[]> = { crank: ['O', 'A'] };
  /** Points to hang on, with the bodies they belong to. */
  const pins: { name: string; on: string[] }[] = [{ name: 'A', on: ['crank'] }];
  for (const [
    k,
    { from, to, toGround, ground: newGround, pin: joint, onFirst, onSecond },
  ] of growth.entries()) {
    const first = pins[from % pins.length];
    const others = pins.filter(
      ({ name, on }) => name !== first.name && !on.some((body) => first.on.includes(body)),
    );
    let second: string;
    if (toGround || others.length === 0) {
      second = `G${k}`;
      points[second] = newGround;
      ground.push(second);
    } else {
      second = others[to % others.length].name;
    }
    const [pinName, x, y] = [`P${k}`, `X${k}`, `Y${k}`];
    points[pinName] = joint;
    points[x] = onFirst;
    points[y] = onSecond;
    bodies[`first${k}`] = [first.name, pinName, x];
    bodies[`second${k}`] = [second, pinName, y];
    if (bend(points[first.name], joint, points[second]) < BEND) return null;
    pins.push({ name: pinName, on: [`first${k}`, `second${k}`] });
    pins.push({ name: x, on: [`first${k}`] }, { name: y, on: [`second${k}`] });
  }
  const places = Object.values(points);
  if (places.some((a, k) => places.slice(k + 1).some((b) => apart(a, b) < APART))) return null;
  return deepFreeze({ drawing: { points, ground, bodies }, crank: 'crank' as const });
}

/** Four-bars with a third point on coupler and rocker. */
export const fourBars = grown({ minPairs: 1, maxPairs: 1 });
/** Six-bars of every kind: a four-bar and a second pair. */
export const sixBars = grown({ minPairs: 2, maxPairs: 2 });
/** Four-bars to ten-bars. */
export const linkages = grown({ minPairs: 1, maxPairs: 4 });

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

/** Largest distance between two points of one body. */
export function sizeOf(drawing: Drawing): number {
  return Math.max(...rigidPairs(drawing).map(([a, b]) => apart(drawing.points[a], drawing.points[b])));
}
