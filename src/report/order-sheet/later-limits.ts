import type { Limit, Limits } from '../../corner/limits/limits.ts';
import type { Units } from '../../units.ts';
import { limitWords } from './limit-words.ts';

/** How far beyond the first limit others are shown, mm. */
export const LATER_LIMITS: Readonly<Record<Units, number>> = { metric: 50, imperial: 50.8 };

/** Limits beyond the first of a side, nearest first; of those with the same name the nearest. */
export function beyondFirst(limits: Limits, side: Limit['side'], units: Units): Limit[] {
  const first = limits[side];
  if (first === null) return [];
  const near = limits.later.filter(
    (one) => one.side === side && Math.abs(one.travel - first.travel) <= LATER_LIMITS[units],
  );
  const names = near.map(limitWords);
  return near.filter((_, k) => names.indexOf(names[k]) === k);
}
