// The spring on its perch. With x the compression of the stack from free, L the length between the eyes:
//
//   x(L) = x_rest + L_rest - L,    at full extension the preload x(L_open): below 0 a gap
//   seats   spring length = free - x = L - (eyes to seats)
//
// The perch moved by p towards the spring lifts the car: with the load kept, F R stays, and dz = -p k_s R / k_w.

import { frequencyOn } from '../../corner/frequency.ts';
import { pushOf, transfers, travelOf } from '../../corner/spring-stack.ts';
import { travelAtLength } from '../wheel.ts';
import { type FigureInfos, type Numbers, none } from './figure.ts';
import { freeLengthOf } from './listed-springs.ts';
import { withTyre } from './rates.ts';
import type { AxleState } from './state.ts';

export const SPRING_FIGURES = {
  requiredWheelRate: {
    label: 'wheel rate required at ride height',
    quantity: 'rate',
    group: 'adjustable',
    definition: 'change of sprung wheel load per travel that the target requires, without the tyre',
  },
  requiredSpringRate: {
    label: 'spring rate required',
    quantity: 'rate',
    group: 'adjustable',
    definition: '(required wheel rate − geometric part) ÷ square of the installation ratio',
  },
  springRate: {
    label: 'spring rate',
    quantity: 'rate',
    group: 'adjustable',
    definition: 'of the spring chosen',
  },
  wheelRate: {
    label: 'wheel rate at static ride height',
    quantity: 'rate',
    group: 'adjustable',
    definition:
      'change of sprung wheel load per travel at static ride height, with that spring, without the tyre',
  },
  geometricRateFraction: {
    label: 'geometric part of the wheel rate, as a fraction',
    quantity: 'ratio',
    group: 'order',
    definition: 'axial force × slope of the installation ratio ÷ wheel rate; the hand method leaves it out',
  },
  frequency: {
    label: 'ride frequency, suspension alone',
    quantity: 'frequency',
    group: 'adjustable',
    definition: 'of the sprung mass on the wheel rate, one corner by itself',
  },
  frequencyWithTyre: {
    label: 'ride frequency with the tyre',
    quantity: 'frequency',
    group: 'adjustable',
    definition: 'of the sprung mass on wheel rate and tyre rate in series',
  },
  rideRate: {
    label: 'ride rate',
    quantity: 'rate',
    group: 'adjustable',
    definition: 'wheel rate and tyre rate in series',
  },
  staticAxialForce: {
    label: 'axial force at static ride height',
    quantity: 'force',
    group: 'adjustable',
    definition: 'sprung weight ÷ installation ratio: spring, gas and bump stop together',
  },
  staticSpringForce: {
    label: 'spring force at static ride height',
    quantity: 'force',
    group: 'adjustable',
    definition: 'the part that spring and helper carry',
  },
  gasForce: {
    label: 'gas force',
    quantity: 'force',
    group: 'order',
    definition: 'area of the shaft × gas pressure, taken as constant',
  },
  staticSpringCompression: {
    label: 'spring compression at static ride height',
    quantity: 'length',
    group: 'adjustable',
    definition: 'from its free length, helper included',
  },
  preload: {
    label: 'preload at full extension',
    quantity: 'length',
    group: 'adjustable',
    definition:
      'spring compression with the damper fully extended; below zero the spring is loose by that length',
  },
  preloadForce: {
    label: 'spring force at full extension',
    quantity: 'force',
    group: 'adjustable',
    definition: 'force on the spring seats with the damper fully extended',
  },
  springTravelRequired: {
    label: 'spring travel required',
    quantity: 'length',
    group: 'adjustable',
    definition:
      'compression from the free length at the bump limit; free length − minimum permissible length must be at least the upper end of the interval',
  },
  springTravelMargin: {
    label: 'spring travel margin',
    quantity: 'length',
    group: 'adjustable',
    definition: 'spring travel available to the minimum permissible length − required',
  },
  freeLength: {
    label: 'free length of the spring',
    quantity: 'length',
    group: 'adjustable',
    definition: 'unloaded, helper and ring included',
  },
  staticSpringLength: {
    label: 'spring length at static ride height',
    quantity: 'length',
    group: 'adjustable',
    definition: 'seat to seat',
  },
  perchSetting: {
    label: 'perch setting',
    quantity: 'length',
    group: 'adjustable',
    definition: 'eye-to-eye length − spring length: the sum of both distances from eye to seat',
  },
  helperSolidTravel: {
    label: 'travel at which the helper is solid',
    quantity: 'length',
    group: 'adjustable',
    definition:
      'below it both springs work in series, above it the main spring alone; positive in bump, from design ride height',
  },
  staticTravel: {
    label: 'static ride height against design ride height',
    quantity: 'length',
    group: 'adjustable',
    definition: 'travel at which the coilover carries the sprung weight: positive in bump, the car is low',
  },
  rideHeightPerTurn: {
    label: 'ride height per turn of the perch',
    quantity: 'length',
    group: 'adjustable',
    definition: 'pitch × spring rate × installation ratio ÷ wheel rate',
  },
} as const satisfies FigureInfos;

const NOTHING = none(SPRING_FIGURES);

export function springNumbers(state: AxleState, bindTravel: number): Numbers<typeof SPRING_FIGURES> {
  const { required, spring, stack, coilover, rest, atRest, mass, given, shock, settings } = state;
  const { sizing } = given;
  const freeLength = spring?.freeLength == null ? null : freeLengthOf(spring.freeLength, sizing.helper);
  const numbers = {
    ...NOTHING,
    requiredWheelRate: required.wheelRate,
    requiredSpringRate: required.springRate,
    gasForce: state.carried?.gas ?? null,
    springRate: spring?.rate ?? null,
    freeLength,
    perchSetting: freeLength === null ? null : (sizing.perch?.setting ?? null),
  };
  if (stack === null || coilover === null || mass === null) return numbers;
  const compressed = (length: number) => coilover.loose - length;
  const shortest = shock.at(bindTravel).length;
  const travel = travelOf(stack);
  // What the spring is and has, also where the corner does not stand on it.
  const fitted = {
    ...numbers,
    springTravelRequired: Math.max(0, compressed(shortest)),
    springTravelMargin: Number.isFinite(travel) ? travel - compressed(shortest) : null,
  };
  if (atRest === null || rest === null) return fitted;
  const { force, rate: k } = pushOf(stack, compressed(atRest.length));
  const open = settings.damper?.extendedLength ?? null;
  const pitch = sizing.perch?.threadPitch;
  const rideRate = withTyre(atRest.rate, sizing.tyreRate);
  return {
    ...fitted,
    wheelRate: atRest.rate,
    geometricRateFraction: atRest.geometricRateFraction,
    frequency: frequencyOn(mass.sprung, atRest.rate),
    frequencyWithTyre: frequencyOn(mass.sprung, rideRate),
    rideRate,
    staticAxialForce: atRest.force,
    staticSpringForce: force,
    staticSpringCompression: compressed(atRest.length),
    preload: open === null ? null : compressed(open),
    preloadForce: open === null ? null : pushOf(stack, compressed(open)).force,
    staticSpringLength: freeLength === null ? null : freeLength - compressed(atRest.length),
    perchSetting: freeLength === null ? null : (sizing.perch?.setting ?? coilover.loose - freeLength),
    helperSolidTravel: sizing.helper === undefined ? null : helperSolid(state),
    staticTravel: rest.travel,
    rideHeightPerTurn: pitch === undefined ? null : (pitch * k * atRest.ratio) / atRest.rate,
  };
}

/** The travel at which the first spring of the stack goes solid; null where that is out of reach. */
function helperSolid({ stack, coilover, shock }: AxleState): number | null {
  const first = stack === null ? undefined : transfers(stack)[0];
  if (first === undefined || coilover === null) return null;
  const length = coilover.loose - first.compression;
  return travelAtLength(shock, length, length > shock.at(0).length ? shock.droop : shock.bump);
}
