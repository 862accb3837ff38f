// Several drivers at once: each goes to its target in proportion to the others, along one parameter (drivers.ts). A new pose is the last
// one of that motion.

import { unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { type CheckedDrawing, checkDrawing, type Drawing } from './drawing.ts';
import { driverFaults } from './drivers.ts';
import type { Measure } from './measure.ts';
import { type TraceOptions, trace } from './motion.ts';
import type { MotionEnd } from './path.ts';

/** A driver and its target value, in the drawing's unit or radians. */
export interface Driver<P extends string = string, B extends string = string> {
  readonly driver: Measure<P, B>;
  readonly to: number;
}

/** What else is said of a linkage that is driven. */
export type DriveOptions<P extends string = string, B extends string = string> = Pick<
  TraceOptions<P, B>,
  'hold' | 'branch' | 'tolerance'
>;

/** A linkage driven to a new pose. */
export interface DriveResult<
  P extends string = string,
  B extends string = string,
  T extends string = string,
> {
  /** The drawing in its new pose: it can be traced, driven on, or drawn. */
  readonly drawing: CheckedDrawing<P, B, T>;
  /** Target minus reached for each driver, in its unit; 0 where the target was reached. */
  readonly shortfall: readonly number[];
  /** How the way to the targets ended, from 0 to 1: at a `deadPoint` with the driver that cannot go on, if it is one (`drivers[1]`). */
  readonly end: MotionEnd;
}

/**
 * Moves a linkage until every driver has its target value; it has as many degrees of freedom as drivers. All drivers go in proportion.
 * Angles and turns are continuous from the drawn pose.
 *
 * If they cannot get there, the linkage stops as far as it goes, and `shortfall` gives target minus reached.
 *
 * Measures in `hold` stay as drawn; `branch` and `tolerance` are those of `trace`.
 *
 * @throws InputError for a faulty drawing, driver or option, and when the drivers do not determine the motion.
 */
export function drive<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  drivers: readonly Driver<NoInfer<P>, NoInfer<B | T>>[],
  options?: DriveOptions<NoInfer<P>, NoInfer<B | T>>,
): DriveResult<P, B, T>;
export function drive(drawing: Drawing, drivers: readonly Driver[], options: DriveOptions = {}): DriveResult {
  checkDrawing(drawing);
  refuse('drivers', driverFaults(drivers, '', ['driver', 'to']));
  refuse('drive options', unknownOptions(options, ['hold', 'branch', 'tolerance']));
  const { high, at, read } = trace(drawing, { ...options, drivers });
  const isThere = high.status === 'reached';
  return {
    drawing: { ...drawing, points: at(high.at) },
    shortfall: drivers.map(({ driver, to }) => (isThere ? 0 : to - read(driver)(high.at).value)),
    end: high,
  };
}
