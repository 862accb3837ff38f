// What a bar would have to give: without it the rest moves, and the distance between its two joints changes. Where that is
// little, the bar is redundant but for the rounding of its drawing.

import { InputError } from '../errors/input-error.ts';
import type { Drawing } from './drawing.ts';
import { extremes } from './extremes.ts';
import { jointsOf } from './joints.ts';
import { layPath } from './lay-path.ts';
import { bindMeasure, type Measure } from './measure.ts';
import { valueAt } from './measure-series.ts';
import { taylorExpansion } from './series.ts';
import { compile, type System } from './system.ts';

/** How the rest is moved: as `TraceOptions`, without limits and driver round the whole of its motion. */
export interface Way {
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
 * By how much the length of a bar between two joints would have to give for the rest to move along a way; null when
 * the body is no such bar, or the rest has not one freedom without it.
 */
export function giveOf(drawing: Drawing, body: string, way: Way = {}): number | null {
  if (!(body in drawing.bodies)) return null;
  const joints = jointsOf(drawing, body);
  if (joints.length !== 2) return null;
  const { [body]: members, ...bodies } = drawing.bodies;
  const along = members.filter((name) => !joints.includes(name));
  const points = Object.fromEntries(Object.entries(drawing.points).filter(([name]) => !along.includes(name)));
  try {
    return giveIn({ ...drawing, points, bodies }, [joints[0], joints[1]], way);
  } catch (error) {
    // What drives, or another joint, may have gone with the body.
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** Bars without which a linkage would move, and what each would have to give, the least first. */
export function tightBars(drawing: Drawing): { body: string; by: number }[] {
  return Object.keys(drawing.bodies)
    .flatMap((body) => {
      const by = giveOf(drawing, body);
      return by === null ? [] : [{ body, by }];
    })
    .sort((a, b) => a.by - b.by);
}

function giveIn(rest: Drawing, joints: readonly [string, string], way: Way): number | null {
  const { driver, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = way;
  const system = compile(rest);
  const measure = bindMeasure(system, { length: joints }, 'bar');
  const by = driver === undefined ? null : bindMeasure(system, driver, 'driver');
  const path = layPath(taylorExpansion(system), { measure: by, from, to, tolerance: 0 });
  if ('fault' in path) return null;
  const { pieces } = path;
  const last = pieces[pieces.length - 1];
  const [ax, ay] = rest.points[joints[0]];
  const [bx, by_] = rest.points[joints[1]];
  const drawn = Math.hypot(bx - ax, by_ - ay);
  const lengths = [
    valueAt(measure, pieces[0], pieces[0].lo),
    valueAt(measure, last, last.hi),
    ...extremes(path, measure).map(({ value }) => value),
  ];
  return Math.max(...lengths.map((length) => Math.abs(length - drawn)));
}
