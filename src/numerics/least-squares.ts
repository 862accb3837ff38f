// The x that minimises S(x) = |r(x)|^2, by Gauss-Newton steps with the damping of Levenberg and Marquardt. With J = dr/dx
// and D the largest length that each column of J has had, a step p solves
//
//   min |J p + r|^2 + lambda |D p|^2.
//
// lambda follows the gain, S lost by S that the linear model loses: less by max(1/3, 1 - (2 gain - 1)^3) after a step that lowers
// S, more by 2, 4, 8, ... after one that does not (D. W. Marquardt, J. SIAM 11, 1963; scaling by J. J. More, "The
// Levenberg-Marquardt algorithm", 1978; the rule for lambda by H. B. Nielsen, "Damping parameter in Marquardt's method", 1999;
// from memory). What no residual depends on does not move.
//
// Where residuals stay large these steps take hundreds to arrive, as they leave out the curvature C = sum_i r_i d2r_i/dx2. Where C is
// given, a step of Newton, (J'J + C) p = -J'r, is tried before each of them once the first few are made, and taken where J'J + C is
// positive definite and S is less there (J. E. Dennis, R. B. Schnabel, "Numerical Methods for Unconstrained Optimization and
// Nonlinear Equations", 1983, sec. 10.3: large-residual problems; from memory).
//
// The step with a lambda that only keeps rounding out decides the end: with |J p| <= ORTHOGONAL |r| the residual is
// orthogonal to the columns of J (D. M. Bates, D. G. Watts, Technometrics 23, 1981; from memory), or p is nothing beside x.

import { choleskyColumns, lowerSolve, upperSolve } from './cholesky.ts';
import { power } from './power.ts';
import { dampedLeast } from './singular-values.ts';

/** Residuals to be made small, and their derivatives by rows. Both may be not finite where there is nothing. */
export interface Residuals {
  readonly values: (x: readonly number[]) => number[];
  readonly derivatives: (x: readonly number[]) => number[][];
  /** Sum of the residuals times their second derivatives, C, by rows: for residuals that stay large. */
  readonly curvature?: (x: readonly number[], residuals: readonly number[]) => number[][];
}

/** How a least-squares search ended. */
export type LeastSquaresStatus =
  /** At a local minimum of S. */
  | 'converged'
  /** No step lowers S, though x is no minimum. */
  | 'stalled'
  /** The permitted steps are used up, and S still falls. */
  | 'iterationLimit'
  /** Residuals or their derivatives are not finite at x. */
  | 'notFinite';

/** The best x found, whatever the end. */
export interface LeastSquares {
  readonly status: LeastSquaresStatus;
  readonly x: readonly number[];
  readonly residuals: readonly number[];
  /** |r|^2; null where that is no number. */
  readonly sum: number | null;
}

/** Cosine of the angle between the residual and the columns of J that counts as square. */
const ORTHOGONAL = 1e-10;
/** A step below this share of x is none. */
const SMALL_STEP = 1e-11;
/** The lambda that keeps out what rounding alone lets residuals depend on, by the square of the longest column of J D^-1. */
const LEAST_LAMBDA = 1e-20;
/** What is left to gain, as a share of S, where rounding may hide it. */
const NO_GAIN = 1e-12;
const STEPS = 500;
const FIRST_LAMBDA = 1e-3;
const MOST_LAMBDA = 1e20;
/** Steps without curvature: most searches end within them. */
const PLAIN_STEPS = 6;
/** A step of Newton that loses less of S than this share of what its model says is not taken: the place is not like the model. */
const LEAST_GAIN = 0.1;
/** What keeps rounding out of a step of Newton, beside a diagonal of about 1. */
const NEWTON_LAMBDA = 1e-8;

/** Least squares from a first guess, in so many steps at most. */
export function leastSquares(
  { values, derivatives, curvature }: Residuals,
  guess: readonly number[],
  steps = STEPS,
): LeastSquares {
  let x = [...guess];
  let residuals = values(x);
  let sum = squared(residuals);
  let lambda = FIRST_LAMBDA;
  const lengths = x.map(() => 0);
  const ended = (status: LeastSquaresStatus): LeastSquares => ({
    status,
    x,
    residuals,
    sum: Number.isFinite(sum) ? sum : null,
  });
  if (!Number.isFinite(sum)) return ended('notFinite');
  for (let k = 0; k < steps; k++) {
    const rows = derivatives(x);
    if (!rows.every((row) => row.every(Number.isFinite))) return ended('notFinite');
    const now = x.map((_, j) => Math.sqrt(squared(rows.map((row) => row[j]))));
    const scale = now.map((length, j) => {
      lengths[j] = Math.max(length, lengths[j]);
      return lengths[j] || 1;
    });
    const scaled = rows.map((row) => row.map((value, j) => value / scale[j]));
    const size = Math.sqrt(squared(x.map((value, j) => value * scale[j])));
    const longest = Math.max(...now.map((length, j) => length / scale[j]));
    const whole = damped(scaled, residuals, LEAST_LAMBDA * (longest || 1) ** 2);
    if (whole.move <= ORTHOGONAL ** 2 * sum || squared(whole.step) <= (SMALL_STEP * size) ** 2) {
      return ended('converged');
    }
    const newton =
      curvature !== undefined && k >= PLAIN_STEPS
        ? newtonStep(scaled, residuals, curvature(x, residuals), scale)
        : null;
    if (newton !== null) {
      const next = x.map((value, j) => value + newton.step[j] / scale[j]);
      const there = values(next);
      const sumThere = squared(there);
      if (sumThere < sum - LEAST_GAIN * newton.gain) {
        x = next;
        residuals = there;
        sum = sumThere;
        continue;
      }
    }
    for (let more = 2; ; more *= 2) {
      const { step, gain } = damped(scaled, residuals, lambda);
      const next = x.map((value, j) => value + step[j] / scale[j]);
      const there = values(next);
      const sumThere = squared(there);
      if (sumThere < sum) {
        const ratio = (sum - sumThere) / gain;
        lambda *= Math.max(1 / 3, 1 - power(2 * ratio - 1, 3));
        x = next;
        residuals = there;
        sum = sumThere;
        break;
      }
      lambda *= more;
      if (lambda > MOST_LAMBDA) return ended(whole.gain <= NO_GAIN * sum ? 'converged' : 'stalled');
    }
  }
  return ended('iterationLimit');
}

/** The step D p for a lambda, |J p|^2, and what the linear model loses of S by it. */
function damped(
  rows: readonly (readonly number[])[],
  r: readonly number[],
  lambda: number,
): { step: number[]; move: number; gain: number } {
  const away = r.map((value) => -value);
  const step = dampedLeast(rows, away, rows[0]?.length ?? 0, lambda);
  const moves = rows.map((row) => row.reduce((sum, value, j) => sum + value * step[j], 0));
  const move = squared(moves);
  // |r|^2 - |r + J p|^2
  return { step, move, gain: -move - 2 * moves.reduce((sum, value, i) => sum + value * r[i], 0) };
}

/** The step D p of Newton, and what its model loses of S by it; null where that has no least value. */
function newtonStep(
  rows: readonly (readonly number[])[],
  r: readonly number[],
  curvature: readonly (readonly number[])[],
  scale: readonly number[],
): { step: number[]; gain: number } | null {
  if (!curvature.every((row) => row.every(Number.isFinite))) return null;
  const down = scale.map((_, j) => rows.reduce((sum, row, i) => sum - row[j] * r[i], 0));
  const matrix = curvature.map((row, j) =>
    row.map((value, k) => {
      const plain = rows.reduce((sum, other) => sum + other[j] * other[k], 0);
      return plain + value / (scale[j] * scale[k]) + (j === k ? NEWTON_LAMBDA : 0);
    }),
  );
  const columns = choleskyColumns(matrix);
  if (columns === null || columns.some((column, k) => column[k] === 0)) return null;
  const L = columns.map((_, i) => columns.map((column) => column[i]));
  const step = upperSolve(L, lowerSolve(L, down));
  return { step, gain: step.reduce((sum, value, j) => sum + value * down[j], 0) };
}

function squared(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
