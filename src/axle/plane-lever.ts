// The lever of a bar whose axis lies along the car turns in the plane of the axle. With v from the axis A to the point p of the part,
// e from A to the end of the lever (|e| = l) and the link of length L,
//
//   |v - e|^2 = L^2:   v.e = K = (|v|^2 + l^2 - L^2) / 2,   v x e = S,   S^2 = l^2 |v|^2 - K^2,
//   e = (K v + S v') / |v|^2,       v' = v turned by a quarter.
//
// S keeps the sign that it has as drawn until it is 0, a lever over its centre: there the link goes through the axis. With e' = e turned by
// a quarter the angle q of the lever goes by the travel as
//
//   dq = -(v - e).dv / S,     ddq = -(|dv|^2 + (v - e).ddv - 2 dq e'.dv + dq^2 K) / S.

import { OVER_CENTRE } from '../document/axle-findings.ts';
import type { Point } from '../linkage/drawing.ts';
import type { LeverAngles } from './lever-angle.ts';

/** A lever in the plane of the axle, as drawn. */
export interface PlaneLever {
  readonly axis: Point;
  readonly linkMount: Point;
  readonly leverEnd: Point;
}

/** The turns of such a lever from where it is drawn, counter-clockwise in (y, z), as `readLeverAngles`. */
export function readPlaneLeverAngles(
  { axis, linkMount, leverEnd }: PlaneLever,
  m: Float64Array,
  y: number,
  z: number,
  first: number,
  second: number,
  rows: number,
  into: LeverAngles,
): void {
  const [ey0, ez0] = [leverEnd[0] - axis[0], leverEnd[1] - axis[1]];
  const [vy0, vz0] = [linkMount[0] - axis[0], linkMount[1] - axis[1]];
  const lever = ey0 * ey0 + ez0 * ez0;
  const length = Math.sqrt(lever);
  const sign = vy0 * ez0 - vz0 * ey0 < 0 ? -1 : 1;
  for (let row = 0; row < rows; row++) {
    const vy = m[y + row] - axis[0];
    const vz = m[z + row] - axis[1];
    const square = vy * vy + vz * vz;
    // Squares as differences: as drawn K is v.e to the bit.
    const k = vy0 * ey0 + vz0 * ez0 + 0.5 * ((vy - vy0) * (vy + vy0) + (vz - vz0) * (vz + vz0));
    const rest = lever * square - k * k;
    if (!(rest > OVER_CENTRE * OVER_CENTRE * lever * square)) {
      into.angle[row] = Number.NaN;
      continue;
    }
    const s = sign * Math.sqrt(rest);
    const ey = (k * vy - s * vz) / square;
    const ez = (k * vz + s * vy) / square;
    const dy = m[y + first + row];
    const dz = m[z + first + row];
    const rate = -((vy - ey) * dy + (vz - ez) * dz) / s;
    const mixed = ey * dz - ez * dy;
    const byTravel = dy * dy + dz * dz + (vy - ey) * m[y + second + row] + (vz - ez) * m[z + second + row];
    into.angle[row] = Math.atan2(ey0 * ez - ez0 * ey, ey0 * ey + ez0 * ez);
    into.first[row] = rate;
    into.second[row] = -(byTravel - 2 * rate * mixed + rate * rate * k) / s;
    into.y[row] = axis[0] + ey;
    into.z[row] = axis[1] + ez;
    into.arm[row] = length;
  }
}

/** Where the end of the lever is at such a turn. */
export function planeLeverEnd({ axis, leverEnd }: PlaneLever, turn: number): Point {
  const [y, z] = [leverEnd[0] - axis[0], leverEnd[1] - axis[1]];
  const [sin, cos] = [Math.sin(turn), Math.cos(turn)];
  return [axis[0] + y * cos - z * sin, axis[1] + z * cos + y * sin];
}
