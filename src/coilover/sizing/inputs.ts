import type { LimitsDocument } from '../../document/limits-schema.ts';
import type { CarSizingFile, CornerSizingFile } from '../../document/sizing-schema.ts';
import type { Certain } from '../../document/uncertain.ts';

/** What sizes the coilover of one axle's corner: numbers in the library's units. */
export interface AxleInputs {
  readonly sizing: Certain<CornerSizingFile>;
  /** What ends the travel, as `limits` takes it. */
  readonly limits: Omit<LimitsDocument, 'notes'>;
  /** Sprung mass given for the corner itself, kg: taken where the car has no masses. */
  readonly sprungMass?: number | undefined;
}

/** What sizes the coilovers of a car. */
export interface CarInputs {
  readonly car: Certain<CarSizingFile>;
  readonly front: AxleInputs;
  readonly rear?: AxleInputs;
}

/** Which axle of a car. */
export type Axle = 'front' | 'rear';
export const AXLES: readonly Axle[] = ['front', 'rear'];

/** An axle as a heading has it. */
export function axleName(axle: Axle): string {
  return axle === 'front' ? 'Front' : 'Rear';
}
