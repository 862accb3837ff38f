import type { Axle } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { Car } from './car.ts';
import { type AxleAtWork, type CarStates, carStates, countAlike } from './car-states.ts';
import type { ChosenParts } from './choose-parts.ts';
import { DAMPING_FIGURES, dampingNumbers } from './damping.ts';
import { DOWNFORCE_FIGURES, downforceNumbers } from './downforce.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import {
  bindTravel,
  contactTravel,
  LENGTH_FIGURES,
  lengthNumbers,
  type OtherEnds,
  travelExtremes,
} from './lengths.ts';
import { CAR_FIGURES, carFigures, MASS_FIGURES, massNumbers } from './mass-figures.ts';
import { CAR_ROLL_FIGURES, ROLL_FIGURES, rollOfAxle } from './roll.ts';
import { SPRING_FIGURES, springNumbers } from './spring.ts';
import type { AxleState } from './state.ts';
import { THIRD_SPRING_FIGURES, thirdSpringNumbers } from './third-spring.ts';
import { type Estimate, type Extreme, estimates, extremeOf, type Perturbation } from './uncertainty.ts';
import { UNIT_FIGURES, unitNumbers } from './unit-mass.ts';

/** All figures of an axle, and of the car as a whole, in the order of a sheet. */
export const AXLE_FIGURES = {
  ...LENGTH_FIGURES,
  ...SPRING_FIGURES,
  ...DAMPING_FIGURES,
  ...MASS_FIGURES,
  ...DOWNFORCE_FIGURES,
  ...ROLL_FIGURES,
  ...THIRD_SPRING_FIGURES,
  ...UNIT_FIGURES,
} as const;
export const CAR_WIDE_FIGURES = { ...CAR_FIGURES, ...CAR_ROLL_FIGURES } as const;

/** Names of the figures of an axle. */
export type AxleFigureName = keyof typeof AXLE_FIGURES;
/** Names of the figures of the car as a whole. */
export type CarFigureName = keyof typeof CAR_WIDE_FIGURES;

/** An axle in figures, with the parts chosen for it. */
export interface AxleNumbers extends AxleAtWork {
  readonly chosen: ChosenParts;
  readonly numbers: Numbers<typeof AXLE_FIGURES>;
  /** Figures that are the extreme of several values. */
  readonly extremes: ReturnType<typeof travelExtremes>;
}

/** A car in figures. */
export interface CarNumbers extends CarStates {
  readonly axles: readonly AxleNumbers[];
  readonly numbers: Numbers<typeof CAR_WIDE_FIGURES>;
  readonly issues: readonly Diagnostic[];
}

/** Every figure of a car with the parts chosen for each axle: a plain function of its inputs, so that guesses can be varied. */
export function carNumbers(car: Car, chosen: readonly ChosenParts[]): CarNumbers {
  const at = carStates(car, chosen);
  const axles = at.axles.map((axle, k): AxleNumbers => {
    const { state, travelRequirement } = axle;
    const { otherEnds } = chosen[k];
    const extremes = travelExtremes(state, travelRequirement, otherEnds);
    const numbers = {
      ...lengthNumbers(state, travelRequirement, extremes),
      ...ownNumbers(state, otherEnds),
      ...downforceNumbers(state, car.car.downforce),
    };
    return { ...axle, chosen: chosen[k], numbers, extremes };
  });
  const [front = null, rear = null] = axles.map(({ numbers }) => numbers.frequency);
  return {
    ...at,
    axles,
    numbers: { ...carFigures(at.masses, front, rear), ...at.roll },
    issues: [
      ...at.massIssues.map((issue) => ({ ...issue, path: `masses.${issue.path}` })),
      ...axles.flatMap(({ axle, state }) =>
        state.issues.map((issue) => ({ ...issue, path: `corners.${axle}.${issue.path}` })),
      ),
    ],
  };
}

type OwnNumbers = Omit<
  Numbers<typeof AXLE_FIGURES>,
  keyof typeof LENGTH_FIGURES | keyof typeof DOWNFORCE_FIGURES
>;
const own = new WeakMap<AxleState, { readonly otherEnds: OtherEnds; readonly numbers: OwnNumbers }>();

/** Figures that hang on nothing but the axle's own state; kept with it. */
function ownNumbers(state: AxleState, otherEnds: OtherEnds): OwnNumbers {
  const kept = own.get(state);
  if (kept?.otherEnds === otherEnds) return kept.numbers;
  const numbers = {
    ...springNumbers(state, bindTravel(state, otherEnds)),
    ...dampingNumbers(state, contactTravel(state)),
    ...massNumbers(state),
    ...rollOfAxle(state),
    ...thirdSpringNumbers(state),
    ...unitNumbers(state),
  };
  own.set(state, { otherEnds, numbers });
  return numbers;
}

/** Whose a figure is. */
export type Owner = 'car' | Axle;

/** A figure of a car: whose it is, its value, and the values of which it is the extreme, if it is one. */
interface NumberedFigure {
  readonly owner: Owner;
  readonly name: string;
  readonly value: number | null;
  readonly extreme: Extreme | undefined;
}

/** The figures of a car, those of the car as a whole first. */
export function figuresIn({ numbers, axles }: CarNumbers): NumberedFigure[] {
  const of = (
    owner: Owner,
    infos: FigureInfos,
    values: Readonly<Record<string, number | null>>,
    extremes: Readonly<Record<string, Extreme>>,
  ) => Object.keys(infos).map((name) => ({ owner, name, value: values[name], extreme: extremes[name] }));
  return [
    ...of('car', CAR_WIDE_FIGURES, numbers, {}),
    ...axles.flatMap((one) => of(one.axle, AXLE_FIGURES, one.numbers, one.extremes)),
  ];
}

/** A figure of a car with its interval. */
export interface EstimatedFigure extends Pick<NumberedFigure, 'owner' | 'name'> {
  readonly estimate: Estimate;
}

/** Every figure of a car with its interval. */
export function estimatedNumbers(
  nominal: CarNumbers,
  perturbations: readonly Perturbation[],
  of: (car: Car) => CarNumbers,
): EstimatedFigure[] {
  const valuesOf = ({ value, extreme }: NumberedFigure) => extreme?.values ?? [value];
  const figures = figuresIn(nominal);
  const all = (numbers: CarNumbers) => {
    // Where an input takes a part of a case away, or the corner no longer stands, the extreme is not known.
    const known = countAlike(numbers, nominal);
    return figuresIn(numbers).flatMap((figure, k) =>
      known || figure.extreme === undefined ? valuesOf(figure) : valuesOf(figures[k]).map(() => null),
    );
  };
  const sure = estimates(all(nominal), perturbations, (moved) => all(of(moved)));
  return figures.map((figure) => {
    const { owner, name, extreme } = figure;
    const found = sure.splice(0, valuesOf(figure).length);
    return { owner, name, estimate: extreme === undefined ? found[0] : extremeOf(extreme.of, found) };
  });
}
