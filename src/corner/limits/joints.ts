// A joint is a point at which two parts meet, the chassis counted as one. Where more than two meet it can't be told which
// of them a ball joint is between.

import type { CornerModel } from '../model.ts';

/** What the ground is called among the parts that a joint joins. */
export const CHASSIS = 'chassis';

/** The two parts that meet in each joint. */
function jointsOf({
  drawing: { points, ground, bodies },
}: CornerModel): Record<string, readonly [string, string]> {
  const joints: Record<string, readonly [string, string]> = {};
  for (const point of Object.keys(points)) {
    const names = Object.keys(bodies).filter((body) => bodies[body].includes(point));
    const [one, other, ...more] = ground.includes(point) ? [...names, CHASSIS] : names;
    if (other !== undefined && more.length === 0) joints[point] = [one, other];
  }
  return joints;
}

/** What can hold the housing in each joint: either part by its name, or `arm` for what meets the upright. */
export function holdersOf(model: CornerModel): Record<string, readonly string[]> {
  const entries = Object.entries(jointsOf(model)).map(([point, parts]) => {
    const alias = parts.includes(model.upright) && !parts.includes('arm') ? ['arm'] : [];
    return [point, [...alias, ...parts]] as const;
  });
  return Object.fromEntries(entries);
}

/** The parts that hold housing and stud of a joint, by what holds the housing: one of `holdersOf`. */
export function sidesOf(
  model: CornerModel,
  point: string,
  housing: string,
): { housing: string; stud: string } {
  const [one, other] = jointsOf(model)[point];
  const isAlias = housing === 'arm' && one !== 'arm' && other !== 'arm';
  const isOne = isAlias ? other === model.upright : housing === one;
  return isOne ? { housing: one, stud: other } : { housing: other, stud: one };
}
