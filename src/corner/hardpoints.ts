// What corners of all kinds do with their hardpoints: those of a right-hand corner are mirrored, all are frozen.

import type { Diagnostic } from '../diagnostic.ts';
import type { HalfWidth } from '../document/certain-corner.ts';
import type { CornerKind, PointOf } from '../document/corner-kind.ts';
import type { DoubleWishboneInput } from '../document/inputs.ts';
import { pathText } from '../document/parse.ts';
import type { Certain } from '../document/uncertain.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
import { DEGREES } from '../units.ts';
import type { Covariance } from './covariance.ts';

/** An arm from its chassis pivot to its ball joint, each `[y, z]` in mm. */
export interface Arm {
  readonly inner: Point;
  readonly outer: Point;
}

/** A wheel as drawn: points `[y, z]` in mm, camber in degrees, top outboard positive. */
export interface Wheel {
  readonly centre: Point;
  readonly contactPatch: Point;
  readonly camber: number;
  /** Which of camber and contact patch was given; the other followed. */
  readonly standsBy: 'camber' | 'contactPatch' | 'both';
}

/** A corner of which some coordinates may be off. */
export interface Uncertain {
  /** How far, mm: half-width of a 95 % interval by coordinate (`lowerInnerY`), or their covariance, if any was given. */
  readonly plusMinus?: Readonly<Record<string, number>> | Covariance;
  /** What the survey of its points leaves to look at, if there is any; paths are places in the survey, or in the file that has them. */
  readonly checks?: readonly Diagnostic[];
}

/** How far the coordinates of a corner may be off: `lowerInnerY` for `lowerArm.inner[0]`; nothing where all are certain. */
export function plusMinusOf({ points }: CornerKind, halfWidths: readonly HalfWidth[]): Uncertain | undefined {
  if (halfWidths.length === 0) return undefined;
  const plusMinus: Record<string, number> = {};
  for (const { at, plusMinus: width } of halfWidths) {
    plusMinus[points[pathText(at.slice(0, -1))] + (at[at.length - 1] === 0 ? 'Y' : 'Z')] = width;
  }
  return { plusMinus: Object.freeze(plusMinus) };
}

/** A part that moves with the wheel. */
export type Part = 'lowerArm' | 'upperArm' | 'upright';

/** The other end of a coilover, either fixed on the chassis or on a part that moves; one of the two is there, `[y, z]` in mm. */
export interface OtherEnd<On extends string = Part> {
  readonly chassisMount?: Point;
  readonly otherEnd?: { readonly on: On; readonly mount: Point };
  /** Constant fore-aft distance between the two ends, mm. */
  readonly foreAftOffset: number;
}

/** Puts a point in its place: mirrored for a right-hand corner, and frozen. */
export type Placing = (point: Point) => Point;

/** How the points of a corner with the wheel at a place are put in theirs. */
export function placing(wheelCentre: Point): { mirrored: boolean; place: Placing } {
  const mirrored = wheelCentre[0] < 0;
  return { mirrored, place: ([y, z]) => Object.freeze([mirrored ? 0 - y : y, z] as const) };
}

/** An arm in its place. */
export function placedArm({ inner, outer }: Arm, place: Placing): Arm {
  return Object.freeze({ inner: place(inner), outer: place(outer) });
}

/** Thin disc: y_cp = y_wc - z_wc tan(camber), z_cp = 0; or camber from a given contact patch by the same relation. */
export function placedWheel(wheel: Certain<DoubleWishboneInput>['wheel'], place: Placing): Wheel {
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
  return Object.freeze({
    centre,
    contactPatch,
    camber: wheel.camber ?? leanOf(centre, contactPatch),
    standsBy: wheel.camber === undefined ? 'contactPatch' : 'both',
  });
}

/** Camber of a thin disc, degrees. */
export function leanOf([y, z]: Point, contactPatch: Point): number {
  return Math.atan((y - contactPatch[0]) / (z - contactPatch[1])) * DEGREES;
}

/** The other end of a coilover in its place. */
export function placedOtherEnd(
  {
    chassisMount,
    otherEnd,
    foreAftOffset = 0,
  }: Partial<Pick<Certain<DoubleWishboneInput>['coilover'], keyof OtherEnd>>,
  place: Placing,
): OtherEnd {
  if (chassisMount !== undefined) return { chassisMount: place(chassisMount), foreAftOffset };
  if (otherEnd === undefined) return { foreAftOffset };
  return { otherEnd: Object.freeze({ on: otherEnd.on, mount: place(otherEnd.mount) }), foreAftOffset };
}

/** Where the other end of a coilover lies. */
export function otherEndOf({ chassisMount, otherEnd }: OtherEnd): Point {
  return (otherEnd?.mount ?? chassisMount) as Point;
}

/**
 * Bodies to which points can be added, each to the body named: frozen, and for the same question the same, so that all
 * corners of a kind share one structure.
 */
export function growing<Kind extends CornerKind>(
  bodies: Readonly<Record<string, readonly PointOf<Kind>[]>>,
): (added: { readonly [Point in PointOf<Kind>]?: string }) => Drawing['bodies'] {
  const grown = new Map<string, Drawing['bodies']>();
  return (added) => {
    const bodyOf: Readonly<Record<string, string | undefined>> = added;
    let key = '';
    for (const point in bodyOf) key += `${point} ${bodyOf[point]}\n`;
    const before = grown.get(key);
    if (before !== undefined) return before;
    const names = Object.keys(added);
    const entries = Object.entries(bodies).map(([body, points]) => {
      const more = names.filter((name) => bodyOf[name] === body);
      return [body, Object.freeze([...points, ...more])] as const;
    });
    const made = Object.freeze(Object.fromEntries(entries));
    grown.set(key, made);
    return made;
  };
}
