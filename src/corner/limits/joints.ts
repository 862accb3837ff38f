import type { CornerModel } from '../model.ts';

/** What the ground is called among the bodies that a joint joins. */
export const CHASSIS = 'chassis';

/** What of a drawing says which bodies meet where. */
export interface Joined {
  readonly drawing: Pick<CornerModel['drawing'], 'ground' | 'bodies'>;
  readonly upright: string;
}

/** The bodies that meet at a point, `chassis` last. */
export function bodiesAt({ ground, bodies }: Joined['drawing'], point: string): string[] {
  const names = Object.keys(bodies).filter((body) => bodies[body].includes(point));
  return ground.includes(point) ? [...names, CHASSIS] : names;
}

/** Points at which two bodies or more meet. */
export function jointsOf({ drawing }: Joined): string[] {
  const points = [...new Set(Object.values(drawing.bodies).flat())];
  return points.filter((point) => bodiesAt(drawing, point).length > 1);
}

/**
 * The bodies that hold housing and stud of a joint by `housing`: a body's name, or at a joint of the upright with one other
 * body `arm` for that. Null where there is no such body, or more than one for the stud.
 */
export function sidesOf(
  { drawing, upright }: Joined,
  point: string,
  housing: string,
): { readonly housing: string; readonly stud: string } | null {
  const bodies = bodiesAt(drawing, point);
  const [first, second, ...more] = bodies;
  if (second === undefined || more.length > 0) return null;
  const other = (body: string) => (body === first ? second : first);
  const holder = housing === 'arm' && bodies.includes(upright) ? other(upright) : housing;
  return bodies.includes(holder) ? { housing: holder, stud: other(holder) } : null;
}
