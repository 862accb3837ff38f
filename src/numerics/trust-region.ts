// The y that makes m(y) = sum_k (a_k y_k^2 / 2 - b_k y_k) least within |y| <= r: y_k = b_k / (a_k + mu), with the least mu >= 0 for which
// no a_k + mu is negative and |y| is no more than r. Where b has nothing along the least a_k < 0, y goes along that to the edge (the hard
// case of J. More, D. Sorensen, SIAM J. Sci. Stat. Comput. 4, 1983; from memory).

/** Coefficients below this share of the largest are none. */
const NOTHING = 1e-14;
const HALVINGS = 80;

/** The step, and by how much it lowers m. */
export interface TrustStep {
  readonly y: readonly number[];
  readonly gain: number;
  /** Whether the radius held it back. */
  readonly isHeld: boolean;
}

/** The least m within a radius above 0. */
export function trustStep(a: readonly number[], b: readonly number[], r: number): TrustStep {
  const largest = Math.max(...a.map(Math.abs));
  const pull = Math.hypot(...b);
  const step = (mu: number) =>
    a.map((value, k) => {
      const bent = value + mu;
      return Math.abs(b[k]) <= NOTHING * pull || bent <= NOTHING * largest ? 0 : b[k] / bent;
    });
  const done = (y: readonly number[], isHeld: boolean): TrustStep => {
    const gain = y.reduce((sum, value, k) => sum + value * (b[k] - 0.5 * a[k] * value), 0);
    return { y, gain, isHeld };
  };
  const least = Math.min(...a);
  const isFlat = a.some((value, k) => value <= NOTHING * largest && Math.abs(b[k]) > NOTHING * pull);
  const free = step(0);
  if (least >= -NOTHING * largest && !isFlat && Math.hypot(...free) <= r) return done(free, false);
  let low = Math.max(0, -least);
  const edge = step(low * (1 + NOTHING));
  const alongLeast = Math.abs(b[a.indexOf(least)]) > NOTHING * pull;
  if (least < 0 && !alongLeast && Math.hypot(...edge) < r) {
    edge[a.indexOf(least)] = Math.sqrt(r * r - Math.hypot(...edge) ** 2);
    return done(edge, true);
  }
  let high = low + pull / r;
  for (let n = 0; n < HALVINGS; n++) {
    const middle = 0.5 * (low + high);
    if (Math.hypot(...a.map((value, k) => b[k] / (value + middle))) > r) low = middle;
    else high = middle;
  }
  return done(
    a.map((value, k) => b[k] / (value + high)),
    true,
  );
}
