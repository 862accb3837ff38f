// The springs of a car for a pose and a cross weight. With the pose of the body given, the loads N of the wheels follow from
//
//   sum N = P for each axle,    sum N Y = sum m g Y over all masses,    N_fr + N_rl = x (P_f + P_r),
//
// x the cross weight, and the travel of each wheel from its load, by the deflection of its tyre. Places and loads are found in turn: a
// tyre moves its wheel by little. The force of each coilover then follows from virtual work, wheel by wheel, and with its rate how far
// the seat is to be moved.

import { bumpStopForce } from '../corner/axial-force.ts';
import { compressionUnder } from '../corner/spring-stack.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import { DEGREES, GRAVITY } from '../units.ts';
import { type CarOnAxles, checkCar } from './car.ts';
import { roomOf } from './car-rest.ts';
import { actingOn, type Car, drawnState, setUpCar } from './car-set-up.ts';
import { type WheelName, wheelName } from './equilibrium.ts';
import { type CarState, coupleWheels, forcesOn } from './rest-equations.ts';
import { MOST_ROLL } from './sweep-axle.ts';
import { readWheelAt, type WheelAt } from './wheel-at.ts';

/** How the car is to stand at rest; all optional. */
export interface PerchMoveOptions {
  /** Heave of each axle, mm: the body lower by that much than at design ride height; default 0. */
  readonly heave?: { readonly front?: number; readonly rear?: number };
  /** Degrees, left side up positive; default 0. */
  readonly roll?: number;
  /** Fraction of the weight on front right and rear left; default 0.5. A car of one axle has none. */
  readonly crossWeight?: number;
  /** Thread pitch of the perch, mm per turn, for `turns`. */
  readonly threadPitch?: number;
}

/** What the perch of a wheel is to do. */
export interface PerchMove {
  /** Seat towards the spring positive, mm, from where it is. */
  readonly move: number;
  /** The same in turns; null without `threadPitch`. */
  readonly turns: number | null;
  /** N, where the car stands so. */
  readonly load: number;
  /** mm, bump positive, where the car stands so. */
  readonly travel: number;
  /** Along the shock, N. A negative one cannot be: the spring would have to pull. */
  readonly springForce: number;
}

/** The answer for all wheels at once. */
export interface PerchMoves {
  /** `outOfReach` where a wheel does not get there, a load or a spring would have to pull, or a third spring is past an end of its lengths. */
  readonly status: 'found' | 'outOfReach';
  /** The first wheel that is the reason; null where found, and where a third spring is. */
  readonly wheel: WheelName | null;
  /** Empty where a wheel does not get there. */
  readonly wheels: { readonly [Name in WheelName]?: PerchMove };
}

const OPTIONS = ['heave', 'roll', 'crossWeight', 'threadPitch'];
const ROUNDS = 60;
/** mm, and N: a change below this is the last. */
const SETTLED = 1e-11;
const SETTLED_LOAD = 1e-9;

/**
 * How far to move the spring seat at each wheel so that the car, at rest on level ground, stands at given heaves, roll and cross weight.
 * Exact for a rigid chassis: all four at once. What one turn alone does to the other wheels, `equilibrium` has with its `perchMove`.
 *
 * @throws InputError for a car or options that cannot be, with every issue.
 */
export function perchMoves(car: CarOnAxles, options: PerchMoveOptions = {}): PerchMoves {
  checkCar(car);
  checkOptions(options);
  const ready = setUpCar(car);
  const { heave = {}, roll = 0, crossWeight = 0.5, threadPitch } = options;
  const angle = roll / DEGREES;
  const state: CarState = {
    ...drawnState(ready),
    height: ready.names.map((name) => -(heave[name] ?? 0) * Math.cos(angle)),
    roll: angle,
  };
  const room = roomOf(ready);
  const { at } = room;
  for (let round = 0, change = Number.POSITIVE_INFINITY; round < ROUNDS && change > SETTLED_LOAD; round++) {
    const before = [...state.load];
    const short = place(ready, state, at);
    if (short !== null) return { status: 'outOfReach', wheel: wheelName(ready, short), wheels: {} };
    share(ready, state, at, crossWeight);
    change = Math.max(...state.load.map((load, i) => Math.abs(load - before[i])));
  }
  const acting = actingOn(ready, {});
  coupleWheels(ready, state, room);
  const isPastEnd = room.ended.some(({ axle, coupling, extendedLength, compressedLength }) => {
    const { value } = room.coupled[axle][coupling];
    return value > extendedLength || value < compressedLength;
  });
  if (isPastEnd) return { status: 'outOfReach', wheel: null, wheels: {} };
  const moves = ready.wheels.map(({ coilover }, i): PerchMove => {
    const { normal, coupled, unsprung } = forcesOn(ready, acting, state, room, i);
    const [length, byTravel] = at[i].shock;
    const force = (state.load[i] * normal - coupled - unsprung) / -byTravel;
    const springForce = force - coilover.gasForce - bumpStopForce(coilover.bumpStop, length).force;
    const loose = length + compressionUnder(coilover.spring, springForce);
    const move = loose - coilover.loose;
    return {
      move,
      turns: threadPitch === undefined ? null : move / threadPitch,
      load: state.load[i],
      travel: at[i].travel,
      springForce,
    };
  });
  const worst = moves.findIndex(({ load, springForce }) => !(load >= 0 && springForce >= 0));
  return {
    status: worst < 0 ? 'found' : 'outOfReach',
    wheel: worst < 0 ? null : wheelName(ready, worst),
    wheels: Object.fromEntries(moves.map((move, i) => [wheelName(ready, i), move])),
  };
}

/** Puts each wheel where the ground is for its load; the first that does not get there, or null. */
function place({ wheels }: Car, state: CarState, at: readonly WheelAt[]): number | null {
  const [sin, cos] = [Math.sin(state.roll), Math.cos(state.roll)];
  for (const [i, wheel] of wheels.entries()) {
    const { side, reader, axle, tyreCompliance, designLoad, toppedAt, bottomedAt } = wheel;
    const d = (state.load[i] - designLoad) * tyreCompliance;
    let by = Number.POSITIVE_INFINITY;
    for (let round = 0; round < ROUNDS && Math.abs(by) > SETTLED; round++) {
      readWheelAt(reader, state.travel[i], at[i]);
      const { travel, halfTrack } = at[i];
      by =
        (state.height[axle] + side * halfTrack[0] * sin + travel * cos + d) /
        (cos + side * halfTrack[1] * sin);
      state.travel[i] = travel - by;
    }
    const [droop, bump] = [toppedAt ?? reader.droop, bottomedAt ?? reader.bump];
    if (!(state.travel[i] > droop && state.travel[i] < bump)) return i;
  }
  return null;
}

/** Loads of the wheels where they are. */
function share(car: Car, state: CarState, at: readonly WheelAt[], crossWeight: number): void {
  const [sin, cos] = [Math.sin(state.roll), Math.cos(state.roll)];
  const across = car.wheels.map(({ side }, i) => side * at[i].halfTrack[0] * cos - at[i].travel * sin);
  const moment = car.wheels.reduce(
    (sum, { side, unsprungMass }, i) =>
      sum + unsprungMass * GRAVITY * (side * at[i].centreY[0] * cos - at[i].centreZ[0] * sin),
    car.sprungMass * GRAVITY * (car.centre[0] * cos - car.centre[1] * sin),
  );
  const [front, rear] = car.axles.map(({ weight }) => weight);
  if (rear === undefined) {
    const left = (moment - front * across[1]) / (across[0] - across[1]);
    [state.load[0], state.load[1]] = [left, front - left];
    return;
  }
  // With l the load at the front left: front right P_f - l, rear left c = x P - P_f + l, rear right P_r - c.
  const fixed = crossWeight * (front + rear) - front;
  const left =
    (moment - front * across[1] - fixed * (across[2] - across[3]) - rear * across[3]) /
    (across[0] - across[1] + across[2] - across[3]);
  const rearLeft = fixed + left;
  state.load.splice(0, 4, left, front - left, rearLeft, rear - rearLeft);
}

function checkOptions(options: PerchMoveOptions): void {
  const faults: Diagnostic[] = unknownOptions(options, OPTIONS);
  refuse('perch move options', faults);
  const { heave, roll = 0, crossWeight = 0.5, threadPitch = 1 } = options;
  const number = (
    path: string,
    value: unknown,
    isRight: (value: number) => boolean,
    code: string,
    bounds: Diagnostic['values'],
  ) => {
    if (typeof value !== 'number' || !Number.isFinite(value))
      faults.push(fault('notFinite', path, { got: show(value) }));
    else if (!isRight(value)) faults.push(fault(code, path, { ...bounds, got: show(value) }));
  };
  if (heave !== undefined) {
    faults.push(...unknownOptions(heave, ['front', 'rear'], 'heave'));
    for (const name of ['front', 'rear'] as const)
      number(`heave.${name}`, heave?.[name] ?? 0, () => true, 'outOfRange', {});
  }
  number('roll', roll, (value) => Math.abs(value) <= MOST_ROLL, 'rollTooLarge', { most: MOST_ROLL });
  number('crossWeight', crossWeight, (value) => value >= 0 && value <= 1, 'outOfRange', { min: 0, max: 1 });
  number('threadPitch', threadPitch, (value) => value > 0, 'outOfRange', { above: 0 });
  refuse('perch move options', faults);
}
