import type { Diagnostic } from '../../diagnostic.ts';
import { type CarMasses, carMasses, type WheelMasses } from '../masses.ts';
import type { Car, CarAxle } from './car.ts';
import type { Numbers } from './figure.ts';
import { keptState } from './kept-states.ts';
import { type LoadedCar, loadedCars, onMasses, overStates } from './load-states.ts';
import { type TravelRequirement, travelRequirementOf } from './required-travel.ts';
import { type CAR_ROLL_FIGURES, rollOfCar, sprungMassOf } from './roll.ts';
import type { AxleState, Settings } from './state.ts';

/** An axle with its coilovers at work. */
export interface AxleAtWork extends CarAxle {
  readonly state: AxleState;
  /** Required travel, over all load states. */
  readonly travelRequirement: TravelRequirement;
}

/** A car with its coilovers at work. */
export interface CarStates {
  readonly masses: CarMasses | null;
  readonly massIssues: readonly Diagnostic[];
  readonly axles: readonly AxleAtWork[];
  readonly roll: Numbers<typeof CAR_ROLL_FIGURES>;
  /** The car in its other load states. */
  readonly loaded: readonly LoadedCar[];
  /** The travel that an axle requires in a state, or one of its wheels. */
  travelRequirementAt(state: AxleState, side?: keyof WheelMasses): TravelRequirement;
}

/** A car with its coilovers at work as each axle's are set, and the travel that it needs. */
export function carStates({ car, axles }: Car, settings: readonly Settings[]): CarStates {
  const { masses, issues: massIssues } =
    car.masses === undefined ? { masses: null, issues: [] } : carMasses(car.masses);
  const set = axles.map((axle, k) => ({
    ...axle,
    state: keptState(axle, masses?.[axle.axle] ?? null, axle.shock, settings[k]),
  }));
  const states = set.map(({ state }) => state);
  const sprungMass = sprungMassOf(states);
  const height = car.masses?.sprungCentreOfGravityHeight;
  const roll = rollOfCar(states, height);
  const loaded = loadedCars(car.masses, states, height);
  const travelRequirementAt: CarStates['travelRequirementAt'] = (state, side) => {
    const others = loaded.map((one) => {
      const wheels = one.masses?.[state.given.axle] ?? null;
      const mass =
        wheels === null || side === undefined ? wheels : { left: wheels[side], right: wheels[side] };
      const there = onMasses(state, mass);
      const requirement = travelRequirementOf(there, car, one.rollGradient, one.sprungMass);
      return { name: one.name, rest: there.rest?.travel ?? 0, requirement };
    });
    const design = travelRequirementOf(state, car, roll.rollGradientWithBars, sprungMass);
    return overStates(design, state.rest?.travel ?? 0, others);
  };
  return {
    masses,
    massIssues,
    axles: set.map((axle) => ({ ...axle, travelRequirement: travelRequirementAt(axle.state) })),
    roll,
    loaded,
    travelRequirementAt,
  };
}

/** Whether the same parts of the same cases are counted on every axle of a car. */
export function countAlike({ axles }: CarStates, other: CarStates): boolean {
  const parts = ({ travelRequirement }: AxleAtWork) =>
    travelRequirement.cases.map((one) => [one.state, one.name, ...Object.keys(one.parts)].join()).join(';');
  return axles.every((axle, k) => parts(axle) === parts(other.axles[k]));
}
