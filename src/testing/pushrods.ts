import type { PushrodInput } from '../index.ts';
import type { Point } from '../linkage/index.ts';
import { doubleWishbones } from './double-wishbones.ts';
import type { Arbitrary, FastCheck } from './fast-check.ts';
import { tenths } from './numbers.ts';

/**
 * Random corners with a rod from an arm or the upright to a rocker, on the wishbones of `doubleWishbones`. The rocker sits
 * above the rod's foot, its two arms at an angle of their own, the rod away from in line with it; the coilover lies inboard.
 */
export function pushrods(fc: FastCheck): Arbitrary<PushrodInput> {
  const draft = fc.record({
    on: fc.constantFrom<PushrodInput['rod']['on'][]>('lowerArm', 'upperArm', 'upright'),
    rodInboard: tenths(fc, 60, 200, 320),
    rodHeight: tenths(fc, 150, 300, 400),
    armInboard: tenths(fc, 50, 80, 120),
    armDown: tenths(fc, 0, 50, 90),
    shockArm: tenths(fc, 50, 90, 130),
    shockLength: tenths(fc, 180, 250, 330),
  });
  return fc.tuple(doubleWishbones(fc), draft).map(([corner, d]) => {
    const { lowerArm, upperArm, wheel, coilover } = corner;
    const mount = numbers(coilover.mount);
    const foot: Point = d.on === coilover.on ? mount : footOn(corner, d.on);
    const rodEnd: Point = [foot[0] - d.rodInboard / 10, foot[1] + d.rodHeight / 10];
    const pivot: Point = [rodEnd[0] - d.armInboard / 10, rodEnd[1] - d.armDown / 10];
    const shockEnd: Point = [pivot[0], pivot[1] + d.shockArm / 10];
    return {
      lowerArm,
      upperArm,
      wheel,
      rod: { on: d.on, mount: tidy(foot), rockerMount: tidy(rodEnd) },
      rocker: { pivot: tidy(pivot) },
      coilover: {
        rockerMount: tidy(shockEnd),
        chassisMount: tidy([shockEnd[0] - d.shockLength / 10, shockEnd[1]]),
      },
    };
  });
}

type Corner = ReturnType<typeof doubleWishbones> extends Arbitrary<infer Input> ? Input : never;

/** A place on a part: most of the way to its outer end. */
function footOn({ lowerArm, upperArm }: Corner, part: PushrodInput['rod']['on']): Point {
  const [from, to] = {
    lowerArm: [lowerArm.inner, lowerArm.outer],
    upperArm: [upperArm.inner, upperArm.outer],
    upright: [lowerArm.outer, upperArm.outer],
  }[part].map(numbers);
  const share = part === 'upright' ? 0.3 : 0.8;
  return [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1]) + 20];
}

/** Coordinates that are plain numbers here. */
function numbers(point: Corner['coilover']['mount']): Point {
  return [Number(point[0]), Number(point[1])];
}

/** To tenths of a millimetre. */
function tidy([y, z]: Point): Point {
  return [Math.round(10 * y) / 10, Math.round(10 * z) / 10];
}
