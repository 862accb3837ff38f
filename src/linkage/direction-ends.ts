// Where directions of their own are drawn. With W from a point to another one, which lies s to the left of the direction, t = sqrt(|W|^2 - s^2):
//
//   end - from = c W,   c = t / (t + i s)        (c = 1 for s = 0)
//   c˙ = i s t˙ / (t + i s)^2,   t t˙ = Re(conj(W) W˙)
//
// so that the direction has the length t, that of the straight part of a rope.

import type { Point } from './drawing.ts';

/** The drawn end of a direction. */
export function endOfDirection([ax, ay]: Point, [bx, by]: Point, s: number): Point {
  if (s === 0) return [bx, by];
  const [x, y] = [bx - ax, by - ay];
  const [re, im] = turnOf(x, y, s);
  return [ax + re * x - im * y, ay + re * y + im * x];
}

/** How fast it goes, from how fast the two points go. */
export function endRate([ax, ay]: Point, [bx, by]: Point, s: number, from: Point, to: Point): Point {
  if (s === 0) return to;
  const [x, y] = [bx - ax, by - ay];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const [re, im] = turnOf(x, y, s);
  const square = x * x + y * y;
  const t = Math.sqrt(square - s * s);
  const rate = (s * (x * dx + y * dy)) / (t * square * square);
  const [cx, cy] = [2 * s * t * rate, (t * t - s * s) * rate];
  return [from[0] + re * dx - im * dy + cx * x - cy * y, from[1] + re * dy + im * dx + cx * y + cy * x];
}

/** c, as real and imaginary part. */
function turnOf(x: number, y: number, s: number): readonly [number, number] {
  const square = x * x + y * y;
  const t = Math.sqrt(square - s * s);
  return [(t * t) / square, (-t * s) / square];
}
