// A point whose x is wrong spoils all distances from it, and no single reading can be blamed. So where several readings are suspected all
// distances of one point are left out at a time: if the rest then agrees, that point is named.

import { chiSquareAbove } from '../numerics/chi-square.ts';
import { certaintyOf, tried } from './estimate.ts';
import type { Layout } from './layout.ts';
import type { Reading } from './readings.ts';
import { UNLIKELY } from './result.ts';

/** One distance alone is a misreading. */
const FEWEST = 2;

/** Points without whose distances all other readings agree. */
export function foreAftSuspects(
  layout: Layout,
  readings: readonly Reading[],
  unknowns: readonly number[],
): string[] {
  return [...layout.stations.keys()].filter((name) => {
    const isItsDistance = ({ kind, points }: Reading) => kind === 'distances' && points.includes(name);
    if (readings.filter(isItsDistance).length < FEWEST) return false;
    const others = readings.filter((reading) => !isItsDistance(reading));
    const { chiSquare, unknowns: there } = tried(layout, others, unknowns);
    const { degreesOfFreedom } = certaintyOf(layout, others, there);
    return (
      chiSquare !== null && degreesOfFreedom > 0 && chiSquareAbove(chiSquare, degreesOfFreedom) >= UNLIKELY
    );
  });
}
