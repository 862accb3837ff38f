// Measures computed a second time, from the places of the points alone, with elementary geometry.

import type { CheckedDrawing, Measure, Point } from '../linkage/index.ts';
import { isReversible, lineThrough, partsOf } from './joints.ts';
import { direction, distance, type Places, pairs } from './plane.ts';

/** Largest distance between two points of one body, or the ends of a joint with a direction; without those, of any two points. */
export function sizeOf(drawing: CheckedDrawing): number {
  const { points } = drawing;
  const lines = partsOf(drawing).map((part) => lineThrough(drawing, part));
  const all = lines.length > 0 ? lines : pairs(Object.keys(points));
  return Math.max(0, ...all.map(([a, b]) => distance(points[a], points[b])));
}

/**
 * Distances between points, and turns of all parts: measures that do not depend on where the drawing lies. Not the distance
 * of points drawn in one place: it has no rate there.
 */
export function intrinsic(drawing: CheckedDrawing): Measure[] {
  const { points } = drawing;
  const lengths = pairs(Object.keys(points)).filter(([a, b]) => distance(points[a], points[b]) > 0);
  return [
    ...lengths.map((length): Measure => ({ length })),
    ...partsOf(drawing).map((turn): Measure => ({ turn })),
  ];
}

/** Every measure that a law reads when it looks at all. */
export function everything(drawing: CheckedDrawing, driver: Measure): Measure[] {
  return [driver, ...intrinsic(drawing), ...coordinates(drawing)];
}

/** Both coordinates of every point. */
export function coordinates({ points }: CheckedDrawing): Measure[] {
  return Object.keys(points).flatMap((name): Measure[] => [{ x: name }, { y: name }]);
}

/** Whether a measure is in radians; if not, it is in the drawing's unit. */
export function isAngle(measure: Measure): boolean {
  return 'turn' in measure || 'angle' in measure;
}

/** Whether a measure is a coordinate of a point. */
export function isCoordinate(measure: Measure): boolean {
  return 'x' in measure || 'y' in measure;
}

/** What a measure is relative to, by name; null for the ground. */
export function frameOf(measure: Measure): string | null {
  return ('relativeTo' in measure ? measure.relativeTo : undefined) ?? null;
}

/** A measure as drawn, where the body that it is relative to has not moved yet. */
export function drawnValue(measure: Measure, drawing: CheckedDrawing): number {
  return groundValue(measure, drawing.points, drawing);
}

/** Whether a measure goes by the direction of a joint, known up to half a turn. */
export function byJoint(measure: Measure, drawing: CheckedDrawing): boolean {
  return [frameOf(measure), 'turn' in measure ? measure.turn : null].some(
    (part) => part !== null && isReversible(drawing, part),
  );
}

/**
 * A measure, from the places of the points; angles up to whole turns, half ones where a joint's direction is in it; null for
 * a coordinate relative to that.
 */
export function measured(measure: Measure, places: Places, drawing: CheckedDrawing): number | null {
  const from = frameOf(measure);
  if (from === null) return groundValue(measure, places, drawing);
  if (!isAngle(measure) && byJoint(measure, drawing)) return null;
  const [a, b] = lineThrough(drawing, from);
  const turn = direction(places, [a, b]) - direction(drawing.points, [a, b]);
  if (isAngle(measure)) return groundValue(measure, places, drawing) - turn;
  // Everything is brought back with the body: about its point a, by its turn, to where a was drawn.
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [[ax, ay], [ox, oy]] = [places[a], drawing.points[a]];
  const back = ([x, y]: Point): Point => [ox + c * (x - ax) + s * (y - ay), oy - s * (x - ax) + c * (y - ay)];
  const moved = Object.entries(places).map(([name, at]) => [name, back(at)] as const);
  return groundValue(measure, Object.fromEntries(moved), drawing);
}

/** A measure relative to the ground. */
function groundValue(measure: Measure, places: Places, drawing: CheckedDrawing): number {
  if ('x' in measure) return places[measure.x][0];
  if ('y' in measure) return places[measure.y][1];
  if ('length' in measure) {
    const [a, b] = measure.length;
    return Math.hypot(distance(places[a], places[b]), measure.offset ?? 0);
  }
  if ('angle' in measure) return direction(places, measure.angle);
  const line = lineThrough(drawing, measure.turn);
  return direction(places, line) - direction(drawing.points, line);
}

/** The lines whose directions a measure is made of. */
export function linesOf(measure: Measure, drawing: CheckedDrawing): (readonly [string, string])[] {
  const from = frameOf(measure);
  return [
    ...('angle' in measure ? [measure.angle] : []),
    ...('turn' in measure ? [lineThrough(drawing, measure.turn)] : []),
    ...(from === null ? [] : [lineThrough(drawing, from)]),
  ];
}
