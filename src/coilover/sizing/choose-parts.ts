// What is chosen for a car's coilovers: the damper by the travel that is required, the ends of the travel by its limits, the spring by the
// required rate and the travel that it must have.

import { type LimitCause, type Limits, limitsOf } from '../../corner/limits/limits.ts';
import { checkOptions } from '../../corner/limits/options.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { boughtSpring } from '../ordered/bought-spring.ts';
import { travelOf } from '../springs/stack.ts';
import type { ShockCurve } from '../wheel.ts';
import type { Car } from './car.ts';
import { candidateSprings, chooseSpring, type SpringOption } from './choose-spring.ts';
import { type DamperLengths, damperForTravel } from './damper.ts';
import { AXLES, type Axle, type AxleInputs, eachAxle, ofAxle, type PerAxle } from './inputs.ts';
import { bindTravel } from './lengths.ts';
import type { Spring } from './listed-springs.ts';
import { type AxleSettings, carStates, countAlike } from './numbers.ts';
import type { TravelRequirement } from './required-travel.ts';
import { type AxleState, axleState, type Settings } from './state.ts';
import { estimates, type Perturbation } from './uncertainty.ts';

/** What is chosen, and from what. */
export interface ChosenParts {
  readonly settings: PerAxle<AxleSettings>;
  readonly limits: PerAxle<Limits>;
  readonly springOptions: PerAxle<readonly SpringOption[]>;
}

/**
 * Settles the coilovers of a car. A damper that is not given takes the travel that is required with every spring that may be fitted, at the
 * unfavourable end of its interval, because a length can't be changed after the order. Then the spring is chosen with the bump limit that
 * comes of it. No choice goes back on an earlier one: more required travel never gives a shorter damper.
 */
export function chooseParts(
  document: CarDocument,
  car: Car,
  perturbations: readonly Perturbation[],
): ChosenParts {
  const { inputs, shocks } = car;
  const bare = eachAxle(inputs, (axle): Settings => {
    return { spring: null, damper: ofAxle(inputs, axle).limits.damper ?? null, ends: null };
  });
  const first = carStates(car, bare);
  const candidates = eachAxle(inputs, (axle) => {
    const state = ofAxle(first.states, axle);
    const bought = boughtSpring(ofAxle(inputs, axle));
    return bought === null ? candidateSprings(ofAxle(inputs, axle), state.carried, state.required) : [bought];
  });
  const required = requiredAtWorst(car, bare, candidates, perturbations);
  const damped = eachAxle(inputs, (axle): Settings => {
    const given = ofAxle(inputs, axle);
    const lengths = (travels: readonly number[]) => {
      const at = (shock: ShockCurve) => travels.map((travel) => shock.at(travel).length);
      const nominal = at(ofAxle(shocks, axle));
      // Most inputs leave the corner's geometry as it is.
      return estimates(nominal, perturbations, (moved) => {
        const shock = ofAxle(moved.shocks, axle);
        return shock === ofAxle(shocks, axle) ? nominal : at(shock);
      });
    };
    const damper =
      given.limits.damper ?? damperForTravel(given, ofAxle(shocks, axle), ofAxle(required, axle), lengths);
    return { ...ofAxle(bare, axle), damper };
  });
  const unsprung = eachAxle(inputs, (axle) =>
    limitsWith(document, car, axle, { damper: ofAxle(damped, axle).damper }),
  );
  const otherEnds = eachAxle(inputs, (axle) => {
    const { bump, droop, later } = ofAxle(unsprung, axle);
    const shock = ofAxle(shocks, axle);
    const other = (side: 'bump' | 'droop') => {
      const found = [bump, droop, ...later].find(
        (limit) => limit?.side === side && !DAMPER.includes(limit.cause),
      );
      return found == null ? null : Math.min(shock.bump, Math.max(shock.droop, found.travel));
    };
    return { bump: other('bump'), droop: other('droop') };
  });
  const springOptions = eachAxle(inputs, (axle): readonly SpringOption[] => {
    const given = perchFree(ofAxle(inputs, axle));
    const shock = ofAxle(shocks, axle);
    const masses = first.masses?.[axle] ?? null;
    const fitted = (spring: Spring | null) =>
      axleState(given, masses, shock, { ...ofAxle(damped, axle), spring });
    const shortest = (state: AxleState) => shock.at(bindTravel(state, ofAxle(otherEnds, axle))).length;
    return chooseSpring(given, fitted(null), fitted, shortest, axle);
  });
  const sprung = eachAxle(inputs, (axle) => ({
    ...ofAxle(damped, axle),
    spring:
      boughtSpring(ofAxle(inputs, axle)) ??
      ofAxle(springOptions, axle)[0]?.spring ??
      ofAxle(candidates, axle)[0] ??
      null,
  }));
  const { states } = carStates(car, sprung);
  const limits = eachAxle(inputs, (axle) => {
    const { coilover, stack } = ofAxle(states, axle);
    const travel = stack === null ? Number.POSITIVE_INFINITY : travelOf(stack);
    if (coilover === null || !Number.isFinite(travel)) return ofAxle(unsprung, axle);
    const springMinLengthAt = coilover.loose - travel;
    return limitsWith(document, car, axle, { damper: ofAxle(sprung, axle).damper, springMinLengthAt });
  });
  const settings = eachAxle(inputs, (axle): AxleSettings => {
    const { bump, droop } = ofAxle(limits, axle);
    const shock = ofAxle(shocks, axle);
    const within = (travel: number | undefined, end: number) =>
      Math.min(shock.bump, Math.max(shock.droop, travel ?? end));
    return {
      ...ofAxle(sprung, axle),
      ends: { bump: within(bump?.travel, shock.bump), droop: within(droop?.travel, shock.droop) },
      otherEnds: ofAxle(otherEnds, axle),
    };
  });
  return { settings, limits, springOptions };
}

/** An axle as a change of spring finds it: with a bought coilover the perch is then set for ride height anew. */
function perchFree(given: AxleInputs): AxleInputs {
  const { perch } = given.sizing;
  if (given.ordered === undefined || perch === undefined) return given;
  const { setting: _, ...free } = perch;
  return { ...given, sizing: { ...given.sizing, perch: free } };
}

const DAMPER: readonly LimitCause[] = ['damperExtended', 'damperCompressed', 'bumpStopSolid'];

/**
 * Travel that is required, mm, droop negative, with the softest and with the stiffest springs that may be fitted: of every case the
 * unfavourable end, where a damper follows from it.
 */
function requiredAtWorst(
  car: Car,
  bare: PerAxle<Settings>,
  candidates: PerAxle<readonly Spring[]>,
  perturbations: readonly Perturbation[],
): PerAxle<Travel> {
  const with_ = (k: 0 | -1) =>
    eachAxle(car.inputs, (axle) => ({
      ...ofAxle(bare, axle),
      spring: ofAxle(candidates, axle).at(k) ?? null,
    }));
  const several = AXLES.some((axle) => (candidates[axle]?.length ?? 0) > 1);
  const tried = [with_(0), ...(several ? [with_(-1)] : [])];
  const follows = AXLES.some((axle) => car.inputs[axle] !== undefined && !car.inputs[axle].limits.damper);
  const found = tried.map((settings) => {
    const { travelRequirement } = carStates(car, settings);
    const cases = (of: PerAxle<TravelRequirement>) =>
      AXLES.flatMap((axle) => (of[axle]?.cases ?? []).map((one) => ({ axle, ...one })));
    const nominal = cases(travelRequirement);
    const values = (moved: Car) => {
      const other = moved === car ? travelRequirement : carStates(moved, settings).travelRequirement;
      return countAlike(other, travelRequirement)
        ? cases(other).map(({ required }) => required)
        : nominal.map(() => null);
    };
    const sure = follows ? estimates(values(car), perturbations, values) : [];
    return nominal.map(({ axle, side, required }, k) => ({ axle, side, high: sure[k]?.upper ?? required }));
  });
  return eachAxle(car.inputs, (axle) => {
    const most = (side: 'bump' | 'droop') => {
      const ends = found.flat().filter((one) => one.axle === axle && one.side === side);
      return ends.length === 0 ? null : Math.max(...ends.map(({ high }) => high));
    };
    const [bump, droop] = [most('bump'), most('droop')];
    return { bump, droop: droop === null ? null : -droop };
  });
}

/** Travel to either side, mm, droop negative. */
interface Travel {
  readonly bump: number | null;
  readonly droop: number | null;
}

function limitsWith(
  document: CarDocument,
  { models }: Car,
  axle: Axle,
  { damper, springMinLengthAt }: { damper: DamperLengths | null; springMinLengthAt?: number },
): Limits {
  const { limits } = ofAxle(document.corners, axle);
  const model = ofAxle(models, axle);
  const options = {
    ...limits,
    ...(damper === null ? { bumpStop: undefined } : { damper }),
    ...(springMinLengthAt === undefined || springMinLengthAt <= 0 ? {} : { springMinLengthAt }),
  };
  return limitsOf(model, checkOptions(options, model));
}
