// Several drivers at once: each in turn is moved by its share while the others are held. Where one of them can't go its
// whole way before the next has moved, the ways are cut into ever smaller steps.

import { InputError, type Issue, show, throwIfAny } from '../errors.ts';
import { type CheckedDrawing, checkDrawing, type Drawing } from './drawing.ts';
import { holding } from './hold.ts';
import { bindMeasure, type Measure } from './measure.ts';
import { drawnValue } from './measure-series.ts';
import { type Motion, trace } from './motion.ts';
import { compile } from './system.ts';

/** A driver and the value that it is to have, in the drawing's unit or radians. */
export interface Driver<P extends string = string, B extends string = string> {
  readonly driver: Measure<P, B>;
  readonly to: number;
}

/** A linkage driven to a new pose. */
export interface Driven<P extends string = string, B extends string = string, T extends string = string> {
  /** The drawing in its new pose: it can be traced, driven on, or drawn. */
  readonly drawing: CheckedDrawing<P, B, T>;
  /** What each driver falls short of its value, signed as the value minus what was reached; 0 where it was reached. */
  readonly missing: readonly number[];
}

/** Numbers of steps that are tried one after the other. */
const STEPS = [1, 4, 16, 64];
/** What rounding may leave of a way, as a share of it. */
const ROUNDING = 1e-12;

/**
 * Moves a linkage of as many freedoms as there are drivers until each has its value. Angles and turns count from the
 * drawn pose continuously.
 *
 * Where that can't be, the linkage is left as far on the way as it goes in small steps, and `missing` says what is wanting.
 *
 * @throws InputError for a faulty drawing or driver, and when the drivers do not determine the motion.
 */
export function drive<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  drivers: readonly Driver<NoInfer<P>, NoInfer<B | T>>[],
): Driven<P, B, T>;
export function drive(drawing: Drawing, drivers: readonly Driver[]): Driven {
  checkDrawing(drawing);
  throwIfAny('drivers', faults(drivers));
  const ways = drivers.map(({ to }, k) => to - moved(drawing, drivers, k, 0).drawn);
  let driven: Driven = { drawing, missing: ways };
  for (const steps of STEPS) {
    driven = inSteps(drawing, drivers, ways, steps);
    if (driven.missing.every((rest) => rest === 0)) break;
  }
  return driven;
}

function inSteps(
  drawing: CheckedDrawing,
  drivers: readonly Driver[],
  ways: readonly number[],
  steps: number,
): Driven {
  let current = drawing;
  const done = ways.map(() => 0);
  for (let step = 1; step <= steps; step++) {
    for (let k = 0; k < drivers.length; k++) {
      const rest = (ways[k] * step) / steps - done[k];
      if (Math.abs(rest) <= ROUNDING * Math.abs(ways[k])) continue;
      const motion = moved(current, drivers, k, rest);
      const wanted = motion.drawn + rest;
      const reached = Math.min(motion.high.at, Math.max(motion.low.at, wanted));
      const pose = motion.at(reached);
      const order = Object.keys(current.points).map((name) => [name, pose[name]] as const);
      current = { ...current, points: Object.fromEntries(order) };
      done[k] += reached - motion.drawn;
      if (reached !== wanted) return { drawing: current, missing: missingOf(ways, done) };
    }
  }
  return { drawing: current, missing: missingOf(ways, done) };
}

function missingOf(ways: readonly number[], done: readonly number[]): number[] {
  return ways.map((way, k) => {
    const rest = way - done[k];
    return Math.abs(rest) <= ROUNDING * Math.abs(way) * STEPS[STEPS.length - 1] ? 0 : rest;
  });
}

/** The motion of one driver by a part of its way, no farther, while the others are held. */
function moved(drawing: Drawing, drivers: readonly Driver[], k: number, by: number): Motion {
  const { driver } = drivers[k];
  const hold = drivers.filter((_, i) => i !== k).map((other) => other.driver);
  const drawn = drawnValue(bindMeasure(compile(holding(drawing, hold)), driver, 'driver'));
  return trace(drawing, { driver, hold, from: drawn + Math.min(by, 0), to: drawn + Math.max(by, 0) });
}

function faults(drivers: readonly Driver[]): Issue[] {
  if (!Array.isArray(drivers) || drivers.length === 0) {
    throw new InputError('drivers', [
      {
        path: '',
        problem: 'no driver',
        got: show(drivers),
        allowed: '[{ driver: { turn: "crank" }, to: 1 }, ...]',
      },
    ]);
  }
  return drivers.flatMap(({ to }, k) =>
    Number.isFinite(to)
      ? []
      : [{ path: `[${k}].to`, problem: 'not a value', got: show(to), allowed: 'a finite number' }],
  );
}
