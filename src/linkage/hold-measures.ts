import { fault, show } from '../diagnostic.ts';
import { refusal } from '../errors/linkage.ts';
import type { Drawing } from './drawing.ts';
import type { Direction, FixedCoordinate } from './joints.ts';
import type { Measure } from './measure.ts';

/**
 * The drawing with measures held at their drawn value, each by one more joint or bar: a linkage of several degrees of freedom can
 * then be moved by one driver while the others stand still.
 *
 * @throws InputError for a measure that no joint can hold: the place of a point relative to a moving body.
 */
export function holdMeasures(drawing: Drawing, measures: readonly Measure[]): Drawing {
  const fixedCoordinates: FixedCoordinate[] = [];
  const bodies: Record<string, readonly string[]> = {};
  const fixedAngles: Record<string, readonly [Direction] | readonly [Direction, Direction]> = {};
  measures.forEach((measure, k) => {
    const relativeTo = 'relativeTo' in measure ? measure.relativeTo : undefined;
    const name = `held ${k}`;
    if ('length' in measure) bodies[name] = measure.length;
    else if ('x' in measure || 'y' in measure) {
      if (relativeTo !== undefined) {
        throw refusal('linkage', [fault('notHeldByAJoint', `hold[${k}]`, { got: show(measure) })]);
      }
      fixedCoordinates.push('x' in measure ? { x: measure.x } : { y: measure.y });
    } else {
      const direction = 'turn' in measure ? measure.turn : measure.angle;
      fixedAngles[name] = relativeTo === undefined ? [direction] : [direction, relativeTo];
    }
  });
  return {
    ...drawing,
    bodies: { ...drawing.bodies, ...bodies },
    fixedCoordinates: [...(drawing.fixedCoordinates ?? []), ...fixedCoordinates],
    fixedAngles: { ...drawing.fixedAngles, ...fixedAngles },
  };
}
