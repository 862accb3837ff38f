import type { Candidate } from '../numerics/bounded-search.ts';

/** Deviations that differ by less, in what is near enough, are alike. */
const ALIKE = 0.01;

/**
 * Of candidates those that no other beats or equals in every objective, in their order; of some that are alike the first.
 */
export function undominated(candidates: readonly Candidate[]): Candidate[] {
  const kept: Candidate[] = [];
  for (const one of candidates) {
    if (kept.some((other) => covers(other, one))) continue;
    for (let i = kept.length - 1; i >= 0; i--) if (covers(one, kept[i])) kept.splice(i, 1);
    kept.push(one);
  }
  return kept;
}

/** Whether a is nowhere farther off than b. */
function covers(a: Candidate, b: Candidate): boolean {
  return a.deviations.every((deviation, k) => Math.abs(deviation) <= Math.abs(b.deviations[k]) + ALIKE);
}
