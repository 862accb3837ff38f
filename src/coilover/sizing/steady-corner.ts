// The whole car in the steady corner of its travel cases: what each wheel does there by its own curve. A left turn: the right wheels are the
// outer ones. With the downforce of the top speed.
//
// The travel that is required counts what the corner adds to each wheel with springs, bars, gas and tyres, on the nominal values, without bump
// stops and ends of the damper: what these will be follows from it. It is kept as a multiple of the linear estimate, by which it changes with
// the inputs.

import type { CarAxle as AxleOnWheels, CarLoads, LateralSplit, WheelCoilover } from '../../axle/car.ts';
import { type Car, setUpCar } from '../../axle/car-set-up.ts';
import { type Equilibrium, equilibriumOf, type NoEquilibrium } from '../../axle/equilibrium.ts';
import { axialForce, type CoiloverForce, totalPush } from '../../corner/axial-force.ts';
import { AXLES, type Axle } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { CarSizingFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import type { ShockCurve } from '../wheel.ts';
import type { AxleAtWork, CarStates } from './car-states.ts';
import type { DamperLengths } from './damper.ts';
import { cornerDownforce, topSpeedOf } from './downforce.ts';
import { estimatedRollTravel, TRAVEL_CASES } from './required-travel.ts';
import type { AxleState, RollShare } from './state.ts';

/** The car in a steady left turn, on its nominal values: the right wheels are the outer ones. Travels are from design ride height. */
export interface SteadyCorner {
  /** g, to the left positive. */
  readonly lateralAcceleration: number;
  /** Speed whose downforce is on the car, km/h; null without downforce. */
  readonly speed: number | null;
  /** By how the lateral force of an axle is shared by its wheels. */
  readonly bySplit: Readonly<Record<LateralSplit, Equilibrium | NoEquilibrium>>;
}

const SPLITS = ['proportional', 'equal'] as const;

/** The steady corner; null where it is not known how the car stands on both axles. */
export function steadyCornerOf(
  axles: readonly AxleAtWork[],
  file: Certain<CarSizingFile>,
): SteadyCorner | null {
  const car = carOnWheels(axles, file, ({ settings }) => settings.damper);
  if (car === null) return null;
  const { lateralAcceleration = TRAVEL_CASES.lateralAcceleration } = file.travelCases ?? {};
  const speed = file.downforce === undefined ? null : topSpeedOf(file.downforce);
  const loads = { lateralAcceleration, downforce: downforceOf(file) };
  const [proportional, equal] = SPLITS.map((lateralSplit) => equilibriumOf(car, { ...loads, lateralSplit }));
  return { lateralAcceleration, speed, bySplit: { proportional, equal } };
}

/** What the steady corner adds to the travel of each axle's wheels; null where the car does not come to rest in it, or not known to. */
export function rollSharesOf(
  { axles, roll }: Pick<CarStates, 'axles' | 'roll'>,
  file: Certain<CarSizingFile>,
): (RollShare | null)[] {
  const none = axles.map(() => null);
  const { rollGradientWithBars: gradient } = roll;
  if (gradient === null) return none;
  const car = carOnWheels(axles, file, () => null);
  if (car === null) return none;
  const { lateralAcceleration = TRAVEL_CASES.lateralAcceleration } = file.travelCases ?? {};
  /** The car going straight on, and in the corner by each split; null where one of them does not come to rest. */
  const restsUnder = (downforce: NonNullable<CarLoads['downforce']>) => {
    const straight = equilibriumOf(car, { downforce });
    const turned = SPLITS.map((lateralSplit) =>
      equilibriumOf(car, { lateralAcceleration, lateralSplit, downforce }),
    );
    const all = [straight, ...turned];
    return all.every((one) => one.status === 'rests') ? all : null;
  };
  const low = restsUnder({});
  const fast = file.downforce === undefined ? low : restsUnder(downforceOf(file));
  if (low === null || fast === null) return none;
  /** Travel that the corner adds to a wheel, the most of both splits. */
  const added = ([straight, ...turned]: readonly Equilibrium[], axle: Axle, side: 'left' | 'right') => {
    const travelIn = ({ axles }: Equilibrium) => axles[axle]?.[side].travel ?? Number.NaN;
    return Math.max(...turned.map((one) => Math.abs(travelIn(one) - travelIn(straight))));
  };
  const shares = axles.map(({ axle, state }) => {
    const estimate = estimatedRollTravel(state, gradient * lateralAcceleration);
    return { outer: added(fast, axle, 'right') / estimate, inner: added(low, axle, 'left') / estimate };
  });
  // Without lateral acceleration a share is 0 / 0; of a car that rolls inward it is negative.
  return shares.every((one) => one.outer > 0 && one.inner > 0) ? shares : none;
}

/** Of each axle, N. */
function downforceOf({ downforce }: Certain<CarSizingFile>): { front: number; rear: number } {
  const pressed = (name: Axle) =>
    downforce === undefined ? 0 : 2 * cornerDownforce(downforce, name, topSpeedOf(downforce));
  return { front: pressed('front'), rear: pressed('rear') };
}

/** A car as its equilibrium takes it, each axle with a damper; null where that of an axle is not known, and without both. */
function carOnWheels(
  axles: readonly AxleAtWork[],
  { masses }: Certain<CarSizingFile>,
  damperOf: (state: AxleState) => DamperLengths | null,
): Car | null {
  const height = masses?.sprungCentreOfGravityHeight;
  const parts = axles.map(({ state }) => onWheels(state, damperOf(state)));
  if (height === undefined || parts.length < AXLES.length || parts.some((part) => part === null)) return null;
  const [front, rear] = parts as AxleOnWheels[];
  return setUpCar({ front, rear, sprungCentreOfGravityHeight: height });
}

/**
 * An axle as its equilibrium takes it, with the ends and the bump stop of a damper; null where a mass is missing, where it does not stand, and
 * where its damper does not fit.
 */
function onWheels(state: AxleState, damper: DamperLengths | null): AxleOnWheels | null {
  const { given, mass, coilover, rest, shock } = state;
  if (mass === null || mass.unsprung === null || coilover === null || rest === null) return null;
  const { length, ratio } = shock.at(0);
  if (!fitsAtRide(shock, damper)) return null;
  const { gasForce } = coilover;
  // Around ride height the stack is one spring: a helper is solid there.
  const spring = totalPush({ ...coilover, bumpStop: null }, length);
  if (!(spring.rate > 0)) return null;
  const springForce = axialForce(coilover, length).spring;
  const wheel: WheelCoilover = {
    springRate: spring.rate,
    springForce,
    gasForce,
    ...endsOnWheel(damper, coilover),
  };
  // Both perches are set so that the car stands level: where a third spring bears more on one side, its coilover bears less.
  const [onLeft, onRight] = shock.across?.(0).loads ?? [0, 0];
  const uneven = (onLeft - onRight) / 2 / ratio;
  const { tyreRate, antiRollBarStiffness } = given.sizing;
  return {
    linkage: given.linkage,
    sprungMass: 2 * mass.sprung,
    unsprungMass: mass.unsprung,
    left: { ...wheel, springForce: springForce - uneven },
    ...(uneven === 0 ? {} : { right: { ...wheel, springForce: springForce + uneven } }),
    ...(tyreRate === undefined ? {} : { tyreRate }),
    ...(antiRollBarStiffness === undefined ? {} : { antiRollBarStiffness }),
  };
}

/** Whether a coilover with a damper carries its wheel as drawn. */
export function fitsAtRide(shock: ShockCurve, damper: DamperLengths | null): boolean {
  const { length, ratio } = shock.at(0);
  return (
    ratio > 0 && (damper === null || (damper.compressedLength < length && length < damper.extendedLength))
  );
}

/** The ends and the bump stop of a damper, as the coilover of a wheel has them. */
export function endsOnWheel(
  damper: DamperLengths | null,
  { bumpStop }: CoiloverForce,
): Pick<WheelCoilover, 'damper' | 'bumpStop'> {
  if (damper === null) return {};
  const { extendedLength, compressedLength } = damper;
  return {
    damper: { extendedLength, compressedLength },
    ...(bumpStop === null
      ? {}
      : { bumpStop: { height: bumpStop.contact - compressedLength, table: bumpStop.table } }),
  };
}

/** A car that does not come to rest in the steady corner, and what is worth knowing of one that does. */
export function steadyCornerFindings(corner: SteadyCorner | null): Diagnostic[] {
  if (corner === null) return [];
  const { lateralAcceleration, bySplit } = corner;
  const failed = SPLITS.map((split) => bySplit[split]).find(({ status }) => status === 'outOfReach');
  if (failed?.status === 'outOfReach') {
    const { cause, wheel, lateralAcceleration: reached } = failed;
    return [
      {
        code: 'noRestInCorner',
        severity: 'check',
        path: 'travelCases.lateralAcceleration',
        values: { cause, wheel, lateralAcceleration, reached },
      },
    ];
  }
  return [
    ...bySplit.proportional.diagnostics.map((one) => ({ ...one, path: pathInFile(one) })),
    ...AXLES.flatMap((axle) => thirdSpringHeld(corner, axle)),
  ];
}

/** A third spring that is held at an end of its lengths there, by either split. */
function thirdSpringHeld({ lateralAcceleration, bySplit }: SteadyCorner, axle: Axle): Diagnostic[] {
  const held = SPLITS.flatMap((split) => {
    const found = bySplit[split];
    const spring = found.status === 'rests' ? (found.axles[axle]?.thirdSpring ?? null) : null;
    return spring === null || spring.end === 'free' ? [] : [spring];
  });
  if (held.length === 0) return [];
  const [{ end, length, endForce }] = held;
  return [
    {
      code: 'thirdSpringHeldInCorner',
      severity: 'check',
      path: `corners.${axle}.thirdSpring.${end}Length`,
      values: { end, length, endForce: Math.abs(endForce), lateralAcceleration },
    },
  ];
}

/** Where the file has what a diagnostic on the whole car is about: `front.linkage.bar` or another part, or the stiffness in place of a bar. */
function pathInFile({ code, path }: Diagnostic): string {
  if (code === 'rollsOver') return 'masses.sprungCentreOfGravityHeight';
  const [axle, , part] = path.split('.');
  return `corners.${axle}.${part ?? 'sizing.antiRollBarStiffness'}`;
}
