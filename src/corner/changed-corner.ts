// A corner drawn anew from a model whose coordinates have been moved (hardpoint-coordinates.ts): the same data with each
// point in its new place.

import type { Point } from '../linkage/drawing.ts';
import type { Corner, DrawnCorner } from './corner.ts';
import { KINDS } from './kinds.ts';
import type { CornerModel } from './model.ts';

/** The corner with points and camber of a model that was made from it. */
export function changedCorner(corner: Corner, { drawing, camber }: CornerModel): Corner {
  const points: Readonly<Record<string, Point>> = Object.fromEntries(
    Object.entries(drawing.points).map(([name, [y, z]]) => [name, Object.freeze([y, z] as const)]),
  );
  if (corner.kind === 'custom') {
    return Object.freeze({
      ...corner,
      drawing: Object.freeze({ ...drawing, points: Object.freeze(points) }),
      camber,
    });
  }
  const { points: names } = KINDS[corner.kind].input;
  const at = Object.fromEntries(Object.entries(names).map(([path, name]) => [path, points[name]]));
  return replaced(corner, { ...at, 'wheel.camber': camber }, []) as DrawnCorner;
}

/** Plain data with what has a new value at its path, frozen. */
function replaced(value: unknown, at: Readonly<Record<string, unknown>>, path: readonly string[]): unknown {
  const place = path.join('.');
  if (Object.hasOwn(at, place)) return at[place];
  if (typeof value !== 'object' || value === null) return value;
  const inner = (of: unknown, name: string | number) => replaced(of, at, [...path, String(name)]);
  if (Array.isArray(value)) return Object.freeze(value.map(inner));
  return Object.freeze(
    Object.fromEntries(Object.entries(value).map(([name, of]) => [name, inner(of, name)])),
  );
}
