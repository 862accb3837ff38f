// The way of a car to its rest. It is let down first: as drawn each wheel is held by a force that makes it stand there, which is then taken
// away. Then it goes into the turn, by small steps of the lateral acceleration, each from the state before (numerical continuation:
// E. L. Allgower, K. Georg, "Introduction to Numerical Continuation Methods", 1990; from memory). A step that fails is halved.

import { totalPush } from '../corner/axial-force.ts';
import { GRAVITY } from '../units.ts';
import { type Car, drawnState } from './car-set-up.ts';
import {
  type Acting,
  type CarState,
  copyOf,
  type Failure,
  restNear,
  type Workspace,
  workspaceOf,
} from './rest-equations.ts';
import { noWheelAt } from './wheel-at.ts';

/** g: longest step of the lateral acceleration. */
const STRIDE = 0.25;
/** Share of a way, and g, within which its end is found where it cannot be gone to its end. */
const NARROW = 1e-6;

/** A state on a way. */
export interface Place {
  readonly at: number;
  readonly state: CarState;
}

/** Steps of a way, halved ones too, before it is given up. */
const MOST_STEPS = 200;

/** Where a way ends: how far it was gone, the last state of rest, and why it goes no farther; null at its aim. */
export interface Gone extends Place {
  /** The state of rest before that; null where there was none. */
  readonly before: Place | null;
  readonly failure: Failure | null;
}

export function roomOf(car: Car): Workspace {
  return workspaceOf(car, car.wheels.map(noWheelAt));
}

/** Goes from a state of rest at `from` to `to`, or as far as there is rest. */
function go(
  car: Car,
  acting: (at: number) => Acting,
  start: Place & { readonly before?: Place | null },
  to: number,
  longest: number,
  room: Workspace,
): Gone {
  let { at, state, before = null } = start;
  let stride = longest;
  let failure: Failure | null = null;
  for (let step = 0; at !== to && stride > NARROW && step < MOST_STEPS; step++) {
    const isNear = Math.abs(to - at) <= stride;
    const next = isNear ? to : at + Math.sign(to - at) * stride;
    const tried = ahead(at, state, before, next);
    failure = restNear(car, acting(next), tried, room);
    if (failure === null) {
      before = { at, state };
      [at, state] = [next, tried];
      stride = Math.min(longest, 2 * stride);
    } else stride = Math.min(stride, Math.abs(next - at)) / 2;
  }
  return { at, state, before, failure: at === to ? null : (failure ?? { cause: 'unstable' }) };
}

/** A guess of the state at `next`: on the line through the last two, where they are held alike. */
function ahead(at: number, state: CarState, before: Place | null, next: number): CarState {
  const guess = copyOf(state);
  const { holds, springHolds } = state;
  if (
    before === null ||
    holds.some(({ damper, inTheAir }, i) => {
      const was = before.state.holds[i];
      return damper !== was.damper || inTheAir !== was.inTheAir;
    }) ||
    springHolds.some((hold, e) => hold !== before.state.springHolds[e])
  )
    return guess;
  const share = (next - at) / (at - before.at);
  const further = (values: number[], earlier: readonly number[]) => {
    for (let i = 0; i < values.length; i++) values[i] += share * (values[i] - earlier[i]);
  };
  further(guess.height, before.state.height);
  further(guess.travel, before.state.travel);
  further(guess.load, before.state.load);
  further(guess.held, before.state.held);
  further(guess.endForces, before.state.endForces);
  guess.roll += share * (state.roll - before.state.roll);
  return guess;
}

/** Lets the car down onto its wheels, without lateral acceleration. */
export function letDown(car: Car, acting: Acting, room: Workspace): Gone {
  const held = car.wheels.map(({ coilover, designLoad, unsprungMass }, i) => {
    const { shock, centreZ } = car.drawn[i];
    const push = totalPush(coilover, shock[0]).force * shock[1];
    return designLoad + push - car.coupledLoad[i] - unsprungMass * GRAVITY * centreZ[1];
  });
  const loads = car.axles.map(({ weight }) => weight);
  const partly = (at: number): Acting => ({
    ...acting,
    loads: acting.loads.map((load, k) => loads[k] + at * (load - loads[k])),
    held: held.map((force) => (1 - at) * force),
  });
  return go(car, partly, { at: 0, state: drawnState(car) }, 1, 1, room);
}

/** Takes the car from a state at one lateral acceleration to another, g. */
export function turn(
  car: Car,
  acting: Acting,
  start: Place & { readonly before?: Place | null },
  to: number,
  room: Workspace,
): Gone {
  return go(car, (lateral) => ({ ...acting, lateral }), start, to, STRIDE, room);
}
