// Coordinates in their boxes by a smooth change of variable (F. James, M. Roos, "Minuit", Computer Physics Communications
// 10, 1975; from memory): with m the middle of a box and h half its width,
//
//   x = m + h sin(u),   dx/du = h cos(u),   d2x/du2 = -h sin(u).
//
// Every u is in the box, and a least value at its edge is one where the derivative by u vanishes.

/** Least and most that a coordinate may be, as they are given. */
export type Bounds = readonly [min: number, max: number];

/** What a coordinate may be. */
export interface Box {
  readonly least: number;
  readonly most: number;
}

/** sin(u) of a start: at an edge nothing would move. */
const INSIDE = 0.99;

/** What sin(u) may fall short of 1 by at an edge: rounding. */
const ROUNDING = 1e-13;

/** x of u; never outside its box, and at an edge just that. */
export function fromFree(boxes: readonly Box[], u: readonly number[]): number[] {
  return boxes.map(({ least, most }, i) => {
    const sine = Math.sin(u[i]);
    if (1 - Math.abs(sine) <= ROUNDING) return sine > 0 ? most : least;
    return Math.min(most, Math.max(least, 0.5 * (least + most) + 0.5 * (most - least) * sine));
  });
}

/** Share of its box within which a coordinate is at its edge. */
const EDGE = 1e-6;

/** The edge that a coordinate is at, if it is at one. */
export function edgeOf({ least, most }: Box, x: number): 'least' | 'most' | null {
  const near = EDGE * (most - least);
  return x - least <= near ? 'least' : most - x <= near ? 'most' : null;
}

/** x with what is at an edge just there. */
export function onEdges(boxes: readonly Box[], x: readonly number[]): number[] {
  return boxes.map((box, i) => {
    const edge = edgeOf(box, x[i]);
    return edge === null ? x[i] : box[edge];
  });
}

/** u of x, a little inside where that is at an edge. */
export function toFree(boxes: readonly Box[], x: readonly number[]): number[] {
  return boxes.map(({ least, most }, i) => {
    const sine = (2 * x[i] - least - most) / (most - least);
    return Math.asin(Math.min(INSIDE, Math.max(-INSIDE, sine)));
  });
}

/** dx/du and d2x/du2. */
export function ratesOf(boxes: readonly Box[], u: readonly number[]): { first: number[]; second: number[] } {
  const half = boxes.map(({ least, most }) => 0.5 * (most - least));
  return {
    first: half.map((h, i) => h * Math.cos(u[i])),
    second: half.map((h, i) => -h * Math.sin(u[i])),
  };
}
