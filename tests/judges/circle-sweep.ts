/**
 * The circle intersection of circle-intersection.ts as a sweep written for speed: the hand-written rival in
 * the benchmarks.
 *
 * Unknown: t = tan(half the turn of the lower arm since the drawing), so that with w = 1 + t²
 *     p = a + (2t/w) (a⊥ - t a),   N = w D = n0 + n1 t + n2 t²,   w² H = 4 b² N w - (w (b² - c²) + N)²
 * (a here the drawn p): no angle function, and root and divisions do not wait for each other. With the
 * rotations w_p, w_r, w_q of circle-intersection.ts the travel's speed is
 *     z' = w_p p_y + w_r (α r_y - β r_z),   dt/dz = w_p w / (2 z')
 * Start: cubic through the last two poses and their dt/dz, carried on to the next travel. On an ordinary grid
 * the pose found there misses the travel by so little that one correction of first order ends it: all vectors
 * are turned by w_v dσ, dσ = miss / z'. What that leaves out, |v| (w_v dσ)² / 2, is less than rounding when
 * the turns are below LAST_TURN. A larger miss iterates.
 *
 * Ends at the first travel it cannot give: no intersection, or beyond a dead point, or where the lower arm
 * turns back.
 */

import type { CornerInput, TravelReference } from './circle-intersection.ts';
import { drawnContactPatch } from './circle-intersection.ts';

/**
 * What a row of the output holds, in this order: mm; and the last two, per mm of travel, from
 * `fastSweepWithRatios` only.
 */
export const POSITION_COLUMNS = [
  'lowerOuterY',
  'lowerOuterZ',
  'upperOuterY',
  'upperOuterZ',
  'wheelCentreY',
  'wheelCentreZ',
  'contactPatchY',
  'contactPatchZ',
  'mountY',
  'mountZ',
  'shockLength',
] as const;
export const RATIO_COLUMNS = [...POSITION_COLUMNS, 'installationRatio', 'installationRatioSlope'] as const;

/** rad. 450 mm turned by this and corrected to first order is off by 1e-16 mm. */
const LAST_TURN = 5e-10;
/** Longest step in t, a turn of half a radian. */
const LONGEST_STEP = 0.25;
const MOST_TURNS = 20;
/** mm of travel; where so short a step fails the motion has ended. */
const SHORTEST_STEP = 1e-3;

/** Positions and shock length, one row of 11 a travel into `out`; returns how many rows were met. */
export function fastSweep(
  input: CornerInput,
  travels: Float64Array,
  out: Float64Array,
  travelReference: TravelReference = 'contactPatch',
): number {
  return sweepRows(input, travels, out, travelReference, false);
}

/** As `fastSweep`, with installation ratio and its slope from the closed form: rows of 13. */
export function fastSweepWithRatios(
  input: CornerInput,
  travels: Float64Array,
  out: Float64Array,
  travelReference: TravelReference = 'contactPatch',
): number {
  return sweepRows(input, travels, out, travelReference, true);
}

function sweepRows(
  input: CornerInput,
  travels: Float64Array,
  out: Float64Array,
  travelReference: TravelReference,
  ratios: boolean,
): number {
  const [Ay, Az] = input.lowerArm.inner;
  const [By, Bz] = input.upperArm.inner;
  const [Py, Pz] = input.lowerArm.outer;
  const [Qy, Qz] = input.upperArm.outer;
  const [Wy, Wz] = input.wheel.centre;
  const [Ty, Tz] = drawnContactPatch(input);
  const [My, Mz] = input.coilover.mount;
  const [Cy, Cz] = input.coilover.chassisMount;
  const x = input.coilover.foreAftOffset ?? 0;
  const x2 = x * x;

  const ay = Py - Ay;
  const az = Pz - Az;
  const by = Qy - By;
  const bz = Qz - Bz;
  const cy = Qy - Py;
  const cz = Qz - Pz;
  const gy = Ay - By;
  const gz = Az - Bz;
  const a2 = ay * ay + az * az;
  const b2 = by * by + bz * bz;
  const c2 = cy * cy + cz * cz;
  const b2x4 = 4 * b2;
  const n0 = gy * gy + gz * gz + a2 + 2 * (gy * ay + gz * az);
  const n1 = 4 * (gz * ay - gy * az);
  const n2 = gy * gy + gz * gz + a2 - 2 * (gy * ay + gz * az);
  const b2c2 = b2 - c2;
  const sign = by * cz - bz * cy < 0 ? -1 : 1;

  const wheelAlong = ((Wy - Py) * cy + (Wz - Pz) * cz) / c2;
  const wheelAcross = (cy * (Wz - Pz) - cz * (Wy - Py)) / c2;
  const patchAlong = ((Ty - Py) * cy + (Tz - Pz) * cz) / c2;
  const patchAcross = (cy * (Tz - Pz) - cz * (Ty - Py)) / c2;
  const alpha = travelReference === 'contactPatch' ? patchAlong : wheelAlong;
  const beta = travelReference === 'contactPatch' ? patchAcross : wheelAcross;
  // p_z + α r_z + β r_y in the drawn pose
  const height0 = az + alpha * cz + beta * cy;

  const { on } = input.coilover;
  const onLower = on === 'lowerArm';
  const onUpper = on === 'upperArm';
  const vy = onLower ? ay : onUpper ? by : cy;
  const vz = onLower ? az : onUpper ? bz : cz;
  const v2 = vy * vy + vz * vz;
  const uy = My - (onLower ? Ay : onUpper ? By : Py);
  const uz = Mz - (onLower ? Az : onUpper ? Bz : Pz);
  const mountAlong = (uy * vy + uz * vz) / v2;
  const mountAcross = (vy * uz - vz * uy) / v2;

  // dt/dz as drawn; the sign of z'/w_p must stay what it is, or a dead point has been crossed.
  const wp0 = cy * bz - cz * by;
  const speed0 = wp0 * ay + (by * az - bz * ay) * (alpha * cy - beta * cz);
  let z1 = 0;
  let t1 = 0;
  let slope1 = (0.5 * wp0) / speed0;
  let z0 = 0;
  let t0 = 0;
  let slope0 = slope1;
  const outward = slope1 > 0;

  const rows = travels.length;
  let at = 0;
  for (let row = 0; row < rows; row += 1) {
    const goal = travels[row];
    let z = goal;
    let py = 0;
    let pz = 0;
    let qy = 0;
    let qz = 0;
    let ry = 0;
    let rz = 0;
    // One round an ordinary row; a step that fails is halved, and the goal tried again from where it led.
    for (;;) {
      const ahead = z - z1;
      const h = z1 - z0;
      let t = t1 + slope1 * ahead;
      if (Math.abs(ahead) < 2.5 * Math.abs(h)) {
        const perH = 1 / h;
        const s = ahead * perH;
        const chord = (t1 - t0) * perH;
        t += s * ahead * (2 * slope1 + slope0 - 3 * chord + s * (slope1 + slope0 - 2 * chord));
      }

      let last = t1;
      let turn = 0;
      for (; turn < MOST_TURNS; turn += 1) {
        const w = 1 + t * t;
        const N = n0 + t * (n1 + t * n2);
        const m = b2c2 * w + N;
        const H = b2x4 * N * w - m * m;
        if (!(H > 0)) {
          t = 0.5 * (t + last);
          continue;
        }
        const rootH = sign * Math.sqrt(H);
        const perW = 1 / w;
        const e = 0.5 / N;
        const sin = 2 * t * perW;
        const vers = t * sin;
        py = ay - (vers * ay + sin * az);
        pz = az + (sin * ay - vers * az);
        const k = m * e;
        const l = rootH * e;
        const ey = gy + py;
        const ez = gz + pz;
        qy = k * ey - l * ez;
        qz = k * ez + l * ey;
        ry = qy - ey;
        rz = qz - ez;
        const wp = -0.5 * rootH * perW;
        const wr = qy * pz - qz * py;
        const wq = ry * pz - rz * py;
        const perSpeed = 1 / (wp * py + wr * (alpha * ry - beta * rz));
        const time = (z - (pz + alpha * rz + beta * ry - height0)) * perSpeed;
        const turned = 0.5 * wp * w;
        const step = turned * time;
        if ((wp * wp + wr * wr + wq * wq) * time * time < LAST_TURN * LAST_TURN) {
          const slope = turned * perSpeed;
          if (slope > 0 !== outward) {
            turn = MOST_TURNS;
            break;
          }
          const dp = wp * time;
          const dq = wq * time;
          const hy = py;
          py -= dp * pz;
          pz += dp * hy;
          const iy = qy;
          qy -= dq * qz;
          qz += dq * iy;
          ry = qy - py - gy;
          rz = qz - pz - gz;
          z0 = z1;
          t0 = t1;
          slope0 = slope1;
          z1 = z;
          t1 = t + step;
          slope1 = slope;
          break;
        }
        last = t;
        t += Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, step));
      }
      if (turn < MOST_TURNS) {
        if (z === goal) break;
        z = goal;
      } else {
        z = 0.5 * (z1 + z);
        if (Math.abs(z - z1) < SHORTEST_STEP) return row;
      }
    }

    const lowerY = Ay + py;
    const lowerZ = Az + pz;
    const sy = onLower ? py : onUpper ? qy : ry;
    const sz = onLower ? pz : onUpper ? qz : rz;
    const mountY = (onLower ? Ay : onUpper ? By : lowerY) + mountAlong * sy - mountAcross * sz;
    const mountZ = (onLower ? Az : onUpper ? Bz : lowerZ) + mountAlong * sz + mountAcross * sy;
    const ly = mountY - Cy;
    const lz = mountZ - Cz;
    const L = Math.sqrt(ly * ly + lz * lz + x2);
    out[at] = lowerY;
    out[at + 1] = lowerZ;
    out[at + 2] = By + qy;
    out[at + 3] = Bz + qz;
    out[at + 4] = lowerY + wheelAlong * ry - wheelAcross * rz;
    out[at + 5] = lowerZ + wheelAlong * rz + wheelAcross * ry;
    out[at + 6] = lowerY + patchAlong * ry - patchAcross * rz;
    out[at + 7] = lowerZ + patchAlong * rz + patchAcross * ry;
    out[at + 8] = mountY;
    out[at + 9] = mountZ;
    out[at + 10] = L;
    at += 11;
    if (ratios) {
      const wp = ry * qz - rz * qy;
      const wr = qy * pz - qz * py;
      const wq = ry * pz - rz * py;
      const dwp = (wq - wr) * (ry * qy + rz * qz);
      const dwr = (wp - wq) * (qy * py + qz * pz);
      const dy = alpha * ry - beta * rz;
      const dz = alpha * rz + beta * ry;
      const speed = wp * py + wr * dy;
      const change = dwp * py - wp * wp * pz + dwr * dy - wr * wr * dz;
      const w = onLower ? wp : onUpper ? wq : wr;
      const dw = onLower ? dwp : onUpper ? (wp - wr) * (ry * py + rz * pz) : dwr;
      const ny = mountAlong * sy - mountAcross * sz;
      const nz = mountAlong * sz + mountAcross * sy;
      let firstY = -w * nz;
      let firstZ = w * ny;
      let secondY = -dw * nz - w * w * ny;
      let secondZ = dw * ny - w * w * nz;
      if (!onLower && !onUpper) {
        firstY -= wp * pz;
        firstZ += wp * py;
        secondY -= dwp * pz + wp * wp * py;
        secondZ += dwp * py - wp * wp * pz;
      }
      const v = 1 / speed;
      const R = ((ly * firstY + lz * firstZ) / L) * v;
      const squares = firstY * firstY + firstZ * firstZ + ly * secondY + lz * secondZ;
      out[at] = -R;
      out[at + 1] = R * change * v * v - (squares * v * v - R * R) / L;
      at += 2;
    }
  }
  return rows;
}
