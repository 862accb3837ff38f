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

import { barShapeFindings, OVER_CENTRE, wallFindings } from '../document/axle-findings.ts';
import { antiRollBarSchema, roundBarSchema } from '../document/axle-schema.ts';
import type { AntiRollBarInput, RoundBarInput } from '../document/inputs.ts';
import { parse } from '../document/parse.ts';
import { roundBarStiffness } from '../document/round-bar.ts';
import { refuse } from '../errors/file.ts';
import type { Point } from '../linkage/drawing.ts';
import type { LeverAngle } from './lever-angle.ts';
import { planeLeverAngle, planeLeverEnd } from './plane-lever.ts';

/** An end of an anti-roll bar, at design ride height; y is outboard. */
export interface BarEnd {
  /** Body of the corner that carries the drop link, by its name in the drawing: `lowerArm`, `upperArm`, `upright`, `rocker`. */
  readonly on: string;
  /** End of the drop link on that body, [y, z] mm. */
  readonly linkMount: Point;
  /** End of the drop link on the lever, [y, z] mm. */
  readonly leverEnd: Point;
}

/** An anti-roll bar. */
export interface AntiRollBar {
  readonly left: BarEnd;
  readonly right: BarEnd;
  /** From the axis of the bar to the end of its left lever, mm. Level at design ride height where the bar lies across the car. */
  readonly leverLength: number;
  /** Axis of a bar along the car, [y, z] mm, y to the left; null for one across the car. */
  readonly axis: Point | null;
  /** Torque in the bar per angle between its levers, N·m/deg. */
  readonly torsionalStiffness: number;
}

/**
 * Torsional stiffness G pi (d^4 - d_i^4) / (32 L) of a round bar, N·m/deg (elementary theory of torsion, S. P. Timoshenko).
 *
 * @throws InputError for sizes out of range.
 */
export function torsionalStiffness(bar: RoundBarInput): number {
  return roundBarStiffness(parse(roundBarSchema, bar, 'round bar', wallFindings));
}

/** A bar as plain, checked data. */
export function checkedBar(input: AntiRollBarInput): AntiRollBar {
  const bar = parse(antiRollBarSchema, input, 'anti-roll bar', barShapeFindings, refuse);
  const { on, linkMount, leverEnd, axis = null, roundBar } = bar;
  const left = { on, linkMount, leverEnd };
  // One of the two is there; a stiffness that was measured is that of the whole bar.
  const { torsionalStiffness = roundBarStiffness(roundBar as RoundBarInput) } = bar;
  if (axis === null) {
    return { left, right: left, leverLength: bar.leverLength as number, axis, torsionalStiffness };
  }
  // The same mount, and the lever on the other side of the axis: in bump both levers turn alike.
  const opposite: Point = [leverEnd[0] - 2 * axis[0], 2 * axis[1] - leverEnd[1]];
  const { right = { on, linkMount, leverEnd: opposite } } = bar;
  const leverLength = Math.hypot(leverEnd[0] - axis[0], leverEnd[1] - axis[1]);
  return { left, right: { ...right, on: right.on ?? on }, leverLength, axis, torsionalStiffness };
}

/** The lever of one end of a bar; y of its points is outboard. */
export interface Lever extends BarEnd {
  readonly side: 1 | -1;
  readonly leverLength: number;
  readonly axis: Point | null;
}

/** The lever of a bar on a side, 1 for the left one. */
export function leverOn({ left, right, leverLength, axis }: AntiRollBar, side: 1 | -1): Lever {
  const end = side > 0 ? left : right;
  return { ...end, side, leverLength, axis: axis === null ? null : [side * axis[0], axis[1]] };
}

/** Where the end of a lever is at its angle, y outboard. */
export function leverEndAt(lever: Lever, angle: number): Point {
  const { axis, leverEnd, linkMount, leverLength, side } = lever;
  if (axis !== null) return planeLeverEnd({ axis, leverEnd, linkMount }, side * angle);
  return [leverEnd[0], leverEnd[1] + leverLength * Math.sin(angle)];
}

/**
 * The lever's angle for a place of the drop link's end, whose y and z stand in `m` at these places, each with its derivatives by travel at
 * `first` and `second` behind it. False where the link does not reach or the lever is over its centre.
 */
export function leverAngle(
  lever: Lever,
  m: ArrayLike<number>,
  y: number,
  z: number,
  first: number,
  second: number,
  into: LeverAngle,
): boolean {
  const { axis, leverEnd, linkMount, side } = lever;
  if (axis === null) return levelLeverAngle(lever, m, y, z, first, second, into);
  if (!planeLeverAngle({ axis, leverEnd, linkMount }, m, y, z, first, second, into)) return false;
  if (side > 0) return true;
  // Outboard on the right is to the right.
  into.angle = 0 - into.angle;
  into.first = 0 - into.first;
  into.second = 0 - into.second;
  return true;
}

/** The same of a bar across the car. */
function levelLeverAngle(
  { leverEnd, linkMount, leverLength: l }: Lever,
  m: ArrayLike<number>,
  y: number,
  z: number,
  first: number,
  second: number,
  into: LeverAngle,
): boolean {
  const across = m[y] - leverEnd[0];
  const up = m[z] - leverEnd[1];
  const v = linkMount[0] - leverEnd[0];
  const u = linkMount[1] - leverEnd[1];
  // Squares of the link's ends as differences: as drawn C is l to the bit.
  const c = l + ((across - v) * (across + v) + (up - u) * (up + u)) / (2 * l);
  const reach = up * up + l * l;
  const square = reach - c * c;
  if (!(square > OVER_CENTRE * OVER_CENTRE * (u * u + v * v))) return false;
  const r = u < 0 ? Math.sqrt(square) : -Math.sqrt(square);
  const sin = (up * c + l * r) / reach;
  const cos = (l * c - up * r) / reach;
  // The second way goes on past half a turn.
  into.angle = cos > 0 ? Math.atan(sin / cos) : Math.atan2(up, l) + Math.atan2(r, c);
  const y1 = m[y + first];
  const z1 = m[z + first];
  const rate = -(across * y1 + (up - l * sin) * z1) / (l * r);
  const mixed = -z1 * l * cos;
  const byTravel = y1 * y1 + across * m[y + second] + z1 * z1 + (up - l * sin) * m[z + second];
  // F_aa = 2 l (l cos a + u sin a) = 2 l C.
  into.first = rate;
  into.second = -(byTravel + 2 * mixed * rate + l * c * rate * rate) / (l * r);
  into.y = leverEnd[0];
  into.z = leverEnd[1] + l * sin;
  into.arm = l * cos;
  return true;
}
