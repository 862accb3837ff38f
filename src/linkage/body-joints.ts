import type { Drawing } from './drawing.ts';
import { jointsIn } from './joints.ts';

/** Points of a body at which something else holds it. */
export function jointsOf(drawing: Drawing, body: string): string[] {
  const { bodies, ground } = drawing;
  const held = jointsIn(drawing).flatMap(({ points }) => points);
  return bodies[body].filter(
    (name) =>
      ground.includes(name) ||
      held.includes(name) ||
      Object.entries(bodies).some(([other, points]) => other !== body && points.includes(name)),
  );
}

/** A drawing without a body, and the body's points that went with it: all but its joints. */
export function withoutBody(
  drawing: Drawing,
  body: string,
  joints: readonly string[],
): { rest: Drawing; along: string[] } {
  const { [body]: members, ...bodies } = drawing.bodies;
  const along = members.filter((name) => !joints.includes(name));
  const points = Object.entries(drawing.points).filter(([name]) => !along.includes(name));
  return { rest: { ...drawing, points: Object.fromEntries(points), bodies }, along };
}
