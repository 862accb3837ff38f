// The zero of a continuous function in an interval at whose ends it has different signs, without derivatives: inverse
// quadratic interpolation where the last three points allow it, halving where not (T. R. Chandrupatla, "A new hybrid
// quadratic/bisection algorithm for finding the zero of a nonlinear function without using derivatives", Advances in
// Engineering Software 28, 1997; from memory).

/** Width of the bracket, in roundings of the place, at which the search ends. */
const ROUNDINGS = 2;
const MOST_ROUNDS = 200;

/** Where f is zero between a and b, in either order; f(a) and f(b) must differ in sign. Right to a few roundings. */
export function zeroBetween(f: (s: number) => number, a: number, b: number): number {
  let x1 = b;
  let x2 = a;
  let f1 = f(x1);
  let f2 = f(x2);
  let x3 = x2;
  let f3 = f2;
  const least = ROUNDINGS * Number.EPSILON * Math.abs(b - a);
  let share = 0.5;
  for (let round = 1; ; round++) {
    const x = x1 + share * (x2 - x1);
    const value = f(x);
    if (Math.sign(value) === Math.sign(f1)) {
      x3 = x1;
      f3 = f1;
    } else {
      x3 = x2;
      f3 = f2;
      x2 = x1;
      f2 = f1;
    }
    x1 = x;
    f1 = value;
    const best = Math.abs(f1) < Math.abs(f2) ? x1 : x2;
    const width = Math.abs(x2 - x1);
    const nearest = (ROUNDINGS * Number.EPSILON * Math.abs(best) + least) / width;
    if (f1 === 0 || f2 === 0 || nearest > 0.5 || round === MOST_ROUNDS) return best;
    const xi = (x1 - x2) / (x3 - x2);
    const phi = (f1 - f2) / (f3 - f2);
    share =
      phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
        ? (f1 / (f2 - f1)) * (f3 / (f2 - f3)) + ((x3 - x1) / (x2 - x1)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
        : 0.5;
    share = Math.min(1 - nearest, Math.max(nearest, share));
  }
}
