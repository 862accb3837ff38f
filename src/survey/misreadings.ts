// Which reading is off. If leaving one out lets the rest agree, that one is it, and its size is what it is off from what the
// rest say. Readings are left out one at a time and the rest fitted anew (not to first order: a misreading can be large);
// the one that leaves the least chi-square is blamed, with all that leave hardly more, which nothing tells from it. With one
// redundant reading all checked ones leave nothing, and none can be blamed alone. One that is found for certain is set aside
// and the next is looked for (data snooping, W. Baarda 1968; from memory).

import { type Certainty, certaintyOf, computedOf, sigmaOf, tried } from './estimate.ts';
import type { Layout } from './layout.ts';
import type { Reading } from './readings.ts';

/** A standardised residual beyond this is no chance: one in three thousand is, and so one in a survey of thirty in a hundred. */
const NO_CHANCE = 3.6;
/** Chi-squares that differ by less are not told apart: one in a hundred is by chance. */
const NOT_TOLD = 6.63;
/** Below this share of an error that shows, a reading is not checked by the others. */
const UNCHECKED = 1e-6;
/** What leaves least when it is left out has a standardised residual of at least this share of the largest. */
const TRIED_SHARE = 0.5;
/** As many are looked for, and as many tried for each. */
const MOST_FOUND = 3;
const MOST_TRIED = 12;

/** A reading that may be off, and by how much: got less what all others say, in its unit. */
export interface Misreading {
  readonly reading: Reading;
  readonly error: number;
}

/** Likely misreadings, from the standardised residuals of all readings: each of one reading, or of several of which one is off. */
export function misreadings(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
  standardised: readonly (number | null)[],
): Misreading[][] {
  const found: Misreading[][] = [];
  let kept = readings;
  let start = unknowns;
  let residuals = standardised;
  while (found.length < MOST_FOUND) {
    const doubtful = suspicious(kept, residuals);
    if (doubtful.length === 0) break;
    const without = doubtful.map((reading) => {
      const others = kept.filter((other) => other !== reading);
      const fit = tried(layout, others, start);
      return { reading, others, fit, chiSquare: fit.chiSquare ?? Number.POSITIVE_INFINITY };
    });
    const best = without.reduce((a, b) => (b.chiSquare < a.chiSquare ? b : a));
    const alike = without
      .filter(({ chiSquare }) => chiSquare - best.chiSquare < NOT_TOLD)
      .sort((a, b) => a.chiSquare - b.chiSquare);
    found.push(alike.map(({ reading, fit }) => ({ reading, error: offFrom(layout, reading, fit.unknowns) })));
    if (alike.length > 1) break;
    kept = best.others;
    start = best.fit.unknowns;
    residuals = standardisedResiduals(layout, kept, start, certaintyOf(layout, kept, start));
  }
  return found;
}

/** Readings that others check, those farthest off first; none where all standardised residuals may be chance. */
function suspicious(readings: readonly Reading[], standardised: readonly (number | null)[]): Reading[] {
  const ranked = standardised
    .flatMap((value, i) => (value === null ? [] : [{ reading: readings[i], size: Math.abs(value) }]))
    .sort((a, b) => b.size - a.size);
  const most = ranked[0]?.size ?? 0;
  if (most <= NO_CHANCE) return [];
  return ranked
    .filter(({ size }) => size >= TRIED_SHARE * most)
    .slice(0, MOST_TRIED)
    .map(({ reading }) => reading);
}

/** Normalised residual (computed less got) of each reading; null where no other reading checks it. */
export function standardisedResiduals(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
  { redundancy }: Certainty,
): (number | null)[] {
  return readings.map((reading, i) =>
    redundancy[i] < UNCHECKED
      ? null
      : -offFrom(layout, reading, unknowns) / (sigmaOf(reading) * Math.sqrt(redundancy[i])),
  );
}

function offFrom(layout: Layout, reading: Reading, unknowns: readonly number[]): number {
  return reading.measured - computedOf(layout, reading, unknowns).value;
}
