/** A corner with a rocker, whose ratios are known without a sweep, and both of its kind on one road as a drawing. */
import { pushrod } from 'jounce';
import type { Drawing } from 'jounce/linkage';
import { modelOf } from '../../src/corner/corner.ts';

/** Parallel level arms, a vertical rod so far out on the lower one, and a rocker of two equal arms square to each other. */
export const SHARE = 0.5;
export const HALF_TRACK = 720;
export const ROCKERS = pushrod({
  lowerArm: { inner: [300, 150], outer: [650, 150] },
  upperArm: { inner: [300, 400], outer: [650, 400] },
  wheel: { centre: [HALF_TRACK, 300], contactPatch: [HALF_TRACK, 0] },
  rod: { on: 'lowerArm', mount: [475, 150], rockerMount: [475, 450] },
  rocker: { pivot: [375, 450] },
  coilover: { rockerMount: [375, 550], chassisMount: [80, 560] },
});

/** What a side has beside its corner: points, y outboard; those of them on the rocker; and bodies of its own. */
export interface Besides {
  readonly points: Readonly<Record<string, readonly [number, number]>>;
  readonly onRocker: readonly string[];
  readonly bodies?: Readonly<Record<string, readonly string[]>>;
}

/** Both corners, names of the left one with L and of the right one with R before them, on a road that turns about its middle. */
export function bothOnRoad(besides: (way: 1 | -1) => Besides): Drawing {
  const corner = modelOf(ROCKERS).drawing;
  const sided = (side: 'L' | 'R') => {
    const way = side === 'L' ? 1 : -1;
    const { points, onRocker, bodies } = besides(way);
    const named = (names: readonly string[]) => names.map((name) => side + name);
    const all = { ...corner.bodies, rocker: [...corner.bodies.rocker, ...onRocker], ...bodies };
    return {
      points: Object.fromEntries(
        Object.entries({ ...corner.points, ...points }).map(
          ([name, [y, z]]) => [side + name, [way * y, z] as const] as const,
        ),
      ),
      ground: named(corner.ground),
      bodies: Object.fromEntries(
        Object.entries(all).map(([name, names]) => [side + name, named(names)] as const),
      ),
    };
  };
  const [l, r] = [sided('L'), sided('R')];
  return {
    points: { ...l.points, ...r.points, post: [0, 0], farther: [1000, 0] },
    ground: [...l.ground, ...r.ground],
    bodies: { ...l.bodies, ...r.bodies, road: ['post', 'farther'] },
    fixedCoordinates: [{ x: 'post' }],
    sliders: {
      left: { point: 'LcontactPatch', on: ['post', 'farther'] },
      right: { point: 'RcontactPatch', on: ['post', 'farther'] },
    },
  };
}
