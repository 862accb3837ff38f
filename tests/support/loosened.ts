import type { Drawing } from 'jounce/linkage';

/** A linkage without so many of its bodies that have two joints, and the names of these and the lengths between their joints. */
export function loosened(drawing: Drawing, count: number) {
  const { bodies, ground } = drawing;
  const isJoint = (point: string) =>
    ground.includes(point) || Object.values(bodies).filter((body) => body.includes(point)).length > 1;
  const bars = Object.keys(bodies)
    .filter((name) => name !== 'crank' && bodies[name].filter(isJoint).length === 2)
    .slice(-count);
  const left = Object.fromEntries(Object.entries(bodies).filter(([name]) => !bars.includes(name)));
  const isThere = (point: string) =>
    ground.includes(point) || Object.values(left).some((body) => body.includes(point));
  return {
    loose: {
      ...drawing,
      points: Object.fromEntries(Object.entries(drawing.points).filter(([name]) => isThere(name))),
      bodies: left,
    },
    names: bars,
    lengths: bars.map((name) => ({ length: bodies[name].filter(isJoint) as [string, string] })),
  };
}
