import { show } from '../diagnostic.ts';
import { toMetric, type Units } from '../units.ts';
import { type CornerKind, isMovingEnd, isOtherEnd } from './corner-kind.ts';
import { type Finding, found, type Place, pathText, placeAt, valueAt } from './parse.ts';

type Point = readonly [number, number];

/**
 * What keeps the points of a corner, as far as they are points, from being one: two in one place, a wheel in the ground, a
 * coilover with both ends on one part. `units` are theirs.
 */
export function geometryFindings(kind: CornerKind, corner: unknown, units: Units): Finding[] {
  const findings: Finding[] = [];
  for (const [first, second] of apartOf(kind)) {
    const a = pointAt(corner, first);
    const b = a && pointAt(corner, second);
    if (a && b && a[0] === b[0] && a[1] === b[1]) findings.push(coincidence(a, first, second));
  }
  const wheel = unsoundWheel(corner, units);
  if (wheel !== undefined) findings.push(wheel);
  const ends = onOnePart(corner);
  if (ends !== undefined) findings.push(ends);
  return findings;
}

type Pair = readonly [first: Place, second: Place];

/** Those of each kind met, as their places. */
const apart = new WeakMap<CornerKind, readonly Pair[]>();

/** Pairs of points that must lie apart for a corner to have a geometry; a fault is reported at the first. */
function apartOf(kind: CornerKind): readonly Pair[] {
  let pairs = apart.get(kind);
  if (pairs === undefined) {
    const paths = Object.keys(kind.points);
    const ends = paths
      .filter(isMovingEnd)
      .flatMap((moving) => paths.filter(isOtherEnd).map((other) => [moving, other] as const));
    const wheel = ['wheel.centre', 'wheel.contactPatch'] as const;
    const named = [...Object.values(kind.arms), ...kind.apart, wheel, ...ends];
    pairs = named.map(([first, second]): Pair => [placeAt(first), placeAt(second)]);
    apart.set(kind, pairs);
  }
  return pairs;
}

function coincidence([y, z]: Point, first: Place, second: Place): Finding {
  return found(first, 'samePlace', { other: pathText(second), got: `[${y}, ${z}]` });
}

const CENTRE = ['wheel', 'centre'];
const CONTACT_PATCH = ['wheel', 'contactPatch'];

/** The wheel stands on the ground: its centre is above that, and above its contact patch. */
function unsoundWheel(corner: unknown, units: Units): Finding | undefined {
  const centre = pointAt(corner, CENTRE);
  if (centre === undefined) return undefined;
  const contactPatch = pointAt(corner, CONTACT_PATCH);
  const ground = contactPatch === undefined ? 0 : contactPatch[1];
  // In one place is reported as such.
  const together = contactPatch?.[0] === centre[0] && contactPatch[1] === centre[1];
  if (centre[1] > ground || together) return undefined;
  return found(
    [...CENTRE, 1],
    contactPatch === undefined ? 'wheelNotAboveGround' : 'wheelNotAboveContactPatch',
    { got: show(centre[1]), above: toMetric(ground, 'length', units) },
  );
}

const ON = ['coilover', 'on'];
const OTHER_ON = ['coilover', 'otherEnd', 'on'];

/** Between two points of one part a coilover would never change its length. */
function onOnePart(corner: unknown): Finding | undefined {
  const on = valueAt(corner, OTHER_ON);
  if (typeof on !== 'string' || on !== valueAt(corner, ON)) return undefined;
  return found(OTHER_ON, 'bothEndsOnOnePart', { got: show(on) });
}

/** The point at a place of a corner, if one stands there. */
export function pointAt(corner: unknown, at: Place): Point | undefined {
  const point = valueAt(corner, at);
  if (!Array.isArray(point) || point.length !== 2) return undefined;
  if (Number.isFinite(point[0]) && Number.isFinite(point[1])) return point as unknown as Point;
  const [y, z] = [point[0], point[1]].map((coordinate) => valueAt(coordinate, ['value']) ?? coordinate);
  return Number.isFinite(y) && Number.isFinite(z) ? [y, z] : undefined;
}
