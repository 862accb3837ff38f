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
import type { LeverAngles } from './lever-angle.ts';
import { planeLeverEnd, readPlaneLeverAngles } from './plane-lever.ts';

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
  const { right = oppositeEnd(left, axis) } = bar;
  const leverLength = Math.hypot(leverEnd[0] - axis[0], leverEnd[1] - axis[1]);
  return { left, right: { ...right, on: right.on ?? on }, leverLength, axis, torsionalStiffness };
}

/** The right-hand end of a bar of which the left one is given: along the car its lever is on the other side of the axis, so that in bump both turn alike. */
export function oppositeEnd(left: BarEnd, axis: Point | null): BarEnd {
  const [y, z] = left.leverEnd;
  return axis === null ? left : { ...left, leverEnd: [y - 2 * axis[0], 2 * axis[1] - z] };
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
 * The lever's angles for places of the drop link's end, whose y and z stand in `m` from these places on, a row each, with their derivatives
 * by travel at `first` and `second` behind them.
 */
export function readLeverAngles(
  lever: Lever,
  m: Float64Array,
  y: number,
  z: number,
  first: number,
  second: number,
  rows: number,
  into: LeverAngles,
): void {
  const { axis, leverEnd, linkMount, side } = lever;
  if (axis === null) {
    readLevelLeverAngles(lever, m, y, z, first, second, rows, into);
    return;
  }
  readPlaneLeverAngles({ axis, leverEnd, linkMount }, m, y, z, first, second, rows, into);
  if (side > 0) return;
  // Outboard on the right is to the right.
  for (const values of [into.angle, into.first, into.second])
    for (let row = 0; row < rows; row++) values[row] = 0 - values[row];
}

/** The same of a bar across the car. */
function readLevelLeverAngles(
  { leverEnd, linkMount, leverLength: l }: Lever,
  m: Float64Array,
  y: number,
  z: number,
  first: number,
  second: number,
  rows: number,
  into: LeverAngles,
): void {
  const { angle, first: rates, second: bends, y: endY, z: endZ, arm } = into;
  const [ey, ez] = leverEnd;
  const v = linkMount[0] - ey;
  const u = linkMount[1] - ez;
  const least = OVER_CENTRE * OVER_CENTRE * (u * u + v * v);
  const sign = u < 0 ? 1 : -1;
  for (let row = 0; row < rows; row++) {
    const across = m[y + row] - ey;
    const up = m[z + row] - ez;
    // Squares of the link's ends as differences: as drawn C is l to the bit.
    const c = l + ((across - v) * (across + v) + (up - u) * (up + u)) / (2 * l);
    const reach = up * up + l * l;
    const square = reach - c * c;
    if (!(square > least)) {
      angle[row] = Number.NaN;
      continue;
    }
    const r = sign * Math.sqrt(square);
    const sin = (up * c + l * r) / reach;
    const cos = (l * c - up * r) / reach;
    // The second way goes on past half a turn.
    angle[row] = cos > 0 ? Math.atan(sin / cos) : Math.atan2(up, l) + Math.atan2(r, c);
    const y1 = m[y + first + row];
    const z1 = m[z + first + row];
    const perTurn = 1 / (l * r);
    const rate = -(across * y1 + (up - l * sin) * z1) * perTurn;
    const mixed = -z1 * l * cos;
    const byTravel = y1 * y1 + across * m[y + second + row] + z1 * z1 + (up - l * sin) * m[z + second + row];
    // F_aa = 2 l (l cos a + u sin a) = 2 l C.
    rates[row] = rate;
    bends[row] = -(byTravel + 2 * mixed * rate + l * c * rate * rate) * perTurn;
    endY[row] = ey;
    endZ[row] = ez + l * sin;
    arm[row] = l * cos;
  }
}
