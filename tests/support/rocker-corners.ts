/** Random corners with rod and rocker (those of jounce/testing) and strut corners, for the tests of laws. */
import * as fc from 'fast-check';
import { pushrods } from 'jounce/testing';
import type { Point } from '../judges/plane.ts';
import type { RockerInput } from '../judges/rocker.ts';
import type { StrutCornerInput } from '../judges/strut.ts';
import { deepFreeze } from './freeze.ts';

const tenth = ([y, z]: Point): Point => [Math.round(10 * y) / 10, Math.round(10 * z) / 10];
const whole = (min: number, max: number) => fc.integer({ min, max });
/** A point at a distance from another, in a direction in degrees. */
const from = ([y, z]: Point, distance: number, direction: number): Point => [
  y + distance * Math.cos((direction * Math.PI) / 180),
  z + distance * Math.sin((direction * Math.PI) / 180),
];
const between = (a: Point, b: Point, percent: number): Point => [
  a[0] + ((b[0] - a[0]) * percent) / 100,
  a[1] + ((b[1] - a[1]) * percent) / 100,
];

/** Random corners with rod and rocker, deeply frozen. */
export const rockerCorners: fc.Arbitrary<RockerInput> = pushrods(fc).map(deepFreeze);

/** Random strut corners, deeply frozen. */
export const strutCorners: fc.Arbitrary<StrutCornerInput> = fc
  .record({
    outer: fc.tuple(whole(560, 720), whole(130, 200)),
    arm: whole(250, 450),
    slope: whole(-18, 18),
    lower: fc.tuple(whole(-60, 10), whole(80, 220)),
    lean: whole(2, 22),
    length: whole(380, 620),
    wheel: fc.tuple(whole(20, 110), whole(260, 345)),
    camber: whole(-30, 20),
    coilover: fc.option(
      fc.record({
        on: fc.constantFrom<('lowerArm' | 'upright')[]>('lowerArm', 'upright'),
        share: whole(40, 95),
        length: whole(250, 450),
        lean: whole(-20, 40),
        offset: whole(-600, 600),
      }),
      { nil: undefined },
    ),
  })
  .map((d) => {
    const outer: Point = d.outer;
    const inner = tenth(from(outer, d.arm, 180 + d.slope));
    const lower: Point = [outer[0] + d.lower[0], outer[1] + d.lower[1]];
    const top = tenth(from(lower, d.length, 90 + d.lean));
    const centre: Point = [outer[0] + d.wheel[0], d.wheel[1]];
    const lean = (d.camber / 10) * (Math.PI / 180);
    const contactPatch = tenth([centre[0] - centre[1] * Math.tan(lean), 0]);
    const corner = {
      lowerArm: { inner, outer },
      strut: { topMount: top, lowerMount: lower },
      wheel: { centre, contactPatch },
    };
    if (d.coilover === undefined) return deepFreeze(corner);
    const { on, share, length, offset } = d.coilover;
    const mount = tenth(on === 'lowerArm' ? between(inner, outer, share) : between(outer, lower, share));
    const chassisMount = tenth(from(mount, length, 90 + d.coilover.lean));
    return deepFreeze({ ...corner, coilover: { on, mount, chassisMount, foreAftOffset: offset / 10 } });
  });
