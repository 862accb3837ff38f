/**
 * A double wishbone swept by circle intersection as one writes it from the textbook: the plain hand-written
 * rival of the benchmarks, beside the tuned one of circle-sweep.ts. Shares no code with src.
 *
 * A, B inner points; P, Q ball joints; p = P - A, q = Q - B, r = Q - P; a, b, c their lengths; v⊥ = (-v_z, v_y).
 * For an angle θ of the lower arm
 *     P = A + a (cos θ, sin θ),   e = P - B,   D = e·e
 *     k = (b² - c² + D) / (2 D),   h = ± sqrt(b²/D - k²),   Q = B + k e + h e⊥     (sign as drawn)
 * The point whose travel is given is P + α r + β r⊥. With p, r, q turning at 1, w_r, w_q the closed loop gives
 *     w_r = (q×p)/(r×q),   dz/dθ = p_y + w_r (α r_y - β r_z)
 * and θ follows from the travel by Newton's method, θ += (goal - z)/(dz/dθ), from the pose of the row before.
 *
 * Ends at the first travel it cannot give, as circle-sweep.ts does. Source: elementary.
 */
import type { CornerInput, TravelReference } from './circle-intersection.ts';
import { drawnContactPatch } from './circle-intersection.ts';

/** mm of travel at which a row is met. */
const MET = 1e-12;
/** Longest step, rad. */
const LONGEST_STEP = 0.25;
const MOST_TURNS = 60;

/** Positions and shock length, one row of `POSITION_COLUMNS` a travel into `out`; returns how many rows were met. */
export function textbookSweep(
  input: CornerInput,
  travels: Float64Array,
  out: Float64Array,
  travelReference: TravelReference = 'contactPatch',
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

  let py = Py - Ay;
  let pz = Pz - Az;
  let qy = Qy - By;
  let qz = Qz - Bz;
  let ry = Qy - Py;
  let rz = Qz - Pz;
  const a = Math.hypot(py, pz);
  const b2 = qy * qy + qz * qz;
  const c2 = ry * ry + rz * rz;
  const sign = qy * rz - qz * ry < 0 ? -1 : 1;

  const wheelAlong = ((Wy - Py) * ry + (Wz - Pz) * rz) / c2;
  const wheelAcross = (ry * (Wz - Pz) - rz * (Wy - Py)) / c2;
  const patchAlong = ((Ty - Py) * ry + (Tz - Pz) * rz) / c2;
  const patchAcross = (ry * (Tz - Pz) - rz * (Ty - Py)) / c2;
  const alpha = travelReference === 'contactPatch' ? patchAlong : wheelAlong;
  const beta = travelReference === 'contactPatch' ? patchAcross : wheelAcross;
  const drawn = pz + alpha * rz + beta * ry;

  const { on } = input.coilover;
  const onLower = on === 'lowerArm';
  const onUpper = on === 'upperArm';
  const vy = onLower ? py : onUpper ? qy : ry;
  const vz = onLower ? pz : onUpper ? qz : rz;
  const v2 = vy * vy + vz * vz;
  const uy = My - (onLower ? Ay : onUpper ? By : Py);
  const uz = Mz - (onLower ? Az : onUpper ? Bz : Pz);
  const mountAlong = (uy * vy + uz * vz) / v2;
  const mountAcross = (vy * uz - vz * uy) / v2;

  let angle = Math.atan2(pz, py);
  let travel = 0;
  let slope = py + ((qy * pz - qz * py) / (ry * qz - rz * qy)) * (alpha * ry - beta * rz);
  const rising = slope > 0;

  for (let row = 0; row < travels.length; row += 1) {
    const goal = travels[row];
    let step = (goal - travel) / slope;
    for (let turn = 0; Math.abs(goal - travel) > MET; turn += 1) {
      if (turn === MOST_TURNS) return row;
      if (Math.abs(step) > LONGEST_STEP) step = step > 0 ? LONGEST_STEP : -LONGEST_STEP;
      const y = a * Math.cos(angle + step);
      const z = a * Math.sin(angle + step);
      const ey = Ay + y - By;
      const ez = Az + z - Bz;
      const D = ey * ey + ez * ez;
      const k = (b2 - c2 + D) / (2 * D);
      const h2 = b2 / D - k * k;
      if (!(h2 > 0)) {
        step *= 0.5;
        continue;
      }
      const h = sign * Math.sqrt(h2);
      const toQy = k * ey - h * ez;
      const toQz = k * ez + h * ey;
      const upY = toQy - ey;
      const upZ = toQz - ez;
      const turning = (toQy * z - toQz * y) / (upY * toQz - upZ * toQy);
      const rate = y + turning * (alpha * upY - beta * upZ);
      if (rate > 0 !== rising) {
        step *= 0.5; // beyond a dead point
        continue;
      }
      angle += step;
      py = y;
      pz = z;
      qy = toQy;
      qz = toQz;
      ry = upY;
      rz = upZ;
      slope = rate;
      travel = pz + alpha * rz + beta * ry - drawn;
      step = (goal - travel) / slope;
    }

    const lowerY = Ay + py;
    const lowerZ = Az + pz;
    const sy = onLower ? py : onUpper ? qy : ry;
    const sz = onLower ? pz : onUpper ? qz : rz;
    const mountY = (onLower ? Ay : onUpper ? By : lowerY) + mountAlong * sy - mountAcross * sz;
    const mountZ = (onLower ? Az : onUpper ? Bz : lowerZ) + mountAlong * sz + mountAcross * sy;
    const ly = mountY - Cy;
    const lz = mountZ - Cz;
    const at = row * 11;
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
    out[at + 10] = Math.sqrt(ly * ly + lz * lz + x * x);
  }
  return travels.length;
}
