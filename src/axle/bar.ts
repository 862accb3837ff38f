// An anti-roll bar lies across the car; its levers point fore and aft, and a drop link takes the end of each to a part of the suspension.
// Seen from the front the lever's end moves up and down: at an angle a from level it stands l sin a higher, and l (1 - cos a) nearer
// to the bar along the car, so that for the link of length L from the point p of the part
//
//   F(a, z) = |p(z) - b - (0, l sin a)|^2 + (l (1 - cos a))^2 - L^2 = 0,      b the lever's end as drawn.
//
// With v across and u up from b to p, the squares of sine and cosine add to 1, and F = 0 is linear in both:
//
//   u sin a + l cos a = C,   C = (u^2 + v^2 + 2 l^2 - L^2) / (2 l);   with D^2 = u^2 + l^2 and r^2 = D^2 - C^2
//   sin a = (u C + l r) / D^2,   cos a = (l C - u r) / D^2.
//
// F_a = 2 l r: r keeps the sign that it has as drawn, that of -u, until it is 0, a lever over its centre: there the link goes through the
// bar's axis. From F also a' = -F_z / F_a by travel, and a'' the same way.

import { antiRollBarSchema, roundBarSchema } from '../document/axle-schema.ts';
import { type Finding, found, parse } from '../document/parse.ts';
import type { Point } from '../linkage/drawing.ts';
import { NEWTON_METRE_PER_DEGREE } from '../units.ts';

/** An anti-roll bar, by one of its ends; the other is the mirror image. */
export interface AntiRollBar {
  /** Body of the corner that carries the drop link, by its name in the drawing: `lowerArm`, `upperArm`, `upright`, `rocker`. */
  readonly on: string;
  /** End of the drop link on that body, [y, z] mm at design ride height. */
  readonly linkMount: Point;
  /** End of the drop link on the lever, [y, z] mm at design ride height. */
  readonly leverEnd: Point;
  /** From the axis of the bar to the end of its lever, mm; the lever is level at design ride height. */
  readonly leverLength: number;
  /** Torque in the bar per angle between its levers, N·m/deg, with links, levers and bushes in series. */
  readonly torsionalStiffness: number;
}

/** A round bar or tube in torsion. */
export interface RoundBar {
  /** mm. */
  readonly diameter: number;
  /** Of a tube, mm; default 0. */
  readonly innerDiameter?: number;
  /** Length in torsion, mm. */
  readonly length: number;
  /** N/mm²; default 79,300, steel. */
  readonly shearModulus?: number;
}

/** Shear modulus of spring steel, N/mm^2 (EN 13906-1 takes 79,500 for drawn wire and 78,500 hot-coiled; steel bar 79,300, from memory). */
const STEEL = 79_300;

/**
 * Torsional stiffness G pi (d^4 - d_i^4) / (32 L) of a round bar, N·m/deg (elementary theory of torsion, S. P. Timoshenko).
 *
 * @throws InputError for sizes out of range.
 */
export function torsionalStiffness(bar: RoundBar): number {
  const {
    diameter,
    innerDiameter = 0,
    length,
    shearModulus = STEEL,
  } = parse(roundBarSchema, bar, 'round bar', wallFindings);
  const polar = (Math.PI * (diameter ** 4 - innerDiameter ** 4)) / 32;
  return (shearModulus * polar) / length / NEWTON_METRE_PER_DEGREE;
}

/** A tube has a wall. */
function wallFindings(bar: unknown): Finding[] {
  const { diameter, innerDiameter = 0 } = (bar ?? {}) as Partial<RoundBar>;
  if (!(typeof diameter === 'number' && diameter > 0 && innerDiameter >= diameter)) return [];
  return [
    found(['innerDiameter'], 'outOfRange', {
      got: String(innerDiameter),
      below: diameter,
      quantity: 'length',
    }),
  ];
}

/** A bar as plain, checked data. */
export function checkedBar(bar: AntiRollBar): AntiRollBar {
  return parse(antiRollBarSchema, bar, 'anti-roll bar');
}

/** A lever's angle from level, radians, end up positive, with its derivatives by the wheel's travel. */
export interface LeverAngle {
  readonly angle: number;
  readonly first: number;
  readonly second: number;
}

/** Share of the link that its lever arm about the bar's axis must have; with less the lever is over its centre. */
const OVER_CENTRE = 1e-6;

/** Whether the lever is over its centre as drawn. */
export function isOverCentre({ linkMount, leverEnd }: AntiRollBar): boolean {
  const up = linkMount[1] - leverEnd[1];
  return !(Math.abs(up) > OVER_CENTRE * Math.hypot(linkMount[0] - leverEnd[0], up));
}

/**
 * The lever's angle for a place of the drop link's end, whose y and z stand in `m` at these places, each with its derivatives by travel at
 * `first` and `second` behind it. Null where the link does not reach or the lever is over its centre.
 */
export function leverAngle(
  { leverEnd, linkMount, leverLength: l }: AntiRollBar,
  m: ArrayLike<number>,
  y: number,
  z: number,
  first: number,
  second: number,
): LeverAngle | null {
  const across = m[y] - leverEnd[0];
  const up = m[z] - leverEnd[1];
  const v = linkMount[0] - leverEnd[0];
  const u = linkMount[1] - leverEnd[1];
  // Squares of the link's ends as differences: as drawn C is l to the bit.
  const c = l + ((across - v) * (across + v) + (up - u) * (up + u)) / (2 * l);
  const reach = up * up + l * l;
  const square = reach - c * c;
  if (!(square > OVER_CENTRE * OVER_CENTRE * (u * u + v * v))) return null;
  const r = u < 0 ? Math.sqrt(square) : -Math.sqrt(square);
  const sin = (up * c + l * r) / reach;
  const cos = (l * c - up * r) / reach;
  // The second way goes on past half a turn.
  const angle = cos > 0 ? Math.atan(sin / cos) : Math.atan2(up, l) + Math.atan2(r, c);
  const y1 = m[y + first];
  const z1 = m[z + first];
  const rate = -(across * y1 + (up - l * sin) * z1) / (l * r);
  const mixed = -z1 * l * cos;
  const byTravel = y1 * y1 + across * m[y + second] + z1 * z1 + (up - l * sin) * m[z + second];
  // F_aa = 2 l (l cos a + u sin a) = 2 l C.
  return { angle, first: rate, second: -(byTravel + 2 * mixed * rate + l * c * rate * rate) / (l * r) };
}
