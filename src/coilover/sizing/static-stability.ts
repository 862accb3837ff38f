// Whether a corner stands on its spring. With F the whole force between the eyes and k = -dF/dL the rate of all that pushes:
//
//   wheel rate        k_w = k R^2 + F R' + k_T > 0, or the weight runs away with the wheel; k_T of the springs between both wheels
//   softest spring    k_s = -(F R' + k_T) / R^2 - k_stop at ride height, where the weight fixes F (the gas has no rate)
//   main of a stack   1/k = 1/k_s - 1/k_h with a helper that is not shut; none stands where k_h <= k_s
//
// Along the travel F is that of the spring fitted. Where k_w comes to 0 the wheel load is at its peak: under more the wheel goes on to the
// bump stop, or to the end. A steady state (at rest, at top speed, in a corner, braking; no bump of the road, no margin) that lies
// beyond the first touch of the bump stop rides on it.

import { axialForce, type CoiloverForce, contactLength } from '../../corner/axial-force.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { CarSizingFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import { GRAVITY } from '../../units.ts';
import { type Collapse, collapseBetween, isBorne, restUnder, travelAtLength, wheelAt } from '../wheel.ts';
import { speedRow, topSpeedOf } from './downforce.ts';
import { contactTravel } from './lengths.ts';
import type { Spring } from './listed-springs.ts';
import { type Carried, wheelRateOn } from './rates.ts';
import { TRAVEL_CASES, type TravelRequirement } from './required-travel.ts';
import type { AxleState } from './state.ts';

/** A corner that is held steadily, without a bump of the road: mm. */
export interface SteadyState {
  /** `corner` and `braking` at the accelerations of the travel cases, with the downforce at top speed; `braking` of the front axle only. */
  readonly state: 'rest' | 'topSpeed' | 'corner' | 'braking';
  /** Of the travel cases, in g: lateral or of braking; null in the others. */
  readonly acceleration: number | null;
  /** Speed whose downforce acts, mm/s; null without any. */
  readonly speed: number | null;
  /** From the drawn ride height, bump +. */
  readonly travel: number;
  /** Travel left from there to contact with the bump stop, negative on it; null without one. */
  readonly travelToContact: number | null;
}

/** How far beyond the bump limit a collapse is worth a note, mm: limits are off by as much. Common practice, no source. */
const NEAR = 25;

/** What there is to say about how an axle's corner stands; paths from the corner. */
export function stabilityDiagnostics(
  state: AxleState,
  needed: TravelRequirement,
  car: Certain<CarSizingFile>,
): Diagnostic[] {
  const { coilover, spring, carried, rest, shock, ends } = state;
  if (coilover === null || spring === null || carried === null) return [];
  if (rest === null) return [doesNotStand(state, coilover, spring, carried)];
  const steady = steadyStatesOf(state, needed, car);
  const beyond = collapseBetween(shock, coilover, rest.travel, Math.min(shock.bump, ends.bump + NEAR));
  const within = [
    collapseBetween(shock, coilover, rest.travel, ends.bump),
    collapseBetween(shock, coilover, rest.travel, ends.droop),
  ].filter((collapse) => collapse !== null);
  return [
    ...within.flatMap((collapse) => [collapsing(state, collapse), ...collapsed(collapse, steady)]),
    ...(beyond === null || within.some(({ side }) => side === 'bump')
      ? []
      : [nearCollapse(beyond, ends.bump)]),
    ...ridingOnStop(state, steady),
    ...looseAtDroop(state, coilover),
  ];
}

/** A corner without a rest: why, and where the wheel goes. */
function doesNotStand(
  state: AxleState,
  coilover: CoiloverForce,
  spring: Spring,
  carried: Carried,
): Diagnostic {
  const { given, shock, ends } = state;
  const load = carried.mass * GRAVITY;
  const drawn = wheelAt(shock, coilover, 0);
  const goesTo = restUnder(shock, coilover, load, ends);
  if (!isBorne(drawn.load, load)) {
    const { springForce } = carried;
    const carries = axialForce(coilover, shock.at(0).length).spring;
    if (given.sizing.perch?.setting === undefined || spring.freeLength === null) {
      return conflict('springSolidAtRide', 'sizing.springs', {
        carries,
        springForce,
        springRate: spring.rate,
      });
    }
    const side = goesTo.state === 'droopLimit' ? 'droop' : 'bump';
    const borne = wheelAt(shock, coilover, goesTo.travel).load;
    return conflict('noRest', 'sizing.perch', { side, travel: goesTo.travel, load, borne });
  }
  return conflict('wheelRateNotPositive', 'sizing.target', {
    wheelRate: drawn.rate,
    springRate: spring.rate,
    softestSpring: softestSpring(state, carried),
    goesTo: goesTo.travel,
    atEnd: goesTo.state !== 'onSpring',
  });
}

/** The rate that the main spring must exceed for the corner to stand at ride height, N/mm; null where none does with the helper. */
export function softestSpring({ given }: Pick<AxleState, 'given'>, carried: Carried): number | null {
  const { helper } = given.sizing;
  const { ratio, springForce } = carried;
  const together = Math.max(0, -wheelRateOn(0, carried) / ratio ** 2);
  if (helper === undefined || helper.rate * (helper.freeLength - helper.solidLength) <= springForce)
    return together;
  return helper.rate > together ? 1 / (1 / together - 1 / helper.rate) : null;
}

function collapsing({ spring, carried, atRest }: AxleState, collapse: Collapse): Diagnostic {
  const { side, travel, load, standsAgain, comesTo } = collapse;
  return conflict('wheelRateReachesZero', 'coilover', {
    side,
    travel,
    load,
    ofStatic: load / ((carried?.mass ?? Number.NaN) * GRAVITY),
    standsAgain,
    comesTo,
    wheelRate: atRest?.rate ?? null,
    springRate: spring?.rate ?? null,
  });
}

/** Steady states beyond a collapse in bump. */
function collapsed({ side, travel, load }: Collapse, steady: readonly SteadyState[]): Diagnostic[] {
  return side === 'droop'
    ? []
    : steady
        .filter((one) => one.travel > travel)
        .map((one) =>
          conflict('collapsesWhenSteady', 'coilover', {
            state: one.state,
            travel: one.travel,
            from: travel,
            load,
          }),
        );
}

function nearCollapse({ travel, load }: Collapse, limit: number): Diagnostic {
  return {
    code: 'collapseBeyondLimit',
    severity: 'note',
    path: 'coilover',
    values: { travel, load, limit, beyond: travel - limit },
  };
}

/** Where the corner is held steadily. What can't be told is left out; nothing where it does not stand. */
export function steadyStatesOf(
  state: AxleState,
  { cases }: TravelRequirement,
  { downforce, travelCases = {} }: Certain<CarSizingFile>,
): SteadyState[] {
  if (state.rest === null) return [];
  const rest = state.rest.travel;
  const contact = contactTravel(state);
  const steady: SteadyState[] = [];
  const add = (
    name: SteadyState['state'],
    travel: number | null,
    acceleration: number | null,
    speed: number | null,
  ) => {
    if (travel === null) return;
    const travelToContact = contact === null ? null : contact - travel;
    steady.push({ state: name, acceleration, speed, travel, travelToContact });
  };
  add('rest', rest, null, null);
  const topSpeed = downforce === undefined ? null : topSpeedOf(downforce);
  if (downforce !== undefined && topSpeed !== null)
    add('topSpeed', speedRow(state, downforce, topSpeed).travel, null, topSpeed);
  for (const [name, part, acceleration] of [
    ['corner', 'roll', 'lateralAcceleration'],
    ['braking', 'dive', 'deceleration'],
  ] as const) {
    const parts = cases.find((one) => one.side === 'bump' && one.parts[part] !== undefined)?.parts;
    const travel = parts === undefined ? null : rest + (parts.downforce ?? 0) + parts[part];
    const speed = parts?.downforce === undefined ? null : topSpeed;
    add(name, travel, travelCases[acceleration] ?? TRAVEL_CASES[acceleration], speed);
  }
  return steady;
}

/** States that already ride on the stop at rest ride on it in all others, and at top speed in those that have its downforce. */
const FOLLOWS: Readonly<Record<SteadyState['state'], readonly SteadyState['state'][]>> = {
  rest: [],
  topSpeed: ['rest'],
  corner: ['rest', 'topSpeed'],
  braking: ['rest', 'topSpeed'],
};

/** Steady states beyond the first touch of the bump stop, each with the wheel rate there. */
function ridingOnStop(
  { given, settings, coilover, shock }: AxleState,
  steady: readonly SteadyState[],
): Diagnostic[] {
  const contact = contactLength(given.limits.bumpStop, settings.damper);
  if (contact === null || coilover === null) return [];
  const pressed = (travel: number) => contact - shock.at(travel).length;
  const touched = travelAtLength(shock, contact, pressed(0) > 0 ? shock.droop : shock.bump);
  if (touched === null) return [];
  const riding = steady.filter(({ travel }) => travel > touched && pressed(travel) > 0);
  return riding
    .filter(({ state }) => !riding.some((one) => FOLLOWS[state].includes(one.state)))
    .map(({ state, travel }) =>
      conflict('ridesOnBumpStop', 'limits.bumpStop', {
        state,
        travel,
        contact: touched,
        past: travel - touched,
        pressed: pressed(travel),
        wheelRate: coilover.bumpStop === null ? null : wheelAt(shock, coilover, travel).rate,
        wheelRateBefore: wheelAt(shock, { ...coilover, bumpStop: null }, touched).rate,
      }),
    );
}

/** A spring that is loose at the droop limit, where a damping ratio is asked for. */
function looseAtDroop({ given, shock, ends }: AxleState, { loose }: CoiloverForce): Diagnostic[] {
  if (given.sizing.damping === undefined) return [];
  const gap = shock.at(ends.droop).length - loose;
  if (gap < 0) return [];
  return [
    {
      code: 'springLooseAtDroop',
      severity: 'note',
      path: 'sizing.damping',
      values: { travel: ends.droop, gap, looseFrom: travelAtLength(shock, loose, ends.droop) },
    },
  ];
}

function conflict(code: string, path: string, values: Diagnostic['values']): Diagnostic {
  return { code, severity: 'conflict', path, values };
}
