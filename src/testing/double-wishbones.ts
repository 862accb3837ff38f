import type { DoubleWishboneInput } from '../index.ts';
import type { Point } from '../linkage/index.ts';
import { type Arbitrary, checkFastCheck, type FastCheck } from './fast-check.ts';
import { tenths } from './numbers.ts';

/** Input of `doubleWishbone`, every number of it plain: mm, camber in degrees. */
export interface PlainDoubleWishbone {
  readonly lowerArm: { readonly inner: Point; readonly outer: Point };
  readonly upperArm: { readonly inner: Point; readonly outer: Point };
  readonly wheel:
    | { readonly centre: Point; readonly camber: number }
    | { readonly centre: Point; readonly contactPatch: Point };
  readonly coilover: {
    readonly on: DoubleWishboneInput['coilover']['on'];
    readonly mount: Point;
    readonly chassisMount: Point;
    readonly foreAftOffset?: number;
  };
}

/** Steepest arm, in percent: 22 degrees. */
const STEEPEST = 40;

/** Everything that is drawn by chance; lengths in tenths of a millimetre. */
function draft(fc: FastCheck) {
  const percent = fc.integer({ min: -STEEPEST, max: STEEPEST });
  return fc.record({
    lowerOuterY: tenths(fc, 560, 640, 760),
    lowerOuterZ: tenths(fc, 115, 150, 210),
    kingpinInboard: tenths(fc, -10, 40, 90),
    kingpinHeight: tenths(fc, 150, 220, 300),
    arms: fc.constantFrom<('level' | 'parallel' | 'free')[]>('level', 'parallel', 'free', 'free', 'free'),
    lowerRun: tenths(fc, 150, 350, 450),
    upperRun: tenths(fc, 150, 300, 400),
    lowerRise: percent,
    upperRise: percent,
    wheelOutboard: tenths(fc, 30, 65, 120),
    wheelHeight: tenths(fc, 260, 310, 345),
    camber: fc.integer({ min: -40, max: 20 }),
    patchGiven: fc.boolean(),
    on: fc.constantFrom<DoubleWishboneInput['coilover']['on'][]>('lowerArm', 'upperArm', 'upright'),
    mountShare: fc.integer({ min: 40, max: 95 }),
    mountAside: tenths(fc, -15, 20, 45),
    shockInboard: tenths(fc, -200, 150, 350),
    shockHeight: tenths(fc, 150, 300, 420),
    offset: fc.option(tenths(fc, -90, 0, 90), { nil: undefined }),
  });
}
type Draft = ReturnType<typeof draft> extends Arbitrary<infer T> ? T : never;

/**
 * Random double wishbones: left-hand corners that could be a car's, and some that no one would build. Arms are free,
 * parallel, or parallel and level; the coilover stands on either arm or on the upright, plain or with a fore-aft offset;
 * the contact patch is given, or comes from the camber.
 *
 * Coordinates are whole tenths of a millimetre. A failing case shrinks towards one quiet corner in whole millimetres:
 * level arms, no camber, no offset.
 */
export function doubleWishbones(fc: FastCheck): Arbitrary<PlainDoubleWishbone> {
  checkFastCheck(fc);
  return draft(fc).map(cornerOf);
}

function cornerOf(d: Draft): PlainDoubleWishbone {
  const lowerOuter: Point = [d.lowerOuterY, d.lowerOuterZ];
  const upperOuter: Point = [d.lowerOuterY - d.kingpinInboard, d.lowerOuterZ + d.kingpinHeight];
  const [lowerInner, upperInner] = innerPoints(d, lowerOuter, upperOuter);

  const centre: Point = [d.lowerOuterY + d.wheelOutboard, d.wheelHeight];
  const lean = (d.camber / 10) * (Math.PI / 180);
  const patch: Point = [Math.round(centre[0] - centre[1] * Math.tan(lean)), 0];

  const [from, to] = {
    lowerArm: [lowerInner, lowerOuter],
    upperArm: [upperInner, upperOuter],
    upright: [lowerOuter, upperOuter],
  }[d.on];
  const onLine = [0, 1].map(
    (axis) => from[axis] + Math.round(((to[axis] - from[axis]) * d.mountShare) / 100),
  );
  const mount: Point =
    d.on === 'upright' ? [onLine[0] - d.mountAside, onLine[1]] : [onLine[0], onLine[1] + d.mountAside];
  const chassisMount: Point = [mount[0] - d.shockInboard, mount[1] + d.shockHeight];

  return {
    lowerArm: { inner: mm(lowerInner), outer: mm(lowerOuter) },
    upperArm: { inner: mm(upperInner), outer: mm(upperOuter) },
    wheel: d.patchGiven
      ? { centre: mm(centre), contactPatch: mm(patch) }
      : { centre: mm(centre), camber: d.camber / 10 },
    coilover: {
      on: d.on,
      mount: mm(mount),
      chassisMount: mm(chassisMount),
      ...(d.offset === undefined ? {} : { foreAftOffset: d.offset / 10 }),
    },
  };
}

/** Inner points of lower and upper arm. Parallel arms are whole multiples of one vector, 10 mm outward. */
function innerPoints(d: Draft, lowerOuter: Point, upperOuter: Point): [Point, Point] {
  const arm = (outer: Point, run: number, rise: number): Point => [outer[0] - run, outer[1] - rise];
  switch (d.arms) {
    case 'level':
      return [arm(lowerOuter, d.lowerRun, 0), arm(upperOuter, d.upperRun, 0)];
    case 'parallel': {
      const [lower, upper] = [d.lowerRun, d.upperRun].map((run) => Math.floor(run / 100));
      return [
        arm(lowerOuter, 100 * lower, lower * d.lowerRise),
        arm(upperOuter, 100 * upper, upper * d.lowerRise),
      ];
    }
    case 'free':
      return [
        arm(lowerOuter, d.lowerRun, Math.round((d.lowerRun * d.lowerRise) / 100)),
        arm(upperOuter, d.upperRun, Math.round((d.upperRun * d.upperRise) / 100)),
      ];
  }
}

/** From tenths: one division, so that the number is the one that its decimals stand for. */
function mm([y, z]: Point): Point {
  return [y / 10, z / 10];
}
