// What is chosen for a car's coilovers: the damper by the travel that is required, the ends of the travel by its limits, the spring by the
// required rate and the travel that it must have.

import { type LimitCause, type Limits, limitsOf } from '../../corner/limits/limits.ts';
import { checkOptions } from '../../corner/limits/options.ts';
import { travelOf } from '../../corner/spring-stack.ts';
import { boughtSpring } from '../ordered/bought-spring.ts';
import type { ShockCurve } from '../wheel.ts';
import type { Car, CarAxle } from './car.ts';
import { type AxleAtWork, type CarStates, carStates, countAlike } from './car-states.ts';
import { candidateSprings, chooseSpring, type SpringOption } from './choose-spring.ts';
import { type DamperLengths, damperForTravel } from './damper.ts';
import type { AxleInputs } from './inputs.ts';
import { bindTravel, type OtherEnds } from './lengths.ts';
import type { Spring } from './listed-springs.ts';
import { type AxleState, axleState, type Settings } from './state.ts';
import { rollSharesOf } from './steady-corner.ts';
import { type Estimate, estimates, type Perturbation } from './uncertainty.ts';

/** What is chosen for an axle's coilovers, and from what; where springs are looked at for what they need. */
export interface ChosenParts extends Settings {
  readonly otherEnds: OtherEnds;
  readonly limits: Limits;
  readonly springOptions: readonly SpringOption[];
}

/**
 * Settles the coilovers of a car, axle by axle. A damper that is not given takes the travel that is required with every spring that may be
 * fitted, at the unfavourable end of its interval, because a length can't be changed after the order. Then the spring is chosen with the
 * bump limit that comes of it. No choice goes back on an earlier one: more required travel never gives a shorter damper.
 */
export function chooseParts(car: Car, perturbations: readonly Perturbation[]): ChosenParts[] {
  const bare = car.axles.map(
    ({ limits }): Settings => ({ spring: null, damper: limits.damper ?? null, ends: null }),
  );
  const axles = carStates(car, bare).axles.map((axle, k): OpenAxle => {
    const { carried, required } = axle.state;
    const bought = boughtSpring(axle);
    const candidates = bought === null ? candidateSprings(axle, carried, required) : [bought];
    return { ...axle, settings: bare[k], candidates };
  });
  const required = requiredAtWorst(car, axles, perturbations);
  const chosen = axles.map((axle, k) => {
    const lengths = (travels: readonly number[]) => {
      const at = (shock: ShockCurve) => travels.map((travel) => shock.at(travel).length);
      const nominal = at(axle.shock);
      // Most inputs leave the corner's geometry as it is.
      return estimates(nominal, perturbations, ({ axles }) => {
        const { shock } = axles[k];
        return shock === axle.shock ? nominal : at(shock);
      });
    };
    return partsOn(axle, axle.limits.damper ?? damperForTravel(axle, axle.shock, required[k], lengths));
  });
  return inCorner(car, chosen);
}

/** The same settings with what the steady corner adds to the travel of the wheels. */
function inCorner<S extends Settings>(car: Car, settings: readonly S[]): S[] {
  const shares = rollSharesOf(carStates(car, settings), car.car);
  return settings.map((one, k) => ({ ...one, roll: shares[k] }));
}

/** An axle without a spring, and the springs that may be fitted, the softest first. */
interface OpenAxle extends AxleAtWork {
  readonly settings: Settings;
  readonly candidates: readonly Spring[];
}

/** Spring, limits and ends of the travel of an axle with its damper. */
function partsOn(axle: OpenAxle, damper: DamperLengths | null): ChosenParts {
  const { shock, candidates } = axle;
  const damped = { ...axle.settings, damper };
  const unsprung = limitsWith(axle, damper);
  const within = (travel: number) => Math.min(shock.bump, Math.max(shock.droop, travel));
  const other = (side: 'bump' | 'droop') => {
    const found = [unsprung.bump, unsprung.droop, ...unsprung.later].find(
      (limit) => limit?.side === side && !DAMPER.includes(limit.cause),
    );
    return found == null ? null : within(found.travel);
  };
  const otherEnds = { bump: other('bump'), droop: other('droop') };
  const stateWith = (given: AxleInputs, spring: Spring | null) =>
    axleState(given, axle.state.wheels, shock, { ...damped, spring });
  const given = perchFree(axle);
  const shortest = (state: AxleState) => shock.at(bindTravel(state, otherEnds)).length;
  const springOptions = chooseSpring(
    given,
    stateWith(given, null),
    (spring) => stateWith(given, spring),
    shortest,
  );
  const spring = boughtSpring(axle) ?? springOptions[0]?.spring ?? candidates[0] ?? null;
  const { coilover, stack } = stateWith(axle, spring);
  const travel = stack === null ? Number.POSITIVE_INFINITY : travelOf(stack);
  const limits =
    coilover === null || !Number.isFinite(travel)
      ? unsprung
      : limitsWith(axle, damper, coilover.loose - travel);
  const { bump, droop } = limits;
  const ends = { bump: within(bump?.travel ?? shock.bump), droop: within(droop?.travel ?? shock.droop) };
  return { spring, damper, ends, otherEnds, limits, springOptions };
}

/** An axle as a change of spring finds it: with a bought coilover the perch is then set for ride height anew. */
export function perchFree(given: AxleInputs): AxleInputs {
  const { perch } = given.sizing;
  if (given.ordered === undefined || perch === undefined) return given;
  const { setting: _, ...free } = perch;
  return { ...given, sizing: { ...given.sizing, perch: free } };
}

const DAMPER: readonly LimitCause[] = ['damperExtended', 'damperCompressed', 'bumpStopSolid'];

/** Travel to either side, mm, droop negative. */
interface Travel {
  readonly bump: number | null;
  readonly droop: number | null;
}

/**
 * Travel that each axle requires with the softest and with the stiffest springs that may be fitted: of every case the unfavourable end,
 * where a damper follows from it.
 */
function requiredAtWorst(
  car: Car,
  axles: readonly OpenAxle[],
  perturbations: readonly Perturbation[],
): Travel[] {
  const withSprings = (k: 0 | -1) =>
    inCorner(
      car,
      axles.map(({ settings, candidates }) => ({ ...settings, spring: candidates.at(k) ?? null })),
    );
  const several = axles.some(({ candidates }) => candidates.length > 1);
  const follows = axles.some(({ limits }) => !limits.damper);
  const found = [withSprings(0), ...(several ? [withSprings(-1)] : [])].flatMap((settings) => {
    const nominal = carStates(car, settings);
    const cases = casesOf(nominal);
    const values = (moved: Car) => {
      const states = moved === car ? nominal : carStates(moved, settings);
      return countAlike(states, nominal)
        ? casesOf(states).map(({ required }) => required)
        : cases.map(() => null);
    };
    const sure: Estimate[] = follows ? estimates(values(car), perturbations, values) : [];
    return cases.map((one, k) => ({ ...one, high: sure[k]?.upper ?? one.required }));
  });
  return axles.map(({ axle }) => {
    const most = (side: 'bump' | 'droop') => {
      const ends = found.filter((one) => one.axle === axle && one.side === side);
      return ends.length === 0 ? null : Math.max(...ends.map(({ high }) => high));
    };
    const [bump, droop] = [most('bump'), most('droop')];
    return { bump, droop: droop === null ? null : -droop };
  });
}

/** The travel cases of all axles. */
function casesOf({ axles }: CarStates) {
  return axles.flatMap(({ axle, travelRequirement }) =>
    travelRequirement.cases.map(({ side, required }) => ({ axle, side, required })),
  );
}

function limitsWith({ limits, model }: CarAxle, damper: DamperLengths | null, springMinLengthAt = 0): Limits {
  const options = {
    ...limits,
    ...(damper === null ? { bumpStop: undefined } : { damper }),
    ...(springMinLengthAt <= 0 ? {} : { springMinLengthAt }),
  };
  return limitsOf(model, checkOptions(options, model));
}
