// One search from a start, for coordinates in their boxes with the smallest deviations that keep all constraints, in the free variables u of
// box.ts. With f(x) of lagrangian.ts and ' by u,
//
//   f' = f_x dx/du,   f'' ~ dx/du f_xx dx/du + diag max(0, f_x d2x/du2).

import { type Box, fromFree, onEdges, ratesOf, toFree } from './box.ts';
import { ALLOWANCE, type Assessed, lagrangian, type Multipliers, penaltyTerms } from './lagrangian.ts';
import { minimise, type SearchEnd } from './minimiser.ts';

/** A place, and how good it is. */
export interface Candidate {
  readonly x: readonly number[];
  readonly values: readonly number[];
  readonly deviations: readonly number[];
  /** Weighted sum of squared deviations. */
  readonly sum: number;
  /** Largest violation of a constraint; 0 where all are kept. */
  readonly violation: number;
}

/** What is sought. */
export interface Search {
  readonly boxes: readonly Box[];
  readonly weights: readonly number[];
  /** Null at a place that can't be tried. */
  readonly assess: (x: readonly number[]) => Assessed | null;
  readonly stop: () => boolean;
}

const ROUNDS = 20;
/** The penalty grows by PENALTY_GROWTH after a round that has not brought the violation down to this fraction. */
const ENOUGH_PROGRESS = 0.25;
const PENALTY_GROWTH = 10;
/** The search ends after MAX_STALLED rounds in a row that leave more than this fraction of the violation. */
const NO_PROGRESS = 0.99;
const MAX_STALLED = 3;

/** Whether a is better than b: the constraints come before all else. */
export function isBetter(a: Candidate, b: Candidate): boolean {
  return a.violation === b.violation ? a.sum < b.sum : a.violation < b.violation;
}

/** A place as a candidate. */
export function candidate(
  x: readonly number[],
  { values, deviations, constraints }: Assessed,
  weights: readonly number[],
): Candidate {
  const found = deviations.map(({ value }) => value);
  return {
    x,
    values,
    deviations: found,
    sum: sumOf(found, weights),
    violation: constraints.reduce((most, { value }) => Math.max(most, -value), 0),
  };
}

/** The weighted sum of squared deviations. */
export function sumOf(deviations: readonly number[], weights: readonly number[]): number {
  return deviations.reduce((sum, deviation, k) => sum + weights[k] * deviation * deviation, 0);
}

/** Searches from x; returns the best place met, and how the search ended. */
export function searchFrom(
  start: readonly number[],
  { boxes, weights, assess, stop }: Search,
): { best: Candidate | null; status: SearchEnd } {
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

  if (stop()) return { best, status: 'cancelled' };
  let u: readonly number[] = toFree(boxes, start);
  const first = at(u);
  if (first === null) return { best, status: 'noFiniteValue' };
  let penalty: Multipliers = {
    weights,
    multipliers: first.constraints.map(() => 0),
    r: 1 + 2 * candidate(start, first, weights).sum,
  };
  const f = (place: readonly number[], gradient: number[]): number => {
    const assessed = at(place);
    if (assessed === null) return Number.POSITIVE_INFINITY;
    const { value, slope } = lagrangian(assessed, penalty, boxes.length);
    ratesOf(boxes, place).first.forEach((rate, i) => {
      gradient[i] = rate * slope[i];
    });
    return value;
  };
  const metric = (place: readonly number[]): number[][] => {
    const { slope, bend } = lagrangian(at(place) as Assessed, penalty, boxes.length);
    const { first: rates, second } = ratesOf(boxes, place);
    return bend.map((row, i) =>
      row.map((each, j) => rates[i] * each * rates[j] + (i === j ? Math.max(0, slope[i] * second[i]) : 0)),
    );
  };

  let status: SearchEnd = 'noFiniteValue';
  let before = Number.POSITIVE_INFINITY;
  let stalled = 0;
  for (let round = 0; round < ROUNDS && stalled < MAX_STALLED; round++) {
    const found = minimise(f, u, { metric, stop });
    status = found.status;
    if (status === 'cancelled') return { best, status };
    u = found.x;
    const assessed = at(u) as Assessed;
    const { r, multipliers } = penalty;
    const terms = penaltyTerms(assessed, penalty);
    const violation = Math.max(0, ...assessed.constraints.map(({ value }) => ALLOWANCE - value));
    const isSettled = terms.every((one, j) => Math.abs(one - multipliers[j]) <= 0.5 * ALLOWANCE * r);
    if (violation <= 0.5 * ALLOWANCE && isSettled) break;
    penalty = {
      weights,
      multipliers: terms,
      r: violation > ENOUGH_PROGRESS * before ? PENALTY_GROWTH * r : r,
    };
    stalled = violation > NO_PROGRESS * before ? stalled + 1 : 0;
    before = violation;
  }
  // What is next to an edge is put there, if that is no worse.
  if (best !== null) look(onEdges(boxes, (best as Candidate).x));
  return { best, status };
}
