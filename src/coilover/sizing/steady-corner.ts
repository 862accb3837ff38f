// The whole car in the steady corner of its travel cases: what each wheel does there by its own curve, where the travel that is required counts
// the roll of the linear estimate. A left turn: the right wheels are the outer ones. With the downforce of the top speed.

import { axle } from '../../axle/axle.ts';
import type { CarAxle as AxleOnWheels, LateralSplit, WheelCoilover } from '../../axle/car.ts';
import { setUpCar } from '../../axle/car-set-up.ts';
import { type Equilibrium, equilibriumOf, type NoEquilibrium } from '../../axle/equilibrium.ts';
import { axialForce, totalPush } from '../../corner/axial-force.ts';
import { AXLES, type Axle } from '../../corner/axles.ts';
import type { Limit, Limits } from '../../corner/limits/limits.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { CarSizingFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import type { AxleAtWork } from './car-states.ts';
import { cornerDownforce, topSpeedOf } from './downforce.ts';
import { TRAVEL_CASES } from './required-travel.ts';
import type { AxleState } from './state.ts';

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
  { masses, downforce, travelCases = {} }: Certain<CarSizingFile>,
): SteadyCorner | null {
  const height = masses?.sprungCentreOfGravityHeight;
  const parts = axles.map(({ state }) => onWheels(state));
  if (height === undefined || parts.length < AXLES.length || parts.some((part) => part === null)) return null;
  const [front, rear] = parts as AxleOnWheels[];
  const car = setUpCar({ front, rear, sprungCentreOfGravityHeight: height });
  const { lateralAcceleration = TRAVEL_CASES.lateralAcceleration } = travelCases;
  const speed = downforce === undefined ? null : topSpeedOf(downforce);
  const pressed = (name: Axle) =>
    downforce === undefined || speed === null ? 0 : 2 * cornerDownforce(downforce, name, speed);
  const loads = { lateralAcceleration, downforce: { front: pressed('front'), rear: pressed('rear') } };
  const [proportional, equal] = SPLITS.map((lateralSplit) => equilibriumOf(car, { ...loads, lateralSplit }));
  return { lateralAcceleration, speed, bySplit: { proportional, equal } };
}

/** An axle as its equilibrium takes it; null where a mass is missing, where it does not stand, and where its damper does not fit. */
function onWheels(state: AxleState): AxleOnWheels | null {
  const { given, mass, coilover, rest, settings, shock } = state;
  if (mass === null || mass.unsprung === null || coilover === null || rest === null) return null;
  const { damper } = settings;
  const { length, ratio } = shock.at(0);
  const fits = damper === null || (damper.compressedLength < length && length < damper.extendedLength);
  if (!fits || !(ratio > 0)) return null;
  const { bumpStop, gasForce } = coilover;
  // Around ride height the stack is one spring: a helper is solid there.
  const spring = totalPush({ ...coilover, bumpStop: null }, length);
  if (!(spring.rate > 0)) return null;
  const wheel: WheelCoilover = {
    springRate: spring.rate,
    springForce: axialForce(coilover, length).spring,
    gasForce,
    ...(damper === null
      ? {}
      : { damper: { extendedLength: damper.extendedLength, compressedLength: damper.compressedLength } }),
    ...(damper === null || bumpStop === null
      ? {}
      : { bumpStop: { height: bumpStop.contact - damper.compressedLength, table: bumpStop.table } }),
  };
  const { tyreRate, antiRollBarStiffness } = given.sizing;
  return {
    linkage: axle({ left: given.input.corner }),
    sprungMass: 2 * mass.sprung,
    unsprungMass: mass.unsprung,
    left: wheel,
    ...(tyreRate === undefined ? {} : { tyreRate }),
    ...(antiRollBarStiffness === undefined ? {} : { antiRollBarStiffness }),
  };
}

/** Wheels that lack travel for the road in the steady corner, and a car that does not come to rest in it. */
export function steadyCornerFindings(
  corner: SteadyCorner | null,
  axles: readonly { readonly axle: Axle; readonly limits: Limits }[],
  { travelCases = {} }: Certain<CarSizingFile>,
): Diagnostic[] {
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
  const {
    roadBump = TRAVEL_CASES.roadBump,
    roadDip = TRAVEL_CASES.roadDip,
    margin = TRAVEL_CASES.margin,
  } = travelCases;
  const rests = SPLITS.flatMap((split) => {
    const found = bySplit[split];
    return found.status === 'rests' ? [found] : [];
  });
  const lacks = axles.flatMap(({ axle: name, limits }) => {
    const travels = (side: 'left' | 'right') =>
      rests.flatMap(({ axles }) => axles[name]?.[side].travel ?? []);
    const bump = Math.max(...travels('right')) + roadBump + margin;
    const droop = roadDip + margin - Math.min(...travels('left'));
    return [
      ...lacking(name, 'bump', bump, limits.bump, lateralAcceleration),
      ...lacking(name, 'droop', droop, limits.droop, lateralAcceleration),
    ];
  });
  return [...(rests[0]?.diagnostics ?? []).map((one) => ({ ...one, path: pathInFile(one) })), ...lacks];
}

/** Where the file has what a diagnostic on the whole car is about. */
function pathInFile({ code, path }: Diagnostic): string {
  if (code === 'rollsOver') return 'masses.sprungCentreOfGravityHeight';
  return `corners.${path.split('.')[0]}.sizing.antiRollBarStiffness`;
}

/** Travel from design ride height that a wheel needs there and has not, mm outward. */
function lacking(
  axle: Axle,
  side: 'bump' | 'droop',
  required: number,
  limit: Limit | null,
  lateralAcceleration: number,
): Diagnostic[] {
  const available = limit === null ? Number.POSITIVE_INFINITY : Math.abs(limit.travel);
  if (required <= available) return [];
  return [
    {
      code: 'cornerNeedsMoreTravel',
      severity: 'check',
      path: `corners.${axle}.limits`,
      values: { side, required, available, more: required - available, lateralAcceleration },
    },
  ];
}
