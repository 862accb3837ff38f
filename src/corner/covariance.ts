// Normal errors of the coordinates h as a sum of directions f_k, each times a standard normal number of its own: covariance
// C = sum_k f_k f_k'. Independent errors have a direction a coordinate; those that hang together, as a survey has them, the
// columns of the Cholesky factor of C.

import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/corner.ts';
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
  refuse('plusMinus', covarianceFaults(covariance, names));
  const { coordinates, matrix } = covariance;
  const columns = choleskyColumns(matrix);
  if (columns === null) throw refusal('plusMinus', [fault('notACovariance', 'matrix')]);
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

function covarianceFaults({ coordinates, matrix }: Covariance, names: readonly string[]): Diagnostic[] {
  if (!Array.isArray(coordinates) || !coordinates.every((name) => typeof name === 'string')) {
    return [fault('notCoordinates', 'coordinates', { got: show(coordinates), allowed: names })];
  }
  const known = coordinates.flatMap((name, k): Diagnostic[] => {
    const path = `coordinates[${k}]`;
    if (!names.includes(name)) return [unknownCoordinate(path, name, names)];
    return coordinates.indexOf(name) < k ? [fault('namedTwice', path, { got: show(name) })] : [];
  });
  return [...known, ...matrixFaults(matrix, coordinates.length)];
}

function matrixFaults(matrix: unknown, size: number): Diagnostic[] {
  const isMatrix = (value: unknown): value is number[][] =>
    Array.isArray(value) &&
    value.length === size &&
    value.every((row) => Array.isArray(row) && row.length === size && row.every(Number.isFinite));
  if (!isMatrix(matrix)) {
    return [fault('notASquareMatrix', 'matrix', { size, got: show(matrix) })];
  }
  return matrix.flatMap((row, i) =>
    row.flatMap((value, j): Diagnostic[] => {
      const path = `matrix[${i}][${j}]`;
      if (i === j && value < 0) return [fault('negativeVariance', path, { got: show(value) })];
      const off = Math.abs(value - matrix[j][i]);
      const isOff = j > i && off > SYMMETRIC * Math.sqrt(Math.abs(row[i] * matrix[j][j]));
      return isOff ? [fault('notSymmetric', path, { other: `matrix[${j}][${i}]`, got: show(value) })] : [];
    }),
  );
}

/** Share of the variances by which two entries that should be one may differ. */
const SYMMETRIC = 1e-9;
