/**
 * A double wishbone swept by plain Newton iteration, positions only: what one writes without looking for a
 * closed form, and the second rival of the benchmarks. Shares no code with src.
 *
 * Unknowns: the two ball joints P and Q (four coordinates). Equations at a prescribed travel z:
 *     |P - A|² = a²,   |Q - B|² = b²,   |Q - P|² = c²,   P_z + α (Q - P)_z + β (Q - P)_y = z_drawn + z
 * the last for the contact patch or the wheel centre, a point fixed in the upright. Each travel starts from
 * the pose before it; the Jacobian is exact and solved by elimination with row exchange.
 *
 * Source: natural coordinates as in J. Garcia de Jalon, E. Bayo, "Kinematic and Dynamic Simulation of
 * Multibody Systems" (1994), chapters 2 and 3 (from memory).
 */
import type { CornerInput, Point, TravelReference } from './circle-intersection.ts';

/**
 * mm: largest coordinate change at which the iteration has converged; the next one would be of its square.
 */
const LAST_STEP = 1e-8;
const MOST_TURNS = 30;

/**
 * Rows of lower ball joint, upper ball joint, wheel centre, contact patch, mount (y, z each) and shock
 * length, all mm.
 */
export const NEWTON_ROW = 11;

/** Writes a row of 11 a travel into `out`; returns how many rows were met. */
export function newtonSweep(
  input: CornerInput,
  travels: Float64Array,
  out: Float64Array,
  travelReference: TravelReference = 'contactPatch',
): number {
  const A = input.lowerArm.inner;
  const B = input.upperArm.inner;
  const P = input.lowerArm.outer;
  const Q = input.upperArm.outer;
  const { wheel, coilover } = input;
  const T: Point =
    'contactPatch' in wheel
      ? wheel.contactPatch
      : [wheel.centre[0] - wheel.centre[1] * Math.tan((wheel.camber / 180) * Math.PI), 0];
  const a2 = squared(A, P);
  const b2 = squared(B, Q);
  const c2 = squared(P, Q);
  const centre = fixedTo(P, Q, wheel.centre);
  const patch = fixedTo(P, Q, T);
  const [alpha, beta] = travelReference === 'contactPatch' ? patch : centre;
  const drawn = travelReference === 'contactPatch' ? T[1] : wheel.centre[1];
  const ends = { lowerArm: [A, P], upperArm: [B, Q], upright: [P, Q] } as const;
  const mount = fixedTo(ends[coilover.on][0], ends[coilover.on][1], coilover.mount);
  const offset = coilover.foreAftOffset ?? 0;

  const x = new Float64Array([P[0], P[1], Q[0], Q[1]]);
  const matrix = new Float64Array(20);
  const step = new Float64Array(4);
  for (let row = 0; row < travels.length; row += 1) {
    const height = drawn + travels[row];
    let turn = 0;
    for (; turn < MOST_TURNS; turn += 1) {
      const py = x[0];
      const pz = x[1];
      const qy = x[2];
      const qz = x[3];
      const uy = py - A[0];
      const uz = pz - A[1];
      const vy = qy - B[0];
      const vz = qz - B[1];
      const wy = qy - py;
      const wz = qz - pz;
      matrix.fill(0);
      matrix[0] = 2 * uy;
      matrix[1] = 2 * uz;
      matrix[4] = a2 - uy * uy - uz * uz;
      matrix[7] = 2 * vy;
      matrix[8] = 2 * vz;
      matrix[9] = b2 - vy * vy - vz * vz;
      matrix[10] = -2 * wy;
      matrix[11] = -2 * wz;
      matrix[12] = 2 * wy;
      matrix[13] = 2 * wz;
      matrix[14] = c2 - wy * wy - wz * wz;
      matrix[15] = -beta;
      matrix[16] = 1 - alpha;
      matrix[17] = beta;
      matrix[18] = alpha;
      matrix[19] = height - pz - alpha * wz - beta * wy;
      if (!solve(matrix, step)) return row;
      let largest = 0;
      for (let i = 0; i < 4; i += 1) {
        const change = step[i];
        x[i] += change;
        largest = Math.max(largest, Math.abs(change));
      }
      if (largest < LAST_STEP) break;
    }
    if (turn === MOST_TURNS) return row;

    const py = x[0];
    const pz = x[1];
    const qy = x[2];
    const qz = x[3];
    const at = row * NEWTON_ROW;
    out.set(x, at);
    place(out, at + 4, centre, py, pz, qy, qz);
    place(out, at + 6, patch, py, pz, qy, qz);
    if (coilover.on === 'lowerArm') place(out, at + 8, mount, A[0], A[1], py, pz);
    else if (coilover.on === 'upperArm') place(out, at + 8, mount, B[0], B[1], qy, qz);
    else place(out, at + 8, mount, py, pz, qy, qz);
    const ly = out[at + 8] - coilover.chassisMount[0];
    const lz = out[at + 9] - coilover.chassisMount[1];
    out[at + 10] = Math.sqrt(ly * ly + lz * lz + offset * offset);
  }
  return travels.length;
}

function squared(from: Point, to: Point): number {
  return (to[0] - from[0]) ** 2 + (to[1] - from[1]) ** 2;
}

/** [along, across] of a point against the line from one joint to the other, in parts of its length. */
function fixedTo(from: Point, to: Point, point: Point): Point {
  const [y, z] = [to[0] - from[0], to[1] - from[1]];
  const [u, v] = [point[0] - from[0], point[1] - from[1]];
  const square = y * y + z * z;
  return [(u * y + v * z) / square, (y * v - z * u) / square];
}

function place(
  out: Float64Array,
  at: number,
  fixed: Point,
  fy: number,
  fz: number,
  ty: number,
  tz: number,
): void {
  out[at] = fy + fixed[0] * (ty - fy) - fixed[1] * (tz - fz);
  out[at + 1] = fz + fixed[0] * (tz - fz) + fixed[1] * (ty - fy);
}

/** Solves the 4 x 5 matrix, overwriting it; false when it is singular. */
function solve(matrix: Float64Array, solution: Float64Array): boolean {
  const m = (row: number, column: number): number => matrix[row * 5 + column];
  for (let k = 0; k < 4; k += 1) {
    let pivot = k;
    for (let i = k + 1; i < 4; i += 1) if (Math.abs(m(i, k)) > Math.abs(m(pivot, k))) pivot = i;
    if (m(pivot, k) === 0) return false;
    for (let j = k; j < 5 && pivot !== k; j += 1) {
      const held = m(k, j);
      matrix[k * 5 + j] = m(pivot, j);
      matrix[pivot * 5 + j] = held;
    }
    for (let i = k + 1; i < 4; i += 1) {
      const factor = m(i, k) / m(k, k);
      for (let j = k; j < 5; j += 1) matrix[i * 5 + j] = m(i, j) - factor * m(k, j);
    }
  }
  for (let k = 3; k >= 0; k -= 1) {
    let sum = m(k, 4);
    for (let j = k + 1; j < 4; j += 1) sum -= m(k, j) * solution[j];
    solution[k] = sum / m(k, k);
  }
  return true;
}
