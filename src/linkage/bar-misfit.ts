// By how much must one bar change length for the rest of the linkage to move? Remove the bar, trace the rest, and measure how far the
// distance between its joints varies. Where that is little, the bar is redundant but for the rounding of its drawing.

import { InputError } from '../errors/input-error.ts';
import { distance } from '../numerics/plane.ts';
import { jointsOf, withoutBody } from './body-joints.ts';
import type { Drawing } from './drawing.ts';
import { extremes } from './extremes.ts';
import { layPath } from './lay-path.ts';
import { bindMeasure, type Measure } from './measure.ts';
import { valueAt } from './measure-series.ts';
import { taylorExpansion } from './series.ts';
import { compile, type System } from './system.ts';

/** How the rest is moved: as `TraceOptions`; default the whole of its motion, by arc length. */
export interface MisfitOptions {
  readonly driver?: Measure;
  readonly from?: number;
  readonly to?: number;
}

/** The drawing that a system was compiled from. */
export function drawingOf({ structure, places }: System): Drawing {
  const { names, drawn } = structure;
  return { ...drawn, points: Object.fromEntries(names.map((name, p) => [name, [places[p].x, places[p].y]])) };
}

/**
 * How far the length of a bar between two joints would have to change for the rest to move; null if the body is no such bar, or the
 * rest has not exactly one degree of freedom without it.
 */
export function barMisfit(drawing: Drawing, body: string, options: MisfitOptions = {}): number | null {
  if (!(body in drawing.bodies)) return null;
  const joints = jointsOf(drawing, body);
  if (joints.length !== 2) return null;
  const { rest } = withoutBody(drawing, body, joints);
  try {
    return misfitOf(rest, [joints[0], joints[1]], options);
  } catch (error) {
    // What drives, or another joint, may have gone with the body.
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Bars without which a linkage would move, and the misfit of each, smallest first. */
export function barMisfits(drawing: Drawing): { body: string; misfit: number }[] {
  return Object.keys(drawing.bodies)
    .flatMap((body) => {
      const misfit = barMisfit(drawing, body);
      return misfit === null ? [] : [{ body, misfit }];
    })
    .sort((a, b) => a.misfit - b.misfit);
}

function misfitOf(rest: Drawing, joints: readonly [string, string], options: MisfitOptions): number | null {
  const { driver, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = options;
  const system = compile(rest);
  const measure = bindMeasure(system, { length: joints }, 'bar');
  const bound = driver === undefined ? null : bindMeasure(system, driver, 'driver');
  const path = layPath(taylorExpansion(system), { measure: bound, from, to, tolerance: 0 });
  if ('fault' in path) return null;
  const { pieces } = path;
  const last = pieces[pieces.length - 1];
  const drawn = distance(rest.points[joints[0]], rest.points[joints[1]]);
  const lengths = [
    valueAt(measure, pieces[0], pieces[0].lo),
    valueAt(measure, last, last.hi),
    ...extremes(path, measure).map(({ value }) => value),
  ];
  return Math.max(...lengths.map((length) => Math.abs(length - drawn)));
}
