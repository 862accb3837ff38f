// What is settled for a car's coilovers: the spring by the wanted rate, the damper by the travel that is then needed, the ends of the travel
// by its limits.

import { modelOf } from '../../corner/corner.ts';
import { type Limit, type LimitCause, type Limits, limitsOf } from '../../corner/limits/limits.ts';
import { checkOptions } from '../../corner/limits/options.ts';
import type { CarDocument } from '../../corner/read-corner.ts';
import { travelOf } from '../springs/stack.ts';
import type { ShockCurve } from '../wheel.ts';
import type { Car } from './car.ts';
import { bareSpring, chooseSpring, RATE_STEP, type Spring, type SpringChoice } from './choose-spring.ts';
import { type DamperLengths, solidLength, wantedDamper } from './damper.ts';
import { type Doubt, howSure } from './how-sure.ts';
import { AXLES, type Axle, type AxleInputs, eachAxle, ofAxle, type PerAxle } from './inputs.ts';
import { type AxleSettings, carStates } from './numbers.ts';
import type { Settings } from './state.ts';

/** What is settled, and what it was chosen from. */
export interface Settled {
  readonly settings: PerAxle<AxleSettings>;
  readonly limits: PerAxle<Limits>;
  readonly choices: PerAxle<readonly SpringChoice[]>;
}

/**
 * Settles the coilovers of a car: springs by the wanted rates, then dampers, where none are given, by the travel that is needed with these,
 * its interval as a margin because a length can't be changed after the order.
 */
export function settleCar(document: CarDocument, car: Car, doubts: readonly Doubt[]): Settled {
  const { inputs, shocks } = car;
  const bare = eachAxle(inputs, (axle): Settings => {
    return { spring: null, damper: ofAxle(inputs, axle).limits.damper ?? null, ends: null };
  });
  const first = carStates(car, bare);
  const choices = eachAxle(inputs, (axle): readonly SpringChoice[] => {
    const given = ofAxle(inputs, axle);
    const { carried, wanted } = ofAxle(first.states, axle);
    if (carried === null || wanted.springRate === null) return [];
    const damper = damperFor(given, ofAxle(shocks, axle), ofAxle(first.needed, axle));
    return chooseSpring(
      given.sizing,
      wanted.springRate,
      carried,
      damper && solidLength(given, damper),
      document.units,
    );
  });
  const sprung = eachAxle(inputs, (axle) => ({
    ...ofAxle(bare, axle),
    spring: fitted(ofAxle(inputs, axle), ofAxle(first.states, axle).wanted.springRate, ofAxle(choices, axle)),
  }));
  const needed = neededAtWorst(car, sprung, doubts);
  const damped = eachAxle(inputs, (axle) => ({
    ...ofAxle(sprung, axle),
    damper: damperFor(ofAxle(inputs, axle), ofAxle(shocks, axle), ofAxle(needed, axle)),
  }));
  const { states } = carStates(car, damped);
  const limits = eachAxle(inputs, (axle) => {
    const { coilover, stack } = ofAxle(states, axle);
    const travel = stack === null ? Number.POSITIVE_INFINITY : travelOf(stack);
    const spring =
      coilover === null || !Number.isFinite(travel) ? {} : { springAtLeast: coilover.loose - travel };
    return limitsWith(document, axle, { damper: ofAxle(damped, axle).damper, ...spring });
  });
  const settings = eachAxle(inputs, (axle): AxleSettings => {
    const { bump, droop, behind } = ofAxle(limits, axle);
    const shock = ofAxle(shocks, axle);
    const bumps = [bump, ...behind].filter((limit) => limit?.side === 'bump');
    const within = (travel: number | undefined, end: number) =>
      Math.min(shock.bump, Math.max(shock.droop, travel ?? end));
    return {
      ...ofAxle(damped, axle),
      ends: { bump: within(bump?.travel, shock.bump), droop: within(droop?.travel, shock.droop) },
      springEnd: bumps.find((limit) => limit?.cause !== 'springAtLeast')?.travel ?? null,
      endedBy: { bump: enderOf(bump), droop: enderOf(droop) },
    };
  });
  return { settings, limits, choices };
}

/** Whether the damper ends the travel, or something else, or nothing. */
function enderOf(limit: Limit | null): 'damper' | 'other' {
  const isDamper = limit !== null && DAMPER.includes(limit.cause);
  return isDamper ? 'damper' : 'other';
}

const DAMPER: readonly LimitCause[] = ['damperOpen', 'damperClosed', 'stopSolid'];

/** Travel that is needed, mm, droop negative: at the unfavourable end of its interval where a damper follows from it. */
function neededAtWorst(car: Car, settings: PerAxle<Settings>, doubts: readonly Doubt[]): PerAxle<Travel> {
  const { needed } = carStates(car, settings);
  const follows = AXLES.some((axle) => car.inputs[axle] !== undefined && !car.inputs[axle].limits.damper);
  if (!follows) return needed;
  const ends = ({ front, rear }: PerAxle<Travel>) =>
    [front, rear].flatMap((travel) => (travel === undefined ? [] : [travel.bump, travel.droop]));
  const sure = howSure(ends(needed), doubts, (moved) => ends(carStates(moved, settings).needed));
  return eachAxle(needed, (axle) => {
    const [bump, droop] = sure.slice(axle === 'front' ? 0 : 2);
    const nominal = ofAxle(needed, axle);
    return { bump: bump.high ?? nominal.bump, droop: droop.low ?? nominal.droop };
  });
}

/** Travel to either side, mm, droop negative. */
interface Travel {
  readonly bump: number | null;
  readonly droop: number | null;
}

/** The damper that was given, or the one for a travel, in whole mm outward; null where there is none so short. */
function damperFor(given: AxleInputs, shock: ShockCurve, needed: Travel): DamperLengths | null {
  const { damper } = given.limits;
  if (damper !== undefined) return damper;
  const { bump, droop } = needed;
  if (bump === null || droop === null) return null;
  const { open, closed } = wantedDamper(given, shock, { bump, droop });
  const whole = { open: Math.ceil(open), closed: Math.floor(closed) };
  return whole.closed > 0 ? whole : null;
}

function fitted(
  { sizing }: AxleInputs,
  wanted: number | null,
  choices: readonly SpringChoice[],
): Spring | null {
  if (wanted === null) return null;
  if (choices.length > 0) return choices[0].spring;
  // A rate that was asked for is taken as it is.
  const step = sizing.rateStep ?? RATE_STEP;
  const asked = sizing.target?.springRate !== undefined;
  return bareSpring(asked ? wanted : Math.max(step, Math.round(wanted / step) * step));
}

function limitsWith(
  document: CarDocument,
  axle: Axle,
  { damper, springAtLeast }: { damper: DamperLengths | null; springAtLeast?: number },
): Limits {
  const { corner, limits } = ofAxle(document.corners, axle);
  const model = modelOf(corner);
  const options = {
    ...limits,
    ...(damper === null ? { bumpStop: undefined } : { damper }),
    ...(springAtLeast === undefined || springAtLeast <= 0 ? {} : { springAtLeast }),
    units: document.units,
  };
  return limitsOf(model, checkOptions(options, model));
}
