import type { PushrodInput } from '../index.ts';
import type { Point } from '../linkage/index.ts';
import { doubleWishbones, type PlainDoubleWishbone } from './double-wishbones.ts';
import { type Arbitrary, checkFastCheck, type FastCheck } from './fast-check.ts';
import { whole } from './numbers.ts';

type Part = PushrodInput['rod']['on'];

/** Input of `pushrod`, every number of it plain: mm, camber in degrees. */
export interface PlainPushrod extends Pick<PlainDoubleWishbone, 'lowerArm' | 'upperArm' | 'wheel'> {
  readonly rod: { readonly on: Part; readonly mount: Point; readonly rockerMount: Point };
  readonly rocker: { readonly pivot: Point };
  readonly coilover: {
    readonly rockerMount: Point;
    readonly chassisMount?: Point;
    readonly otherEnd?: { readonly on: Part; readonly mount: Point };
    readonly foreAftOffset?: number;
  };
}

/** Everything about rod, rocker and coilover that is drawn by chance: mm, degrees, percent; the offset in tenths of a mm; whether to tenths. */
function draft(fc: FastCheck) {
  const part = fc.constantFrom<Part[]>('lowerArm', 'upperArm', 'upright');
  return fc.record({
    on: part,
    mountShare: whole(fc, 45, 80, 95),
    down: fc.boolean(),
    rodLength: whole(fc, 180, 300, 420),
    rodLean: whole(fc, 15, 45, 65),
    rockerArm: whole(fc, 45, 80, 130),
    rodToRocker: whole(fc, 50, 90, 130),
    left: fc.boolean(),
    shockArm: whole(fc, 45, 80, 120),
    rockerAngle: whole(fc, 40, 90, 150),
    shock: whole(fc, 180, 300, 420),
    shockAngle: whole(fc, 55, 90, 125),
    otherEnd: fc.option(fc.record({ on: part, share: whole(fc, 25, 50, 90) }), { freq: 4, nil: undefined }),
    offset: fc.option(fc.integer({ min: -900, max: 900 }), { nil: undefined }),
    fine: fc.boolean(),
  });
}
type Draft = ReturnType<typeof draft> extends Arbitrary<infer T> ? T : never;

/**
 * Random corners with rod and rocker, on the wishbones of `doubleWishbones`. The rod goes up (pushrod) or down (pullrod) from
 * an arm or the upright to a rocker that it meets at 50 to 130 degrees; the coilover stands about square to the rocker, on
 * the chassis or on a part that moves, plain or with a fore-aft offset.
 *
 * Coordinates are whole tenths of a millimetre, or whole millimetres. A failing case shrinks towards one quiet corner in whole
 * ones: a pushrod on the lower arm, everything about square, the coilover on the chassis.
 */
export function pushrods(fc: FastCheck): Arbitrary<PlainPushrod> {
  checkFastCheck(fc);
  return fc.tuple(doubleWishbones(fc), draft(fc)).map(([corner, d]) => cornerOf(corner, d));
}

function cornerOf({ lowerArm, upperArm, wheel }: PlainDoubleWishbone, d: Draft): PlainPushrod {
  const parts = d.fine ? 10 : 1;
  const tidy = ([y, z]: Point): Point => [Math.round(parts * y) / parts, Math.round(parts * z) / parts];
  const away = ([y, z]: Point, distance: number, degrees: number): Point => {
    const direction = (degrees * Math.PI) / 180;
    return tidy([y + distance * Math.cos(direction), z + distance * Math.sin(direction)]);
  };
  const onPart = (part: Part, percent: number) => {
    const [from, to] = {
      lowerArm: [lowerArm.inner, lowerArm.outer],
      upperArm: [upperArm.inner, upperArm.outer],
      upright: [lowerArm.outer, upperArm.outer],
    }[part];
    const share = percent / 100;
    return tidy([from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
  };
  const mount = onPart(d.on, d.mountShare);
  const rod = d.down ? 270 - d.rodLean : 90 + d.rodLean;
  const rockerMount = away(mount, d.rodLength, rod);
  const sense = d.left ? 1 : -1;
  const toPivot = rod + 180 + sense * d.rodToRocker;
  const pivot = away(rockerMount, d.rockerArm, toPivot);
  const toShock = toPivot + 180 + sense * d.rockerAngle;
  const shockMount = away(pivot, d.shockArm, toShock);
  const other = d.otherEnd;
  return {
    lowerArm,
    upperArm,
    wheel,
    rod: { on: d.on, mount, rockerMount },
    rocker: { pivot },
    coilover: {
      rockerMount: shockMount,
      ...(other === undefined
        ? { chassisMount: away(shockMount, d.shock, toShock + sense * d.shockAngle) }
        : { otherEnd: { on: other.on, mount: onPart(other.on, other.share) } }),
      ...(d.offset === undefined ? {} : { foreAftOffset: d.offset / 10 }),
    },
  };
}
