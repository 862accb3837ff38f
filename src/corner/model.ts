import type { Drawing } from '../linkage/drawing.ts';
import type { Measure } from '../linkage/measure.ts';

/** A drawing of a corner (`x` is y of the car, `y` is z, mm) with the parts that its points play. */
export interface CornerModel {
  readonly drawing: Drawing;
  /** Body that carries the wheel. */
  readonly upright: string;
  readonly wheelCentre: string;
  readonly contactPatch: string;
  /** End eyes of the shock, and their constant fore-aft distance in mm. */
  readonly shock: { readonly outer: string; readonly inner: string; readonly offset: number };
  /** Ball joints that the wheel steers about. */
  readonly kingpin: { readonly lower: string; readonly upper: string };
  /** Camber as drawn, degrees, top outboard positive. */
  readonly camber: number;
  /** What was given to say where the wheel stands; of camber and contact patch the other follows. */
  readonly standsBy: 'camber' | 'contactPatch' | 'both';
  /** Further angles to report, by column name; degrees in the columns. */
  readonly angles: Readonly<Record<string, Measure>>;
}
