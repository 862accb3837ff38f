// Measures computed a second time, from the places of the points alone, with elementary geometry.

import type { Drawing, Measure, Point } from '../linkage/index.ts';

/** Places of all points in one pose. */
export type Places = Readonly<Record<string, Point>>;

/** How far two points are apart. */
export function distance(a: Point, b: Point): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

/** How far p lies to the left of the line from a to b. */
export function offset(p: Point, a: Point, b: Point): number {
  const cross = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
  return cross / distance(a, b);
}

/** Every pair of some names. */
export function pairs(names: readonly string[]): [string, string][] {
  return names.flatMap((a, k) => names.slice(k + 1).map((b): [string, string] => [a, b]));
}

/** The two points of a body that are farthest apart as drawn: its base line. */
export function baseOf({ points, bodies }: Drawing, body: string): [string, string] {
  const length = ([a, b]: [string, string]) => distance(points[a], points[b]);
  return pairs(bodies[body]).reduce((base, pair) => (length(pair) > length(base) ? pair : base));
}

/** Largest distance between two points of one body. */
export function sizeOf(drawing: Drawing): number {
  const bases = Object.keys(drawing.bodies).map((body) => baseOf(drawing, body));
  return Math.max(...bases.map(([a, b]) => distance(drawing.points[a], drawing.points[b])));
}

/** Distances between all points, and turns of all bodies: measures that do not depend on where the drawing lies. */
export function intrinsic({ points, bodies }: Drawing): Measure[] {
  const lengths = pairs(Object.keys(points)).map((length): Measure => ({ length }));
  return [...lengths, ...Object.keys(bodies).map((turn): Measure => ({ turn }))];
}

/** Every measure that a law reads when it looks at all. */
export function everything(drawing: Drawing, driver: Measure): Measure[] {
  return [driver, ...intrinsic(drawing), ...coordinates(drawing)];
}

/** Both coordinates of every point. */
export function coordinates({ points }: Drawing): Measure[] {
  return Object.keys(points).flatMap((name): Measure[] => [{ x: name }, { y: name }]);
}

/** Whether a measure is in radians; if not, it is in the drawing's unit. */
export function isAngle(measure: Measure): boolean {
  return 'turn' in measure || 'angle' in measure;
}

/** A measure in words. */
export function nameOf(measure: Measure): string {
  if ('x' in measure) return `x of ${measure.x}`;
  if ('y' in measure) return `y of ${measure.y}`;
  if ('length' in measure) return `length ${measure.length.join('-')}`;
  if ('angle' in measure) return `angle ${measure.angle.join('-')}`;
  return `turn of ${measure.turn}`;
}

/** A measure, from the places of the points; angles up to whole turns, null where this file knows none. */
export function measured(measure: Measure, places: Places, drawing: Drawing): number | null {
  if ('seenFrom' in measure && measure.seenFrom !== undefined) return null;
  if ('x' in measure) return places[measure.x][0];
  if ('y' in measure) return places[measure.y][1];
  if ('length' in measure) {
    const [a, b] = measure.length;
    return Math.hypot(distance(places[a], places[b]), measure.offset ?? 0);
  }
  const line = lineOf(measure, drawing);
  if (line === null) return null;
  return direction(places, line) - ('turn' in measure ? direction(drawing.points, line) : 0);
}

/** The two points whose direction an angle or a turn is read from; null for other measures. */
export function lineOf(measure: Measure, drawing: Drawing): readonly [string, string] | null {
  if ('angle' in measure) return measure.angle;
  return 'turn' in measure ? baseOf(drawing, measure.turn) : null;
}

function direction(places: Places, [a, b]: readonly [string, string]): number {
  return Math.atan2(places[b][1] - places[a][1], places[b][0] - places[a][0]);
}

/** The difference of two angles without whole turns. */
export function turnsAside(difference: number): number {
  return difference - 2 * Math.PI * Math.round(difference / (2 * Math.PI));
}
