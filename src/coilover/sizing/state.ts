import type { CoiloverForce } from '../../corner/axial-force.ts';
import { compressionUnder, type Stack, travelOf } from '../../corner/spring-stack.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { GRAVITY } from '../../units.ts';
import type { WheelMasses } from '../masses.ts';
import { isBorne, type Rest, restUnder, type ShockCurve, type WheelState, wheelAt } from '../wheel.ts';
import { madeDamper, madeSpring } from './as-made.ts';
import { bumpStopOf, type DamperLengths } from './damper.ts';
import type { AxleInputs } from './inputs.ts';
import { bareSpring, freeLengthOf, type Spring, stackOf } from './listed-springs.ts';
import { type Carried, carriedAtRide, gasForceOf, type RequiredRates, requiredRates } from './rates.ts';

/** What is chosen for an axle's coilovers, whatever the guesses come to. */
export interface Settings {
  /** The spring that is fitted; null takes the required rate as it is. */
  readonly spring: Spring | null;
  readonly damper: DamperLengths | null;
  /** Where the travel ends, mm, droop negative; null as far as it was laid. */
  readonly ends: { readonly droop: number; readonly bump: number } | null;
  /** Null, or left out, where the linear estimate counts as it is. */
  readonly roll?: RollShare | null;
}

/** Travel of the outer and of the inner wheel that a corner adds, each by its own curve, as a multiple of the linear estimate. */
export interface RollShare {
  readonly outer: number;
  readonly inner: number;
}

/** Masses of a corner, kg: mean of the two sides. */
export interface CornerMass {
  /** On the wheels of both sides; null where only the sprung mass was given. */
  readonly wheels: WheelMasses | null;
  readonly sprung: number;
  /** Null where it is not given. */
  readonly unsprung: number | null;
}

/** An axle's coilover at work. */
export interface AxleState {
  readonly given: AxleInputs;
  readonly shock: ShockCurve;
  readonly settings: Settings;
  readonly ends: { readonly droop: number; readonly bump: number };
  /** Masses on the wheels of both sides, kg. */
  readonly wheels: WheelMasses | null;
  readonly mass: CornerMass | null;
  readonly carried: Carried | null;
  readonly required: RequiredRates;
  readonly spring: Spring | null;
  readonly stack: Stack | null;
  readonly coilover: CoiloverForce | null;
  /**
   * Where the car stands: 0 where the perch is set for the drawn ride height. Stable, k_w > 0; null where it is not known, and, with a
   * coilover, where the corner does not stand.
   */
  readonly rest: Rest | null;
  readonly atRest: WheelState | null;
  readonly issues: readonly Diagnostic[];
}

const UNSPRUNG_MASS_MISSING: Diagnostic = {
  code: 'unsprungMassMissing',
  severity: 'conflict',
  path: 'sizing.unsprungMass',
  values: {},
};

const NOTHING_REQUIRED: RequiredRates = { wheelRate: null, together: null, springRate: null };

/** An axle's coilover at work on masses, as it is set. */
export function axleState(
  given: AxleInputs,
  wheels: WheelMasses | null,
  shock: ShockCurve,
  planned: Settings,
): AxleState {
  const { sizing, made } = given;
  const settings = { ...planned, damper: planned.damper === null ? null : madeDamper(planned.damper, made) };
  const ends = settings.ends ?? { droop: shock.droop, bump: shock.bump };
  const { mass, issues: massIssues } = cornerMass(given, wheels);
  const bumpStop = bumpStopOf(given, settings.damper);
  const gas = gasForceOf(sizing.gas);
  const { carried, issues: carriedIssues } =
    mass === null ? { carried: null, issues: [] } : carriedAtRide(mass.sprung, shock, gas, bumpStop);
  const { issues: rateIssues, ...required } =
    carried === null ? { ...NOTHING_REQUIRED, issues: [] } : requiredRates(sizing, carried);
  const ordered = settings.spring ?? (required.springRate === null ? null : bareSpring(required.springRate));
  const spring = ordered === null ? null : madeSpring(ordered, made);
  const state = {
    given,
    shock,
    settings,
    ends,
    wheels,
    mass,
    carried,
    required,
    spring,
    issues: [...massIssues, ...carriedIssues, ...rateIssues],
  };
  if (ordered === null || spring === null || carried === null) {
    return { ...state, stack: null, coilover: null, rest: null, atRest: null };
  }
  const stack = stackOf(spring, sizing.helper);
  // The perch is set for the spring as ordered.
  const perched = looseByPerch(sizing, ordered);
  const loose = (perched ?? looseAtRide(stackOf(ordered, sizing.helper), carried)) + made.seat;
  const coilover = { spring: stack, loose, gasForce: gas, bumpStop };
  const load = carried.mass * GRAVITY;
  // Set for ride height the coilover bears the weight there by construction, unless its coils bind before.
  const set = perched === null && isBorne(wheelAt(shock, coilover, 0).load, load);
  const found: Rest = set ? { travel: 0, state: 'onSpring' } : restUnder(shock, coilover, load, ends);
  const atRest = wheelAt(shock, coilover, found.travel);
  const stands = found.state === 'onSpring' && atRest.rate > 0;
  return { ...state, stack, coilover, rest: stands ? found : null, atRest: stands ? atRest : null };
}

/** An axle with a coilover on other masses; without masses, and where it does not stand, it has no rest. */
export function atRestWith(
  state: AxleState,
  coilover: CoiloverForce | null,
  wheels: WheelMasses | null,
  mass: CornerMass | null,
): AxleState {
  const moved = { ...state, coilover, wheels, mass, rest: null, atRest: null };
  const rest = goesTo(moved);
  if (coilover === null || rest === null) return moved;
  const atRest = wheelAt(state.shock, coilover, rest.travel);
  return rest.state === 'onSpring' && atRest.rate > 0 ? { ...moved, rest, atRest } : moved;
}

/** Where the wheel rests, or goes to where the corner does not stand; null where its coilover or its load is not known. */
export function goesTo({ rest, coilover, mass, shock, ends }: AxleState): Rest | null {
  if (rest !== null || coilover === null || mass === null) return rest;
  return restUnder(shock, coilover, mass.sprung * GRAVITY, ends);
}

/** Length between the eyes at which the spring is just loose by the perch as it is set; null where it is set for ride height. */
function looseByPerch({ perch, helper }: AxleInputs['sizing'], { freeLength }: Spring): number | null {
  return perch?.setting === undefined || freeLength === null
    ? null
    : perch.setting + freeLengthOf(freeLength, helper);
}

/** The same, so that the spring bears ride height. */
function looseAtRide(stack: Stack, { length, springForce }: Carried): number {
  return length + Math.min(compressionUnder(stack, springForce), travelOf(stack));
}

/** Sprung and unsprung mass of a corner; null and an issue where nothing is left to spring, or where what is not sprung is not given. */
function cornerMass(
  { sizing, sprungMass }: AxleInputs,
  wheels: WheelMasses | null,
): { mass: CornerMass | null; issues: Diagnostic[] } {
  const unsprung = sizing.unsprungMass;
  if (wheels === null || unsprung === undefined) {
    if (sprungMass !== undefined) {
      return { mass: { wheels, sprung: sprungMass, unsprung: unsprung ?? null }, issues: [] };
    }
    return { mass: null, issues: wheels === null ? [] : [UNSPRUNG_MASS_MISSING] };
  }
  const sprung = (wheels.left + wheels.right) / 2 - unsprung;
  if (sprung > 0) return { mass: { wheels, sprung, unsprung }, issues: [] };
  return {
    mass: null,
    issues: [
      {
        code: 'noSprungMass',
        severity: 'error',
        path: 'sizing.unsprungMass',
        values: { unsprungMass: unsprung, wheelMass: sprung + unsprung },
      },
    ],
  };
}
