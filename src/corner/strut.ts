// The top mount is fixed on the chassis, and the axis of the strut, fixed in the upright, passes through it: whatever the
// upright does, the line from `lowerMount` on it to the top keeps its angle to the upright. That is one joint of the drawing
// (`angles`), by which the top slides along the axis.

import { certainCorner } from '../document/certain-corner.ts';
import type { StrutInput } from '../document/inputs.ts';
import { STRUT } from '../document/kinds/strut.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
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

/** A corner with a strut as plain, frozen data: `[y, z]` in mm, angles in degrees; made by `strut`. */
export interface Strut extends Uncertain {
  readonly kind: 'strut';
  readonly lowerArm: Arm;
  readonly strut: { readonly topMount: Point; readonly lowerMount: Point };
  readonly wheel: Wheel;
  /** Only where it stands beside the strut. */
  readonly coilover?: { readonly on: Part; readonly mount: Point } & OtherEnd;
  /** Whether the input was a right-hand corner (negative y), and was mirrored. */
  readonly mirrored: boolean;
}

/**
 * A corner whose upright slides along a strut, from its hardpoints; points and wheel as for `doubleWishbone`.
 *
 * `strut.topMount` is fixed on the chassis, `strut.lowerMount` is a point of the strut's axis on the upright. Spring and damper act
 * between the two, unless a `coilover` of its own is given, on lowerArm or upright. The wheel steers about the line from the
 * lower ball joint to the top.
 *
 * @throws InputError with every issue.
 */
export function strut(input: StrutInput): Strut {
  const { given, halfWidths } = certainCorner(STRUT, input);
  const { mirrored, place } = placing(given.wheel.centre);
  const { coilover } = given;
  return Object.freeze({
    kind: 'strut',
    lowerArm: placedArm(given.lowerArm, place),
    strut: Object.freeze({
      topMount: place(given.strut.topMount),
      lowerMount: place(given.strut.lowerMount),
    }),
    wheel: placedWheel(given.wheel, place),
    ...(coilover && {
      coilover: Object.freeze({
        on: coilover.on,
        mount: place(coilover.mount),
        ...placedOtherEnd(coilover, place),
      }),
    }),
    mirrored,
    ...plusMinusOf(STRUT, halfWidths),
  });
}

const PIVOTS = Object.freeze(['lowerInner', 'strutTop'] as const);
const PIVOTS_AND_EYE = Object.freeze([...PIVOTS, 'shockChassisMount'] as const);
const bodiesWith = growing<typeof STRUT>({
  lowerArm: ['lowerInner', 'lowerOuter'],
  upright: ['lowerOuter', 'strutLower', 'wheelCentre', 'contactPatch'],
});
const ANGLES: NonNullable<Drawing['fixedAngles']> = Object.freeze({
  strut: Object.freeze(['upright', Object.freeze(['strutLower', 'strutTop'] as const)] as const),
});
const ROLES = {
  upright: 'upright',
  wheelCentre: 'wheelCentre',
  contactPatch: 'contactPatch',
  kingpin: { lower: 'lowerOuter', upper: 'strutTop' },
  rocker: null,
  angles: { lowerArmAngle: { angle: ['lowerInner', 'lowerOuter'] } },
} as const;

/** The corner as a drawing with its roles named. */
export function strutModel({ lowerArm, strut, wheel, coilover }: Strut) {
  const otherEnd = coilover?.otherEnd;
  const inner = otherEnd !== undefined ? 'shockOtherMount' : coilover ? 'shockChassisMount' : 'strutTop';
  return {
    ...ROLES,
    drawing: {
      points: {
        lowerInner: lowerArm.inner,
        lowerOuter: lowerArm.outer,
        strutLower: strut.lowerMount,
        strutTop: strut.topMount,
        wheelCentre: wheel.centre,
        contactPatch: wheel.contactPatch,
        ...(coilover && { shockMount: coilover.mount, [inner]: otherEndOf(coilover) }),
      },
      ground: inner === 'shockChassisMount' ? PIVOTS_AND_EYE : PIVOTS,
      bodies: bodiesWith({
        ...(coilover && { shockMount: coilover.on }),
        ...(otherEnd && { shockOtherMount: otherEnd.on }),
      }),
      fixedAngles: ANGLES,
    },
    shock: {
      outer: coilover ? 'shockMount' : 'strutLower',
      inner,
      foreAftOffset: coilover?.foreAftOffset ?? 0,
    },
    camber: wheel.camber,
    standsBy: wheel.standsBy,
  } satisfies ModelOf<typeof STRUT>;
}
