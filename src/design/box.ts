// Coordinates in their boxes by a smooth change of variable (F. James, M. Roos, "Minuit", Computer Physics Communications
// 10, 1975; from memory): with m the middle of a box and h half its width,
//
//   x = m + h sin(u),   dx/du = h cos(u),   d2x/du2 = -h sin(u).
//
// Every u is in the box, and a least value at its edge is one where the derivative by u vanishes.

/** What a coordinate may be, mm. */
export interface Box {
  readonly least: number;
  readonly most: number;
}

/** sin(u) of a start: at an edge nothing would move. */
const INSIDE = 0.99;

/** Share of a box by which an edge is met but for rounding. */
const ROUNDING = 1e-14;

/** x of u; never outside its box, and at an edge just that. */
export function fromFree(boxes: readonly Box[], u: readonly number[]): number[] {
  return boxes.map(({ least, most }, i) => {
    const sine = Math.sin(u[i]);
    if (1 - Math.abs(sine) <= ROUNDING) return sine > 0 ? most : least;
    return Math.min(most, Math.max(least, 0.5 * (least + most) + 0.5 * (most - least) * sine));
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
