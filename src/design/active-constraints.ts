import type { Diagnostic } from '../diagnostic.ts';
import { edgeOf } from '../numerics/box.ts';
import type { Margin } from './clearances.ts';
import type { CheckedDesign } from './options.ts';

/** mm up to which a clearance is used up. */
const USED_UP = 0.01;

/** What limits the design at x: coordinates at the edge of their boxes, and clearances that are used up or not kept. */
export function activeConstraints(
  { plan, boxes }: CheckedDesign,
  x: readonly number[],
  margins: readonly Margin[],
): Diagnostic[] {
  const edges = boxes.flatMap((box, i): Diagnostic[] => {
    const side = edgeOf(box, x[i]);
    if (side === null) return [];
    const { name: coordinate, point, axis } = plan.coordinates[i];
    const code = side === 'least' ? 'coordinateAtMin' : 'coordinateAtMax';
    const path = `mounts.${point}.${axis === 0 ? 'y' : 'z'}`;
    return [{ code, severity: 'note', path, values: { coordinate, at: box[side] } }];
  });
  const worst = new Map<string, Margin>();
  for (const margin of margins) {
    const key = `${margin.of} ${margin.to}`;
    const before = worst.get(key);
    if (before === undefined || margin.clearance.value < before.clearance.value) worst.set(key, margin);
  }
  const clearances = [...worst.values()].flatMap(({ of, to, clearance, distance, travel }): Diagnostic[] => {
    const { value } = clearance;
    if (value > USED_UP) return [];
    const values = { of, to, distance, travel };
    return [
      value < 0
        ? {
            code: 'clearanceShort',
            severity: 'conflict',
            path: 'clearances',
            values: { ...values, shortfall: -value },
          }
        : { code: 'clearanceUsedUp', severity: 'note', path: 'clearances', values },
    ];
  });
  return [...edges, ...clearances];
}
