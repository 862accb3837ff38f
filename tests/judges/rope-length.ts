/**
 * Length of a rope over round pulleys, part by part: the points where it touches each pulley, the straight lines between them and the
 * arcs on the pulleys. Shares no code with src.
 */
import type { Point } from './plane.ts';

/** A stop of a rope: a point, or a pulley whose centre is to the left (+1) or the right (-1) of the rope as it runs. */
export interface Stop {
  readonly at: Point;
  readonly radius: number;
  readonly side: 1 | -1;
}

/** The whole length. Each arc is taken between 0 and a full turn. */
export function ropeLength(stops: readonly Stop[]): number {
  const lines = stops.slice(1).map((stop, k) => touching(stops[k], stop));
  let length = 0;
  lines.forEach(({ from, to }) => {
    length += Math.hypot(to[0] - from[0], to[1] - from[1]);
  });
  for (let k = 1; k < lines.length; k++) {
    const { at, radius, side } = stops[k];
    const [arrives, leaves] = [lines[k - 1].to, lines[k].from].map(([x, y]) =>
      Math.atan2(y - at[1], x - at[0]),
    );
    const turn = (side * (leaves - arrives)) % (2 * Math.PI);
    length += radius * (turn < 0 ? turn + 2 * Math.PI : turn);
  }
  return length;
}

/** The line that touches two pulleys: its direction d has the centres at r to its left, r positive or negative. */
function touching(one: Stop, other: Stop): { from: Point; to: Point } {
  const [x, y] = [other.at[0] - one.at[0], other.at[1] - one.at[1]];
  const square = x * x + y * y;
  const [r1, r2] = [one.side * one.radius, other.side * other.radius];
  // Both n . c_1 = r_1 and n . c_2 = r_2 for the normal n to the left: n . (x, y) = r_2 - r_1.
  const across = (r2 - r1) / square;
  const along = Math.sqrt(square - (r2 - r1) ** 2) / square;
  const n: Point = [across * x - along * y, across * y + along * x];
  return {
    from: [one.at[0] - r1 * n[0], one.at[1] - r1 * n[1]],
    to: [other.at[0] - r2 * n[0], other.at[1] - r2 * n[1]],
  };
}
