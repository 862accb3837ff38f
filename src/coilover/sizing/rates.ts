// From the target at the wheel to the spring. With m the sprung mass, W = m g the load, R and R' ratio and slope at ride, T and k_T what
// the springs between both wheels bear of that load and add to the wheel rate (springs-across.ts), F = (W - T)/R the whole force between
// the eyes, k_t the rate of the tyre:
//
//   frequency  f  = sqrt(k / m) / (2 pi),   k the wheel rate k_w, or in series with the tyre k_w k_t / (k_w + k_t)
//   spring     k_s = (k_w - k_T - F R') / R^2 - k_stop
//   in series with a helper k_h that is not shut:  1/k_s = 1/k - 1/k_h
//
// (T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992, ch. 5, for frequencies and the tyre in series; from memory.)

import { bumpStopForce } from '../../corner/axial-force.ts';
import { frequencyOn, rateForFrequency } from '../../corner/frequency.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { GRAVITY } from '../../units.ts';
import type { ShockCurve } from '../wheel.ts';
import type { BumpStop } from './damper.ts';
import type { CornerSizing } from './inputs.ts';

/** Two rates in series, N/mm. */
export function inSeries(a: number, b: number): number {
  return (a * b) / (a + b);
}

/** A wheel rate in series with the tyre, N/mm; null where that is not known, or the wheel is pushed away. */
export function withTyre(rate: number, tyreRate: number | undefined): number | null {
  return tyreRate === undefined || !(rate > 0) ? null : inSeries(rate, tyreRate);
}

/** Force of the gas on the rod, N. */
export function gasForceOf(gas: CornerSizing['gas']): number {
  if (gas?.force !== undefined) return gas.force;
  const { shaftDiameter = 0, pressure = 0 } = gas ?? {};
  // 1 bar = 0.1 N/mm^2
  return (Math.PI / 4) * shaftDiameter ** 2 * pressure * 0.1;
}

/** How a corner carries its sprung mass at the drawn ride height. */
export interface Carried {
  readonly mass: number;
  readonly length: number;
  readonly ratio: number;
  readonly slope: number;
  /** The whole force between the eyes, N, and what of it is left to the spring. */
  readonly force: number;
  readonly springForce: number;
  readonly gas: number;
  readonly stopRate: number;
  /** Wheel rate of the springs between both wheels, both wheels alike, N/mm; 0 without any. */
  readonly rateAcross: number;
}

/** How a mass (kg) stands at ride; an issue where the coilover can't bear it. */
export function carriedAtRide(
  mass: number,
  shock: ShockCurve,
  gas: number,
  stop: BumpStop,
): { readonly carried: Carried | null; readonly issues: Diagnostic[] } {
  const { length, ratio, slope } = shock.at(0);
  const across = shock.across?.(0).all ?? { load: 0, rate: 0 };
  if (!(ratio > 0)) {
    return {
      carried: null,
      issues: [
        {
          code: 'coiloverCarriesNothing',
          severity: 'error',
          path: 'coilover',
          values: { ratio },
        },
      ],
    };
  }
  const load = mass * GRAVITY;
  const force = (load - across.load) / ratio;
  const pushed = bumpStopForce(stop, length);
  const springForce = force - gas - pushed.force;
  const stopRate = pushed.rate;
  const rateAcross = across.rate;
  const carried = { mass, length, ratio, slope, force, springForce, gas, stopRate, rateAcross };
  if (springForce > 0) return { carried, issues: [] };
  if (load > (gas + pushed.force) * ratio) {
    return {
      carried: null,
      issues: [
        {
          code: 'thirdSpringCarriesAll',
          severity: 'conflict',
          path: 'thirdSpring',
          values: { load: across.load, sprungWeight: load, max: load - (gas + pushed.force) * ratio },
        },
      ],
    };
  }
  return {
    carried: null,
    issues: [
      {
        code: 'springCarriesNothing',
        severity: 'error',
        path: 'sizing.gas',
        values: { gasAndStop: gas + pushed.force, axialForce: force },
      },
    ],
  };
}

/** The rates that a target asks for, N/mm; null where there are none. */
export interface RequiredRates {
  readonly wheelRate: number | null;
  /** Of the springs together at ride. */
  readonly together: number | null;
  /** Of the main spring. */
  readonly springRate: number | null;
}

/** Whether there is no helper, or one that is shut under a spring force (N). */
function isShut(helper: CornerSizing['helper'], springForce: number): helper is undefined {
  return helper === undefined || helper.rate * (helper.freeLength - helper.solidLength) <= springForce;
}

/** Wheel rate (N/mm) at the drawn ride height with a main spring of a rate (N/mm), its perch set for that height. */
export function wheelRateWith(
  springRate: number,
  { helper }: Pick<CornerSizing, 'helper'>,
  carried: Carried,
): number {
  const { springForce } = carried;
  const together = isShut(helper, springForce) ? springRate : inSeries(springRate, helper.rate);
  return wheelRateOn(together, carried);
}

/** Wheel rate (N/mm) at the drawn ride height on springs that together have a rate there (N/mm); 0 for what is there without any. */
export function wheelRateOn(
  together: number,
  { ratio, slope, force, stopRate, rateAcross }: Carried,
): number {
  return (together + stopRate) * ratio * ratio + force * slope + rateAcross;
}

/** What the target of a corner asks of the spring. */
export function requiredRates(
  { target, tyreRate, helper }: CornerSizing,
  carried: Carried,
): RequiredRates & { readonly issues: Diagnostic[] } {
  const nothing = { wheelRate: null, together: null, springRate: null };
  if (target === undefined) return { ...nothing, issues: [] };
  const { mass, ratio, slope, force, springForce, stopRate, rateAcross } = carried;
  const shut = isShut(helper, springForce);
  if (target.springRate !== undefined) {
    const { springRate } = target;
    const together = shut ? springRate : inSeries(springRate, helper.rate);
    return { wheelRate: wheelRateWith(springRate, { helper }, carried), together, springRate, issues: [] };
  }
  const wheel = wheelRateFor(target, mass, tyreRate);
  if (wheel.rate === null) return { ...nothing, issues: wheel.issues };
  const wheelRate = wheel.rate;
  const together = (wheelRate - rateAcross - force * slope) / (ratio * ratio) - stopRate;
  const without = wheelRateOn(0, carried);
  if (!(together > 0) && without - rateAcross < wheelRate) {
    return {
      ...nothing,
      wheelRate,
      issues: [
        {
          code: 'thirdSpringTakesAll',
          severity: 'conflict',
          path: 'thirdSpring.rate',
          values: { rate: rateAcross, wheelRate, max: wheelRate - (without - rateAcross) },
        },
      ],
    };
  }
  if (!(together > 0)) {
    return {
      ...nothing,
      wheelRate,
      issues: [
        {
          code: 'targetNeedsNegativeSpring',
          severity: 'conflict',
          path: 'sizing.target',
          values: { springRate: together, wheelRate, without },
        },
      ],
    };
  }
  if (shut) return { wheelRate, together, springRate: together, issues: [] };
  if (together < helper.rate) {
    return { wheelRate, together, springRate: 1 / (1 / together - 1 / helper.rate), issues: [] };
  }
  return {
    ...nothing,
    wheelRate,
    together,
    issues: [
      {
        code: 'helperTooSoft',
        severity: 'conflict',
        path: 'sizing.helper.rate',
        values: { helperRate: helper.rate, together, springForce },
      },
    ],
  };
}

function wheelRateFor(
  target: NonNullable<CornerSizing['target']>,
  mass: number,
  tyreRate: number | undefined,
): { rate: number | null; issues: Diagnostic[] } {
  if (target.frequency === undefined) return { rate: target.wheelRate ?? null, issues: [] };
  const rate = rateForFrequency(mass, target.frequency);
  if (target.withTyre !== true) return { rate, issues: [] };
  if (tyreRate === undefined) {
    return {
      rate: null,
      issues: [
        {
          code: 'tyreRateMissing',
          severity: 'error',
          path: 'sizing.tyreRate',
          values: {},
        },
      ],
    };
  }
  if (tyreRate > rate) return { rate: (rate * tyreRate) / (tyreRate - rate), issues: [] };
  const max = frequencyOn(mass, tyreRate) ?? 0;
  return {
    rate: null,
    issues: [
      {
        code: 'frequencyAboveTyre',
        severity: 'conflict',
        path: 'sizing.target.frequency',
        values: { frequency: target.frequency, max, tyreRate },
      },
    ],
  };
}
