/** Distances of flat shapes by going through all their sides, for the tests of what keeps from what. */
import { cross, dot, minus, type Point, plus, times } from './plane.ts';

/** From a point to a line from `a` to `b`. */
export function toSegment(p: Point, a: Point, b: Point): number {
  const [ab, ap] = [minus(b, a), minus(p, a)];
  const share = Math.min(1, Math.max(0, dot(ap, ab) / dot(ab, ab)));
  return Math.hypot(...minus(p, plus(a, times(share, ab))));
}

/** Of two lines; 0 where they cross. */
export function ofSegments([a, b]: readonly Point[], [c, d]: readonly Point[]): number {
  const side = (p: Point, q: Point, r: Point) => Math.sign(cross(minus(q, p), minus(r, p)));
  if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return 0;
  return Math.min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b));
}

/** Of a line and a convex polygon; 0 where they overlap. */
export function toPolygon(line: readonly Point[], corners: readonly Point[]): number {
  const sides = corners.map((corner, i) => [corner, corners[(i + 1) % corners.length]]);
  const turns = sides.map(([p, q]) => Math.sign(cross(minus(q, p), minus(line[0], p))));
  if (turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0)) return 0;
  return Math.min(...sides.map((side) => ofSegments(line, side)));
}
