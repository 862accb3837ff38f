// Elementary geometry of places.

import type { Point } from '../linkage/index.ts';

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

/** Direction of a line, radians. */
export function direction(places: Places, [a, b]: readonly [string, string]): number {
  return Math.atan2(places[b][1] - places[a][1], places[b][0] - places[a][0]);
}

/** The difference of two angles without whole turns, or without whole multiples of something else. */
export function turnsAside(difference: number, turn = 2 * Math.PI): number {
  return difference - turn * Math.round(difference / turn);
}

/** Rate of half the square of the distance of two points, which points in one place have too. */
export function rateOfSquare(places: Places, velocities: Places, [a, b]: readonly [string, string]): number {
  const [[ax, ay], [bx, by], [ux, uy], [vx, vy]] = [places[a], places[b], velocities[a], velocities[b]];
  return (bx - ax) * (vx - ux) + (by - ay) * (vy - uy);
}

/** Every pair of some names. */
export function pairs(names: readonly string[]): [string, string][] {
  return names.flatMap((a, k) => names.slice(k + 1).map((b): [string, string] => [a, b]));
}
