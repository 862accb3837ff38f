import type { Issue } from '../../errors.ts';
import { type CarMasses, carMasses } from '../masses.ts';
import type { ShockCurve } from '../wheel.ts';
import { DAMPING_FIGURES, dampingNumbers } from './damping.ts';
import { DOWNFORCE_FIGURES, downforceNumbers } from './downforce.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import { AXLES, type Axle, type CarInputs } from './inputs.ts';
import { contactTravel, type EndedBy, LENGTH_FIGURES, lengthNumbers, solidTravel } from './lengths.ts';
import { CAR_FIGURES, carFigures, MASS_FIGURES, massNumbers } from './mass-figures.ts';
import { CAR_ROLL_FIGURES, ROLL_FIGURES, rollOfAxle, rollOfCar } from './roll.ts';
import { SPRING_FIGURES, springNumbers } from './spring.ts';
import { type AxleState, axleState, type Settings } from './state.ts';
import { type TravelNeeded, travelNeeded } from './travel-needed.ts';
import { UNIT_FIGURES, unitNumbers } from './unit-mass.ts';

/** All figures of an axle, and of the car, in the order of a sheet. */
export const AXLE_FIGURES: FigureInfos = {
  ...LENGTH_FIGURES,
  ...SPRING_FIGURES,
  ...DAMPING_FIGURES,
  ...MASS_FIGURES,
  ...DOWNFORCE_FIGURES,
  ...ROLL_FIGURES,
  ...UNIT_FIGURES,
};
export const CAR_WIDE_FIGURES: FigureInfos = { ...CAR_FIGURES, ...CAR_ROLL_FIGURES };

/** One thing for each axle there is. */
export type PerAxle<T> = { readonly front: T; readonly rear?: T };

/** What is settled for a car's coilovers, and where springs are looked at for what they need. */
export interface AxleSettings extends Settings {
  /** Travel at which the bump side ends, the spring itself apart; null for where the stop is solid. */
  readonly springEnd: number | null;
  /** Null where the limits are not known yet. */
  readonly endedBy: EndedBy | null;
}

/** A car with its coilovers at work. */
export interface CarStates {
  readonly masses: CarMasses | null;
  readonly massIssues: readonly Issue[];
  readonly states: PerAxle<AxleState>;
  readonly roll: Numbers<typeof CAR_ROLL_FIGURES>;
  readonly needed: PerAxle<TravelNeeded>;
}

/** The same in figures. */
export interface CarNumbers extends CarStates {
  readonly axles: PerAxle<Readonly<Record<string, number | null>>>;
  readonly car: Readonly<Record<string, number | null>>;
  readonly issues: readonly Issue[];
}

/** For each axle there is, what a function makes of it. */
export function eachAxle<T>({ rear }: { readonly rear?: unknown }, of: (axle: Axle) => T): PerAxle<T> {
  return { front: of('front'), ...(rear === undefined ? {} : { rear: of('rear') }) };
}

/** What stands for an axle, which is there. */
export function ofAxle<T>(per: PerAxle<T>, axle: Axle): T {
  return per[axle] as T;
}

/** A car with its coilovers at work as they are set, and the travel that it needs. */
export function carStates(
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  settings: PerAxle<Settings>,
): CarStates {
  const { car } = inputs;
  const { masses, issues: massIssues } =
    car.masses === undefined ? { masses: null, issues: [] } : carMasses(car.masses);
  const states = eachAxle(inputs, (axle) =>
    axleState(ofAxle(inputs, axle), masses?.[axle] ?? null, ofAxle(shocks, axle), ofAxle(settings, axle)),
  );
  const roll = rollOfCar(states.front, states.rear, car.masses?.centreHeight);
  const sprung =
    states.front.mass === null || states.rear?.mass == null
      ? null
      : 2 * (states.front.mass.sprung + states.rear.mass.sprung);
  const needed = eachAxle(inputs, (axle) =>
    travelNeeded(ofAxle(states, axle), car, axle, roll.rollAngleWithBars, sprung),
  );
  return { masses, massIssues, states, roll, needed };
}

/** Every figure of a car as it is set: a plain function of its inputs, so that guesses can be varied. */
export function carNumbers(
  inputs: CarInputs,
  shocks: PerAxle<ShockCurve>,
  settings: PerAxle<AxleSettings>,
): CarNumbers {
  const { car } = inputs;
  const at = carStates(inputs, shocks, settings);
  const { masses, massIssues, states, roll, needed } = at;
  const axles = eachAxle(inputs, (axle): Record<string, number | null> => {
    const state = ofAxle(states, axle);
    const end = ofAxle(settings, axle).springEnd ?? solidTravel(state) ?? state.ends.bump;
    return {
      ...lengthNumbers(state, ofAxle(needed, axle), ofAxle(settings, axle).endedBy),
      ...springNumbers(state, Math.min(end, state.shock.bump)),
      ...dampingNumbers(state, contactTravel(state)),
      ...massNumbers(state),
      ...downforceNumbers(state, car.downforce, axle),
      ...rollOfAxle(state),
      ...unitNumbers(state),
    };
  });
  return {
    ...at,
    axles,
    car: { ...carFigures(masses, axles.front.frequency, axles.rear?.frequency ?? null), ...roll },
    issues: [
      ...massIssues.map((issue) => ({ ...issue, path: `masses.${issue.path}` })),
      ...AXLES.flatMap((axle) =>
        (states[axle]?.issues ?? []).map((issue) => ({ ...issue, path: `corners.${axle}.${issue.path}` })),
      ),
    ],
  };
}
