// A bar with a new length: without the bar the linkage has one more degree of freedom. With one coordinate fixed, the distance of its
// joints drives the rest from the drawn length to the target. The pose reached is the new drawing.

import { type Diagnostic, fault, show, unknownName, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { carried } from '../numerics/plane.ts';
import { jointsOf, withoutBody } from './body-joints.ts';
import { type CheckedDrawing, checkDrawing, type Drawing } from './drawing.ts';
import { FIXED, type FixedCoordinate, isFixedCoordinate } from './joints.ts';
import { kindFaults } from './kinds.ts';
import { trace } from './motion.ts';

/** A drawing with changed lengths, and for each its target minus what was reached, in the drawing's unit. */
export interface LengthResult<
  P extends string = string,
  B extends string = string,
  T extends string = string,
  L extends string = string,
> {
  readonly drawing: CheckedDrawing<P, B, T>;
  readonly shortfall: { readonly [Name in L]: number };
}

/**
 * Changes the lengths of bodies between their two joints, one after the other, from the drawn pose, with one coordinate fixed (as a
 * rule that of the driver). Further points of such a body stay where they are relative to its first joint.
 *
 * If a length cannot be reached, the linkage stops at the nearest one, and `shortfall` gives target minus reached (positive: too short).
 *
 * @throws InputError for unknown bodies, lengths that are not positive, bodies without exactly two joints, and a faulty or missing
 * fixed coordinate.
 */
export function withLengths<P extends string, B extends string, L extends B, T extends string = never>(
  drawing: Drawing<P, B, T>,
  lengths: { readonly [Name in L]: number },
  fixed: FixedCoordinate<NoInfer<P>>,
): LengthResult<P, B, T, L>;
export function withLengths(
  drawing: Drawing,
  lengths: Readonly<Record<string, number>>,
  fixed: FixedCoordinate,
): LengthResult {
  checkDrawing(drawing);
  refuse('lengths', [...faultsOf(drawing, lengths), ...fixedFaults(drawing, fixed)]);
  const shortfall: Record<string, number> = {};
  let current = drawing;
  for (const [body, target] of Object.entries(lengths)) {
    const [a, b] = jointsOf(drawing, body);
    const { rest, along } = withoutBody(current, body, [a, b]);
    const fixedCoordinates = [...(current.fixedCoordinates ?? []), fixed];
    const motion = trace({ ...rest, fixedCoordinates }, { driver: { length: [a, b] } });
    const reached = Math.min(motion.high.at, Math.max(motion.low.at, target));
    shortfall[body] = target - reached;
    const moved = motion.at(reached);
    const direction = motion.read({ angle: [a, b] });
    const turn = direction(reached).value - direction(motion.drawn).value;
    const pivot = current.points[a];
    for (const name of along) {
      moved[name] = carried(current.points[name], pivot, moved[a], [Math.cos(turn), Math.sin(turn)]);
    }
    const order = Object.keys(drawing.points).map((name) => [name, moved[name]] as const);
    current = { ...drawing, points: Object.fromEntries(order) };
  }
  return { drawing: current, shortfall };
}

function fixedFaults({ points }: Drawing, fixed: unknown): Diagnostic[] {
  const as = { part: 'fixedCoordinates', one: true };
  if (fixed === undefined) return [fault('partMissing', 'fixed', as)];
  if (!isFixedCoordinate(fixed)) return [fault('partNotAsDrawn', 'fixed', { ...as, got: show(fixed) })];
  const [axis, name] = 'x' in fixed ? ['x', fixed.x] : ['y', fixed.y];
  return [
    ...kindFaults('measure', fixed, FIXED, 'fixed'),
    ...(name in points ? [] : [unknownName(`fixed.${axis}`, 'point', name, Object.keys(points))]),
  ];
}

function faultsOf(drawing: Drawing, lengths: Readonly<Record<string, number>>): Diagnostic[] {
  const faults = unknownOptions(lengths, Object.keys(drawing.bodies));
  if (faults.some(({ code }) => code === 'notOptions')) return faults;
  return Object.entries(lengths).flatMap(([body, target]): Diagnostic[] => {
    if (!(body in drawing.bodies)) {
      return [unknownName(body, 'body', body, Object.keys(drawing.bodies))];
    }
    const faults: Diagnostic[] = [];
    if (!(Number.isFinite(target) && target > 0)) {
      faults.push(fault('notALength', body, { got: show(target) }));
    }
    const joints = jointsOf(drawing, body);
    if (joints.length !== 2) {
      faults.push(fault('notBetweenTwoJoints', body, { count: joints.length, joints }));
    }
    return faults;
  });
}
