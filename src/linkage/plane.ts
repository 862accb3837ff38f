import type { Point } from './drawing.ts';

/** A turn as its cosine and sine, counter-clockwise positive. */
export type Turn = readonly [cosine: number, sine: number];

/** A point carried along when its pivot goes to another place and the body turns about it. */
export function carried([x, y]: Point, [px, py]: Point, to: Point, [c, s]: Turn): Point {
  return [to[0] + c * (x - px) - s * (y - py), to[1] + s * (x - px) + c * (y - py)];
}
