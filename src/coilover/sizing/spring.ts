// The spring on its perch. With x the compression of the stack from free, L the length between the eyes:
//
//   x(L) = x_rest + L_rest - L,    at full extension the preload x(L_open): below 0 a gap
//   seats   spring length = free - x = L - (eyes to seats)
//
// The perch moved by p towards the spring lifts the car: with the load kept, F R stays, and dz = -p k_s R / k_w.

import { frequencyOn } from '../../corner/frequency.ts';
import { pushOf, transfers, travelOf } from '../springs/stack.ts';
import { travelAtLength } from '../wheel.ts';
import { type FigureInfos, type Numbers, none } from './figure.ts';
import { freeLengthOf } from './listed-springs.ts';
import { onTyre } from './rates.ts';
import type { AxleState } from './state.ts';

export const SPRING_FIGURES = {
  wantedWheelRate: {
    label: 'wheel rate wanted at ride height',
    quantity: 'rate',
    settled: 'later',
    definition: 'rise of the sprung wheel load by travel that the target asks for, without the tyre',
  },
  wantedSpringRate: {
    label: 'spring rate wanted',
    quantity: 'rate',
    settled: 'later',
    definition:
      'rate wanted at the wheel less force times change of ratio, by the square of the installation ratio',
  },
  springRate: {
    label: 'spring rate fitted',
    quantity: 'rate',
    settled: 'later',
    definition: 'of the spring as it can be bought',
  },
  wheelRate: {
    label: 'wheel rate at rest',
    quantity: 'rate',
    settled: 'later',
    definition:
      'rise of the sprung wheel load by travel where the car stands, with the spring fitted, without the tyre',
  },
  forceTerm: {
    label: 'part of the wheel rate that is force times change of ratio',
    quantity: 'ratio',
    settled: 'order',
    definition:
      'force between the eyes times the slope of the ratio, by the wheel rate; the hand method leaves it out',
  },
  frequency: {
    label: 'frequency at rest, suspension alone',
    quantity: 'frequency',
    settled: 'later',
    definition: 'of the sprung mass on the wheel rate, one corner by itself',
  },
  frequencyOnTyre: {
    label: 'frequency at rest, on the tyre',
    quantity: 'frequency',
    settled: 'later',
    definition: 'of the sprung mass on wheel rate and tyre rate in series',
  },
  rateOnTyre: {
    label: 'rate at rest, on the tyre',
    quantity: 'rate',
    settled: 'later',
    definition: 'wheel rate and tyre rate in series',
  },
  rideForce: {
    label: 'force between the eyes at rest',
    quantity: 'force',
    settled: 'later',
    definition: 'sprung weight by the installation ratio: spring, gas and stop together',
  },
  springForce: {
    label: 'spring force at rest',
    quantity: 'force',
    settled: 'later',
    definition: 'what spring and helper carry of it',
  },
  gasForce: {
    label: 'gas force',
    quantity: 'force',
    settled: 'order',
    definition: 'area of the rod times the pressure of the gas, taken as constant',
  },
  compressionAtRide: {
    label: 'compression of the spring at rest',
    quantity: 'length',
    settled: 'later',
    definition: 'from its free length, helper included',
  },
  preload: {
    label: 'preload at full extension',
    quantity: 'length',
    settled: 'later',
    definition:
      'compression of the spring with the damper fully open; below zero it hangs loose by that much',
  },
  preloadForce: {
    label: 'spring force at full extension',
    quantity: 'force',
    settled: 'later',
    definition: 'what the seats bear with the damper fully open',
  },
  springTravelNeeded: {
    label: 'spring travel needed',
    quantity: 'length',
    settled: 'later',
    definition: 'compression from free at the bump limit: free length less least length must be more',
  },
  bindMargin: {
    label: 'spring travel left at the bump limit',
    quantity: 'length',
    settled: 'later',
    definition: 'from there to the least length that the spring permits',
  },
  freeLength: {
    label: 'free length of the spring',
    quantity: 'length',
    settled: 'later',
    definition: 'with nothing on it, helper and ring included',
  },
  seatLengthAtRide: {
    label: 'spring length at rest',
    quantity: 'length',
    settled: 'later',
    definition: 'between its seats where the car stands',
  },
  eyesToSeats: {
    label: 'eyes to seats',
    quantity: 'length',
    settled: 'later',
    definition:
      'length between the eyes less that between the seats: both distances from eye to seat together',
  },
  helperShut: {
    label: 'travel at which the helper is shut',
    quantity: 'length',
    settled: 'later',
    definition:
      'below it both springs work in series, above it the main one alone; bump positive, from the drawn ride height',
  },
  restTravel: {
    label: 'where the car stands from the drawn ride height',
    quantity: 'length',
    settled: 'later',
    definition: 'travel at which the coilover bears the sprung weight: bump positive, the car is low',
  },
  rideHeightPerTurn: {
    label: 'ride height by a turn of the perch',
    quantity: 'length',
    settled: 'later',
    definition:
      'pitch times spring rate times ratio by wheel rate; it takes as much bump travel as it gives height lower down',
  },
} as const satisfies FigureInfos;

const NOTHING = none(SPRING_FIGURES);

export function springNumbers(state: AxleState, bindTravel: number): Numbers<typeof SPRING_FIGURES> {
  const { wanted, spring, stack, coilover, rest, atRest, mass, given, shock, settings } = state;
  const { sizing } = given;
  const free = spring?.free == null ? null : freeLengthOf(spring.free, sizing.helper);
  const numbers = {
    ...NOTHING,
    wantedWheelRate: wanted.wheelRate,
    wantedSpringRate: wanted.springRate,
    gasForce: state.carried?.gas ?? null,
    springRate: spring?.rate ?? null,
    freeLength: free,
    eyesToSeats: free === null ? null : (sizing.perch?.eyesToSeats ?? null),
  };
  if (stack === null || coilover === null || mass === null) return numbers;
  const compressed = (length: number) => coilover.loose - length;
  const shortest = shock.at(bindTravel).length;
  const travel = travelOf(stack);
  // What the spring is and has, also where the corner does not stand on it.
  const fitted = {
    ...numbers,
    springTravelNeeded: Math.max(0, compressed(shortest)),
    bindMargin: Number.isFinite(travel) ? travel - compressed(shortest) : null,
  };
  if (atRest === null || rest === null) return fitted;
  const { force, rate: k } = pushOf(stack, compressed(atRest.length));
  const open = settings.damper?.open ?? null;
  const pitch = sizing.perch?.pitch;
  const rateOnTyre = onTyre(atRest.rate, sizing.tyreRate);
  return {
    ...fitted,
    wheelRate: atRest.rate,
    forceTerm: atRest.forceTerm,
    frequency: frequencyOn(mass.sprung, atRest.rate),
    frequencyOnTyre: frequencyOn(mass.sprung, rateOnTyre),
    rateOnTyre,
    rideForce: atRest.force,
    springForce: force,
    compressionAtRide: compressed(atRest.length),
    preload: open === null ? null : compressed(open),
    preloadForce: open === null ? null : pushOf(stack, compressed(open)).force,
    seatLengthAtRide: free === null ? null : free - compressed(atRest.length),
    eyesToSeats: free === null ? null : (sizing.perch?.eyesToSeats ?? coilover.loose - free),
    helperShut: sizing.helper === undefined ? null : helperShut(state),
    restTravel: rest.travel,
    rideHeightPerTurn:
      pitch === undefined || !(atRest.rate > 0) ? null : (pitch * k * atRest.ratio) / atRest.rate,
  };
}

/** The travel at which the first spring of the stack shuts; null where that is out of reach. */
function helperShut({ stack, coilover, shock }: AxleState): number | null {
  const first = stack === null ? undefined : transfers(stack)[0];
  if (first === undefined || coilover === null) return null;
  const length = coilover.loose - first.compression;
  return travelAtLength(shock, length, length > shock.at(0).length ? shock.droop : shock.bump);
}
