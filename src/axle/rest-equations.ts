// A car at rest on its wheels in a steady turn: the equations, and their solution by Newton's method.
//
// Unknown are the height h of the middle of the car as drawn over the ground at each axle, one roll p for all, and of each wheel its travel z,
// the vertical load N on it, and the force T along the shock with which the damper holds it at an end of its stroke (positive pushes the
// eyes apart: bottomed out; negative pulls them together: topped out); and of each third spring with ends of its lengths the force H with
// which an end holds it. A wheel is s = 1 on the left and -1 on the right. On the ground,
//
//   Z = h + s y sin p + z cos p,     Y = s y cos p - z sin p,
//
// so that the contact patch moves by n = cos p + s y' sin p up and by t = s y' cos p - sin p - s g' d to the left per travel, d the
// deflection of the tyre from design ride height and g the turn of the upright: the ground acts at Z = 0, the patch is d below. The wheel
// centre moves by n_c and t_c. With the lateral force S on the wheel, a the acceleration in g,
//
//   N n + S t = (F + T) R + sum (U_z + H w_z) + m_u g (n_c + a t_c)             virtual work of the wheel
//   T = 0, or z at the end that the damper holds
//   H = 0, or the length w at the end that holds
//   Z + d = 0, d = (N - N_0) / k_tyre, or N = 0 in the air                       the ground
//
// F the push of spring, gas and stop, U the energy of what is between both wheels (coupling.ts). For the body
//
//   sum N = P for each axle,     sum N Y = sum m g (Y - a Z) over all masses.
//
// Each axle has the lateral force m a g of its own masses. The middle of the sprung part is as far up as the axles' heights, by its masses.
//
// Which of the alternatives holds is an active set: solved with one, the worst that pulls or goes where it can't is exchanged.

import { type CoiloverForce, totalPush } from '../corner/axial-force.ts';
import { GRAVITY } from '../units.ts';
import { type Coupled, type Coupling, type CouplingName, couple, onWheel, uncoupled } from './coupling.ts';
import type { WheelAt, WheelReader } from './wheel-at.ts';
import { moveWheelBy, readWheelAt } from './wheel-at.ts';

/** A wheel made ready. */
export interface WheelSetUp {
  readonly side: 1 | -1;
  readonly reader: WheelReader;
  readonly coilover: CoiloverForce;
  /** Travels at which the damper tops and bottoms out, mm; null where nothing holds it. */
  readonly toppedAt: number | null;
  readonly bottomedAt: number | null;
  /** Load of the level car at design ride height, N: there the tyre is as drawn. */
  readonly designLoad: number;
  /** 1/rate of the tyre, mm/N. */
  readonly tyreCompliance: number;
  /** kg. */
  readonly unsprungMass: number;
  readonly axle: number;
  /** The other wheel of its axle, by its number. */
  readonly other: number;
}

/** An axle made ready. */
export interface AxleSetUp {
  readonly sprungMass: number;
  /** What acts between its wheels. */
  readonly couplings: readonly Coupling[];
  /** Weight of all that it carries, N. */
  readonly weight: number;
}

export interface CarSetUp {
  readonly axles: readonly AxleSetUp[];
  /** Left and right of each axle in turn. */
  readonly wheels: readonly WheelSetUp[];
  readonly sprungMass: number;
  /** Centre of gravity of the sprung part as drawn, [y to the left, z], mm. */
  readonly centre: readonly [number, number];
}

/** What acts on the car. */
export interface Acting {
  /** In g, to the left. */
  readonly lateral: number;
  /** Vertical load on each axle, N. */
  readonly loads: readonly number[];
  readonly split: 'proportional' | 'equal';
  /** Vertical force at each contact patch that stands in for what its coilover lacks as drawn, N: taken away while a car is let down. */
  readonly held: readonly number[];
}

/** What holds a wheel. */
export interface Hold {
  /** The damper: free, at its extended or at its compressed length. */
  damper: 'free' | 'toppedOut' | 'bottomedOut';
  inTheAir: boolean;
}

/** What holds a third spring: nothing, or an end of its lengths. */
export type SpringHold = 'free' | 'extended' | 'compressed';

/** A state of the car: mm, N, radians. */
export interface CarState {
  /** Height of the middle of the car as drawn over the ground at each axle. */
  readonly height: number[];
  roll: number;
  readonly travel: number[];
  readonly load: number[];
  /** Along each shock, of the damper's ends. */
  readonly held: number[];
  readonly holds: Hold[];
  /** Of each third spring with ends of its lengths: the force by its length, of the end that holds it, and which that is. */
  readonly endForces: number[];
  readonly springHolds: SpringHold[];
}

/** A spring between the wheels of an axle that has ends of its lengths, by its place among the couplings. */
export interface EndedSpring {
  readonly axle: number;
  readonly coupling: number;
  readonly extendedLength: number;
  readonly compressedLength: number;
}

/** The springs of a car that have ends of their lengths. */
export function endedSprings({ axles }: Pick<CarSetUp, 'axles'>): EndedSpring[] {
  return axles.flatMap(({ couplings }, axle) =>
    couplings.flatMap((one, coupling): EndedSpring[] => {
      if (one.name === 'bar') return [];
      const { extendedLength, compressedLength } = one.spring;
      if (extendedLength === null && compressedLength === null) return [];
      return [
        {
          axle,
          coupling,
          extendedLength: extendedLength ?? Number.POSITIVE_INFINITY,
          compressedLength: compressedLength ?? Number.NEGATIVE_INFINITY,
        },
      ];
    }),
  );
}

/** How a solution fails: a wheel at the end of its linkage, all wheels of one side in the air, or no rest that holds. */
export type Failure =
  | { readonly cause: 'travelEnd'; readonly wheel: number; readonly end: 'bump' | 'droop' }
  | { readonly cause: 'fallsOver' | 'unstable' };

/** The parts of the load of a wheel, N, and its lateral force. */
export interface WheelForces {
  readonly force: number;
  readonly rate: number;
  readonly normal: number;
  readonly tangent: number;
  readonly lateral: number;
  readonly deflection: number;
  /** Of all between both wheels, and the parts of it. */
  readonly coupled: number;
  readonly parts: Readonly<Record<CouplingName, number>>;
  readonly unsprung: number;
}

const WHEEL = 3;
const MOST_ROUNDS = 40;
/** mm: a step of Newton's method below this leaves rounding, for the next goes with its square. */
const SETTLED = 1e-6;
/** mm and radians: largest step. */
const LONGEST = 25;
const MOST_TURN = 0.05;
/** mm, and share of the weight of the car: what rounding may be past an alternative. */
const PAST = 1e-9;
const PULLS = 1e-11;
/** Exchanges of alternatives before it is given up. */
const MOST_EXCHANGES = 40;

/** Room for the equations of a car, and for its wheels where they are. */
export interface Workspace {
  readonly n: number;
  readonly A: Float64Array;
  readonly b: Float64Array;
  readonly pivots: Int32Array;
  readonly at: WheelAt[];
  /** What is between the wheels of each axle, where they are. */
  readonly coupled: readonly (readonly Coupled[])[];
  readonly ended: readonly EndedSpring[];
  /** Sign of the determinant of what was factored last. */
  sign: number;
}

export function workspaceOf(car: CarSetUp, at: WheelAt[]): Workspace {
  const { wheels, axles } = car;
  const ended = endedSprings(car);
  const n = WHEEL * wheels.length + axles.length + ended.length + 1;
  return {
    n,
    A: new Float64Array(n * n),
    b: new Float64Array(n),
    pivots: new Int32Array(n),
    at,
    coupled: axles.map(({ couplings }) => couplings.map(uncoupled)),
    ended,
    sign: 0,
  };
}

export function copyOf(state: CarState): CarState {
  return {
    height: [...state.height],
    roll: state.roll,
    travel: [...state.travel],
    load: [...state.load],
    held: [...state.held],
    holds: state.holds.map((hold) => ({ ...hold })),
    endForces: [...state.endForces],
    springHolds: [...state.springHolds],
  };
}

/** Lateral force on each axle for its masses, N. */
function lateralOf(car: CarSetUp, axle: number, { lateral }: Acting): number {
  return lateral * car.axles[axle].weight;
}

/** Forces of a wheel in a state whose wheels have been read. */
export function forcesOn(
  car: CarSetUp,
  acting: Acting,
  state: CarState,
  { at, coupled }: Pick<Workspace, 'at' | 'coupled'>,
  i: number,
): WheelForces {
  const { side, coilover, tyreCompliance, designLoad, unsprungMass, axle, other } = car.wheels[i];
  const { shock, halfTrack, turn, centreY, centreZ } = at[i];
  const [sin, cos] = [Math.sin(state.roll), Math.cos(state.roll)];
  const { force, rate } = totalPush(coilover, shock[0]);
  const deflection = (state.load[i] - designLoad) * tyreCompliance;
  const parts = { bar: 0, thirdSpring: 0, rollSpring: 0 };
  for (const one of coupled[axle]) parts[one.name] += onWheel(one, side);
  const all = lateralOf(car, axle, acting);
  return {
    force,
    rate,
    normal: cos + side * halfTrack[1] * sin,
    tangent: side * halfTrack[1] * cos - sin - side * turn[1] * deflection,
    lateral: lateralShare(acting, state, i, other, all, acting.loads[axle]),
    deflection,
    coupled: parts.bar + parts.thirdSpring + parts.rollSpring,
    parts,
    unsprung:
      unsprungMass *
      GRAVITY *
      (centreZ[1] * cos +
        side * centreY[1] * sin +
        acting.lateral * (side * centreY[1] * cos - centreZ[1] * sin)),
  };
}

function lateralShare(
  { split }: Acting,
  { load, holds }: CarState,
  i: number,
  other: number,
  all: number,
  loads: number,
): number {
  if (split === 'proportional') return (all * load[i]) / loads;
  if (holds[i].inTheAir) return 0;
  return holds[other].inTheAir ? all : all / 2;
}

/** Fills the equations: the matrix of derivatives, and what is missing. */
function fill(
  car: CarSetUp,
  acting: Acting,
  state: CarState,
  { n, A, b, at, coupled, ended }: Workspace,
): void {
  A.fill(0);
  const { wheels, axles, centre, sprungMass } = car;
  const a = acting.lateral;
  const [sin, cos] = [Math.sin(state.roll), Math.cos(state.roll)];
  const firstHeight = WHEEL * wheels.length;
  const rollAt = n - 1;
  const moment = rollAt * n;
  let wanted = 0;
  let moved = 0;
  for (let i = 0; i < wheels.length; i++) {
    const {
      side: s,
      coilover,
      toppedAt,
      bottomedAt,
      designLoad,
      tyreCompliance,
      unsprungMass,
      axle,
      other,
    } = wheels[i];
    const { travel: z, shock, halfTrack: y, turn, centreY, centreZ } = at[i];
    const hold = state.holds[i];
    const N = state.load[i];
    const T = state.held[i];
    const weight = unsprungMass * GRAVITY;
    const { force, rate } = totalPush(coilover, shock[0]);
    const [R, R1] = [-shock[1], -shock[2]];
    const d = (N - designLoad) * tyreCompliance;
    const up = cos + s * y[1] * sin;
    const upByRoll = -sin + s * y[1] * cos;
    const upByTravel = s * y[2] * sin;
    const across = s * y[1] * cos - sin - s * turn[1] * d;
    const acrossByRoll = -s * y[1] * sin - cos;
    const acrossByTravel = s * y[2] * cos - s * turn[2] * d;
    const cUp = centreZ[1] * cos + s * centreY[1] * sin;
    const cAcross = s * centreY[1] * cos - centreZ[1] * sin;
    const all = lateralOf(car, axle, acting);
    const S = lateralShare(acting, state, i, other, all, acting.loads[axle]);
    const SByN = acting.split === 'proportional' ? all / acting.loads[axle] : 0;
    const zi = WHEEL * i;
    const row = zi * n;
    b[zi] = N * up + S * across - (force + T) * R - weight * (cUp + a * cAcross) - acting.held[i];
    A[row + zi] =
      N * upByTravel +
      S * acrossByTravel -
      rate * R * R -
      (force + T) * R1 -
      weight * (centreZ[2] * cos + s * centreY[2] * sin + a * (s * centreY[2] * cos - centreZ[2] * sin));
    for (let c = 0; c < coupled[axle].length; c++) {
      const one = coupled[axle][c];
      const [own, bent] = s === 1 ? [one.left, one.leftLeft] : [one.right, one.rightRight];
      b[zi] -= one.force * own;
      A[row + zi] -= one.rate * own * own + one.force * bent;
      A[row + WHEEL * other] -= one.rate * one.left * one.right + one.force * one.leftRight;
    }
    A[row + zi + 1] = up + SByN * across - S * s * turn[1] * tyreCompliance;
    A[row + zi + 2] = -R;
    A[row + rollAt] = N * upByRoll + S * acrossByRoll - weight * (cAcross - a * cUp);
    const second = row + n;
    const end = hold.damper === 'toppedOut' ? toppedAt : bottomedAt;
    if (hold.damper === 'free' || end === null) {
      b[zi + 1] = T;
      A[second + zi + 2] = 1;
    } else {
      b[zi + 1] = z - end;
      A[second + zi] = 1;
    }
    const third = second + n;
    const Y = s * y[0] * cos - z * sin;
    if (hold.inTheAir) {
      b[zi + 2] = N;
      A[third + zi + 1] = 1;
    } else {
      b[zi + 2] = state.height[axle] + s * y[0] * sin + z * cos + d;
      A[third + zi] = up;
      A[third + zi + 1] = tyreCompliance;
      A[third + firstHeight + axle] = 1;
      A[third + rollAt] = Y;
    }
    A[(firstHeight + axle) * n + zi + 1] = 1;
    const cY = s * centreY[0] * cos - centreZ[0] * sin;
    const cZ = state.height[axle] + s * centreY[0] * sin + centreZ[0] * cos;
    moved += N * Y;
    wanted += weight * (cY - a * cZ);
    A[moment + zi] = N * (s * y[1] * cos - sin) - weight * (cAcross - a * cUp);
    A[moment + zi + 1] = Y;
    A[moment + firstHeight + axle] += a * weight;
    A[moment + rollAt] +=
      N * (-s * y[0] * sin - z * cos) - weight * (-s * centreY[0] * sin - centreZ[0] * cos - a * cY);
  }
  for (let e = 0; e < ended.length; e++) {
    const { axle, coupling, extendedLength, compressedLength } = ended[e];
    const { value, left, right } = coupled[axle][coupling];
    const [l, r] = [WHEEL * 2 * axle, WHEEL * (2 * axle + 1)];
    const column = firstHeight + axles.length + e;
    A[l * n + column] = -left;
    A[r * n + column] = -right;
    const hold = state.springHolds[e];
    if (hold === 'free') {
      b[column] = state.endForces[e];
      A[column * n + column] = 1;
    } else {
      b[column] = value - (hold === 'extended' ? extendedLength : compressedLength);
      A[column * n + l] = left;
      A[column * n + r] = right;
    }
  }
  const [yG, zG] = centre;
  const Y = yG * cos - zG * sin;
  let Z = yG * sin + zG * cos;
  A[moment + rollAt] += sprungMass * GRAVITY * (Z + a * Y);
  for (let k = 0; k < axles.length; k++) {
    const row = firstHeight + k;
    b[row] = state.load[2 * k] + state.load[2 * k + 1] - acting.loads[k];
    Z += (axles[k].sprungMass / sprungMass) * state.height[k];
    A[moment + row] += a * GRAVITY * axles[k].sprungMass;
  }
  b[rollAt] = moved - wanted - sprungMass * GRAVITY * (Y - a * Z);
}

/** Share of the largest entry of its column below which a pivot is rounding. */
const SINGULAR = 1e-13;

/**
 * Gaussian elimination with row exchanges, in place; the sign of the determinant, 0 where there is none. For some 15 unknowns it is faster
 * than the sparse one: a car through a turn takes 10 to 25 % longer with that.
 */
function factor({ n, A, pivots }: Workspace): number {
  let sign = 1;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(A[r * n + c]) > Math.abs(A[best * n + c])) best = r;
    pivots[c] = best;
    const pivot = A[best * n + c];
    if (!(Math.abs(pivot) > SINGULAR)) return 0;
    if (best !== c) {
      sign = -sign;
      for (let k = 0; k < n; k++) {
        const kept = A[c * n + k];
        A[c * n + k] = A[best * n + k];
        A[best * n + k] = kept;
      }
    }
    if (pivot < 0) sign = -sign;
    for (let r = c + 1; r < n; r++) {
      const by = A[r * n + c] / pivot;
      A[r * n + c] = by;
      if (by !== 0) for (let k = c + 1; k < n; k++) A[r * n + k] -= by * A[c * n + k];
    }
  }
  return sign;
}

/** Solves A x = b in place of b, from the factors. */
function solveIn({ n, A, pivots }: Workspace, b: Float64Array): void {
  for (let c = 0; c < n; c++) {
    const p = pivots[c];
    const kept = b[p];
    b[p] = b[c];
    b[c] = kept;
  }
  for (let r = 1; r < n; r++) for (let k = 0; k < r; k++) b[r] -= A[r * n + k] * b[k];
  for (let r = n - 1; r >= 0; r--) {
    for (let k = r + 1; k < n; k++) b[r] -= A[r * n + k] * b[k];
    b[r] /= A[r * n + r];
  }
}

/** Reads all wheels of a state, and what is between them. */
export function readWheels(car: CarSetUp, state: CarState, room: Between): void {
  const { wheels } = car;
  for (let i = 0; i < wheels.length; i++) readWheelAt(wheels[i].reader, state.travel[i], room.at[i]);
  coupleWheels(car, state, room);
}

type Between = Pick<Workspace, 'at' | 'coupled' | 'ended'>;

/** Reads what is between wheels that have been read. */
export function coupleWheels(
  { axles }: CarSetUp,
  { endForces }: Pick<CarState, 'endForces'>,
  { at, coupled, ended }: Between,
): void {
  for (let k = 0; k < axles.length; k++) {
    const { couplings } = axles[k];
    for (let c = 0; c < couplings.length; c++) couple(couplings[c], at[2 * k], at[2 * k + 1], coupled[k][c]);
  }
  for (let e = 0; e < ended.length; e++) {
    const one = coupled[ended[e].axle][ended[e].coupling];
    one.endForce = endForces[e];
    one.force += endForces[e];
  }
}

/** Solves the equations with the alternatives as they stand; the state is changed, and its wheels are read. */
function settle(car: CarSetUp, acting: Acting, state: CarState, room: Workspace): Failure | null {
  const { wheels, axles } = car;
  const { n, b, at } = room;
  const firstHeight = WHEEL * wheels.length;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    readWheels(car, state, room);
    fill(car, acting, state, room);
    room.sign = factor(room);
    if (room.sign === 0) return atEnd(car, state) ?? { cause: 'unstable' };
    solveIn(room, b);
    let most = Math.abs(b[n - 1]) / MOST_TURN;
    for (let i = 0; i < wheels.length; i++) most = Math.max(most, Math.abs(b[WHEEL * i]) / LONGEST);
    for (let k = 0; k < axles.length; k++) most = Math.max(most, Math.abs(b[firstHeight + k]) / LONGEST);
    if (!Number.isFinite(most)) return { cause: 'unstable' };
    const by = most > 1 ? 1 / most : 1;
    const settled = most * LONGEST < SETTLED;
    for (let i = 0; i < wheels.length; i++) {
      const { droop, bump } = wheels[i].reader;
      state.travel[i] = Math.min(bump, Math.max(droop, state.travel[i] - by * b[WHEEL * i]));
      if (settled) moveWheelBy(at[i], state.travel[i] - at[i].travel);
      state.load[i] -= by * b[WHEEL * i + 1];
      state.held[i] -= by * b[WHEEL * i + 2];
    }
    for (let k = 0; k < axles.length; k++) state.height[k] -= by * b[firstHeight + k];
    for (let e = 0; e < state.endForces.length; e++)
      state.endForces[e] -= by * b[firstHeight + axles.length + e];
    state.roll -= by * b[n - 1];
    if (settled) {
      coupleWheels(car, state, room);
      return atEnd(car, state);
    }
  }
  return atEnd(car, state) ?? { cause: 'unstable' };
}

/** A wheel that is at the end of its linkage. */
function atEnd({ wheels }: CarSetUp, { travel }: CarState): Failure | null {
  for (let i = 0; i < wheels.length; i++) {
    const { droop, bump } = wheels[i].reader;
    if (travel[i] >= bump) return { cause: 'travelEnd', wheel: i, end: 'bump' };
    if (travel[i] <= droop) return { cause: 'travelEnd', wheel: i, end: 'droop' };
  }
  return null;
}

/** How far a wheel in the air is above the ground, mm. */
export function clearanceOf(
  { wheels }: CarSetUp,
  state: CarState,
  at: readonly WheelAt[],
  i: number,
): number {
  const { side, axle, tyreCompliance, designLoad } = wheels[i];
  const { travel, halfTrack } = at[i];
  const [sin, cos] = [Math.sin(state.roll), Math.cos(state.roll)];
  return state.height[axle] + side * halfTrack[0] * sin + travel * cos - designLoad * tyreCompliance;
}

/** Exchanges the alternative that is worst off; false where all hold. */
function exchange(car: CarSetUp, state: CarState, { at, coupled, ended }: Between, weight: number): boolean {
  let [worst, change] = [1, null as (() => void) | null];
  const over = (by: number, allowed: number, then: () => void) => {
    if (by / allowed > worst) [worst, change] = [by / allowed, then];
  };
  car.wheels.forEach(({ toppedAt, bottomedAt }, i) => {
    const hold = state.holds[i];
    const { travel } = at[i];
    if (hold.damper === 'free') {
      if (toppedAt !== null) over(toppedAt - travel, PAST, () => (hold.damper = 'toppedOut'));
      if (bottomedAt !== null) over(travel - bottomedAt, PAST, () => (hold.damper = 'bottomedOut'));
    } else {
      const pushes = hold.damper === 'toppedOut' ? state.held[i] : -state.held[i];
      over(pushes, PULLS * weight, () => (hold.damper = 'free'));
    }
    if (hold.inTheAir) over(-clearanceOf(car, state, at, i), PAST, () => (hold.inTheAir = false));
    else over(-state.load[i], PULLS * weight, () => (hold.inTheAir = true));
  });
  ended.forEach(({ axle, coupling, extendedLength, compressedLength }, e) => {
    const hold = state.springHolds[e];
    const { value } = coupled[axle][coupling];
    const to = (next: SpringHold) => () => (state.springHolds[e] = next);
    if (hold === 'free') {
      over(value - extendedLength, PAST, to('extended'));
      over(compressedLength - value, PAST, to('compressed'));
    } else over((hold === 'extended' ? -1 : 1) * state.endForces[e], PULLS * weight, to('free'));
  });
  change?.();
  return change !== null;
}

/** Solves for the state of rest that is near to the one given, which becomes it, with its wheels read; null, or how that fails. */
export function restNear(car: CarSetUp, acting: Acting, state: CarState, room: Workspace): Failure | null {
  const weight = acting.loads.reduce((sum, load) => sum + Math.abs(load), 0);
  let fell = false;
  for (let round = 0; round < MOST_EXCHANGES; round++) {
    fell ||= isOnOneSide(car, state);
    const before = copyOf(state);
    const failure = settle(car, acting, state, room);
    if (failure !== null) {
      if (dropWheel(car, state, before)) continue;
      return fell ? { cause: 'fallsOver' } : failure;
    }
    if (exchange(car, state, room, weight)) continue;
    return stands(car, state, room) ? null : { cause: 'unstable' };
  }
  return { cause: fell ? 'fallsOver' : 'unstable' };
}

/** A wheel that hangs in the air on nothing drops until its damper tops out: the state is again that before it dropped. */
function dropWheel({ wheels }: CarSetUp, state: CarState, before: CarState): boolean {
  const i = before.holds.findIndex(({ damper, inTheAir }) => inTheAir && damper === 'free');
  const toppedAt = wheels[i]?.toppedAt ?? null;
  if (toppedAt === null) return false;
  Object.assign(state, before);
  state.travel[i] = toppedAt;
  state.holds[i].damper = 'toppedOut';
  return true;
}

/** Whether all wheels of one side are in the air. */
function isOnOneSide({ wheels }: CarSetUp, { holds }: CarState): boolean {
  return [1, -1].some((side) => wheels.every((wheel, i) => wheel.side !== side || holds[i].inTheAir));
}

/**
 * Whether the car stands in a state: it yields to a load on its body in the direction of the load. Its compliance is that of the body
 * in the inverse of the equations, whose last factors serve; the sign of their determinant is that of a car that stands, and changes with each
 * damper and each third spring that is held.
 */
function stands(car: CarSetUp, state: CarState, room: Workspace): boolean {
  const { b, sign } = room;
  const held = [...state.holds.map(({ damper }) => damper), ...state.springHolds].filter(
    (hold) => hold !== 'free',
  ).length;
  const bodies = car.axles.length + 1;
  if (sign !== ((bodies + held) % 2 === 0 ? 1 : -1)) return false;
  const first = WHEEL * car.wheels.length;
  const yields = car.axles.map((_, k) => {
    b.fill(0);
    b[first + k] = -1;
    solveIn(room, b);
    return car.axles.map((__, j) => b[first + j]);
  });
  const [[p, q], [r, s]] = [yields[0], yields[1] ?? [0, 1]];
  return p >= -PAST && (s === undefined || p * s - (q ?? 0) * (r ?? 0) >= -PAST);
}
