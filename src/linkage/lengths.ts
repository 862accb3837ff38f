// A bar screwed in or out: without it the linkage has one freedom more; with the driver held where it is drawn, its
// length drives the rest from the drawn value to the wanted one. The pose reached is the new drawing.

import { type Issue, show, throwIfAny } from '../errors.ts';
import { type CheckedDrawing, checkDrawing, type Drawing } from './drawing.ts';
import { type Held, jointsOf } from './joints.ts';
import { trace } from './motion.ts';
import { carried } from './plane.ts';

/** A drawing with changed lengths, and by how much each falls short of the wanted one, in the drawing's unit; 0 where reached. */
export interface Relengthed<
  P extends string = string,
  B extends string = string,
  T extends string = string,
  L extends string = string,
> {
  readonly drawing: CheckedDrawing<P, B, T>;
  readonly missing: { readonly [Name in L]: number };
}

/**
 * Changes the lengths of bodies between their two joints, one after the other, from the drawn pose, while `held` keeps a
 * coordinate (that of the driver, as a rule). Further points of such a body keep their places by its first joint.
 *
 * Where a length cannot be reached the linkage is left as near to it as it goes, and `missing` says what is wanting
 * (in the drawing's unit; positive: it should be longer).
 *
 * @throws InputError for unknown bodies, lengths that are not positive, and bodies without exactly two joints.
 */
export function withLengths<P extends string, B extends string, L extends B, T extends string = never>(
  drawing: Drawing<P, B, T>,
  lengths: { readonly [Name in L]: number },
  held: Held<NoInfer<P>>,
): Relengthed<P, B, T, L>;
export function withLengths(
  drawing: Drawing,
  lengths: Readonly<Record<string, number>>,
  held: Held,
): Relengthed {
  checkDrawing(drawing);
  throwIfAny('lengths', faults(drawing, lengths));
  const missing: Record<string, number> = {};
  let current = drawing;
  for (const [body, wanted] of Object.entries(lengths)) {
    const [a, b] = jointsOf(drawing, body);
    const { [body]: changed, ...others } = current.bodies;
    const along = changed.filter((name) => name !== a && name !== b);
    const points = Object.fromEntries(
      Object.entries(current.points).filter(([name]) => !along.includes(name)),
    );
    const rest: Drawing = { ...current, points, bodies: others, held: [...(current.held ?? []), held] };
    const driver = { length: [a, b] } as const;
    const motion = trace(rest, { driver });
    const reached = Math.min(motion.high.at, Math.max(motion.low.at, wanted));
    missing[body] = wanted - reached;
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
  return { drawing: current, missing };
}

function faults(drawing: Drawing, lengths: Readonly<Record<string, number>>): Issue[] {
  return Object.entries(lengths).flatMap(([body, wanted]): Issue[] => {
    if (!(body in drawing.bodies)) {
      return [
        {
          path: body,
          problem: 'unknown body',
          allowed: Object.keys(drawing.bodies).join(', '),
          advice: 'correct the name',
        },
      ];
    }
    const issues: Issue[] = [];
    if (!(Number.isFinite(wanted) && wanted > 0)) {
      issues.push({
        path: body,
        problem: 'not a length',
        got: show(wanted),
        allowed: 'a number greater than 0',
      });
    }
    const joints = jointsOf(drawing, body);
    if (joints.length !== 2) {
      issues.push({
        path: body,
        problem: 'not between two joints',
        got: `${joints.length} (${joints.join(', ')})`,
        allowed: 'a rod or arm that is held at two points',
        advice: 'measure the changed part and draw it anew',
      });
    }
    return issues;
  });
}
