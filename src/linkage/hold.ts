import { InputError, show } from '../errors.ts';
import type { Drawing } from './drawing.ts';
import type { Direction, FixedCoordinate } from './joints.ts';
import type { Measure } from './measure.ts';

/**
 * The drawing with measures held at their drawn values, each as a joint or a bar more: of a linkage of several freedoms
 * one driver can then be moved while the others stand.
 *
 * @throws InputError for a measure that no joint can hold: the place of a point as seen from a moving body.
 */
export function holdMeasures(drawing: Drawing, measures: readonly Measure[]): Drawing {
  const held: FixedCoordinate[] = [];
  const bodies: Record<string, readonly string[]> = {};
  const angles: Record<string, readonly [Direction] | readonly [Direction, Direction]> = {};
  measures.forEach((measure, k) => {
    const relativeTo = 'relativeTo' in measure ? measure.relativeTo : undefined;
    const name = `held ${k}`;
    if ('length' in measure) bodies[name] = measure.length;
    else if ('x' in measure || 'y' in measure) {
      if (relativeTo !== undefined) throw notHeld(measure, k);
      held.push('x' in measure ? { x: measure.x } : { y: measure.y });
    } else {
      const direction = 'turn' in measure ? measure.turn : measure.angle;
      angles[name] = relativeTo === undefined ? [direction] : [direction, relativeTo];
    }
  });
  return {
    ...drawing,
    bodies: { ...drawing.bodies, ...bodies },
    fixedCoordinates: [...(drawing.fixedCoordinates ?? []), ...held],
    fixedAngles: { ...drawing.fixedAngles, ...angles },
  };
}

function notHeld(measure: Measure, k: number): InputError {
  return new InputError('linkage', [
    {
      path: `hold[${k}]`,
      problem: 'a place seen from a moving body, which no joint holds',
      got: show(measure),
      allowed: '{ x }, { y }, { length }, { angle }, { turn }',
      advice: 'hold a length or an angle in its place',
    },
  ]);
}
