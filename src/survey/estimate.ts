// The unknowns u that fit the readings best, weighted by how sure each is: least sum of ((computed - got) / sigma)^2, sigma being
// plusMinus / 1.96. With the weighted Jacobian A = U S V' there, the covariance of u is V S^-2 V' over the r singular values
// that count, the rest being directions that no reading fixes. The redundancy number of reading i is q_i = 1 - |row i of U|^2:
// the share of an error in it that shows in its own residual. Its standardised residual, residual / (sigma sqrt(q_i)), is a
// standard normal number, and the sum is chi-square with m - r degrees of freedom (W. Baarda, "A testing procedure for use in
// geodetic networks", 1968; from memory).

import { HALF_WIDTH } from '../corner/covariance.ts';
import { type LeastSquaresStatus, leastSquares } from '../numerics/least-squares.ts';
import { decompose, rankOf } from '../numerics/singular-values.ts';
import { type Layout, placeOf } from './layout.ts';
import type { Computed, Reading, Spot } from './readings.ts';

/** The unknowns as the readings have them. */
export interface Fit {
  readonly status: LeastSquaresStatus;
  readonly unknowns: readonly number[];
  /** What each reading should have been, in its unit. */
  readonly computed: readonly number[];
  /** Sum of the squares of (computed - got) / sigma; null where that is no number. */
  readonly chiSquare: number | null;
}

/** How sure an estimate is. */
export interface Certainty {
  readonly degreesOfFreedom: number;
  /** Of the unknowns, mm², by rows, as far as they are fixed. */
  readonly covariance: readonly (readonly number[])[];
  /** Directions of the unknowns that no reading fixes, orthonormal. */
  readonly open: readonly (readonly number[])[];
  /** The redundancy number of each reading, 0 to 1. */
  readonly redundancy: readonly number[];
}

/** What a mm of a reading moves by more than ten metres is not fixed by it. */
const FIXED_SHARE = 1e-4;

/** The best fit from a first estimate of the unknowns. */
export function estimate(
  layout: Layout,
  readings: readonly Reading[],
  guess: readonly number[] = layout.guess,
  steps?: number,
): Fit {
  const { status, x, sum } = leastSquares(
    {
      values: (u) => weighted(layout, readings, u),
      derivatives: (u) => jacobian(layout, readings, u, (reading) => sigmaOf(reading)),
      curvature: (u, residuals) => curvature(layout, readings, u, residuals),
    },
    guess,
    steps,
  );
  const computed = readings.map((reading) => computedOf(layout, reading, x).value);
  return { status, unknowns: x, computed, chiSquare: sum };
}

/** Steps of a fit that is tried: those that lead anywhere take 10 to 30. */
const STEPS_TRIED = 100;

/** The fit from a guess that may lead nowhere, given up early. */
export function tried(layout: Layout, readings: readonly Reading[], guess: readonly number[]): Fit {
  return estimate(layout, readings, guess, STEPS_TRIED);
}

/** How sure it is. */
export function certaintyOf(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
): Certainty {
  const count = unknowns.length;
  const { rank, nullSpace } = rankOf(
    jacobian(layout, readings, unknowns, () => 1),
    count,
    { share: FIXED_SHARE },
  );
  const { values, left, right } = decompose(jacobian(layout, readings, unknowns, sigmaOf), count);
  const fixed = right.slice(0, rank).map((vector, k) => vector.map((value) => value / values[k]));
  const covariance = unknowns.map((_, i) =>
    unknowns.map((__, j) => fixed.reduce((sum, vector) => sum + vector[i] * vector[j], 0)),
  );
  const redundancy = readings.map((_, i) => {
    const own = left.slice(0, rank).reduce((sum, vector) => sum + vector[i] ** 2, 0);
    return Math.max(0, 1 - own);
  });
  return { degreesOfFreedom: readings.length - rank, covariance, open: nullSpace, redundancy };
}

/** Chi-square of the readings for values of the unknowns. */
export function chiSquareAt(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
): number {
  return weighted(layout, readings, unknowns).reduce((sum, value) => sum + value * value, 0);
}

/** Standard deviation of a reading. */
export function sigmaOf({ plusMinus }: Reading): number {
  return plusMinus / HALF_WIDTH;
}

function weighted(layout: Layout, readings: readonly Reading[], unknowns: readonly number[]): number[] {
  return readings.map(
    (reading) => (computedOf(layout, reading, unknowns).value - reading.measured) / sigmaOf(reading),
  );
}

/** A reading as it would be for values of the unknowns. */
export function computedOf(layout: Layout, reading: Reading, unknowns: readonly number[]): Computed {
  return reading.compute(spotsOf(layout, reading, unknowns));
}

function spotsOf({ stations }: Layout, { points }: Reading, unknowns: readonly number[]): Spot[] {
  return points.map((name) => {
    const station = stations.get(name);
    if (station === undefined) throw new Error(`no point ${name}`);
    return { x: station.x, at: placeOf(station, unknowns) };
  });
}

/** Derivatives of the readings by the unknowns, each divided by a scale of its own. */
function jacobian(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
  scale: (reading: Reading) => number,
): number[][] {
  return readings.map((reading) => {
    const row = new Array<number>(unknowns.length).fill(0);
    computedOf(layout, reading, unknowns).by.forEach((by, k) => {
      layout.stations.get(reading.points[k])?.forms.forEach(({ terms }, axis) => {
        for (const [unknown, times] of terms) row[unknown] += (by[axis] * times) / scale(reading);
      });
    });
    return row;
  });
}

/** How far a coordinate is moved for a second derivative, mm: a thousandth of it would do as well, and ten times as much. */
const CURVATURE_STEP = 1e-2;

/** Sum of the residuals times their second derivatives by the unknowns: central differences of the derivatives of each reading. */
function curvature(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
  residuals: readonly number[],
): number[][] {
  const sum = unknowns.map(() => new Array<number>(unknowns.length).fill(0));
  readings.forEach((reading, i) => {
    const spots = spotsOf(layout, reading, unknowns);
    const forms = reading.points.map((name) => layout.stations.get(name)?.forms ?? []);
    const moved = (k: number, axis: number, by: number) =>
      reading.compute(
        spots.map(({ x, at: [y, z] }, l): Spot => {
          if (l !== k) return { x, at: [y, z] };
          return { x, at: axis === 0 ? [y + by, z] : [y, z + by] };
        }),
      ).by;
    const times = residuals[i] / (sigmaOf(reading) * 2 * CURVATURE_STEP);
    forms.forEach((pair, k) => {
      pair.forEach(({ terms }, axis) => {
        if (terms.length === 0) return;
        const [ahead, behind] = [moved(k, axis, CURVATURE_STEP), moved(k, axis, -CURVATURE_STEP)];
        forms.forEach((others, l) => {
          others.forEach((other, b) => {
            const change = times * (ahead[l][b] - behind[l][b]);
            for (const [u, share] of terms) {
              for (const [v, shareThere] of other.terms) sum[u][v] += change * share * shareThere;
            }
          });
        });
      });
    });
  });
  return sum;
}
