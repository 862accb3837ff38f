import { type Diagnostic, fault, unknownName } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/linkage.ts';
import { between, carried, mirrored, turnBetween, type Vector } from '../numerics/plane.ts';
import { jointsOf } from './body-joints.ts';
import { type CheckedDrawing, checkDrawing, type Drawing, type Point, samePlace } from './drawing.ts';
import { jointsIn } from './joints.ts';

/**
 * The other assembly mode of two bodies: the point that joins them is mirrored in the line between their other joints, and their
 * further points go along. A point of one body that slides on a line goes along it, to the other side of the body's other joint.
 *
 * @throws InputError for a faulty drawing, and for a point that does neither join two moving bodies, nor slide on one, with one other
 * joint each.
 */
export function otherAssemblyMode<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  point: NoInfer<P>,
): CheckedDrawing<P, B, T>;
export function otherAssemblyMode(drawing: Drawing, point: string): CheckedDrawing {
  checkDrawing(drawing);
  const carriers = Object.keys(drawing.bodies).filter((body) => drawing.bodies[body].includes(point));
  const slide = carriers.length === 1 ? slideOf(drawing, point) : null;
  refuse('assembly', faultsOf(drawing, point, carriers, slide !== null));
  const pivots = carriers.map((body) => otherJoints(drawing, body, point)[0]);
  const { points } = drawing;
  const a = points[pivots[0]];
  const c = slide === null ? points[pivots[1]] : ([a[0] - slide[1], a[1] + slide[0]] as const);
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

/** Along the line on which a point slides; null if it does not, or is held otherwise. */
function slideOf(drawing: Drawing, point: string): Vector | null {
  const { points, sliders = {}, fixedCoordinates = [] } = drawing;
  const [joint, more] = jointsIn(drawing).filter((one) => one.points.includes(point));
  if (joint === undefined || more !== undefined) return null;
  const { kind, name } = joint.at;
  if (kind === 'fixedCoordinates') return 'x' in fixedCoordinates[Number(name)] ? [0, 1] : [1, 0];
  if (kind !== 'sliders' || sliders[name].point !== point) return null;
  const [from, to] = sliders[name].on;
  return between(points[from], points[to]);
}

function faultsOf(
  drawing: Drawing,
  point: string,
  carriers: readonly string[],
  slides: boolean,
): Diagnostic[] {
  if (typeof point !== 'string' || !Object.hasOwn(drawing.points, point)) {
    return [unknownName('', 'point', point, Object.keys(drawing.points))];
  }
  if (
    drawing.ground.includes(point) ||
    (!slides && (carriers.length !== 2 || jointsIn(drawing).some(({ points }) => points.includes(point))))
  ) {
    return [fault('notAPinOfTwoBodies', point, { bodies: carriers.length === 0 ? null : carriers })];
  }
  return carriers.flatMap((body): Diagnostic[] => {
    const joints = otherJoints(drawing, body, point);
    if (joints.length === 1) return [];
    return [fault('notAtOneOtherJoint', `bodies.${body}`, { joints: joints.length === 0 ? null : joints })];
  });
}
