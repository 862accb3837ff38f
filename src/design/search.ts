// One search: from a start, coordinates in their boxes are sought that make the misses least and keep all distances, in the free
// variables u of box.ts. With f(x) of lagrangian.ts and ' by u,
//
//   f' = f_x dx/du,   f'' ~ dx/du f_xx dx/du + diag max(0, f_x d2x/du2).

import { minimise, type SearchEnd } from '../numerics/minimiser.ts';
import { type Box, fromFree, onEdges, ratesOf, toFree } from './box.ts';
import {
  type Assessed,
  CLEARANCE_ALLOWANCE,
  lagrangian,
  type Multipliers,
  penaltyTerms,
} from './lagrangian.ts';

/** A place, and how good it is. */
export interface Candidate {
  readonly x: readonly number[];
  readonly values: readonly number[];
  readonly deviations: readonly number[];
  /** Weighted sum of squared misses. */
  readonly sum: number;
  /** By how much the least room is missing, mm; 0 where all is kept. */
  readonly violation: number;
}

/** What is sought. */
export interface Search {
  readonly boxes: readonly Box[];
  readonly weights: readonly number[];
  /** Null where the corner can't be tried. */
  readonly assess: (x: readonly number[]) => Assessed | null;
  readonly stop: () => boolean;
}

const ROUNDS = 20;
/** The price of a mm is raised when a round has not brought what is lacking down to this share. */
const BETTER = 0.25;
const DEARER = 10;
/** After so many rounds in a row that leave more than this share of what was lacking, there is nothing to be hoped. */
const HOPELESS = 3;
const NO_BETTER = 0.99;

/** Whether a is better than b: what is to be kept comes before all else. */
export function isBetter(a: Candidate, b: Candidate): boolean {
  return a.violation === b.violation ? a.sum < b.sum : a.violation < b.violation;
}

/** A place as a candidate. */
export function candidate(
  x: readonly number[],
  { values, deviations, clearances }: Assessed,
  weights: readonly number[],
): Candidate {
  const found = deviations.map(({ value }) => value);
  return {
    x,
    values,
    deviations: found,
    sum: sumOf(found, weights),
    violation: clearances.reduce((most, { value }) => Math.max(most, -value), 0),
  };
}

/** The weighted sum of squared misses. */
export function sumOf(misses: readonly number[], weights: readonly number[]): number {
  return misses.reduce((sum, miss, k) => sum + weights[k] * miss * miss, 0);
}

/** Searches from x; returns the best place met, and how the search ended. */
export function searchFrom(
  start: readonly number[],
  { boxes, weights, assess, stop }: Search,
): { best: Candidate | null; how: SearchEnd } {
  let best: Candidate | null = null;
  const look = (x: readonly number[]): Assessed | null => {
    const assessed = assess(x);
    if (assessed === null) return null;
    const found = candidate(x, assessed, weights);
    if (best === null || isBetter(found, best)) best = found;
    return assessed;
  };
  let last: { key: string; assessed: Assessed | null } | null = null;
  const at = (u: readonly number[]): Assessed | null => {
    const key = u.join();
    if (last?.key !== key) last = { key, assessed: look(fromFree(boxes, u)) };
    return last.assessed;
  };

  if (stop()) return { best, how: 'cancelled' };
  let u: readonly number[] = toFree(boxes, start);
  const first = at(u);
  if (first === null) return { best, how: 'noFiniteValue' };
  let prices: Multipliers = {
    weights,
    multipliers: first.clearances.map(() => 0),
    r: 1 + 2 * candidate(start, first, weights).sum,
  };
  const f = (place: readonly number[], gradient: number[]): number => {
    const assessed = at(place);
    if (assessed === null) return Number.POSITIVE_INFINITY;
    const { value, slope } = lagrangian(assessed, prices, boxes.length);
    ratesOf(boxes, place).first.forEach((rate, i) => {
      gradient[i] = rate * slope[i];
    });
    return value;
  };
  const metric = (place: readonly number[]): number[][] => {
    const { slope, bend } = lagrangian(at(place) as Assessed, prices, boxes.length);
    const { first: rates, second } = ratesOf(boxes, place);
    return bend.map((row, i) =>
      row.map((each, j) => rates[i] * each * rates[j] + (i === j ? Math.max(0, slope[i] * second[i]) : 0)),
    );
  };

  let how: SearchEnd = 'noFiniteValue';
  let before = Number.POSITIVE_INFINITY;
  let hopeless = 0;
  for (let round = 0; round < ROUNDS && hopeless < HOPELESS; round++) {
    const found = minimise(f, u, { metric, stop });
    how = found.status;
    if (how === 'cancelled') return { best, how };
    u = found.x;
    const assessed = at(u) as Assessed;
    const { r, multipliers: paid } = prices;
    const due = penaltyTerms(assessed, prices);
    const lacking = Math.max(0, ...assessed.clearances.map(({ value }) => CLEARANCE_ALLOWANCE - value));
    const isPaid = due.every((one, j) => Math.abs(one - paid[j]) <= 0.5 * CLEARANCE_ALLOWANCE * r);
    if (lacking <= 0.5 * CLEARANCE_ALLOWANCE && isPaid) break;
    prices = { weights, multipliers: due, r: lacking > BETTER * before ? DEARER * r : r };
    hopeless = lacking > NO_BETTER * before ? hopeless + 1 : 0;
    before = lacking;
  }
  // What is next to an edge is put there, if that is no worse.
  if (best !== null) look(onEdges(boxes, (best as Candidate).x));
  return { best, how };
}
