import { type DoubleWishboneInput, doubleWishboneSchema } from '../document/corner-schema.ts';
import { parse } from '../document/parse.ts';
import { type Issue, throwIfAny } from '../errors.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
import { DEGREES } from '../units.ts';
import type { CornerModel } from './model.ts';

/** A double-wishbone corner as plain, frozen data: `[y, z]` in mm, angles in degrees; made by `doubleWishbone`. */
export interface DoubleWishbone {
  readonly kind: 'doubleWishbone';
  readonly lowerArm: { readonly inner: Point; readonly outer: Point };
  readonly upperArm: { readonly inner: Point; readonly outer: Point };
  /** Camber as drawn: degrees, top outboard positive. */
  readonly wheel: { readonly centre: Point; readonly contactPatch: Point; readonly camber: number };
  /** `offset`: constant fore-aft distance between the shock's end eyes, mm. */
  readonly coilover: {
    readonly on: 'lowerArm' | 'upperArm' | 'upright';
    readonly mount: Point;
    readonly chassisMount: Point;
    readonly offset: number;
  };
  /** Whether the input was a right-hand corner (negative y), and was mirrored. */
  readonly mirrored: boolean;
}

/**
 * A double-wishbone corner from its hardpoints.
 *
 * Points are `[y, z]` in mm at the drawn ride height, seen from the front: y outboard from the centreline, z up from
 * the ground; a right-hand corner (wheel at negative y) is mirrored. `wheel` takes `camber` (deg, top outboard positive),
 * from which the contact patch follows as that of a thin disc, or `contactPatch`, or both. `coilover.mount` moves
 * with what `coilover.on` names, `chassisMount` is fixed; `offset` is the fore-aft distance between the two, mm.
 *
 * @throws InputError with every issue.
 */
export function doubleWishbone(input: DoubleWishboneInput): DoubleWishbone {
  const given = parse(doubleWishboneSchema, input, 'double wishbone');
  throwIfAny('double wishbone', [...coincidences(given), ...unsoundWheel(given.wheel)]);
  const mirrored = given.wheel.centre[0] < 0;
  const place = ([y, z]: Point): Point => Object.freeze([mirrored ? 0 - y : y, z] as const);
  const arm = ({ inner, outer }: { inner: Point; outer: Point }) =>
    Object.freeze({ inner: place(inner), outer: place(outer) });
  const { coilover } = given;
  return Object.freeze({
    kind: 'doubleWishbone',
    lowerArm: arm(given.lowerArm),
    upperArm: arm(given.upperArm),
    wheel: wheelOf(given.wheel, place),
    coilover: Object.freeze({
      on: coilover.on,
      mount: place(coilover.mount),
      chassisMount: place(coilover.chassisMount),
      offset: coilover.offset ?? 0,
    }),
    mirrored,
  });
}

/** Thin disc: y_cp = y_wc - z_wc tan(camber), z_cp = 0; or camber from a given contact patch by the same relation. */
function wheelOf(
  wheel: DoubleWishboneInput['wheel'],
  place: (point: Point) => Point,
): DoubleWishbone['wheel'] {
  const centre = place(wheel.centre);
  const [y, z] = centre;
  if (wheel.contactPatch === undefined) {
    const camber = wheel.camber ?? 0;
    return Object.freeze({
      centre,
      contactPatch: Object.freeze([y - z * Math.tan(camber / DEGREES), 0] as const),
      camber,
    });
  }
  const contactPatch = place(wheel.contactPatch);
  const camber = wheel.camber ?? Math.atan((y - contactPatch[0]) / (z - contactPatch[1])) * DEGREES;
  return Object.freeze({ centre, contactPatch, camber });
}

/** Pairs of points that must lie apart for the corner to have a geometry. */
function coincidences({ lowerArm, upperArm, wheel, coilover }: DoubleWishboneInput): Issue[] {
  const pairs: [string, Point, string, Point][] = [
    ['lowerArm.inner', lowerArm.inner, 'lowerArm.outer', lowerArm.outer],
    ['upperArm.inner', upperArm.inner, 'upperArm.outer', upperArm.outer],
    ['lowerArm.outer', lowerArm.outer, 'upperArm.outer', upperArm.outer],
    ['wheel.centre', wheel.centre, 'wheel.contactPatch', wheel.contactPatch ?? [Number.NaN, 0]],
    ['coilover.mount', coilover.mount, 'coilover.chassisMount', coilover.chassisMount],
  ];
  return pairs
    .filter(([, a, , b]) => a[0] === b[0] && a[1] === b[1])
    .map(([first, at, second]) => ({
      path: first,
      problem: `in the same place as ${second}`,
      got: `[${at[0]}, ${at[1]}]`,
      advice: 'measure the two again: they must lie apart',
    }));
}

/** Frozen, so that all corners share one structure. */
const GROUND = Object.freeze(['lowerInner', 'upperInner', 'shockChassisMount']);
const BODIES = {
  lowerArm: bodiesWith('lowerArm'),
  upperArm: bodiesWith('upperArm'),
  upright: bodiesWith('upright'),
};

function bodiesWith(shockOn: string): Drawing['bodies'] {
  const bodies = {
    lowerArm: ['lowerInner', 'lowerOuter'],
    upperArm: ['upperInner', 'upperOuter'],
    upright: ['lowerOuter', 'upperOuter', 'wheelCentre', 'contactPatch'],
  };
  return Object.freeze(
    Object.fromEntries(
      Object.entries(bodies).map(([name, points]) => [
        name,
        Object.freeze(name === shockOn ? [...points, 'shockMount'] : points),
      ]),
    ),
  );
}

/** The wheel stands on the ground: its centre is above that, and above its contact patch. */
function unsoundWheel({ centre, contactPatch }: DoubleWishboneInput['wheel']): Issue[] {
  const ground = contactPatch === undefined ? 0 : contactPatch[1];
  // In one place is told as such.
  const together = contactPatch?.[0] === centre[0] && contactPatch[1] === centre[1];
  if (centre[1] > ground || together) return [];
  return [
    {
      path: 'wheel.centre[1]',
      problem:
        contactPatch === undefined
          ? 'wheel centre not above the ground'
          : 'wheel centre not above its contact patch',
      got: `${centre[1]} mm`,
      allowed: `more than ${ground} mm`,
      advice: 'z counts up from the ground at the drawn ride height',
    },
  ];
}

/** The corner as a drawing with its roles named. */
export function doubleWishboneModel(corner: DoubleWishbone): CornerModel {
  const { lowerArm, upperArm, wheel, coilover } = corner;
  return {
    drawing: {
      points: {
        lowerInner: lowerArm.inner,
        lowerOuter: lowerArm.outer,
        upperInner: upperArm.inner,
        upperOuter: upperArm.outer,
        wheelCentre: wheel.centre,
        contactPatch: wheel.contactPatch,
        shockMount: coilover.mount,
        shockChassisMount: coilover.chassisMount,
      },
      ground: GROUND,
      bodies: BODIES[coilover.on],
    },
    upright: 'upright',
    wheelCentre: 'wheelCentre',
    contactPatch: 'contactPatch',
    shock: { outer: 'shockMount', inner: 'shockChassisMount', offset: coilover.offset },
    kingpin: { lower: 'lowerOuter', upper: 'upperOuter' },
    camber: wheel.camber,
    angles: {
      lowerArmAngle: { angle: ['lowerInner', 'lowerOuter'] },
      upperArmAngle: { angle: ['upperInner', 'upperOuter'] },
    },
  };
}
