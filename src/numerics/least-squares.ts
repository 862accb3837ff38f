// The x that makes S(x) = |r(x)|^2 least, by Gauss-Newton steps with the damping of Levenberg and Marquardt. With J = dr/dx
// and D the largest length that each column of J has had, a step p solves
//
//   min |J p + r|^2 + lambda |D p|^2,    J D^-1 = U diag(s) V':    D p = - V diag(s / (s^2 + lambda)) U' r,
//
// so that one decomposition serves every lambda, and what no residual depends on (s = 0) does not move. lambda follows the
// gain, S lost by S that the linear model loses: less by max(1/3, 1 - (2 gain - 1)^3) after a step that lowers S, more by 2, 4,
// 8, ... after one that does not (D. W. Marquardt, J. SIAM 11, 1963; scaling by J. J. More, "The Levenberg-Marquardt
// algorithm", 1978; the rule for lambda by H. B. Nielsen, "Damping parameter in Marquardt's method", 1999; from memory).
//
// It has converged where the residual is orthogonal to the columns of J, |U' r| <= ORTHOGONAL |r| (D. M. Bates, D. G. Watts,
// Technometrics 23, 1981; from memory), or where the undamped step is nothing beside x.

import { type Decomposition, decompose } from './singular-values.ts';

/** Residuals to be made small, and their derivatives by rows. Both may be not finite where there is nothing. */
export interface Residuals {
  readonly values: (x: readonly number[]) => number[];
  readonly derivatives: (x: readonly number[]) => number[][];
}

/** How a search ended. */
export type LeastSquaresEnd =
  /** At a place where S is least in its surroundings. */
  | 'converged'
  /** No step brings S down, though it is not least there. */
  | 'stalled'
  /** After `STEPS` steps that all still brought S down. */
  | 'tooManySteps'
  /** Residuals or their derivatives are no numbers at x. */
  | 'notFinite';

/** The best x found, whatever the end. */
export interface LeastSquares {
  readonly how: LeastSquaresEnd;
  readonly x: readonly number[];
  readonly residuals: readonly number[];
  /** |r|^2; null where that is no number. */
  readonly sum: number | null;
}

/** Cosine of the angle between the residual and the columns of J that counts as square. */
const ORTHOGONAL = 1e-10;
/** A step below this share of x is none. */
const SMALL_STEP = 1e-11;
/** Singular values of the scaled J below this share of the largest are rounding. */
const ROUNDING = 1e-13;
/** What is left to gain, as a share of S, where rounding may hide it. */
const NO_GAIN = 1e-12;
const STEPS = 500;
const FIRST_LAMBDA = 1e-3;
const MOST_LAMBDA = 1e20;

/** Least squares from a first guess. */
export function leastSquares({ values, derivatives }: Residuals, guess: readonly number[]): LeastSquares {
  let x = [...guess];
  let residuals = values(x);
  let sum = squared(residuals);
  let lambda = FIRST_LAMBDA;
  const lengths = x.map(() => 0);
  const ended = (how: LeastSquaresEnd): LeastSquares => ({
    how,
    x,
    residuals,
    sum: Number.isFinite(sum) ? sum : null,
  });
  if (!Number.isFinite(sum)) return ended('notFinite');
  for (let step = 0; step < STEPS; step++) {
    const rows = derivatives(x);
    if (!rows.every((row) => row.every(Number.isFinite))) return ended('notFinite');
    lengths.forEach((length, j) => {
      lengths[j] = Math.max(length, Math.sqrt(squared(rows.map((row) => row[j]))));
    });
    const scale = lengths.map((length) => length || 1);
    const svd = decompose(
      rows.map((row) => row.map((value, j) => value / scale[j])),
      x.length,
    );
    const along = alongLeft(svd, residuals);
    const size = Math.sqrt(squared(x.map((value, j) => value * scale[j])));
    if (isLeast(svd, along, sum, size)) return ended('converged');
    let most = 0;
    for (let more = 2; ; more *= 2) {
      const { scaled, gain } = damped(svd, along, lambda);
      most = Math.max(most, gain);
      const next = x.map((value, j) => value + scaled[j] / scale[j]);
      const there = values(next);
      const sumThere = squared(there);
      if (sumThere < sum) {
        const ratio = (sum - sumThere) / gain;
        lambda *= Math.max(1 / 3, 1 - (2 * ratio - 1) ** 3);
        x = next;
        residuals = there;
        sum = sumThere;
        break;
      }
      lambda *= more;
      if (lambda > MOST_LAMBDA) return ended(most <= NO_GAIN * sum ? 'converged' : 'stalled');
    }
  }
  return ended('tooManySteps');
}

/** Whether S is least where its residual has the parts `along` the left vectors. */
function isLeast({ values }: Decomposition, along: readonly number[], sum: number, size: number): boolean {
  const counted = along.filter((_, k) => values[k] > ROUNDING * values[0]);
  const step = counted.map((part, k) => part / values[k]);
  return squared(counted) <= ORTHOGONAL ** 2 * sum || squared(step) <= (SMALL_STEP * size) ** 2;
}

/** The step D p for a lambda, and what it takes from S to first order. */
function damped(
  { values, right }: Decomposition,
  along: readonly number[],
  lambda: number,
): { scaled: number[]; gain: number } {
  const scaled = right.map(() => 0);
  let gain = 0;
  values.forEach((s, k) => {
    const bottom = s * s + lambda;
    const part = (-s / bottom) * along[k];
    right[k].forEach((value, j) => {
      scaled[j] += part * value;
    });
    gain += along[k] ** 2 * (1 - (lambda / bottom) ** 2);
  });
  return { scaled, gain };
}

function alongLeft({ left }: Decomposition, r: readonly number[]): number[] {
  return left.map((vector) => vector.reduce((sum, value, i) => sum + value * r[i], 0));
}

function squared(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
