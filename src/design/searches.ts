// One search after another: from the corner as drawn, from places drawn at random in the boxes, and, where not all that is wanted
// can be met together, from the best with each objective counting more in turn, to see what it costs the others. Whatever
// comes between, the best of all corners tried is kept.

import { refusal } from '../errors/design.ts';
import type { SearchEnd } from '../numerics/minimiser.ts';
import { uniform } from '../numerics/random.ts';
import type { Judge } from './judge.ts';
import type { CheckedDesign, DesignOptions } from './options.ts';
import type { DesignStatus, SearchReport } from './result.ts';
import { type Candidate, candidate, isBetter, searchFrom, sumOf } from './search.ts';

/** What the searches came to. */
export interface Found {
  readonly status: DesignStatus;
  /** The corner as drawn, and the best of all. */
  readonly first: Candidate;
  readonly best: Candidate;
  /** By objective: as in `ObjectiveResult`. */
  readonly nearest: readonly (number | null)[];
  /** The best, and that of each search, as far as they keep their distances. */
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

/**
 * Runs all searches.
 *
 * @throws InputError for a corner that can't be judged as drawn.
 */
export function searchAll(
  { boxes, objectives, plan, starts, seed }: CheckedDesign,
  { signal, progress }: DesignOptions,
  judge: Judge,
): Found {
  const weights = objectives.map(({ weight = 1 }) => weight);
  const drawn = plan.coordinates.map(({ point, axis }) => plan.model.drawing.points[point][axis]);
  const asDrawn = judge.assess(drawn);
  if (asDrawn === null) {
    const why = [...judge.refused.values()].map((one) => one.why);
    throw refusal('corner as drawn', why);
  }
  const first = candidate(drawn, asDrawn, weights);

  let best = first;
  let bestEnd: SearchEnd = 'converged';
  let trials = 1;
  const near: (Candidate | null)[] = objectives.map(() => null);
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
  const planned = starts + (objectives.length > 1 ? EMPHASES.length * objectives.length : 0);
  const tell = () => progress?.({ search: searches.length, searches: planned, trials, cost: best.sum });
  const stop = () => signal?.aborted === true;
  let cancelled = false;
  const search = (from: SearchReport['from'], x: readonly number[], by: readonly number[]) => {
    tell();
    const before = best;
    const { best: end, status } = searchFrom(x, {
      boxes,
      weights: by,
      stop,
      assess(at) {
        const assessed = judge.assess(at);
        if (assessed !== null) meet(candidate(at, assessed, weights));
        if (++trials % PACE === 0) tell();
        return assessed;
      },
    });
    cancelled = status === 'cancelled';
    if (best !== before) bestEnd = status;
    if (end !== null && end.violation === 0) ends.push(end);
    searches.push({ from, status, cost: end && sumOf(end.deviations, weights) });
  };

  const next = uniform(seed);
  for (let n = 0; n < starts && !cancelled; n++) {
    const x = n === 0 ? drawn : boxes.map(({ least, most }) => least + (most - least) * next());
    search(n === 0 ? 'drawn' : 'random', x, weights);
    if (best.violation === 0 && best.sum <= ALL_MET) break;
  }
  const isGood = () => best.violation > 0 || best.deviations.every(isMet);
  if (objectives.length > 1 && !isGood()) {
    const { x } = best;
    for (let k = 0; k < 2 * objectives.length && !cancelled; k++) {
      const [emphasis, one] = [EMPHASES[k % 2], k >> 1];
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
        ? 'clearanceUnreachable'
        : best.deviations.every(isMet)
          ? 'targetsMet'
          : ended
            ? 'targetUnreachable'
            : 'evaluationLimit',
    first,
    best,
    nearest: near.map((one, k) => (one === null ? null : one.values[k])),
    ends: [best, first, ...ends].filter(({ violation }) => violation === 0),
    searches,
    trials,
  };
}
