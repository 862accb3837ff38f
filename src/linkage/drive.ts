// Several drivers at once: each is moved in turn while the others are held. If one cannot make its full step, all steps are quartered
// (1, 4, 16, 64).

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { type CheckedDrawing, checkDrawing, type Drawing } from './drawing.ts';
import { holdMeasures } from './hold-measures.ts';
import { isRecord } from './joints.ts';
import { bindMeasure, type Measure, measureFaults } from './measure.ts';
import { drawnValue } from './measure-series.ts';
import { type Motion, trace } from './motion.ts';
import { compile } from './system.ts';

/** A driver and its target value, in the drawing's unit or radians. */
export interface Driver<P extends string = string, B extends string = string> {
  readonly driver: Measure<P, B>;
  readonly to: number;
}

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
}

/** Numbers of steps to try, in order. */
const STEPS = [1, 4, 16, 64];
/** What rounding may leave of a way, as a share of it. */
const ROUNDING = 1e-12;

/**
 * Moves a linkage until every driver has its target value; it has as many degrees of freedom as drivers. Angles and turns are
 * continuous from the drawn pose.
 *
 * If a driver cannot get there, the linkage stops as far as it goes in small steps, and `shortfall` gives target minus reached.
 *
 * @throws InputError for a faulty drawing or driver, and when the drivers do not determine the motion.
 */
export function drive<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  drivers: readonly Driver<NoInfer<P>, NoInfer<B | T>>[],
): DriveResult<P, B, T>;
export function drive(drawing: Drawing, drivers: readonly Driver[]): DriveResult {
  checkDrawing(drawing);
  refuse('drivers', faultsOf(drivers));
  const ways = drivers.map(({ to }, k) => to - moved(drawing, drivers, k, 0).drawn);
  let driven: DriveResult = { drawing, shortfall: ways };
  for (const steps of STEPS) {
    driven = inSteps(drawing, drivers, ways, steps);
    if (driven.shortfall.every((rest) => rest === 0)) break;
  }
  return driven;
}

function inSteps(
  drawing: CheckedDrawing,
  drivers: readonly Driver[],
  ways: readonly number[],
  steps: number,
): DriveResult {
  let current = drawing;
  const done = ways.map(() => 0);
  for (let step = 1; step <= steps; step++) {
    for (let k = 0; k < drivers.length; k++) {
      const rest = (ways[k] * step) / steps - done[k];
      if (Math.abs(rest) <= ROUNDING * Math.abs(ways[k])) continue;
      const motion = moved(current, drivers, k, rest);
      const target = motion.drawn + rest;
      const reached = Math.min(motion.high.at, Math.max(motion.low.at, target));
      current = { ...current, points: motion.at(reached) };
      done[k] += reached - motion.drawn;
      if (reached !== target) return { drawing: current, shortfall: shortfallOf(ways, done) };
    }
  }
  return { drawing: current, shortfall: shortfallOf(ways, done) };
}

function shortfallOf(ways: readonly number[], done: readonly number[]): number[] {
  return ways.map((way, k) => {
    const rest = way - done[k];
    return Math.abs(rest) <= ROUNDING * Math.abs(way) * STEPS[STEPS.length - 1] ? 0 : rest;
  });
}

/** The motion of one driver by part of its way and no farther, with the others held. */
function moved(drawing: Drawing, drivers: readonly Driver[], k: number, by: number): Motion {
  const { driver } = drivers[k];
  const hold = drivers.filter((_, i) => i !== k).map((other) => other.driver);
  const drawn = drawnValue(bindMeasure(compile(holdMeasures(drawing, hold)), driver, 'driver'));
  return trace(drawing, { driver, hold, from: drawn + Math.min(by, 0), to: drawn + Math.max(by, 0) });
}

function faultsOf(drivers: unknown): Diagnostic[] {
  if (!Array.isArray(drivers) || drivers.length === 0) {
    return [fault('noDriver', '', { got: show(drivers) })];
  }
  return drivers.flatMap((one: unknown, k): Diagnostic[] => {
    const path = `[${k}]`;
    if (!isRecord(one)) return [fault('notADriver', path, { got: show(one) })];
    const faults = [
      ...unknownOptions(one, ['driver', 'to'], path),
      ...measureFaults(one.driver, `${path}.driver`),
    ];
    if (!Number.isFinite(one.to)) faults.push(fault('notFinite', `${path}.to`, { got: show(one.to) }));
    return faults;
  });
}
