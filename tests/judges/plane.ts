/** Vectors of the plane for closed forms: v⊥ = (-v_z, v_y). */

/** [y, z] in mm, y outboard and z up. */
export type Point = readonly [y: number, z: number];

export const plus = (u: Point, v: Point): Point => [u[0] + v[0], u[1] + v[1]];
export const minus = (u: Point, v: Point): Point => [u[0] - v[0], u[1] - v[1]];
export const times = (k: number, v: Point): Point => [k * v[0], k * v[1]];
export const dot = (u: Point, v: Point): number => u[0] * v[0] + u[1] * v[1];
export const cross = (u: Point, v: Point): number => u[0] * v[1] - u[1] * v[0];
export const across = ([y, z]: Point): Point => [-z, y];

/** A point with its first and second derivative by some parameter of the motion. */
export interface Moving {
  readonly at: Point;
  readonly first: Point;
  readonly second: Point;
}

/** A point fixed to a body: at `v` from a moving point of it, the body turning at w, w'. */
export function carried(from: Moving, v: Point, w: number, dw: number): Moving {
  const t = across(v);
  return {
    at: plus(from.at, v),
    first: plus(from.first, times(w, t)),
    second: plus(from.second, minus(times(dw, t), times(w * w, v))),
  };
}

/** A point that never moves. */
export const still = (at: Point): Moving => ({ at, first: [0, 0], second: [0, 0] });

/** A vector turned with a body that had `from` where it now has `to`, both of one length. */
export function turnedAlong(v: Point, from: Point, to: Point): Point {
  const square = dot(from, from);
  const [c, s] = [dot(from, to) / square, cross(from, to) / square];
  return [c * v[0] - s * v[1], s * v[0] + c * v[1]];
}

/** Length between two moving points with a fore-aft offset, and what it gains on the travel of a third: R and dR/dz. */
export function lengthAndRatio(outer: Moving, inner: Moving, offset: number, driven: Moving) {
  const l = minus(outer.at, inner.at);
  const l1 = minus(outer.first, inner.first);
  const l2 = minus(outer.second, inner.second);
  const length = Math.hypot(l[0], l[1], offset);
  const first = dot(l, l1) / length;
  const second = (dot(l1, l1) + dot(l, l2) - first * first) / length;
  const [z1, z2] = [driven.first[1], driven.second[1]];
  return {
    shockLength: length,
    installationRatio: -first / z1,
    installationRatioSlope: (first * z2 - second * z1) / (z1 * z1 * z1),
  };
}
