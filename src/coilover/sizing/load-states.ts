// Load states. The perch is set for the design state and stays: in a state with the sprung load W_s the corner stands where
//
//   W(z_s) = W_s,
//
// and the travel that it requires goes from there. From the drawn ride height that is z_s more bump, and z_s less droop.

import type { Axle } from '../../corner/axles.ts';
import { frequencyOn } from '../../corner/frequency.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { type CarMasses, carMasses, type MassesInput, type WheelMasses } from '../masses.ts';
import type { Rest } from '../wheel.ts';
import { contactTravel } from './lengths.ts';
import type { TravelCase, TravelRequirement } from './required-travel.ts';
import { rollOfCar, sprungMassOf } from './roll.ts';
import { type AxleState, atRestWith, goesTo } from './state.ts';

/** An axle in a load state. Lengths in mm, travel from the drawn ride height, bump +. */
export interface LoadState {
  readonly name: string;
  /** Whether the drawn ride height belongs to it. */
  readonly design: boolean;
  /** Sprung mass of a corner, kg, mean of the two sides; null where the masses leave none. */
  readonly sprungMass: number | null;
  /** Where the corner stands; null where the coilover can't be computed. */
  readonly staticTravel: number | null;
  /** `onSpring` between the ends of its travel, or at one of them. */
  readonly state: Rest['state'] | null;
  /** Hz, of the suspension alone. */
  readonly frequency: number | null;
  /** Travel left from there to contact with the bump stop; null without one. */
  readonly travelToContact: number | null;
  /** Travel left from there to the limits on either side. */
  readonly bumpTravelLeft: number | null;
  readonly droopTravelLeft: number | null;
}

/** A car in a load state, beside its design state. */
export interface LoadedCar {
  readonly name: string;
  readonly masses: CarMasses | null;
  /** Degrees per g, with bars. */
  readonly rollGradient: number | null;
  /** kg, of the whole car. */
  readonly sprungMass: number | null;
}

/** Name of the design state where the file has states and says no other. */
const ALL_ABOARD = 'everything in added aboard';

/** The name of the state that the drawn ride height belongs to; null for a car without states. */
export function designStateOf(masses: MassesInput | undefined): string | null {
  return masses?.states === undefined ? null : (masses.designState ?? ALL_ABOARD);
}

/** An axle with its coilover as it is set, on other masses; without masses it stands nowhere. */
export function onMasses(state: AxleState, wheels: WheelMasses | null): AxleState {
  const { unsprungMass: unsprung = null } = state.given.sizing;
  const sprung = wheels === null ? null : sprungUnder(state, wheels, unsprung);
  const mass = sprung !== null && sprung > 0 ? { wheels, sprung, unsprung } : null;
  return atRestWith(state, state.coilover, wheels, mass);
}

/** Sprung mass of a corner, kg; without an unsprung mass, from how much more the wheels carry. Null where neither is known. */
function sprungUnder(state: AxleState, wheels: WheelMasses, unsprung: number | null): number | null {
  if (unsprung !== null) return mean(wheels) - unsprung;
  if (state.mass === null || state.wheels === null) return null;
  return state.mass.sprung + mean(wheels) - mean(state.wheels);
}

const mean = ({ left, right }: WheelMasses) => (left + right) / 2;

/** The car in each of its states but the design state. */
export function loadedCars(
  masses: MassesInput | undefined,
  design: readonly AxleState[],
  centreOfGravityHeight: number | undefined,
): LoadedCar[] {
  const { states: named = [], designState } = masses ?? {};
  return named.flatMap(({ name }): LoadedCar[] => {
    if (masses === undefined || name === designState) return [];
    const loaded = carMasses(masses, name).masses;
    const states = design.map((state) => onMasses(state, loaded?.[state.given.axle] ?? null));
    const rollGradient = rollOfCar(states, centreOfGravityHeight).rollGradientWithBars;
    return [{ name, masses: loaded, rollGradient, sprungMass: sprungMassOf(states) }];
  });
}

/** Travel that one state requires, and where it stands, mm from the drawn ride height. */
export interface RequirementInState {
  readonly name: string;
  readonly rest: number;
  readonly requirement: TravelRequirement;
}

/** Required travel over all states: that of the design state, whose cases count from `rest`, with the cases of the others. */
export function overStates(
  design: TravelRequirement,
  rest: number,
  others: readonly RequirementInState[],
): TravelRequirement {
  if (design.bump === null || design.droop === null) return design;
  const cases = others.flatMap(({ name, rest: there, requirement }) =>
    // What is asked for from the drawn ride height is the same in every state.
    requirement.cases
      .filter((one) => one.name !== 'specified')
      .map((one): TravelCase => {
        const further = one.side === 'bump' ? there - rest : rest - there;
        return {
          ...one,
          state: name,
          parts: { state: further, ...one.parts },
          travel: further + one.travel,
        };
      }),
  );
  return {
    ...design,
    bump: Math.max(design.bump, ...others.flatMap(({ requirement }) => requirement.bump ?? [])),
    droop: Math.min(design.droop, ...others.flatMap(({ requirement }) => requirement.droop ?? [])),
    cases: [...design.cases, ...cases],
    omitted: [...design.omitted, ...others.flatMap(omittedIn)],
  };
}

/** What a state leaves out that the design state does not: everything, where the corner does not stand in it. */
function omittedIn({ name, requirement: { omitted, bump } }: RequirementInState): Diagnostic[] {
  return bump === null ? omitted.map((one) => ({ ...one, values: { ...one.values, state: name } })) : [];
}

/** An axle in every state of its car, the design state first; empty for a car without states. */
export function loadStatesOn(
  design: AxleState,
  designState: string | null,
  others: readonly LoadedCar[],
): LoadState[] {
  if (designState === null) return [];
  const all = [
    { name: designState, state: design },
    ...others.map(({ name, masses }) => ({
      name,
      state: onMasses(design, masses?.[design.given.axle] ?? null),
    })),
  ];
  const contact = contactTravel(design);
  return all.map(({ name, state }, k): LoadState => {
    const { mass, atRest, ends } = state;
    const rest = goesTo(state);
    const travel = rest?.travel ?? null;
    const left = (end: number | null) => (travel === null || end === null ? null : end - travel);
    const droop = left(ends.droop);
    return {
      name,
      design: k === 0,
      sprungMass: mass?.sprung ?? null,
      staticTravel: travel,
      state: rest?.state ?? null,
      frequency: mass === null || atRest === null ? null : frequencyOn(mass.sprung, atRest.rate),
      travelToContact: left(contact),
      bumpTravelLeft: left(ends.bump),
      droopTravelLeft: droop === null ? null : -droop,
    };
  });
}

/** What does not work in a state beside the design state. */
export function loadStateDiagnostics(axle: Axle, states: readonly LoadState[]): Diagnostic[] {
  // Without a sprung mass in the design state that is told of the corner itself.
  if (states.some(({ design, sprungMass }) => design && sprungMass === null)) return [];
  return states.flatMap(
    ({ name, design, sprungMass, staticTravel, state, travelToContact }): Diagnostic[] => {
      if (design) return [];
      const found = (code: string, values: Diagnostic['values']): Diagnostic[] => [
        { code, severity: 'conflict', path: `corners.${axle}`, values: { state: name, axle, ...values } },
      ];
      if (sprungMass === null) return found('loadStateWithoutMass', {});
      if (staticTravel === null) return [];
      if (state !== 'onSpring')
        return found('loadStateOnLimit', { staticTravel, side: state === 'bumpLimit' ? 'bump' : 'droop' });
      if (travelToContact !== null && travelToContact < 0) {
        return found('loadStateOnBumpStop', { staticTravel, compression: -travelToContact });
      }
      return [];
    },
  );
}
