// A damper as it was valved. Its low-speed coefficients are given, or are the slope of the first row of its force table, F / v.

import type { OrderedFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';

/** Valving as it was bought. */
export type Valving = NonNullable<Certain<OrderedFile>['valving']>;

/** Low-speed damping at the shaft, N·s/m. */
export interface LowSpeedDamping {
  readonly compression: number;
  readonly rebound: number;
}

/** Low-speed damping of a valving; null where none was bought. */
export function boughtDamping(valving: Valving | undefined): LowSpeedDamping | null {
  if (valving === undefined) return null;
  const { compressionDamping, reboundDamping, forceTable } = valving;
  if (compressionDamping !== undefined && reboundDamping !== undefined) {
    return { compression: compressionDamping, rebound: reboundDamping };
  }
  if (forceTable === undefined) return null;
  const [speed, compression, rebound] = forceTable[0];
  return { compression: (1000 * compression) / speed, rebound: (1000 * rebound) / speed };
}
