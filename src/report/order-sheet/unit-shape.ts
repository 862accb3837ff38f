// Proportions of a coilover as the order draws it, mm. Real lengths stand along its axis, u from the eye of the body to the eye of the shaft:
//
//   eye to eye L;  fully compressed the body's end meets the shaft's seat:  body end = L_compressed - seat
//   the perch stands at  setting - seat  from the eye of the body, so that  L - setting  is the length between the seats
//   the bump stop lies on the shaft's seat; the body meets it at L_compressed + its height
//
// What the file does not give (eye diameters, seat thickness, coils) is drawn as such parts usually are: it is the maker's.

import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { bearingOf, type End, type Hold, holdOf } from '../../coilover/sizing/unsettled.ts';
import { strutOf } from '../../corner/corner.ts';
import { certain } from '../../document/uncertain.ts';
import { standOf } from './unit-stand.ts';

/** What one end of the unit is, as it is drawn. */
export interface EndShape {
  readonly type: 'eye' | 'clevis' | 'stud' | 'clamp';
  /** Bore of the eye or diameter of the stud, mm. */
  readonly bore: number;
  /** Half of what the end measures along the unit, mm. */
  readonly radius: number;
  /** Width between the cheeks of its bracket, mm. */
  readonly width: number;
  /** Whether the bolt lies in the plane of the drawing: the end is seen from the side then. */
  readonly boltAcross: boolean;
}

/** A spring between its seats. */
export interface SpringShape {
  /** Mean radius of the coils and diameter of the wire, mm. */
  readonly radius: number;
  readonly wire: number;
  readonly coils: number;
  readonly free: number;
  readonly solid: number;
  /** Minimum permissible length; null where it is not known. */
  readonly minimum: number | null;
  readonly rate: number;
}

/** A unit as it is drawn; lengths in mm. */
export interface UnitShape {
  readonly extended: number;
  readonly ride: number;
  readonly compressed: number;
  /** Whether the chassis end is the upper one, and whether the body is at the upper end. */
  readonly chassisUp: boolean;
  readonly bodyUp: boolean;
  readonly bodyEnd: EndShape;
  readonly shaftEnd: EndShape;
  readonly bodyRadius: number;
  readonly shaftRadius: number;
  /** From the eye of the shaft to the face of the seat on it. */
  readonly seat: number;
  /** From the eye of the body to the end of the body. */
  readonly bodyLength: number;
  /** From the eye of the body to the face of the perch; where it usually is, if `seatsKnown` does not hold. */
  readonly perch: number;
  readonly seatsKnown: boolean;
  /** Between which places the perch can be set; null where that is not given. */
  readonly thread: readonly [number, number] | null;
  readonly spring: SpringShape;
  readonly helper: (SpringShape & { readonly separator: number }) | null;
  readonly bumpStop: { readonly height: number; readonly solidHeight: number } | null;
}

/** What is drawn where the file says nothing, mm. */
const USUAL = { bore: 12, bodyDiameter: 46, shaft: 13, innerDiameter: 60, width: 36 };
/** A spring shorter than this fraction of its free length is not drawn. */
export const SHORTEST = 0.35;
/** Wire and inner diameter of common coilover springs. */
const WIRE_FRACTION = 0.17;
const COILS = 7;

/** How an end without a bolt is drawn. */
const TYPES: Partial<Record<Hold, EndShape['type']>> = { nut: 'stud', upright: 'clamp' };

/** The unit of an axle as it is drawn; null while its lengths are not known. */
export function unitShape(sized: AxleSizing): UnitShape | null {
  const { damper, input, figure } = sized;
  const ride = figure('designLength').value;
  if (damper === null || ride === null) return null;
  const { corner } = input;
  const sizing: CornerSizing = certain(input.sizing ?? {});
  const { order = {} } = sizing;
  const { chassisUp } = standOf(sized);
  const isStrut = strutOf(corner) !== null;
  const bodyUp = isStrut ? false : order.bodyEnd !== 'down';
  const shapeOf = (end: End): EndShape => {
    const given = order.mounts?.[end];
    const bore = given?.bore ?? USUAL.bore;
    return {
      type:
        TYPES[holdOf(input, end)] ?? (given?.type === 'clevis' || given?.type === 'fork' ? 'clevis' : 'eye'),
      bore,
      radius: 0.55 * bore + 7.5,
      width: given?.width ?? USUAL.width,
      boltAcross: bearingOf(input, end)?.boltAxis === 'inPlane',
    };
  };
  const [wheel, chassis] = [shapeOf('mount'), shapeOf('chassis')];
  const bodyAtChassis = bodyUp === chassisUp;
  const [bodyEnd, shaftEnd] = bodyAtChassis ? [chassis, wheel] : [wheel, chassis];
  const { extendedLength: extended, compressedLength: compressed } = damper;
  const seat = Math.min(shaftEnd.radius + 14, 0.2 * compressed);
  const bodyLength = compressed - seat;
  const coilOf = sizing.springs?.find(({ name }) => name === sized.spring?.name)?.wire;
  const inner = sized.spring?.innerDiameter ?? Math.max(USUAL.innerDiameter, (order.bodyDiameter ?? 0) + 4);
  const wire =
    coilOf?.diameter ??
    Math.min(WIRE_FRACTION * inner, ((order.maxSpringOuterDiameter ?? Number.POSITIVE_INFINITY) - inner) / 2);
  const setting = figure('perchSetting').value;
  const usualPerch = 0.42 * bodyLength;
  const perch =
    setting === null ? usualPerch : Math.min(bodyLength - 4, Math.max(bodyEnd.radius + 8, setting - seat));
  const { min, max } = sizing.perch ?? {};
  const solid = sized.spring?.solidLength ?? 0;
  const free = sized.spring?.freeLength ?? extended - usualPerch - seat + 10;
  const spring: SpringShape = {
    radius: (inner + wire) / 2,
    wire,
    coils: coilOf?.totalCoils ?? (solid > 0 ? Math.min(12, Math.max(4, Math.round(solid / wire))) : COILS),
    free,
    solid,
    minimum: sized.spring?.minLength ?? null,
    rate: sized.spring?.rate ?? 1,
  };
  const { helper } = sizing;
  return {
    extended,
    ride,
    compressed,
    chassisUp,
    bodyUp,
    bodyEnd,
    shaftEnd,
    bodyRadius: Math.min(order.bodyDiameter ?? USUAL.bodyDiameter, inner - 1) / 2,
    shaftRadius: (sizing.gas?.shaftDiameter ?? USUAL.shaft) / 2,
    seat,
    bodyLength,
    perch,
    seatsKnown: setting !== null,
    thread:
      min === undefined || max === undefined
        ? null
        : [Math.max(bodyEnd.radius + 4, min - seat), Math.min(bodyLength, max - seat)],
    spring,
    helper:
      helper === undefined
        ? null
        : {
            radius: spring.radius,
            wire: Math.min(wire, Math.max(2, helper.solidLength / 6)),
            coils: 5,
            free: helper.freeLength,
            solid: helper.solidLength,
            minimum: null,
            rate: helper.rate,
            separator: helper.separatorHeight ?? 0,
          },
    bumpStop: input.limits.bumpStop ?? null,
  };
}

/** Lengths of main and helper spring between seats so far apart, mm; less than apart where they are loose. */
export function springLengths(
  { spring, helper }: Pick<UnitShape, 'spring' | 'helper'>,
  apart: number,
): { readonly main: number; readonly helper: number } {
  if (helper === null) return { main: Math.min(spring.free, apart), helper: 0 };
  const compression = Math.max(0, spring.free + helper.free + helper.separator - apart);
  const ofHelper = Math.min(
    helper.free - helper.solid,
    (compression * spring.rate) / (spring.rate + helper.rate),
  );
  return { main: spring.free - (compression - ofHelper), helper: helper.free - ofHelper };
}

/** How far the compressed damper, without its bump stop, would press a spring that must not be so short; null where it may be. */
export function belowMinimum(sized: AxleSizing): {
  readonly length: number;
  readonly limit: string;
  readonly isDrawn: boolean;
} | null {
  const setting = sized.figure('perchSetting').value;
  const shape = unitShape(sized);
  const minimum = shape?.spring.minimum ?? null;
  if (shape === null || setting === null || minimum === null) return null;
  const { main } = springLengths(shape, shape.compressed - setting);
  if (!(main < minimum)) return null;
  const isDrawn = main > Math.max(shape.spring.solid, SHORTEST * shape.spring.free);
  return {
    length: main,
    limit: main < shape.spring.solid ? 'solid length' : 'minimum permissible length',
    isDrawn,
  };
}
