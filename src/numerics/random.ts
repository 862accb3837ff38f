// Uniform numbers by mulberry32 (T. Ettinger, public domain, 2017; from memory): a counter that steps by an odd
// constant, each value stirred by multiplications and shifts of 32-bit words. Normal ones by the polar method (G.
// Marsaglia, T. A. Bray, "A convenient method for generating normal variables", SIAM Review 6, 1964; from memory): with
// (u, v) even in the unit circle and q = u^2 + v^2, both u sqrt(-2 ln(q)/q) and v sqrt(-2 ln(q)/q) are normal.

/** Uniform numbers in [0, 1), the same for the same seed; only the seed's last 32 bits count. */
export function uniform(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let word = Math.imul(state ^ (state >>> 15), state | 1);
    word ^= word + Math.imul(word ^ (word >>> 7), word | 61);
    return ((word ^ (word >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Normal numbers of mean 0 and standard deviation 1, from uniform ones. */
export function normal(next: () => number): () => number {
  let kept: number | null = null;
  return () => {
    if (kept !== null) {
      const value = kept;
      kept = null;
      return value;
    }
    for (;;) {
      const u = 2 * next() - 1;
      const v = 2 * next() - 1;
      const q = u * u + v * v;
      if (q >= 1 || q === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(q)) / q);
      kept = v * factor;
      return u * factor;
    }
  };
}

/**
 * The value below which a share of sorted values lies, by linear interpolation between them: 0 gives the least, 1 the
 * greatest.
 */
export function quantile(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
}
