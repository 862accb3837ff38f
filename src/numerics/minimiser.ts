// The least value of a smooth function near a start, by conjugate gradients (Polak and Ribiere, with a line search after
// Wolfe: J. Nocedal, S. Wright, "Numerical Optimization", 2006, ch. 3 and 5; the code is fmin's).
//
// That code begins each line search with a step of about one, and ends where a gradient is shorter than 1e-5, whatever the
// function's scale. Therefore it works in rounds, each in variables of its own: with H about the matrix of second derivatives,
// g the gradient at the round's start x0, and d such that no step is longer than LONGEST,
//
//   H + d 1 = L L^T,   d = |g| / LONGEST,   v = sqrt(c) L^T (x - x0),   c f(x) is minimised over v,
//
// its gradient sqrt(c) L^-1 g, its second derivatives about 1. A step of one is then that of Gauss and Newton, and what a
// round can still gain is p = |L^-1 g|^2 / 2 in f. c makes p just small enough where fmin ends; whether it is, is looked
// at again with the H of the place that was found.

/// <reference path="./fmin.d.ts" />
import { conjugateGradient } from 'fmin/index.js';
import { cholesky, lowerSolve, upperSolve } from './cholesky.ts';

/** The value at x; writes its gradient. Not finite where there is none. */
export type Smooth = (x: readonly number[], gradient: number[]) => number;

/** How a search ended. */
export type SearchEnd =
  /** Nothing but rounding can be gained. */
  | 'converged'
  /** No step lowers the value, though the slope says that one should: a kink, or rounding. */
  | 'stalled'
  /** The permitted evaluations are used up. */
  | 'evaluationLimit'
  /** `stop` returned true. */
  | 'cancelled'
  /** The function has no finite value at the start. */
  | 'noFiniteValue';

/** The lowest place that was met. */
export interface Minimum {
  readonly x: readonly number[];
  /** Infinity where the function has no value at the start. */
  readonly value: number;
  readonly status: SearchEnd;
  readonly evaluations: number;
}

/** How to search. */
export interface MinimiserOptions {
  /** About the matrix of second derivatives at x, positive semidefinite: it sets the scale of steps. */
  readonly metric: (x: readonly number[]) => number[][];
  /** Asked before each evaluation: true ends the search, and the lowest place so far is returned. */
  readonly stop?: () => boolean;
  /** Default 1000. */
  readonly maxEvaluations?: number;
}

/** Longest step, in the unit of x. */
const LONGEST = 0.5;
/** fmin ends where the gradient is shorter than this. */
const FMIN_ENDS = 1e-5;
/** What can still be gained is nothing below this share of the value, or below NOTHING. */
const SHARE = 1e-13;
const NOTHING = 1e-18;
/** Share of the largest entry of H that the smallest is raised to, so that no direction is without scale. */
const FLAT = 1e-12;
/** A round ends after so many evaluations in a row that gain nothing: more than a line search takes that finds something. */
const IN_VAIN = 20;

const ENOUGH = new Error('enough');

/** Searches for the least value of a function from a start, neither of which is written to. */
export function minimise(f: Smooth, start: readonly number[], options: MinimiserOptions): Minimum {
  const { metric, stop, maxEvaluations = 1000 } = options;
  const n = start.length;
  const best = { x: [...start], value: Number.POSITIVE_INFINITY, gradient: new Array<number>(n).fill(0) };
  let [evaluations, inVain] = [0, 0];
  let cut: 'evaluationLimit' | 'cancelled' | null = null;

  /** Evaluates at x and keeps the lowest; the value is Infinity where there is none, and the gradient nothing. */
  const look = (x: readonly number[], gradient: number[]): number => {
    if (stop?.() === true) cut = 'cancelled';
    else if (evaluations >= maxEvaluations) cut = 'evaluationLimit';
    if (cut !== null) throw ENOUGH;
    evaluations++;
    const value = x.every(Number.isFinite) ? f([...x], gradient) : Number.NaN;
    if (!Number.isFinite(value) || !gradient.every(Number.isFinite)) {
      gradient.fill(0);
      inVain++;
      return Number.POSITIVE_INFINITY;
    }
    if (value < best.value) {
      best.x = [...x];
      best.value = value;
      best.gradient = [...gradient];
      inVain = 0;
    } else inVain++;
    return value;
  };
  const ended = (status: SearchEnd): Minimum => ({ x: best.x, value: best.value, status, evaluations });

  try {
    look(start, best.gradient);
    if (best.value === Number.POSITIVE_INFINITY) return ended('noFiniteValue');
    for (;;) {
      const { x: x0, value, gradient } = best;
      const L = cholesky(raised(metric(x0), gradient));
      const enough = NOTHING + SHARE * Math.abs(value);
      const left = lowerSolve(L, gradient);
      if (0.5 * left.reduce((sum, one) => sum + one * one, 0) <= enough) return ended('converged');
      const scale = FMIN_ENDS / Math.sqrt(2 * enough);
      inVain = 0;
      const inner = new Array<number>(n).fill(0);
      try {
        conjugateGradient(
          (v, slope) => {
            if (inVain > IN_VAIN) throw ENOUGH;
            const step = upperSolve(L, v);
            const here = look(
              x0.map((at, i) => at + step[i] / scale),
              inner,
            );
            lowerSolve(L, inner).forEach((one, i) => {
              slope[i] = scale * one;
            });
            return scale * scale * here;
          },
          new Array<number>(n).fill(0),
          { maxIterations: 2 * n + 4 },
        );
      } catch (error) {
        if (error !== ENOUGH || cut !== null) throw error;
      }
      if (best.value >= value) return ended('stalled');
    }
  } catch (error) {
    if (cut === null) throw error;
    return ended(cut);
  }
}

/** H + d 1. */
function raised(H: readonly (readonly number[])[], gradient: readonly number[]): number[][] {
  const largest = Math.max(0, ...H.map((row, i) => row[i]));
  const d = Math.hypot(...gradient) / LONGEST + FLAT * largest || 1;
  return H.map((row, i) => row.map((value, j) => value + (i === j ? d : 0)));
}
