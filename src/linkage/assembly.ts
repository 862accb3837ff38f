import { type Diagnostic, fault, unknownName } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/linkage.ts';
import { between, carried, mirrored, turnBetween } from '../numerics/plane.ts';
import { jointsOf } from './body-joints.ts';
import { type CheckedDrawing, checkDrawing, type Drawing, type Point, samePlace } from './drawing.ts';
import { jointsIn } from './joints.ts';

/**
 * The other assembly mode of two bodies: the point that joins them is mirrored in the line between their other joints, and their
 * further points go along.
 *
 * @throws InputError for a faulty drawing, and for a point that does not join two moving bodies with one other joint each.
 */
export function otherAssemblyMode<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  point: NoInfer<P>,
): CheckedDrawing<P, B, T>;
export function otherAssemblyMode(drawing: Drawing, point: string): CheckedDrawing {
  checkDrawing(drawing);
  const carriers = Object.keys(drawing.bodies).filter((body) => drawing.bodies[body].includes(point));
  refuse('assembly', faultsOf(drawing, point, carriers));
  const pivots = carriers.map((body) => otherJoints(drawing, body, point)[0]);
  const { points } = drawing;
  const [a, c] = pivots.map((name) => points[name]);
  const from = points[point];
  if (samePlace(a, c)) throw refusal('assembly', [fault('noOtherAssembly', '')]);
  const to = mirrored(from, a, c);
  const moved: Record<string, Point> = { ...points };
  carriers.forEach((body, k) => {
    const pivot = points[pivots[k]];
    const turn = turnBetween(between(pivot, from), between(pivot, to));
    for (const name of drawing.bodies[body]) moved[name] = carried(points[name], pivot, pivot, turn);
  });
  return { ...drawing, points: { ...moved, [point]: to } };
}

function otherJoints(drawing: Drawing, body: string, point: string): string[] {
  return jointsOf(drawing, body).filter((name) => name !== point);
}

function faultsOf(drawing: Drawing, point: string, carriers: readonly string[]): Diagnostic[] {
  if (!(point in drawing.points)) {
    return [unknownName('', 'point', point, Object.keys(drawing.points))];
  }
  if (
    carriers.length !== 2 ||
    drawing.ground.includes(point) ||
    jointsIn(drawing).some(({ points }) => points.includes(point))
  ) {
    return [fault('notAPinOfTwoBodies', point, { bodies: carriers.length === 0 ? null : carriers })];
  }
  return carriers.flatMap((body): Diagnostic[] => {
    const joints = otherJoints(drawing, body, point);
    if (joints.length === 1) return [];
    return [fault('notAtOneOtherJoint', `bodies.${body}`, { joints: joints.length === 0 ? null : joints })];
  });
}
