/**
 * A geared five-bar by Newton's method. Unknown are the angles a and c of its two cranks and the place of the pin B between
 * its two rods; the driver is the x of B. Shares no code with src.
 *
 *     |B - O - r_a e(a)|² = l_a²,   |B - C - r_c e(c)|² = l_c²,   (c - c_0) - n (a - a_0) = 0,   B_x = x
 */
import type { Point } from './plane.ts';

export interface GearedFiveBar {
  readonly O: Point;
  readonly C: Point;
  /** Ends of the cranks, and the pin between the rods, as drawn. */
  readonly A: Point;
  readonly D: Point;
  readonly B: Point;
  /** Turn of the crank C per turn of the crank O. */
  readonly ratio: number;
}

export interface GearedPose {
  /** Turns from the drawn pose, radians. */
  readonly a: number;
  readonly c: number;
  readonly B: Point;
}

/** Longest step of x between two solved poses, as a share of the distance of the centres. */
const STEP = 1 / 200;
const MOST_TURNS = 20;

/** The pose with the pin at x, followed from the drawn one in small steps. */
export function gearedFiveBar(bars: GearedFiveBar, x: number): GearedPose {
  const { O, C, A, D, B, ratio } = bars;
  const [ra, rc, la, lc] = [gap(O, A), gap(C, D), gap(A, B), gap(D, B)];
  const [a0, c0] = [way(O, A), way(C, D)];
  const steps = Math.max(1, Math.ceil(Math.abs(x - B[0]) / (STEP * gap(O, C))));
  let [a, c, u, v] = [a0, c0, B[0], B[1]];
  for (let step = 1; step <= steps; step++) {
    const target = B[0] + ((x - B[0]) * step) / steps;
    for (let turn = 0; turn < MOST_TURNS; turn++) {
      const [ax, ay] = [u - O[0] - ra * Math.cos(a), v - O[1] - ra * Math.sin(a)];
      const [cx, cy] = [u - C[0] - rc * Math.cos(c), v - C[1] - rc * Math.sin(c)];
      const change = solved([
        [2 * ra * (ax * Math.sin(a) - ay * Math.cos(a)), 0, 2 * ax, 2 * ay, la * la - ax * ax - ay * ay],
        [0, 2 * rc * (cx * Math.sin(c) - cy * Math.cos(c)), 2 * cx, 2 * cy, lc * lc - cx * cx - cy * cy],
        [-ratio, 1, 0, 0, ratio * (a - a0) - (c - c0)],
        [0, 0, 1, 0, target - u],
      ]);
      a += change[0];
      c += change[1];
      u += change[2];
      v += change[3];
      if (Math.max(...change.map(Math.abs)) < 1e-14 * gap(O, C)) break;
    }
  }
  return { a: a - a0, c: c - c0, B: [u, v] };
}

/** A linear system, its right-hand side the last column, by elimination with row exchange. */
function solved(rows: number[][]): number[] {
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    const best = rows.slice(k).reduce((one, row) => (Math.abs(row[k]) > Math.abs(one[k]) ? row : one));
    rows.splice(rows.indexOf(best), 1);
    rows.splice(k, 0, best);
    for (const row of rows.slice(k + 1)) {
      const share = row[k] / best[k];
      for (let j = k; j <= n; j++) row[j] -= share * best[j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    const known = x.reduce((sum, value, j) => sum + (j > k ? rows[k][j] * value : 0), 0);
    x[k] = (rows[k][n] - known) / rows[k][k];
  }
  return x;
}

function gap([ax, ay]: Point, [bx, by]: Point): number {
  return Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
}

function way([ax, ay]: Point, [bx, by]: Point): number {
  return Math.atan2(by - ay, bx - ax);
}
