import type { Issue } from '../../errors.ts';
import { GRAVITY } from '../../units.ts';
import type { CoiloverForce } from '../forces/eye-force.ts';
import type { AxleMass } from '../masses.ts';
import { compressionUnder, type Stack, travelOf } from '../springs/stack.ts';
import { isBorne, type Rest, restUnder, type ShockCurve, type WheelState, wheelAt } from '../wheel.ts';
import { bareSpring, freeLengthOf, type Spring, stackOf } from './choose-spring.ts';
import { type DamperLengths, stopOf } from './damper.ts';
import type { AxleInputs } from './inputs.ts';
import { type Carried, carriedAtRide, gasForceOf, type WantedRates, wantedRates } from './rates.ts';

/** What is settled for an axle's coilovers, whatever the guesses come to. */
export interface Settings {
  /** The spring that is fitted; null takes the wanted rate as it is. */
  readonly spring: Spring | null;
  readonly damper: DamperLengths | null;
  /** Where the travel ends, mm, droop negative; null as far as it was laid. */
  readonly ends: { readonly droop: number; readonly bump: number } | null;
}

/** Masses of a corner, kg: mean of the two sides. */
export interface CornerMass {
  /** On the wheels of both sides; null where only the sprung mass was given. */
  readonly wheels: AxleMass | null;
  readonly sprung: number;
  readonly unsprung: number;
}

/** An axle's coilover at work. */
export interface AxleState {
  readonly given: AxleInputs;
  readonly shock: ShockCurve;
  readonly settings: Settings;
  readonly ends: { readonly droop: number; readonly bump: number };
  readonly mass: CornerMass | null;
  readonly carried: Carried | null;
  readonly wanted: WantedRates;
  readonly spring: Spring | null;
  readonly stack: Stack | null;
  readonly coilover: CoiloverForce | null;
  /**
   * Where the car stands: 0 where the perch is set for the drawn ride height. Stable, k_w > 0; null where it is not known, and, with a
   * coilover, where the corner does not stand.
   */
  readonly rest: Rest | null;
  readonly atRest: WheelState | null;
  readonly issues: readonly Issue[];
}

const NOT_WANTED: WantedRates = { wheelRate: null, together: null, springRate: null };

/** An axle's coilover at work on masses, as it is set. */
export function axleState(
  given: AxleInputs,
  wheels: AxleMass | null,
  shock: ShockCurve,
  settings: Settings,
): AxleState {
  const { sizing } = given;
  const ends = settings.ends ?? { droop: shock.droop, bump: shock.bump };
  const { mass, issues: massIssues } = cornerMass(given, wheels);
  const stop = stopOf(given, settings.damper);
  const gas = gasForceOf(sizing.gas);
  const { carried, issues: carriedIssues } =
    mass === null ? { carried: null, issues: [] } : carriedAtRide(mass.sprung, shock, gas, stop);
  const { issues: wantedIssues, ...wanted } =
    carried === null ? { ...NOT_WANTED, issues: [] } : wantedRates(sizing, carried);
  const spring = settings.spring ?? (wanted.springRate === null ? null : bareSpring(wanted.springRate));
  const state = {
    given,
    shock,
    settings,
    ends,
    mass,
    carried,
    wanted,
    spring,
    issues: [...massIssues, ...carriedIssues, ...wantedIssues],
  };
  if (spring === null || carried === null) {
    return { ...state, stack: null, coilover: null, rest: null, atRest: null };
  }
  const stack = stackOf(spring, sizing.helper);
  const loose = looseByPerch(sizing, spring) ?? looseAtRide(stack, carried);
  const coilover = { spring: stack, loose, gasForce: gas, stop };
  const load = carried.mass * GRAVITY;
  // Set for ride height the coilover bears the weight there by construction, unless its coils bind before.
  const set = looseByPerch(sizing, spring) === null && isBorne(wheelAt(shock, coilover, 0).load, load);
  const found: Rest = set ? { travel: 0, how: 'between' } : restUnder(shock, coilover, load, ends);
  const atRest = wheelAt(shock, coilover, found.travel);
  const stands = found.how === 'between' && atRest.rate > 0;
  return { ...state, stack, coilover, rest: stands ? found : null, atRest: stands ? atRest : null };
}

/** Length between the eyes at which the spring is just loose by the perch as it is set; null where it is set for ride height. */
function looseByPerch({ perch, helper }: AxleInputs['sizing'], { free }: Spring): number | null {
  return perch?.eyesToSeats === undefined || free === null
    ? null
    : perch.eyesToSeats + freeLengthOf(free, helper);
}

/** The same, so that the spring bears ride height. */
function looseAtRide(stack: Stack, { length, springForce }: Carried): number {
  return length + Math.min(compressionUnder(stack, springForce), travelOf(stack));
}

/** Sprung and unsprung mass of a corner; an issue where nothing is left to spring. */
function cornerMass(
  { sizing, sprungMass }: AxleInputs,
  wheels: AxleMass | null,
): { mass: CornerMass | null; issues: Issue[] } {
  const unsprung = sizing.unsprungMass;
  if (wheels === null) {
    const mass = sprungMass === undefined ? null : { wheels: null, sprung: sprungMass, unsprung };
    return { mass, issues: [] };
  }
  const sprung = (wheels.left + wheels.right) / 2 - unsprung;
  if (sprung > 0) return { mass: { wheels, sprung, unsprung }, issues: [] };
  return {
    mass: null,
    issues: [
      {
        path: 'sizing.unsprungMass',
        problem: 'leaves no sprung mass',
        got: `${unsprung.toFixed(1)} kg of ${(sprung + unsprung).toFixed(1)} kg on the wheel`,
        allowed: `less than ${(sprung + unsprung).toFixed(1)} kg`,
        advice: 'look at the masses and shares of the car again',
      },
    ],
  };
}
