// Straight parts of ropes, and lengths that ratios couple, are t_0 + q long (measure-rows.ts). They end where that comes to nothing: beyond,
// the rope would run backwards.

import { firstRoot } from '../numerics/polynomial.ts';
import type { Series } from './series.ts';
import type { System } from './system.ts';

/** Where the first of them is used up on the way to `end` in a piece, and the row that defines it; null if none is. */
export function usedUp(
  { structure, scale }: System,
  { z, order }: Series,
  way: 1 | -1,
  end: number,
): { x: number; status: 'locked'; row: number } | null {
  let x = end;
  let first = -1;
  for (const row of structure.straight) {
    const measure = structure.rows[row].measures?.[0][0] ?? 0;
    const from = (2 * structure.freePoints.length + measure) * (order + 1);
    const t = z.slice(from, from + order + 1);
    // Its direction is drawn as long as it is.
    t[0] += scale[row];
    const root = firstRoot(t, way, x);
    if (root === null) continue;
    x = root;
    first = row;
  }
  return first < 0 ? null : { x, status: 'locked', row: first };
}
