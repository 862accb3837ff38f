import { type DoubleWishboneInput, doubleWishboneSchema } from '../document/corner-schema.ts';
import { geometryFindings } from '../document/geometry.ts';
import { inOrder, type Place, parse, pathText } from '../document/parse.ts';
import { type Certain, certain } from '../document/uncertain.ts';
import { throwIfAny } from '../errors.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
import { DEGREES } from '../units.ts';
import type { CornerModel } from './model.ts';

/** A double-wishbone corner as plain, frozen data: `[y, z]` in mm, angles in degrees; made by `doubleWishbone`. */
export interface DoubleWishbone {
  readonly kind: 'doubleWishbone';
  readonly lowerArm: { readonly inner: Point; readonly outer: Point };
  readonly upperArm: { readonly inner: Point; readonly outer: Point };
  /** Camber as drawn: degrees, top outboard positive. `standsBy`: which of camber and contact patch was given. */
  readonly wheel: {
    readonly centre: Point;
    readonly contactPatch: Point;
    readonly camber: number;
    readonly standsBy: 'camber' | 'contactPatch' | 'both';
  };
  /** `offset`: constant fore-aft distance between the shock's end eyes, mm. */
  readonly coilover: {
    readonly on: 'lowerArm' | 'upperArm' | 'upright';
    readonly mount: Point;
    readonly chassisMount: Point;
    readonly offset: number;
  };
  /** Whether the input was a right-hand corner (negative y), and was mirrored. */
  readonly mirrored: boolean;
  /** How far coordinates may be off, mm: half-width of a 95 % interval, by coordinate (`lowerInnerY`), if any was given. */
  readonly plusMinus?: Readonly<Record<string, number>>;
}

/**
 * A double-wishbone corner from its hardpoints.
 *
 * Points are `[y, z]` in mm at the drawn ride height, seen from the front: y outboard from the centreline, z up from
 * the ground; a right-hand corner (wheel at negative y) is mirrored. `wheel` takes `camber` (deg, top outboard positive),
 * from which the contact patch follows as that of a thin disc, or `contactPatch`, or both. `coilover.mount` moves
 * with what `coilover.on` names, `chassisMount` is fixed; `offset` is the fore-aft distance between the two, mm. Any
 * coordinate may be `{ value, plusMinus }`: known to plus or minus so many mm.
 *
 * @throws InputError with every issue.
 */
export function doubleWishbone(input: DoubleWishboneInput): DoubleWishbone {
  const written = parse(doubleWishboneSchema, input, 'double wishbone');
  const plusMinus: Record<string, number> = {};
  const given = certain(written, (at, width) => {
    plusMinus[coordinateAt(at)] = width;
  });
  throwIfAny('double wishbone', inOrder(geometryFindings(given, 'mm'), input));
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
    ...(Object.keys(plusMinus).length === 0 ? {} : { plusMinus: Object.freeze(plusMinus) }),
  });
}

/** Where the points of the drawing stand in the input. */
const PLACES: Readonly<Record<string, string>> = {
  'lowerArm.inner': 'lowerInner',
  'lowerArm.outer': 'lowerOuter',
  'upperArm.inner': 'upperInner',
  'upperArm.outer': 'upperOuter',
  'wheel.centre': 'wheelCentre',
  'wheel.contactPatch': 'contactPatch',
  'coilover.mount': 'shockMount',
  'coilover.chassisMount': 'shockChassisMount',
};

/** The coordinate that stands at a place of the input: `lowerInnerY` at `lowerArm.inner[0]`. */
function coordinateAt(at: Place): string {
  return PLACES[pathText(at.slice(0, 2))] + (at[2] === 0 ? 'Y' : 'Z');
}

/** Thin disc: y_cp = y_wc - z_wc tan(camber), z_cp = 0; or camber from a given contact patch by the same relation. */
function wheelOf(
  wheel: Certain<DoubleWishboneInput>['wheel'],
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
      standsBy: 'camber',
    });
  }
  const contactPatch = place(wheel.contactPatch);
  const camber = wheel.camber ?? Math.atan((y - contactPatch[0]) / (z - contactPatch[1])) * DEGREES;
  const standsBy = wheel.camber === undefined ? 'contactPatch' : 'both';
  return Object.freeze({ centre, contactPatch, camber, standsBy });
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
    standsBy: wheel.standsBy,
    angles: {
      lowerArmAngle: { angle: ['lowerInner', 'lowerOuter'] },
      upperArmAngle: { angle: ['upperInner', 'upperOuter'] },
    },
  };
}
