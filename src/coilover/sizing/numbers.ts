import type { Diagnostic } from '../../diagnostic.ts';
import { type CarMasses, carMasses, type WheelMasses } from '../masses.ts';
import type { Car } from './car.ts';
import { DAMPING_FIGURES, dampingNumbers } from './damping.ts';
import { DOWNFORCE_FIGURES, downforceNumbers } from './downforce.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import { AXLES, type Axle, eachAxle, ofAxle, type PerAxle } from './inputs.ts';
import { keptState } from './kept-states.ts';
import {
  bindTravel,
  contactTravel,
  LENGTH_FIGURES,
  lengthNumbers,
  type OtherEnds,
  travelExtremes,
} from './lengths.ts';
import { type LoadedCar, loadedCars, onMasses, overStates } from './load-states.ts';
import { CAR_FIGURES, carFigures, MASS_FIGURES, massNumbers } from './mass-figures.ts';
import { type TravelRequirement, travelRequirementOf } from './required-travel.ts';
import { CAR_ROLL_FIGURES, ROLL_FIGURES, rollOfAxle, rollOfCar } from './roll.ts';
import { SPRING_FIGURES, springNumbers } from './spring.ts';
import type { AxleState, Settings } from './state.ts';
import { type Estimate, type Extreme, estimates, extremeOf, type Perturbation } from './uncertainty.ts';
import { UNIT_FIGURES, unitNumbers } from './unit-mass.ts';

/** What is told of an axle, topic by topic in the order of a sheet. */
const AXLE_TOPICS = {
  lengths: LENGTH_FIGURES,
  spring: SPRING_FIGURES,
  damping: DAMPING_FIGURES,
  masses: MASS_FIGURES,
  downforce: DOWNFORCE_FIGURES,
  roll: ROLL_FIGURES,
  unit: UNIT_FIGURES,
} as const;

const CAR_TOPICS = { masses: CAR_FIGURES, roll: CAR_ROLL_FIGURES } as const;

type NamesOf<T extends Topics> = { [Topic in keyof T]: keyof T[Topic] & string }[keyof T];

/** Names of the figures of an axle. */
export type AxleFigureName = NamesOf<typeof AXLE_TOPICS>;
/** Names of the figures of the car as a whole. */
export type CarFigureName = NamesOf<typeof CAR_TOPICS>;

type Topics = Readonly<Record<string, FigureInfos>>;
type NumbersOf<T extends Topics> = { readonly [Topic in keyof T]: Numbers<T[Topic]> };

/** All figures of an axle, and of the car, in the order of a sheet. */
export const AXLE_FIGURES: FigureInfos = Object.assign({}, ...Object.values(AXLE_TOPICS));
export const CAR_WIDE_FIGURES: FigureInfos = Object.assign({}, ...Object.values(CAR_TOPICS));

/** What is chosen for a car's coilovers, and where springs are looked at for what they need. */
export interface AxleSettings extends Settings {
  readonly otherEnds: OtherEnds;
}

/** A car with its coilovers at work. */
export interface CarStates {
  readonly masses: CarMasses | null;
  readonly massIssues: readonly Diagnostic[];
  readonly states: PerAxle<AxleState>;
  readonly roll: Numbers<typeof CAR_ROLL_FIGURES>;
  /** Required travel, over all load states. */
  readonly travelRequirement: PerAxle<TravelRequirement>;
  /** The car in its other load states. */
  readonly loaded: readonly LoadedCar[];
  /** The same for one wheel of an axle, in a state of its own. */
  travelRequirementAt(axle: Axle, state: AxleState, side: keyof WheelMasses): TravelRequirement;
}

/** The same in figures. */
export interface CarNumbers extends CarStates {
  readonly axles: PerAxle<NumbersOf<typeof AXLE_TOPICS>>;
  readonly car: NumbersOf<typeof CAR_TOPICS>;
  /** Figures of an axle that are the extreme of several values. */
  readonly extremes: PerAxle<ReturnType<typeof travelExtremes>>;
  readonly issues: readonly Diagnostic[];
}

/** A car with its coilovers at work as they are set, and the travel that it needs. */
export function carStates({ inputs, shocks }: Car, settings: PerAxle<Settings>): CarStates {
  const { car } = inputs;
  const { masses, issues: massIssues } =
    car.masses === undefined ? { masses: null, issues: [] } : carMasses(car.masses);
  const states = eachAxle(inputs, (axle) =>
    keptState(ofAxle(inputs, axle), masses?.[axle] ?? null, ofAxle(shocks, axle), ofAxle(settings, axle)),
  );
  const roll = rollOfCar(states.front, states.rear, car.masses?.sprungCentreOfGravityHeight);
  const sprung =
    states.front.mass === null || states.rear?.mass == null
      ? null
      : 2 * (states.front.mass.sprung + states.rear.mass.sprung);
  const loaded = loadedCars(car.masses, states, car.masses?.sprungCentreOfGravityHeight);
  const requirementIn = (axle: Axle, state: AxleState, side?: keyof WheelMasses) => {
    const others = loaded.map((one) => {
      const wheels = one.masses?.[axle] ?? null;
      const mass =
        wheels === null || side === undefined ? wheels : { left: wheels[side], right: wheels[side] };
      const there = onMasses(state, mass);
      const requirement = travelRequirementOf(there, car, axle, one.rollGradient, one.sprungMass);
      return { name: one.name, rest: there.rest?.travel ?? 0, requirement };
    });
    const design = travelRequirementOf(state, car, axle, roll.rollGradientWithBars, sprung);
    return overStates(design, state.rest?.travel ?? 0, others);
  };
  const travelRequirement = eachAxle(inputs, (axle) => requirementIn(axle, ofAxle(states, axle)));
  return { masses, massIssues, states, roll, travelRequirement, loaded, travelRequirementAt: requirementIn };
}

type OwnNumbers = Omit<NumbersOf<typeof AXLE_TOPICS>, 'lengths' | 'downforce'>;
const own = new WeakMap<AxleState, { readonly otherEnds: OtherEnds; readonly numbers: OwnNumbers }>();

/** Figures that hang on nothing but the axle's own state; kept with it. */
function ownNumbers(state: AxleState, otherEnds: OtherEnds): OwnNumbers {
  const kept = own.get(state);
  if (kept?.otherEnds === otherEnds) return kept.numbers;
  const numbers = {
    spring: springNumbers(state, bindTravel(state, otherEnds)),
    damping: dampingNumbers(state, contactTravel(state)),
    masses: massNumbers(state),
    roll: rollOfAxle(state),
    unit: unitNumbers(state),
  };
  own.set(state, { otherEnds, numbers });
  return numbers;
}

/** Every figure of a car as it is set: a plain function of its inputs, so that guesses can be varied. */
export function carNumbers(car: Car, settings: PerAxle<AxleSettings>): CarNumbers {
  const at = carStates(car, settings);
  const { masses, massIssues, states, roll, travelRequirement } = at;
  const extremes = eachAxle(car.inputs, (axle) =>
    travelExtremes(ofAxle(states, axle), ofAxle(travelRequirement, axle), ofAxle(settings, axle).otherEnds),
  );
  const axles = eachAxle(car.inputs, (axle): NumbersOf<typeof AXLE_TOPICS> => {
    const state = ofAxle(states, axle);
    return {
      lengths: lengthNumbers(state, ofAxle(extremes, axle)),
      ...ownNumbers(state, ofAxle(settings, axle).otherEnds),
      downforce: downforceNumbers(state, car.inputs.car.downforce, axle),
    };
  });
  const frequencies = [axles.front, axles.rear].map((axle) => axle?.spring.frequency ?? null);
  return {
    ...at,
    axles,
    extremes,
    car: { masses: carFigures(masses, frequencies[0], frequencies[1]), roll },
    issues: [
      ...massIssues.map((issue) => ({ ...issue, path: `masses.${issue.path}` })),
      ...AXLES.flatMap((axle) =>
        (states[axle]?.issues ?? []).map((issue) => ({ ...issue, path: `corners.${axle}.${issue.path}` })),
      ),
    ],
  };
}

/** Whose a figure is. */
export type Owner = 'car' | Axle;

/** Topics with the names of their figures. */
const listed = (topics: Topics) =>
  Object.entries(topics).map(([topic, infos]) => ({ topic, names: Object.keys(infos) }));
const AXLE_LISTED = listed(AXLE_TOPICS);
const LISTED = { car: listed(CAR_TOPICS), front: AXLE_LISTED, rear: AXLE_LISTED } as const;
const OWNERS = ['car', ...AXLES] as const;

/** The figures of a car: whose each is, and its name. */
export function figuresIn({ rear }: { readonly rear?: unknown }): { owner: Owner; name: string }[] {
  return OWNERS.filter((owner) => owner !== 'rear' || rear !== undefined).flatMap((owner) =>
    LISTED[owner].flatMap(({ names }) => names.map((name) => ({ owner, name }))),
  );
}

/** The values of `figuresIn`, in its order. */
export function valuesOf({ car, axles }: CarNumbers): (number | null)[] {
  const values: (number | null)[] = [];
  for (const owner of OWNERS) {
    const topics = owner === 'car' ? car : axles[owner];
    if (topics === undefined) continue;
    for (const { topic, names } of LISTED[owner]) {
      const numbers = topics[topic as keyof typeof topics] as Readonly<Record<string, number | null>>;
      for (const name of names) values.push(numbers[name]);
    }
  }
  return values;
}

/** Extremes of a car with the place of each among `figuresIn`. */
export function extremesIn({
  extremes,
  ...numbers
}: CarNumbers): { readonly k: number; readonly extreme: Extreme }[] {
  return figuresIn(numbers.axles).flatMap(({ owner, name }, k) => {
    const found: Readonly<Record<string, Extreme>> = owner === 'car' ? {} : ofAxle(extremes, owner);
    return Object.hasOwn(found, name) ? [{ k, extreme: found[name] }] : [];
  });
}

/** Whether the same parts of the same cases are counted on every axle. */
export function countAlike(a: PerAxle<TravelRequirement>, b: PerAxle<TravelRequirement>): boolean {
  const parts = ({ cases }: TravelRequirement) =>
    cases.map((one) => [one.name, ...Object.keys(one.parts)].join());
  return AXLES.every(
    (axle) =>
      a[axle] === undefined ||
      b[axle] === undefined ||
      parts(ofAxle(a, axle)).join(';') === parts(ofAxle(b, axle)).join(';'),
  );
}

/** Every figure of a car with its interval. */
export function estimatedNumbers(
  nominal: CarNumbers,
  perturbations: readonly Perturbation[],
  of: (car: Car) => CarNumbers,
): Estimate[] {
  const known = extremesIn(nominal);
  const all = (numbers: CarNumbers) => [
    ...valuesOf(numbers),
    // Where an input takes a part of a case away, or the corner no longer stands, the figure is not known.
    ...extremesIn(numbers).flatMap(({ extreme: { values } }, k) =>
      countAlike(numbers.travelRequirement, nominal.travelRequirement)
        ? values
        : known[k].extreme.values.map(() => null),
    ),
  ];
  const sure = estimates(all(nominal), perturbations, (moved) => all(of(moved)));
  let next = valuesOf(nominal).length;
  for (const { k, extreme } of known) {
    const from = next;
    next += extreme.values.length;
    sure[k] = extremeOf(extreme.of, sure.slice(from, next));
  }
  return sure;
}
