import { fault, show } from '../diagnostic.ts';
import { refusal } from '../errors/linkage.ts';
import type { Drawing } from './drawing.ts';
import type { Direction, Held } from './joints.ts';
import type { Measure } from './measure.ts';

/**
 * The drawing with measures held at their drawn values, each as a joint or a bar more: of a linkage of several freedoms
 * one driver can then be moved while the others stand.
 *
 * @throws InputError for a measure that no joint can hold: the place of a point as seen from a moving body.
 */
export function holding(drawing: Drawing, measures: readonly Measure[]): Drawing {
  const held: Held[] = [];
  const bodies: Record<string, readonly string[]> = {};
  const angles: Record<string, readonly [Direction] | readonly [Direction, Direction]> = {};
  measures.forEach((measure, k) => {
    const seenFrom = 'seenFrom' in measure ? measure.seenFrom : undefined;
    const name = `held ${k}`;
    if ('length' in measure) bodies[name] = measure.length;
    else if ('x' in measure || 'y' in measure) {
      if (seenFrom !== undefined) {
        throw refusal('linkage', [fault('notHeldByAJoint', `hold[${k}]`, { got: show(measure) })]);
      }
      held.push('x' in measure ? { x: measure.x } : { y: measure.y });
    } else {
      const direction = 'turn' in measure ? measure.turn : measure.angle;
      angles[name] = seenFrom === undefined ? [direction] : [direction, seenFrom];
    }
  });
  return {
    ...drawing,
    bodies: { ...drawing.bodies, ...bodies },
    held: [...(drawing.held ?? []), ...held],
    angles: { ...drawing.angles, ...angles },
  };
}
