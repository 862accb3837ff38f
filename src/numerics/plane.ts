// Places and ways in the plane.

/** A place, or the way from one to another. */
export type Vector = readonly [x: number, y: number];

/** A turn as its cosine and sine, counter-clockwise positive. */
export type Turn = readonly [cosine: number, sine: number];

/** The way from one place to another. */
export function between(a: readonly number[], b: readonly number[]): Vector {
  return [b[0] - a[0], b[1] - a[1]];
}

export function distance(a: readonly number[], b: readonly number[]): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

export function dot([ax, ay]: Vector, [bx, by]: Vector): number {
  return ax * bx + ay * by;
}

/** Positive where the second way is to the left of the first. */
export function cross([ax, ay]: Vector, [bx, by]: Vector): number {
  return ax * by - ay * bx;
}

/** A place carried along when its pivot goes to another place and all turns about it. */
export function carried([x, y]: Vector, [px, py]: Vector, to: Vector, [c, s]: Turn): Vector {
  return [to[0] + c * (x - px) - s * (y - py), to[1] + s * (x - px) + c * (y - py)];
}

/** The turn that takes a way to another one as long. */
export function turnBetween(from: Vector, to: Vector): Turn {
  const square = dot(from, from);
  return [dot(from, to) / square, cross(from, to) / square];
}

/** A place mirrored in the line through two others, which lie apart. */
export function mirrored(at: Vector, a: Vector, b: Vector): Vector {
  const line = between(a, b);
  const off = cross(between(a, at), line) / dot(line, line);
  return [at[0] - 2 * off * line[1], at[1] + 2 * off * line[0]];
}
