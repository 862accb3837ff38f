import type { AxleLinkage } from '../../axle/axle.ts';
import type { Axle } from '../../corner/axles.ts';
import type { DocumentCorner } from '../../corner/read-corner.ts';
import type { CarSizingFile, CornerSizingFile, LimitOptions, OrderedFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import type { AsMade } from './as-made.ts';

/** What sizes a corner's coilover, as numbers; everything is optional, since a corner without `sizing` has none of it. */
export type CornerSizing = Partial<Certain<CornerSizingFile>>;

/** What sizes the coilover of one axle's corner: numbers in the library's units. */
export interface AxleInputs {
  readonly axle: Axle;
  /** Its corner as the document has it. */
  readonly input: DocumentCorner;
  readonly sizing: CornerSizing;
  /** What ends the travel, as `limits` takes it. */
  readonly limits: Omit<LimitOptions, 'notes'>;
  /** Sprung mass given for the corner itself, kg: taken where the car has no masses. */
  readonly sprungMass?: number | undefined;
  /** Both of its wheels, and what is between them. */
  readonly linkage: AxleLinkage;
  /** Roll stiffness of the bar that the document draws, N·m/deg, both wheels at design ride height; null without one. */
  readonly drawnBarStiffness: number | null;
  /** What was bought; as far as it replaces limits and sizing it stands there too. */
  readonly ordered?: Certain<OrderedFile> | undefined;
  /** Steps in which spring rates can be had, N/mm: as given, or common ones in the units of the document. */
  readonly rateStep: number;
  /** Shaft speeds of the force table, mm/s: as given, or usual ones in the units of the document. */
  readonly shaftSpeeds: readonly number[];
  /** By how much its coilover is off from the order. */
  readonly made: AsMade;
}

/** What sizes the coilovers of a car. */
export interface CarInputs {
  readonly car: Certain<CarSizingFile>;
  /** The axles that the document describes, front first. */
  readonly axles: readonly AxleInputs[];
}
