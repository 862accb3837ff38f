// One search after another: from a given place, from places drawn at random in the boxes, and, where not all that is wanted can be met
// together, from the best with each objective counting more in turn, to see what it costs the others. Whatever comes between, the
// best of all places tried is kept.

import { type Candidate, candidate, isBetter, searchFrom, sumOf } from './bounded-search.ts';
import type { Box } from './box.ts';
import type { Assessed } from './lagrangian.ts';
import type { SearchEnd } from './minimiser.ts';
import { uniform } from './random.ts';

/** What is sought, and from where. */
export interface Multistart {
  readonly boxes: readonly Box[];
  /** By objective. */
  readonly weights: readonly number[];
  /** The place of the first search, at which the objectives have values. */
  readonly first: readonly number[];
  /** Searches from places of their own, the first among them. */
  readonly starts: number;
  /** What draws the places of the others. */
  readonly seed: number;
  /** Places drawn for a start at most, until one can be tried. */
  readonly draws: number;
  /** Whether each objective counts more in turn, if not all are met. */
  readonly emphasise: boolean;
  /** Null at a place that can't be tried. */
  readonly assess: (x: readonly number[]) => Assessed | null;
  /** Asked before each search and each trial: true ends all. */
  readonly stop: () => boolean;
  /** Told at the start of each search and now and then within. */
  readonly progress: ((progress: SearchProgress) => void) | undefined;
}

/** How far the searches have come. */
export interface SearchProgress {
  /** The search that runs, from 0. */
  readonly search: number;
  /** How many there may be. */
  readonly searches: number;
  /** Places tried so far. */
  readonly trials: number;
  /** Weighted sum of squared deviations of the best place so far, each counted in its tolerance. */
  readonly cost: number;
}

/** What a search ended with. */
export interface SearchReport {
  /** Where it began: as drawn, at random, or at the best until then with one objective counting more. */
  readonly from: 'drawn' | 'random' | 'best';
  readonly status: SearchEnd;
  /** Weighted sum of squared deviations of its best, by the weights that were given; null where it had none. */
  readonly cost: number | null;
}

/**
 * How the searches ended: all deviations `met`; a deviation too large, the searches having `ended` or reached their `evaluationLimit`; a
 * constraint `violated` at every place tried; `cancelled`.
 */
export type MultistartStatus = 'met' | 'ended' | 'violated' | 'evaluationLimit' | 'cancelled';

/** What the searches came to. */
export interface Found {
  readonly status: MultistartStatus;
  /** The first place, and the best of all. */
  readonly first: Candidate;
  readonly best: Candidate;
  /** By objective, of all places tried that keep the constraints the value nearest to its goal; null where there is none. */
  readonly nearest: readonly (number | null)[];
  /** The best, and that of each search, as far as they keep the constraints. */
  readonly ends: readonly Candidate[];
  readonly searches: readonly SearchReport[];
  readonly trials: number;
}

/** Weighted sum of squared deviations, each in units of its tolerance, below which the search has nothing left to find. */
const ALL_MET = 1e-12;
/** How much more one objective counts in its turn. */
const EMPHASES = [30, 1000];
/** Trials between two calls of `progress`. */
const PACE = 50;

/** Whether a deviation, in units of its tolerance, is within it. */
export function isMet(deviation: number): boolean {
  return Math.abs(deviation) <= 1;
}

/** Runs all searches; null where the first place can't be tried. */
export function multistart(task: Multistart): Found | null {
  const { boxes, weights, starts, seed, draws, emphasise, assess, stop, progress } = task;
  const assessed = assess(task.first);
  if (assessed === null) return null;
  const first = candidate(task.first, assessed, weights);

  let best = first;
  let bestEnd: SearchEnd = 'converged';
  let trials = 1;
  const near: (Candidate | null)[] = weights.map(() => null);
  const meet = (one: Candidate) => {
    if (isBetter(one, best)) best = one;
    if (one.violation > 0) return;
    one.deviations.forEach((deviation, k) => {
      const before = near[k];
      if (before === null || Math.abs(deviation) < Math.abs(before.deviations[k])) near[k] = one;
    });
  };
  meet(first);

  const searches: SearchReport[] = [];
  const ends: Candidate[] = [];
  const planned = starts + (emphasise ? EMPHASES.length * weights.length : 0);
  const tell = () => progress?.({ search: searches.length, searches: planned, trials, cost: best.sum });
  let cancelled = false;
  const attempt = (at: readonly number[]): Assessed | null => {
    const found = assess(at);
    if (found !== null) meet(candidate(at, found, weights));
    if (++trials % PACE === 0) tell();
    return found;
  };
  const search = (from: SearchReport['from'], x: readonly number[], by: readonly number[]) => {
    tell();
    const before = best;
    const { best: end, status } = searchFrom(x, { boxes, weights: by, stop, assess: attempt });
    cancelled = status === 'cancelled';
    if (best !== before) bestEnd = status;
    if (end !== null && end.violation === 0) ends.push(end);
    searches.push({ from, status, cost: end && sumOf(end.deviations, weights) });
  };

  const next = uniform(seed);
  const drawn = () => boxes.map(({ least, most }) => least + (most - least) * next());
  const place = () => {
    let x = drawn();
    for (let k = 1; k < draws && !stop() && attempt(x) === null; k++) x = drawn();
    return x;
  };
  for (let n = 0; n < starts && !cancelled; n++) {
    if (n === 0) search('drawn', task.first, weights);
    else search('random', place(), weights);
    if (best.violation === 0 && best.sum <= ALL_MET) break;
  }
  const isGood = () => best.violation > 0 || best.deviations.every(isMet);
  if (emphasise && !isGood()) {
    const { x } = best;
    for (let k = 0; k < EMPHASES.length * weights.length && !cancelled; k++) {
      const [emphasis, one] = [EMPHASES[k % EMPHASES.length], Math.floor(k / EMPHASES.length)];
      search(
        'best',
        x,
        weights.map((weight, j) => (j === one ? emphasis * weight : weight)),
      );
    }
  }

  const ended = bestEnd === 'converged' || bestEnd === 'stalled';
  return {
    status: cancelled
      ? 'cancelled'
      : best.violation > 0
        ? 'violated'
        : best.deviations.every(isMet)
          ? 'met'
          : ended
            ? 'ended'
            : 'evaluationLimit',
    first,
    best,
    nearest: near.map((one, k) => (one === null ? null : one.values[k])),
    ends: [best, first, ...ends].filter(({ violation }) => violation === 0),
    searches,
    trials,
  };
}
