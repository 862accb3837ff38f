import { certainCorner } from '../document/certain-corner.ts';
import type { DoubleWishboneInput } from '../document/inputs.ts';
import { DOUBLE_WISHBONE } from '../document/kinds/double-wishbone.ts';
import type { Point } from '../linkage/drawing.ts';
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

/** A double-wishbone corner as plain, frozen data: `[y, z]` in mm, angles in degrees; made by `doubleWishbone`. */
export interface DoubleWishbone extends Uncertain {
  readonly kind: 'doubleWishbone';
  readonly lowerArm: Arm;
  readonly upperArm: Arm;
  readonly wheel: Wheel;
  readonly coilover: { readonly on: Part; readonly mount: Point } & OtherEnd;
  /** Whether the input was a right-hand corner (negative y), and was mirrored. */
  readonly mirrored: boolean;
}

/**
 * A double-wishbone corner from its hardpoints.
 *
 * Points are `[y, z]` in mm at the drawn ride height, seen from the front: y outboard from the centreline, z up from
 * the ground; a right-hand corner (wheel at negative y) is mirrored. `wheel` takes `camber` (deg, top outboard positive),
 * from which the contact patch follows as that of a thin disc, or `contactPatch`, or both. `coilover.mount` moves
 * with what `coilover.on` names, `chassisMount` is fixed; where the other end moves too, `otherEnd: { on, mount }` stands
 * in its place. `foreAftOffset` is the fore-aft distance between the two, mm. Any coordinate may be `{ value, plusMinus }`: known to
 * plus or minus so many mm.
 *
 * @throws InputError with every issue.
 */
export function doubleWishbone(input: DoubleWishboneInput): DoubleWishbone {
  const { given, halfWidths } = certainCorner(DOUBLE_WISHBONE, input);
  const { mirrored, place } = placing(given.wheel.centre);
  const { coilover } = given;
  return Object.freeze({
    kind: 'doubleWishbone',
    lowerArm: placedArm(given.lowerArm, place),
    upperArm: placedArm(given.upperArm, place),
    wheel: placedWheel(given.wheel, place),
    coilover: Object.freeze({
      on: coilover.on,
      mount: place(coilover.mount),
      ...placedOtherEnd(coilover, place),
    }),
    mirrored,
    ...plusMinusOf(DOUBLE_WISHBONE, halfWidths),
  });
}

/** The bodies of two wishbones and their upright. */
export const WISHBONES = {
  lowerArm: ['lowerInner', 'lowerOuter'],
  upperArm: ['upperInner', 'upperOuter'],
  upright: ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch'],
} as const;

/** What a model says of two wishbones, their upright and wheel. */
export const WISHBONE_PARTS = {
  upright: 'upright',
  wheelCentre: 'wheelCentre',
  contactPatch: 'contactPatch',
  kingpin: { lower: 'lowerOuter', upper: 'upperOuter' },
  angles: {
    lowerArmAngle: { angle: ['lowerInner', 'lowerOuter'] },
    upperArmAngle: { angle: ['upperInner', 'upperOuter'] },
  },
} as const;

const PIVOTS = Object.freeze(['lowerInner', 'upperInner'] as const);
const PIVOTS_AND_EYE = Object.freeze([...PIVOTS, 'shockChassisMount'] as const);
const bodiesWith = growing<typeof DOUBLE_WISHBONE>(WISHBONES);

/** The corner as a drawing with its roles named, in literals: it is a part of every sweep. */
export function doubleWishboneModel(corner: DoubleWishbone) {
  const { lowerArm, upperArm, wheel, coilover } = corner;
  const { on, mount, otherEnd, foreAftOffset } = coilover;
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
            shockMount: mount,
            shockChassisMount: otherEndOf(coilover),
          }
        : {
            lowerInner: lowerArm.inner,
            lowerOuter: lowerArm.outer,
            upperInner: upperArm.inner,
            upperOuter: upperArm.outer,
            wheelCentre: wheel.centre,
            contactPatch: wheel.contactPatch,
            shockMount: mount,
            shockOtherMount: otherEnd.mount,
          },
      ground: isFixed ? PIVOTS_AND_EYE : PIVOTS,
      bodies: bodiesWith(isFixed ? { shockMount: on } : { shockMount: on, shockOtherMount: otherEnd.on }),
    },
    shock: { outer: 'shockMount', inner: isFixed ? 'shockChassisMount' : 'shockOtherMount', foreAftOffset },
    rocker: null,
    camber: wheel.camber,
    standsBy: wheel.standsBy,
  } satisfies ModelOf<typeof DOUBLE_WISHBONE>;
}
