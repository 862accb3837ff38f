// A car at rest on its wheels, under its weight, downforce and braking, in a steady turn. Equations: rest-equations.ts.

import { axialForce } from '../corner/axial-force.ts';
import type { Diagnostic } from '../diagnostic.ts';
import { DEGREES, NEWTON_METRE_PER_DEGREE } from '../units.ts';
import { type CarLoads, type CarOnAxles, checkCar, checkLoads } from './car.ts';
import { wheelState } from './car-diagnostics.ts';
import { type Gone, letDown, roomOf, turn } from './car-rest.ts';
import { actingOn, type Car, setUpCar } from './car-set-up.ts';
import type { Coupled, CouplingName } from './coupling.ts';
import {
  type Acting,
  type CarState,
  clearanceOf,
  forcesOn,
  readWheels,
  type WheelForces,
  type Workspace,
} from './rest-equations.ts';
import { type RollStiffness, stiffnessThere } from './roll-stiffness.ts';
import type { WheelAt } from './wheel-at.ts';
import type { WheelEnd } from './wheel-curve.ts';

/** A wheel of a car by its place. */
export type WheelName = 'frontLeft' | 'frontRight' | 'rearLeft' | 'rearRight';

/** Vertical load of a wheel and its parts, N, which add up to it. */
export interface WheelLoad {
  readonly total: number;
  /** By way of the coilover and what is between both wheels: the sum of the seven that follow. */
  readonly elastic: number;
  readonly spring: number;
  readonly bumpStop: number;
  readonly gas: number;
  readonly bar: number;
  /** With the force of an end of its lengths. */
  readonly thirdSpring: number;
  readonly rollSpring: number;
  /** Of the damper at an end of its stroke: negative where it has topped out and holds the wheel up. */
  readonly damperEnd: number;
  /** By way of the links, from the lateral force (jacking). */
  readonly geometric: number;
  /** Weight and lateral inertia of the unsprung mass. */
  readonly unsprung: number;
}

/** A wheel at rest. */
export interface WheelRest {
  /** mm in the chassis, bump positive. */
  readonly travel: number;
  readonly load: WheelLoad;
  /** Of the ground on the tyre, N, to the left positive. */
  readonly lateralForce: number;
  /** More than at design ride height, mm. */
  readonly tyreDeflection: number;
  /** Eye to eye, mm. */
  readonly shockLength: number;
  /** Shock travel per wheel travel, without unit. */
  readonly installationRatio: number;
  /** Along the shock, N. */
  readonly springForce: number;
  /** Along the shock, N. */
  readonly bumpStopForce: number;
  readonly isSpringLoose: boolean;
  readonly isOnBumpStop: boolean;
  /** Whether the damper is at an end of its stroke. */
  readonly damper: 'free' | 'toppedOut' | 'bottomedOut';
  /** Height of the tyre above the ground, mm; null on the ground. */
  readonly clearance: number | null;
}

/** What lateral acceleration moves from one wheel of an axle to the other, N: half the difference right minus left. */
export interface LoadTransfer {
  readonly total: number;
  readonly elastic: number;
  readonly geometric: number;
  readonly unsprung: number;
}

/** A spring between both wheels at rest. */
export interface CrossSpringRest {
  /** Between its ends, mm. */
  readonly length: number;
  /** Of the spring, push positive, N. */
  readonly force: number;
  /** Whether the third spring is at an end of its lengths; a roll spring has none. */
  readonly end: 'free' | 'extended' | 'compressed';
  /** With which that end holds it, N: positive pushes at its compressed length, negative pulls at its extended one, 0 between them. */
  readonly endForce: number;
}

/** An axle at rest. */
export interface AxleRest {
  /** mm, bump of both wheels positive: how far the ground is up from design ride height in the middle of the car. */
  readonly heave: number;
  readonly left: WheelRest;
  readonly right: WheelRest;
  /** Degrees, left lever minus right lever; null without a bar. */
  readonly barTwist: number | null;
  /** null without one. */
  readonly thirdSpring: CrossSpringRest | null;
  readonly rollSpring: CrossSpringRest | null;
  /** About the middle of the ground, N·m/deg, tyres rigid; null where a wheel is in the air, or its damper or the third spring at an end. */
  readonly rollStiffness: RollStiffness | null;
  /** N·m·s/deg; null where a wheel has no `damping` or is in the air, or its damper or the third spring is at an end. */
  readonly rollDamping: number | null;
  readonly loadTransfer: LoadTransfer;
}

/** A car at rest. */
export interface Equilibrium {
  readonly status: 'rests';
  /** g, to the left positive. */
  readonly lateralAcceleration: number;
  /** Degrees, left side up positive: positive in a left turn. */
  readonly roll: number;
  /** The axles that the car has. */
  readonly axles: { readonly front?: AxleRest; readonly rear?: AxleRest };
  /** Fraction of the load on front right and rear left; null for one axle. */
  readonly crossWeight: number | null;
  /** Fraction of the load transfer on the front axle; null for one axle, and where there is no transfer. */
  readonly frontTransferFraction: number | null;
  /** What is worth knowing of the car: whether it stands in roll at design ride height (`rollsOver`), and a bar of more than three times the springs' share. */
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Why there is no rest. `travelEnd`: a wheel comes to the end of its linkage. `fallsOver`: all wheels of one side leave the ground. `unstable`:
 * beyond the last rest none is found that holds, as where jacking or a falling installation ratio overcomes the springs. `axleLifted`: nothing
 * weighs on an axle.
 */
export type NoRestCause = 'travelEnd' | 'fallsOver' | 'axleLifted' | 'unstable';

/** A car that does not come to rest under its loads. */
export interface NoEquilibrium {
  readonly status: 'outOfReach';
  readonly cause: NoRestCause;
  /** For `travelEnd`: the wheel, and the end of its travel. */
  readonly wheel: WheelName | null;
  readonly end: WheelEnd | null;
  readonly axle: 'front' | 'rear' | null;
  /** The largest lateral acceleration on the way there at which the car rests, g; null where it does not rest without. */
  readonly lateralAcceleration: number | null;
  /** The rest there. */
  readonly last: Equilibrium | null;
  /** What is worth knowing of the car. */
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * The rest of a car under loads: heave of each axle, roll, and load, travel and coilover of each wheel. The chassis is rigid, also in torsion;
 * pitch is small and has no anti-dive; tyres give vertically alone. From design ride height the car is let down first, and taken into the
 * turn afterwards.
 *
 * @throws InputError for a car or loads that cannot be, with every issue.
 */
export function equilibrium(car: CarOnAxles, loads: CarLoads = {}): Equilibrium | NoEquilibrium {
  checkCar(car);
  checkLoads(car, loads);
  return equilibriumOf(setUpCar(car), loads);
}

/** The same of a car made ready. */
export function equilibriumOf(ready: Car, loads: CarLoads): Equilibrium | NoEquilibrium {
  const acting = actingOn(ready, loads);
  const room = roomOf(ready);
  const lifted = axleLifted(ready, acting);
  if (lifted !== null) return lifted;
  const down = letDown(ready, acting, room);
  if (down.failure !== null) return noRest(ready, acting, down, null, room);
  const { lateralAcceleration = 0 } = loads;
  const turned = turn(ready, acting, { at: 0, state: down.state }, lateralAcceleration, room);
  if (turned.failure !== null) return noRest(ready, acting, turned, turned.at, room);
  return restOf(ready, { ...acting, lateral: lateralAcceleration }, turned.state, room);
}

/** An axle on which nothing weighs. */
export function axleLifted({ names, diagnostics }: Car, { loads }: Acting): NoEquilibrium | null {
  const k = loads.findIndex((load) => !(load > 0));
  if (k < 0) return null;
  return {
    status: 'outOfReach',
    cause: 'axleLifted',
    wheel: null,
    end: null,
    axle: names[k],
    lateralAcceleration: null,
    last: null,
    diagnostics,
  };
}

/** Why it goes no farther; `lateral` is where it rests last. */
export function noRest(
  car: Car,
  acting: Acting,
  { state, failure }: Gone,
  lateral: number | null,
  room: Workspace,
): NoEquilibrium {
  const cause = failure?.cause ?? 'unstable';
  const isEnd = failure?.cause === 'travelEnd';
  return {
    status: 'outOfReach',
    cause,
    wheel: isEnd ? wheelName(car, failure.wheel) : null,
    end: isEnd ? car.wheels[failure.wheel].reader.curve.end[failure.end] : null,
    axle: isEnd ? car.names[car.wheels[failure.wheel].axle] : null,
    lateralAcceleration: lateral,
    last: lateral === null ? null : restOf(car, { ...acting, lateral }, state, room),
    diagnostics: car.diagnostics,
  };
}

/** A wheel by its number. */
export function wheelName({ names, wheels }: Car, i: number): WheelName {
  return `${names[wheels[i].axle]}${wheels[i].side > 0 ? 'Left' : 'Right'}`;
}

/** A state of rest as data. */
export function restOf(car: Car, acting: Acting, state: CarState, room: Workspace): Equilibrium {
  readWheels(car, state, room);
  return restRead(car, acting, state, room);
}

/** The same of a state whose wheels have been read. */
export function restRead(car: Car, acting: Acting, state: CarState, room: Workspace): Equilibrium {
  const forces = car.wheels.map((_, i) => forcesOn(car, acting, state, room, i));
  const axles = Object.fromEntries(
    car.names.map((name, k) => [name, axleRest(car, state, room, forces, k)]),
  ) as Equilibrium['axles'];
  const [first, second] = car.names.map((name) => axles[name] as AxleRest);
  const sum = acting.loads.reduce((all, load) => all + load, 0);
  const transfers = [first, second].map((axle) => axle?.loadTransfer.total ?? 0);
  const transfer = transfers[0] + transfers[1];
  return {
    status: 'rests',
    lateralAcceleration: acting.lateral,
    roll: state.roll * DEGREES,
    axles,
    crossWeight: second === undefined ? null : (first.right.load.total + second.left.load.total) / sum,
    frontTransferFraction:
      second === undefined || !(Math.abs(transfer) > NOTHING * sum) ? null : transfers[0] / transfer,
    diagnostics: car.diagnostics,
  };
}

/** Share of the weight below which a transfer of load is rounding. */
const NOTHING = 1e-9;

function axleRest(
  car: Car,
  state: CarState,
  { at, coupled, ended }: Workspace,
  forces: readonly WheelForces[],
  k: number,
): AxleRest {
  const linkage = car.linkages[k];
  const end = state.springHolds[ended.findIndex(({ axle }) => axle === k)] ?? 'free';
  const sides = [2 * k, 2 * k + 1];
  const [left, right] = sides.map((i) => wheelRest(car, state, at, forces[i], i));
  const half = (of: (load: WheelLoad) => number) => (of(right.load) - of(left.load)) / 2;
  const across = (name: CouplingName): CrossSpringRest | null => {
    const one = coupled[k].find((coupling) => coupling.name === name);
    if (one === undefined) return null;
    return {
      length: one.value,
      force: 0 - (one.force - one.endForce),
      end: name === 'thirdSpring' ? end : 'free',
      endForce: 0 - one.endForce,
    };
  };
  const isFree =
    end === 'free' && sides.every((i) => state.holds[i].damper === 'free' && !state.holds[i].inTheAir);
  return {
    heave: -state.height[k] / Math.cos(state.roll) + 0,
    left,
    right,
    barTwist: linkage.bar === null ? null : (at[2 * k].lever[0] - at[2 * k + 1].lever[0]) * DEGREES,
    thirdSpring: across('thirdSpring'),
    rollSpring: across('rollSpring'),
    rollStiffness: isFree
      ? stiffnessThere(
          coupled[k],
          [wheelState(1, at[2 * k]), wheelState(-1, at[2 * k + 1])],
          state.roll,
          sides.map((i) => forces[i]),
        )
      : null,
    rollDamping: isFree ? rollDamping(car, state, at, forces, k, coupled[k]) : null,
    loadTransfer: {
      total: half(({ total }) => total),
      elastic: half(({ elastic }) => elastic),
      geometric: half(({ geometric }) => geometric),
      unsprung: half(({ unsprung }) => unsprung),
    },
  };
}

/**
 * Sum of c R^2 z_p^2, z_p the change of travel with roll where the middle of the car keeps its height, and of the dampers between both
 * wheels.
 */
function rollDamping(
  { wheels, coilovers, axles }: Car,
  { roll }: CarState,
  at: readonly WheelAt[],
  forces: readonly WheelForces[],
  k: number,
  coupled: readonly Coupled[],
): number | null {
  const [sin, cos] = [Math.sin(roll), Math.cos(roll)];
  let sum = 0;
  const byRoll = [2 * k, 2 * k + 1].map((i) => {
    const { travel, halfTrack } = at[i];
    return -(wheels[i].side * halfTrack[0] * cos - travel * sin) / forces[i].normal;
  });
  for (const [w, rate] of byRoll.entries()) {
    const { damping } = coilovers[2 * k + w];
    if (damping === undefined) return null;
    sum += (damping / NEWTON_SECONDS) * (at[2 * k + w].shock[1] * rate) ** 2;
  }
  for (const [c, coupling] of axles[k].couplings.entries()) {
    if (coupling.name === 'bar') continue;
    const { left, right } = coupled[c];
    const stretched = left * byRoll[0] + right * byRoll[1];
    sum += (coupling.spring.damping / NEWTON_SECONDS) * stretched ** 2;
  }
  return sum / NEWTON_METRE_PER_DEGREE;
}

/** N·s/m in a N·s/mm. */
const NEWTON_SECONDS = 1000;

function wheelRest(
  car: Car,
  state: CarState,
  at: readonly WheelAt[],
  found: WheelForces,
  i: number,
): WheelRest {
  const { coilover } = car.wheels[i];
  const { shock, travel } = at[i];
  const ratio = -shock[1];
  const hold = state.holds[i];
  const parts = axialForce(coilover, shock[0]);
  const onGround = (force: number) => (force * ratio) / found.normal + 0;
  const load = {
    spring: onGround(parts.spring),
    bumpStop: onGround(parts.bumpStop),
    gas: onGround(parts.gas),
    bar: found.parts.bar / found.normal + 0,
    thirdSpring: found.parts.thirdSpring / found.normal + 0,
    rollSpring: found.parts.rollSpring / found.normal + 0,
    damperEnd: onGround(hold.damper === 'free' ? 0 : state.held[i]),
  };
  const elastic = load.spring + load.bumpStop + load.gas + found.coupled / found.normal + load.damperEnd;
  const geometric = (-found.lateral * found.tangent) / found.normal + 0;
  const unsprung = found.unsprung / found.normal;
  return {
    travel,
    load: {
      total: hold.inTheAir ? 0 : elastic + geometric + unsprung,
      elastic,
      ...load,
      geometric,
      unsprung,
    },
    lateralForce: found.lateral + 0,
    tyreDeflection: found.deflection + 0,
    shockLength: shock[0],
    installationRatio: ratio,
    springForce: parts.spring,
    bumpStopForce: parts.bumpStop,
    isSpringLoose: shock[0] >= coilover.loose,
    isOnBumpStop: coilover.bumpStop !== null && shock[0] < coilover.bumpStop.contact,
    damper: hold.damper,
    clearance: hold.inTheAir ? clearanceOf(car, state, at, i) : null,
  };
}
