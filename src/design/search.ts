// From a start, coordinates x in their boxes are sought that make the weighted sum of squared misses least, while all rooms
// c_j(x) (mm beyond a distance to be kept) stay at 0 or more. By the augmented Lagrangian of M. Powell, M. Hestenes and R.
// Rockafellar (J. Nocedal, S. Wright, "Numerical Optimization", 2006, ch. 17.4) that is a row of searches without rooms, for
//
//   f(u) = sum_k w_k m_k^2 + sum_j (max(0, l_j - r c_j)^2 - l_j^2) / 2r,      then  l_j <- max(0, l_j - r c_j),
//
// u being the free variables of box.ts. With ' by u, the minimiser is told of f'' what goes without second derivatives,
//
//   H = 2 sum_k w_k m_k' m_k'^T + r sum_{l_j > r c_j} c_j' c_j'^T + diag max(0, f_x d2x/du2).

import type { Dual } from '../numerics/dual.ts';
import { minimise, type SearchEnd } from '../numerics/minimiser.ts';
import { type Box, fromFree, onEdges, ratesOf, toFree } from './box.ts';

/** What is found at x: values and misses by objective, and rooms; the latter are always as many. */
export interface Assessed {
  readonly values: readonly number[];
  readonly misses: readonly Dual[];
  readonly rooms: readonly Dual[];
}

/** A place, and how good it is. */
export interface Candidate {
  readonly x: readonly number[];
  readonly values: readonly number[];
  readonly misses: readonly number[];
  /** Weighted sum of squared misses. */
  readonly sum: number;
  /** By how much the least room is missing, mm; 0 where all is kept. */
  readonly lacking: number;
}

/** What is sought. */
export interface Search {
  readonly boxes: readonly Box[];
  readonly weights: readonly number[];
  /** Null where the corner can't be tried. */
  readonly assess: (x: readonly number[]) => Assessed | null;
  readonly stop: () => boolean;
}

/** Beyond what is to be kept, so that it is kept in spite of rounding, mm. */
const SPARE = 1e-5;
const ROUNDS = 20;
/** The price of a mm is raised when a round has not brought what is lacking down to this share. */
const BETTER = 0.25;
const DEARER = 10;
/** After so many rounds in a row that leave more than this share of what was lacking, there is nothing to be hoped. */
const HOPELESS = 3;
const NO_BETTER = 0.99;

/** Whether a is better than b: what is to be kept comes before all else. */
export function isBetter(a: Candidate, b: Candidate): boolean {
  return a.lacking === b.lacking ? a.sum < b.sum : a.lacking < b.lacking;
}

/** A place as a candidate. */
export function candidate(
  x: readonly number[],
  { values, misses, rooms }: Assessed,
  weights: readonly number[],
): Candidate {
  const found = misses.map(({ value }) => value);
  return {
    x,
    values,
    misses: found,
    sum: sumOf(found, weights),
    lacking: rooms.reduce((most, { value }) => Math.max(most, -value), 0),
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
  let last: { key: string; assessed: Assessed | null } | null = null;
  const look = (x: readonly number[]): Assessed | null => {
    const assessed = assess(x);
    if (assessed !== null) {
      const found = candidate(x, assessed, weights);
      if (best === null || isBetter(found, best)) best = found;
    }
    return assessed;
  };
  const at = (u: readonly number[]): Assessed | null => {
    const key = u.join();
    if (last?.key !== key) last = { key, assessed: look(fromFree(boxes, u)) };
    return last.assessed;
  };

  let u: readonly number[] = toFree(boxes, start);
  const first = stop() ? null : at(u);
  if (first === null) return { best, how: stop() ? 'stopped' : 'noValue' };
  let prices = first.rooms.map(() => 0);
  let r = 1 + 2 * candidate(start, first, weights).sum;
  let before = Number.POSITIVE_INFINITY;
  let how: SearchEnd = 'noValue';
  const owed = (room: Dual, j: number) => Math.max(0, prices[j] - r * (room.value - SPARE));

  /** f, and its derivative by x. */
  const lagrangian = ({ misses, rooms }: Assessed): { value: number; byX: number[] } => {
    let value = 0;
    const byX = new Array<number>(boxes.length).fill(0);
    misses.forEach((miss, k) => {
      value += weights[k] * miss.value ** 2;
      for (let i = 0; i < byX.length; i++) byX[i] += 2 * weights[k] * miss.value * miss.by[i];
    });
    rooms.forEach((room, j) => {
      const due = owed(room, j);
      value += (due ** 2 - prices[j] ** 2) / (2 * r);
      for (let i = 0; i < byX.length; i++) byX[i] -= due * room.by[i];
    });
    return { value, byX };
  };
  const f = (place: readonly number[], gradient: number[]): number => {
    const assessed = at(place);
    if (assessed === null) return Number.POSITIVE_INFINITY;
    const { value, byX } = lagrangian(assessed);
    const { first: rates } = ratesOf(boxes, place);
    rates.forEach((rate, i) => {
      gradient[i] = rate * byX[i];
    });
    return value;
  };
  const metric = (place: readonly number[]): number[][] => {
    const assessed = at(place) as Assessed;
    const { first: rates, second } = ratesOf(boxes, place);
    const { byX } = lagrangian(assessed);
    const H = rates.map((_, i) => rates.map((_, j) => (i === j ? Math.max(0, byX[i] * second[i]) : 0)));
    const add = (weight: number, { by }: Dual) => {
      H.forEach((row, i) => {
        for (let j = 0; j < row.length; j++) row[j] += weight * rates[i] * by[i] * rates[j] * by[j];
      });
    };
    assessed.misses.forEach((miss, k) => add(2 * weights[k], miss));
    assessed.rooms.forEach((room, j) => {
      if (owed(room, j) > 0) add(r, room);
    });
    return H;
  };

  let hopeless = 0;
  for (let round = 0; round < ROUNDS && hopeless < HOPELESS; round++) {
    const found = minimise(f, u, { metric, stop });
    ({ how } = found);
    u = found.x;
    const assessed = at(u);
    if (how === 'stopped' || assessed === null) break;
    const lacking = Math.max(0, ...assessed.rooms.map(({ value }) => SPARE - value));
    const paid = assessed.rooms.every((room, j) => {
      const change = Math.abs(owed(room, j) - prices[j]);
      return change <= 0.5 * SPARE * r;
    });
    if (lacking <= 0.5 * SPARE && paid) break;
    prices = assessed.rooms.map(owed);
    if (lacking > BETTER * before) r *= DEARER;
    hopeless = lacking > NO_BETTER * before ? hopeless + 1 : 0;
    before = lacking;
  }
  // What is next to an edge is put there, if that is no worse.
  if (how !== 'stopped' && best !== null) look(onEdges(boxes, (best as Candidate).x));
  return { best, how };
}
