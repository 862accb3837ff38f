// Correlations of the errors of coordinates, as files have them: rho_ij below the diagonal, beside half-widths w_i at the points. The
// covariance is
//
//   C_ij = rho_ij (w_i / 1.96) (w_j / 1.96),
//
// rho_ii = 1, and 0 between coordinates that are not named. A right-hand corner is mirrored: what has one y turns its sign.

import { show } from '../diagnostic.ts';
import { kindOf } from '../document/file-schema.ts';
import type { CornerFile } from '../document/inputs.ts';
import { type Finding, found, type Place, valueAt } from '../document/parse.ts';
import { choleskyColumns } from '../numerics/cholesky.ts';
import { meantName } from '../spelling.ts';
import type { DrawnCorner } from './corner.ts';
import { type Covariance, HALF_WIDTH } from './covariance.ts';
import { KINDS } from './kinds.ts';

/** Correlations as a file has them. */
export type Correlations = NonNullable<CornerFile['correlations']>;

/** The covariance of a corner's coordinates, from its half-widths and the correlations of a file; undefined where nothing is uncertain. */
export function correlated(
  { mirrored, plusMinus }: DrawnCorner,
  { coordinates, lowerTriangle }: Correlations,
): Covariance | undefined {
  const widths = (plusMinus ?? {}) as Readonly<Record<string, number>>;
  const names = [...coordinates, ...Object.keys(widths).filter((name) => !coordinates.includes(name))];
  if (names.length === 0) return undefined;
  const sigma = names.map(
    (name) => ((mirrored && name.endsWith('Y') ? -1 : 1) * (widths[name] ?? 0)) / HALF_WIDTH,
  );
  const matrix = correlationMatrix(lowerTriangle, names.length);
  return {
    coordinates: names,
    matrix: matrix.map((row, i) => row.map((value, j) => value * sigma[i] * sigma[j])),
  };
}

/** All of a matrix of correlations, the last coordinates independent. */
function correlationMatrix(lowerTriangle: readonly (readonly number[])[], size: number): number[][] {
  return Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (__, j) =>
      i === j ? 1 : (lowerTriangle[Math.max(i, j)]?.[Math.min(i, j)] ?? 0),
    ),
  );
}

/** What is wrong with the correlations of the corner at a place, as far as they have their shape. */
export function correlationFindings(value: unknown, at: Place): Finding[] {
  const corner = valueAt(value, at);
  const under = [...at, 'correlations'];
  const names: unknown = valueAt(value, [...under, 'coordinates']);
  const triangle: unknown = valueAt(value, [...under, 'lowerTriangle']);
  if (!isListOf(names, (name) => typeof name === 'string')) return [];
  const wrong = nameFindings(corner, names, [...under, 'coordinates']);
  if (!isListOf(triangle, (row) => isListOf(row, (number) => typeof number === 'number'))) return wrong;
  return [...wrong, ...triangleFindings(triangle, names.length, [...under, 'lowerTriangle'])];
}

function isListOf<T>(value: unknown, is: (item: unknown) => item is T): value is T[];
function isListOf(value: unknown, is: (item: unknown) => boolean): value is never[];
function isListOf(value: unknown, is: (item: unknown) => boolean): boolean {
  return Array.isArray(value) && value.every(is);
}

function nameFindings(corner: unknown, names: readonly string[], at: Place): Finding[] {
  const { uncertain, exact } = coordinatesOf(corner);
  return names.flatMap((name, k): Finding[] => {
    const here: Place = [...at, k];
    const got = show(name);
    if (names.indexOf(name) < k) return [found(here, 'namedTwice', { got })];
    if (uncertain.includes(name)) return [];
    if (exact.includes(name)) return [found(here, 'coordinateWithoutPlusMinus', { got })];
    const followsFromCamber = name.startsWith('contactPatch');
    const meant = meantName(name, uncertain) ?? null;
    return [found(here, 'unknownCoordinate', { got, allowed: uncertain, followsFromCamber, meant })];
  });
}

/** The coordinates that a corner as written has, by whether they have a plusMinus. */
function coordinatesOf(corner: unknown): { uncertain: string[]; exact: string[] } {
  const [uncertain, exact]: [string[], string[]] = [[], []];
  for (const [path, name] of Object.entries(KINDS[kindOf(KINDS, corner)].input.points)) {
    const point = valueAt(corner, path.split('.'));
    if (!Array.isArray(point)) continue;
    ['Y', 'Z'].forEach((axis, k) => {
      const isUncertain = valueAt(point, [k, 'plusMinus']) !== undefined;
      (isUncertain ? uncertain : exact).push(name + axis);
    });
  }
  return { uncertain, exact };
}

function triangleFindings(triangle: readonly (readonly number[])[], size: number, at: Place): Finding[] {
  if (triangle.length !== size) {
    return [found(at, 'rowsNotOfCoordinates', { rows: triangle.length, required: size })];
  }
  const uneven = triangle.flatMap((row, k): Finding[] =>
    row.length === k
      ? []
      : [found([...at, k], 'rowNotOfCoordinatesBefore', { count: row.length, required: k })],
  );
  // Numbers out of their range are told as such.
  if (uneven.length > 0 || triangle.some((row) => row.some((rho) => !(Math.abs(rho) <= 1)))) return uneven;
  if (choleskyColumns(correlationMatrix(triangle, size)) !== null) return [];
  return [found(at, 'notCorrelations')];
}
