import { certainCorner } from '../document/certain-corner.ts';
import type { PushrodInput } from '../document/inputs.ts';
import { PUSHROD } from '../document/kinds/pushrod.ts';
import type { Point } from '../linkage/drawing.ts';
import { WISHBONE_PARTS, WISHBONES } from './double-wishbone.ts';
import {
  type Arm,
  growing,
  type OtherEnd,
  otherEndOf,
  type Part,
  placedArm,
  placedOtherEnd,
  placedWheel,
  placing,
  plusMinusOf,
  type Uncertain,
  type Wheel,
} from './hardpoints.ts';
import type { ModelOf } from './model.ts';

/** A corner with pushrod or pullrod as plain, frozen data: `[y, z]` in mm, angles in degrees; made by `pushrod`. */
export interface Pushrod extends Uncertain {
  readonly kind: 'pushrod';
  readonly lowerArm: Arm;
  readonly upperArm: Arm;
  readonly wheel: Wheel;
  readonly rod: { readonly on: Part; readonly mount: Point; readonly rockerMount: Point };
  readonly rocker: { readonly pivot: Point };
  readonly coilover: { readonly rockerMount: Point } & OtherEnd;
  /** Whether the input was a right-hand corner (negative y), and was mirrored. */
  readonly mirrored: boolean;
}

/**
 * A double wishbone whose coilover is worked by a rod through a rocker, from its hardpoints; points and wheel as for
 * `doubleWishbone`. A pullrod is the same with its points in other places.
 *
 * `rod.mount` moves with what `rod.on` names (lowerArm, upperArm, upright), `rod.rockerMount` with the rocker, which turns
 * about `rocker.pivot` on the chassis. The coilover stands between `coilover.rockerMount` and `chassisMount`, or, where its
 * other end moves too, `otherEnd: { on, mount }`; `foreAftOffset` is the fore-aft distance between the two, mm.
 *
 * @throws InputError with every issue.
 */
export function pushrod(input: PushrodInput): Pushrod {
  const { given, halfWidths } = certainCorner(PUSHROD, input);
  const { mirrored, place } = placing(given.wheel.centre);
  const { rod, rocker, coilover } = given;
  return Object.freeze({
    kind: 'pushrod',
    lowerArm: placedArm(given.lowerArm, place),
    upperArm: placedArm(given.upperArm, place),
    wheel: placedWheel(given.wheel, place),
    rod: Object.freeze({ on: rod.on, mount: place(rod.mount), rockerMount: place(rod.rockerMount) }),
    rocker: Object.freeze({ pivot: place(rocker.pivot) }),
    coilover: Object.freeze({
      rockerMount: place(coilover.rockerMount),
      ...placedOtherEnd(coilover, place),
    }),
    mirrored,
    ...plusMinusOf(PUSHROD, halfWidths),
  });
}

const PIVOTS = Object.freeze(['lowerInner', 'upperInner', 'rockerPivot'] as const);
const PIVOTS_AND_EYE = Object.freeze([...PIVOTS, 'shockChassisMount'] as const);
const bodiesWith = growing<typeof PUSHROD>({
  ...WISHBONES,
  rod: ['rodMount', 'rodRockerMount'],
  rocker: ['rockerPivot', 'rodRockerMount', 'shockRockerMount'],
});
const ROCKER = {
  body: 'rocker',
  pivot: 'rockerPivot',
  rod: { outer: 'rodMount', inner: 'rodRockerMount' },
} as const;

/** The corner as a drawing with its roles named, in literals: it is a part of every sweep. */
export function pushrodModel(corner: Pushrod) {
  const { lowerArm, upperArm, wheel, rod, rocker, coilover } = corner;
  const { rockerMount, otherEnd, foreAftOffset } = coilover;
  const isFixed = otherEnd === undefined;
  return {
    upright: WISHBONE_PARTS.upright,
    wheelCentre: WISHBONE_PARTS.wheelCentre,
    contactPatch: WISHBONE_PARTS.contactPatch,
    kingpin: WISHBONE_PARTS.kingpin,
    angles: WISHBONE_PARTS.angles,
    drawing: {
      points: isFixed
        ? {
            lowerInner: lowerArm.inner,
            lowerOuter: lowerArm.outer,
            upperInner: upperArm.inner,
            upperOuter: upperArm.outer,
            wheelCentre: wheel.centre,
            contactPatch: wheel.contactPatch,
            rodMount: rod.mount,
            rodRockerMount: rod.rockerMount,
            rockerPivot: rocker.pivot,
            shockRockerMount: rockerMount,
            shockChassisMount: otherEndOf(coilover),
          }
        : {
            lowerInner: lowerArm.inner,
            lowerOuter: lowerArm.outer,
            upperInner: upperArm.inner,
            upperOuter: upperArm.outer,
            wheelCentre: wheel.centre,
            contactPatch: wheel.contactPatch,
            rodMount: rod.mount,
            rodRockerMount: rod.rockerMount,
            rockerPivot: rocker.pivot,
            shockRockerMount: rockerMount,
            shockOtherMount: otherEnd.mount,
          },
      ground: isFixed ? PIVOTS_AND_EYE : PIVOTS,
      bodies: bodiesWith(isFixed ? { rodMount: rod.on } : { rodMount: rod.on, shockOtherMount: otherEnd.on }),
    },
    shock: {
      outer: 'shockRockerMount',
      inner: isFixed ? 'shockChassisMount' : 'shockOtherMount',
      foreAftOffset,
    },
    rocker: ROCKER,
    camber: wheel.camber,
    standsBy: wheel.standsBy,
  } satisfies ModelOf<typeof PUSHROD>;
}
