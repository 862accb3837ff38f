// Normal errors of the coordinates h as a sum of directions f_k, each times a standard normal number of its own: covariance
// C = sum_k f_k f_k'. Independent errors have a direction a coordinate; those that hang together, as a survey has them, the
// columns of the Cholesky factor of C.

import { type Issue, show, throwIfAny } from '../errors.ts';
import { choleskyColumns } from '../numerics/cholesky.ts';
import { unknownCoordinate } from './hardpoint-coordinates.ts';

/** How errors of coordinates hang together: the covariance of those named, mm², by rows; all others are exact. */
export interface Covariance {
  readonly coordinates: readonly string[];
  readonly matrix: readonly (readonly number[])[];
}

/** Half-width of a 95 % interval of a normal quantity, in standard deviations. */
export const HALF_WIDTH = 1.96;

/** Errors of the coordinates of a corner. */
export interface Spread {
  /** Half-width of each coordinate, in their order. */
  readonly widths: Readonly<Record<string, number>>;
  /** Errors that are independent of each other: what each does to coordinates, as half-widths with a sign. */
  readonly directions: readonly Readonly<Record<string, number>>[];
}

/** Whether errors are given by their covariance. */
export function isCovariance(plusMinus: unknown): plusMinus is Covariance {
  return typeof plusMinus === 'object' && plusMinus !== null && 'coordinates' in plusMinus;
}

/** The errors of coordinates with a covariance. */
export function spreadOfCovariance(covariance: Covariance, names: readonly string[]): Spread {
  throwIfAny('plusMinus', covarianceFaults(covariance, names));
  const { coordinates, matrix } = covariance;
  const columns = choleskyColumns(matrix);
  if (columns === null) {
    const problem = 'no covariance: a sum of coordinates would have a negative variance';
    throwIfAny('plusMinus', [{ path: 'matrix', problem, advice: 'take it as a survey gives it' }]);
    throw new Error(problem);
  }
  const width = (name: string) => {
    const k = coordinates.indexOf(name);
    return k < 0 ? 0 : HALF_WIDTH * Math.sqrt(matrix[k][k]);
  };
  return {
    widths: Object.fromEntries(names.map((name) => [name, width(name)])),
    directions: columns.map((column) =>
      Object.fromEntries(coordinates.map((name, k) => [name, HALF_WIDTH * column[k]])),
    ),
  };
}

function covarianceFaults({ coordinates, matrix }: Covariance, names: readonly string[]): Issue[] {
  if (!Array.isArray(coordinates) || !coordinates.every((name) => typeof name === 'string')) {
    return [
      {
        path: 'coordinates',
        problem: 'not a list of coordinates',
        got: show(coordinates),
        allowed: names.join(', '),
      },
    ];
  }
  const known = coordinates.flatMap((name, k): Issue[] => {
    const path = `coordinates[${k}]`;
    if (!names.includes(name)) return [unknownCoordinate(path, name, names)];
    return coordinates.indexOf(name) < k ? [{ path, problem: 'named twice', got: show(name) }] : [];
  });
  return [...known, ...matrixFaults(matrix, coordinates.length)];
}

function matrixFaults(matrix: unknown, size: number): Issue[] {
  const isMatrix = (value: unknown): value is number[][] =>
    Array.isArray(value) &&
    value.length === size &&
    value.every((row) => Array.isArray(row) && row.length === size && row.every(Number.isFinite));
  const wanted = `${size} rows of ${size} finite numbers, mm²`;
  if (!isMatrix(matrix)) {
    return [{ path: 'matrix', problem: 'not a square matrix', got: show(matrix), allowed: wanted }];
  }
  return matrix.flatMap((row, i) =>
    row.flatMap((value, j): Issue[] => {
      const path = `matrix[${i}][${j}]`;
      if (i === j && value < 0) return [{ path, problem: 'a negative variance', got: show(value) }];
      const off = Math.abs(value - matrix[j][i]);
      const isOff = j > i && off > SYMMETRIC * Math.sqrt(Math.abs(row[i] * matrix[j][j]));
      return isOff ? [{ path, problem: `not the same as matrix[${j}][${i}]`, got: show(value) }] : [];
    }),
  );
}

/** Share of the variances by which two entries that should be one may differ. */
const SYMMETRIC = 1e-9;
