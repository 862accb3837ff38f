import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { strutOf } from '../../corner/corner.ts';

/** What the two ends are called: that on the chassis, and the one that moves. */
export function endNames({
  input: { corner },
}: Pick<AxleSizing, 'input'>): readonly [chassis: string, moving: string] {
  if (strutOf(corner) !== null) return ['top mount', 'upright end'];
  return ['chassis end', 'rocker' in corner ? 'rocker end' : 'wheel end'];
}
