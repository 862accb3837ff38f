// A car through steady turns of growing lateral acceleration. From one state of rest to the next each thing that happens to a wheel has
// a margin, below 0 before and above 0 after it; where the margin changes its sign is found by the rule of false position (Illinois form:
// M. Dowell, P. Jarratt, BIT 11, 1971; from memory).

import { fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import { type CarLoads, type CarOnAxles, checkCar, checkLoads, LOADS, MOST_G } from './car.ts';
import { type Gone, letDown, roomOf, turn } from './car-rest.ts';
import { actingOn, type Car, setUpCar } from './car-set-up.ts';
import {
  type AxleRest,
  axleLifted,
  type Equilibrium,
  type NoEquilibrium,
  noRest,
  restOf,
  restRead,
  type WheelName,
  wheelName,
} from './equilibrium.ts';
import { type Acting, type CarState, clearanceOf, readWheels, type Workspace } from './rest-equations.ts';

/** Which turns, and what else is brought on the car; all optional. */
export interface SteadyCorneringOptions extends Omit<CarLoads, 'lateralAcceleration'> {
  /** In g, to the left positive, in any order; default 0 to 1.5 by 0.05. */
  readonly lateralAccelerations?: readonly number[];
}

/** What happens to a wheel as the lateral acceleration grows, or to the third spring of an axle. */
export type CorneringEventKind = WheelEventKind | SpringEventKind;
/** The same of a third spring: at its shortest length, or at its longest. */
export type SpringEventKind = 'thirdSpringCompressed' | 'thirdSpringExtended';
/** The same of a wheel. */
export type WheelEventKind = 'bumpStopContact' | 'springLoose' | 'toppedOut' | 'bottomedOut' | 'wheelLift';

/** Something that happens to a wheel or a third spring in a turn. */
export interface CorneringEvent {
  /** g, to the left positive. */
  readonly lateralAcceleration: number;
  readonly axle: 'front' | 'rear';
  /** null for a third spring, which is of both wheels. */
  readonly wheel: WheelName | null;
  readonly event: CorneringEventKind;
  /** Whether it begins there with more acceleration, or ends. */
  readonly begins: boolean;
}

/** A car through steady turns. */
export interface SteadyCornering {
  /** The rest at each lateral acceleration of the options at which there is one, in their order. */
  readonly states: readonly Equilibrium[];
  /** One flat object for each state. */
  rows(): CorneringRow[];
  /** From 0 on, first to the left, then to the right. */
  readonly events: readonly CorneringEvent[];
  /** Where it goes no farther, to the left and to the right; empty where all accelerations are reached. */
  readonly outOfReach: readonly NoEquilibrium[];
}

type WheelFigure = 'Travel' | 'Load' | 'ShockLength';
type AxleFigure = 'Heave' | 'LoadTransfer' | 'RollStiffness' | 'BarTwist';
/** A state as numbers, for a table; null as in `Equilibrium`. */
export type CorneringRow = {
  readonly lateralAcceleration: number;
  readonly roll: number;
  readonly crossWeight: number | null;
  readonly frontTransferFraction: number | null;
} & { readonly [Name in `${WheelName}${WheelFigure}`]?: number } & {
  readonly [Name in `${'front' | 'rear'}${AxleFigure}`]?: number | null;
};

const DEFAULT = Array.from({ length: 31 }, (_, k) => k / 20);
const MOST_STATES = 100_000;
/** g: between states nearer than this something that happens and ends again is missed. */
const STRIDE = 0.05;
/** g: to which an event is found. */
const CLOSE = 1e-11;
const MOST_ROUNDS = 60;

/**
 * The rest of a car at lateral accelerations, what happens on the way from none, and where it goes no farther. Assumptions as for
 * `equilibrium`.
 *
 * @throws InputError for a car or options that cannot be, with every issue.
 */
export function steadyCornering(car: CarOnAxles, options: SteadyCorneringOptions = {}): SteadyCornering {
  checkCar(car);
  refuse(
    'loads',
    unknownOptions(options, [...LOADS, 'lateralAccelerations']).filter(({ code }) => code === 'notOptions'),
  );
  const { lateralAccelerations = DEFAULT, ...loads } = options;
  const isList =
    Array.isArray(lateralAccelerations) &&
    lateralAccelerations.length > 0 &&
    lateralAccelerations.length <= MOST_STATES &&
    lateralAccelerations.every((a) => typeof a === 'number' && Math.abs(a) <= MOST_G);
  const got = show(lateralAccelerations);
  checkLoads(
    car,
    loads,
    isList
      ? []
      : [fault('notAccelerations', 'lateralAccelerations', { got, most: MOST_G, count: MOST_STATES })],
  );
  const ready = setUpCar(car);
  const acting = actingOn(ready, loads);
  const room = roomOf(ready);
  const lifted = axleLifted(ready, acting);
  if (lifted !== null) return cornering([], [], [lifted]);
  const down = letDown(ready, acting, room);
  if (down.failure !== null) return cornering([], [], [noRest(ready, acting, down, null, room)]);
  const start = { at: 0, state: down.state };
  readWheels(ready, start.state, room);
  const still = marginsOf(ready, start.state, room);
  const states = new Map<number, Equilibrium>();
  const events: CorneringEvent[] = [];
  const outOfReach: NoEquilibrium[] = [];
  for (const way of [1, -1]) {
    const ordered = lateralAccelerations
      .filter((a) => (way > 0 ? a >= 0 : a < 0))
      .sort((a, b) => Math.abs(a) - Math.abs(b));
    let gone: Walked = { ...start, before: null, failure: null, margins: still };
    for (const a of ordered) {
      if (a === gone.at) states.set(a, restOf(ready, { ...acting, lateral: a }, gone.state, room));
      gone = along(ready, acting, gone, a, events, room, (state) =>
        states.set(a, restRead(ready, { ...acting, lateral: a }, state, room)),
      );
      if (gone.failure !== null) break;
    }
    if (gone.failure !== null) outOfReach.push(noRest(ready, acting, gone, gone.at, room));
  }
  return cornering(
    lateralAccelerations.flatMap((a) => states.get(a + 0) ?? []),
    events,
    outOfReach,
  );
}

function cornering(
  states: readonly Equilibrium[],
  events: readonly CorneringEvent[],
  outOfReach: readonly NoEquilibrium[],
): SteadyCornering {
  return { states, rows: () => states.map(rowOf), events, outOfReach };
}

function rowOf({
  lateralAcceleration,
  roll,
  crossWeight,
  frontTransferFraction,
  axles,
}: Equilibrium): CorneringRow {
  const figures = Object.entries(axles as Readonly<Record<string, AxleRest>>).flatMap(([name, axle]) => [
    [`${name}Heave`, axle.heave],
    [`${name}LoadTransfer`, axle.loadTransfer.total],
    [`${name}RollStiffness`, axle.rollStiffness?.total ?? null],
    [`${name}BarTwist`, axle.barTwist],
    ...(
      [
        ['Left', axle.left],
        ['Right', axle.right],
      ] as const
    ).flatMap(([side, wheel]) => [
      [`${name}${side}Travel`, wheel.travel],
      [`${name}${side}Load`, wheel.load.total],
      [`${name}${side}ShockLength`, wheel.shockLength],
    ]),
  ]);
  return { lateralAcceleration, roll, crossWeight, frontTransferFraction, ...Object.fromEntries(figures) };
}

/** What can happen to a car: to each wheel, by its number, and to each third spring with ends of its lengths. */
type Happening =
  | { readonly kind: WheelEventKind; readonly wheel: number }
  | { readonly kind: SpringEventKind; readonly spring: number };

/** Margins of all that can happen, in the order of `happenings`. */
type Margins = (number | null)[];

/** A place on the way, with its margins. */
interface Walked extends Gone {
  readonly margins: Margins;
}

/** Goes on to a lateral acceleration, noting what happens on the way; `reached` is given the state there, its wheels read. */
function along(
  car: Car,
  acting: Acting,
  from: Walked,
  to: number,
  events: CorneringEvent[],
  room: Workspace,
  reached: (state: CarState) => void,
): Walked {
  let walked = from;
  while (walked.at !== to && walked.failure === null) {
    const before = walked;
    const isNear = Math.abs(to - before.at) <= STRIDE;
    const gone = turn(
      car,
      acting,
      before,
      isNear ? to : before.at + Math.sign(to - before.at) * STRIDE,
      room,
    );
    if (gone.failure !== null) readWheels(car, gone.state, room);
    walked = { ...gone, margins: marginsOf(car, gone.state, room) };
    if (walked.at === to) reached(gone.state);
    note(car, acting, before, walked, events, room);
  }
  return walked;
}

/** Margins of a state whose wheels have been read. */
function marginsOf(car: Car, state: CarState, room: Workspace): Margins {
  return happenings(car, room).map((one) => margin(car, state, room, one));
}

function happenings({ wheels }: Car, { ended }: Workspace): Happening[] {
  return [
    ...wheels.flatMap((_, wheel) => WHEEL_KINDS.map((kind) => ({ kind, wheel }))),
    ...ended.flatMap((_, spring) => SPRING_KINDS.map((kind) => ({ kind, spring }))),
  ];
}

const SPRING_KINDS: readonly SpringEventKind[] = ['thirdSpringCompressed', 'thirdSpringExtended'];
const WHEEL_KINDS: readonly WheelEventKind[] = [
  'bumpStopContact',
  'springLoose',
  'toppedOut',
  'bottomedOut',
  'wheelLift',
];

/** How far past an event a car is in a state whose wheels have been read: mm or N, below 0 before it; null where it cannot happen. */
function margin(car: Car, state: CarState, room: Workspace, one: Happening): number | null {
  return 'spring' in one ? springMargin(state, room, one) : wheelMargin(car, state, room, one);
}

function springMargin(
  { springHolds, endForces }: CarState,
  { coupled, ended }: Workspace,
  { kind, spring }: Extract<Happening, { readonly spring: number }>,
): number | null {
  const { axle, coupling, extendedLength, compressedLength } = ended[spring];
  const { value } = coupled[axle][coupling];
  const [way, end, held] =
    kind === 'thirdSpringExtended'
      ? ([1, extendedLength, 'extended'] as const)
      : ([-1, compressedLength, 'compressed'] as const);
  if (!Number.isFinite(end)) return null;
  return springHolds[spring] === held
    ? Math.max(0, way * endForces[spring])
    : Math.min(0, way * (value - end));
}

function wheelMargin(
  car: Car,
  state: CarState,
  { at }: Workspace,
  { kind, wheel: i }: Extract<Happening, { readonly wheel: number }>,
): number | null {
  const { coilover, toppedAt, bottomedAt } = car.wheels[i];
  const [length] = at[i].shock;
  const { damper, inTheAir } = state.holds[i];
  switch (kind) {
    case 'bumpStopContact':
      return coilover.bumpStop === null ? null : coilover.bumpStop.contact - length;
    case 'springLoose':
      return length - coilover.loose;
    case 'toppedOut':
      if (toppedAt === null) return null;
      return damper === 'toppedOut' ? Math.max(0, -state.held[i]) : Math.min(0, toppedAt - at[i].travel);
    case 'bottomedOut':
      if (bottomedAt === null) return null;
      return damper === 'bottomedOut' ? Math.max(0, state.held[i]) : Math.min(0, at[i].travel - bottomedAt);
    case 'wheelLift':
      return inTheAir ? Math.max(0, clearanceOf(car, state, at, i)) : Math.min(0, -state.load[i]);
  }
}

/** Notes what happens between two states of rest. */
function note(
  car: Car,
  acting: Acting,
  from: Walked,
  to: Walked,
  events: CorneringEvent[],
  room: Workspace,
): void {
  const found: CorneringEvent[] = [];
  happenings(car, room).forEach((one, k) => {
    const [a, b] = [from.margins[k], to.margins[k]];
    if (a === null || b === null || a > 0 === b > 0) return;
    const marginAt = (lateral: number) => {
      const gone = turn(car, acting, from, lateral, room);
      readWheels(car, gone.state, room);
      return margin(car, gone.state, room, one) ?? 0;
    };
    found.push({
      lateralAcceleration: falsePosition(marginAt, [from.at, a], [to.at, b]),
      axle: car.names['spring' in one ? room.ended[one.spring].axle : car.wheels[one.wheel].axle],
      wheel: 'spring' in one ? null : wheelName(car, one.wheel),
      event: one.kind,
      begins: b > 0,
    });
  });
  const size = ({ lateralAcceleration }: CorneringEvent) => Math.abs(lateralAcceleration);
  events.push(...found.sort((one, other) => size(one) - size(other)));
}

/** Where a function changes its sign between two places at which it is known: each value is a car at rest, and this asks for fewer than `zeroBetween`. */
function falsePosition(
  f: (at: number) => number,
  [from, first]: readonly [number, number],
  [to, last]: readonly [number, number],
): number {
  let [a, fa, b, fb] = [from, first, to, last];
  let before = Number.NaN;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = fa === fb ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const value = f(next);
    if (Math.abs(next - before) < CLOSE || value === 0) return next;
    before = next;
    if (value > 0 === fb > 0) fa /= 2;
    else [a, fa] = [b, fb];
    [b, fb] = [next, value];
  }
  return b;
}
