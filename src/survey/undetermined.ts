// What no reading fixes is a linear space of directions in which points can move together. It is used up direction by
// direction: the coordinate that moves most in what is left is to be read, and with it goes the direction along which it
// moves, N' N_c for the row N_c of that coordinate; all points that move along it hang on that reading.

import { coordinateOf, type Layout } from './layout.ts';

/** A reading that is missing, and the points that hang on it. */
export interface Missing {
  /** A height above the ground, or a lateral distance from the centreline. */
  readonly read: 'height' | 'lateral';
  readonly of: string;
  readonly points: readonly string[];
}

const AXES = ['lateral', 'height'] as const;

/** Share of a unit direction by which a coordinate that is fixed seems to move. */
const ROUNDING = 1e-6;

/** The readings that would fix what is open. */
export function missingReadings({ stations }: Layout, open: readonly (readonly number[])[]): Missing[] {
  const coordinates = [...stations.values()].flatMap(({ name, kind, forms }) =>
    forms.map((form, axis) => ({ name, kind, form, read: AXES[axis] })),
  );
  const movesAlong = (direction: readonly number[]) =>
    coordinates.map(({ form }) => coordinateOf(form, direction, true));
  const found: Missing[] = [];
  for (let left = open; left.length > 0; ) {
    const moves = left.map(movesAlong);
    const sizes = coordinates.map(({ kind }, c) =>
      kind === 'sought' ? Math.hypot(...moves.map((move) => move[c])) : 0,
    );
    // Of several that move alike the first in the document.
    const most = Math.max(...sizes);
    const c = sizes.findIndex((size) => size > (1 - ROUNDING) * most);
    const shares = moves.map((move) => move[c] / sizes[c]);
    const along = movesAlong(combined(left, shares));
    const { name, read } = coordinates[c];
    const points = [...stations.keys()].filter((point) =>
      coordinates.some((other, k) => other.name === point && Math.abs(along[k]) > ROUNDING),
    );
    found.push({ read, of: name, points });
    left = orthogonalTo(left, shares);
  }
  return found;
}

/** Whether a coordinate moves along some of the directions. */
export function isOpen(
  form: Parameters<typeof coordinateOf>[0],
  open: readonly (readonly number[])[],
): boolean {
  return open.some((direction) => Math.abs(coordinateOf(form, direction, true)) > ROUNDING);
}

function combined(vectors: readonly (readonly number[])[], shares: readonly number[]): number[] {
  return vectors[0].map((_, j) => vectors.reduce((sum, vector, k) => sum + shares[k] * vector[j], 0));
}

/**
 * The space of orthonormal vectors without one unit combination of them: turned by the reflection that takes the combination
 * to the vector of its largest share, which is then left out (A. S. Householder, 1958; from memory).
 */
function orthogonalTo(vectors: readonly (readonly number[])[], shares: readonly number[]): number[][] {
  const sizes = shares.map(Math.abs);
  const out = sizes.indexOf(Math.max(...sizes));
  const mirror = shares.map((share, k) => (k === out ? share + Math.sign(share || 1) : share));
  const square = mirror.reduce((sum, value) => sum + value * value, 0);
  return vectors.flatMap((_, i) => {
    if (i === out) return [];
    const row = mirror.map((value, k) => (k === i ? 1 : 0) - (2 * mirror[i] * value) / square);
    return [combined(vectors, row)];
  });
}
