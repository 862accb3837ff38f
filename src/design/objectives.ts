// What a design is measured by, each from the corner's columns at the rows of its travel, with derivatives by the coordinates
// that may move (R the installation ratio, R' its slope, L the length between the end eyes, ' by travel):
//
//   designRatio      R(0)                         ratioChange     R(bump) - R(droop)
//   minLength        smallest L of the rows       maxLength       largest L of the rows
//   inclination      of the shock at travel 0     strokeFraction  (largest L - smallest L) / stroke
//   springRate       k_s = (k_w - F R') / R^2 at travel 0: k_w = m (2 pi f)^2 is the wheel rate for a frequency f of the
//                    sprung mass m, F = m g / R what the spring carries (definitions: docs/definitions.md)
//   jointForce       see joint-force.ts
//
// A deviation is how far a value lies outside its goal, divided by `tolerance`.

import { rateForFrequency } from '../corner/frequency.ts';
import { combined, constant, type Dual, minus, over, scaled, times } from '../numerics/dual.ts';
import { GRAVITY } from '../units.ts';
import { type JointForce, jointForce } from './joint-force.ts';
import type { Trial } from './trial.ts';

/** The goal of a quantity: `target`, or `min` or `max` or both. */
export interface Goal {
  /** The value itself, in the unit of the quantity; or in place of it bounds. */
  readonly target?: number;
  /** Lower bound, in that unit. */
  readonly min?: number;
  /** Upper bound, in that unit. */
  readonly max?: number;
  /** A deviation up to this counts as met, in that unit; deviations are counted in it. Default by quantity. */
  readonly tolerance?: number;
  /** How much its squared deviation counts against others; default 1. */
  readonly weight?: number;
}

/** A quantity to design for; defaults of `tolerance` in brackets. */
export type DesignQuantity =
  /** Installation ratio at the design ride height (0.001). */
  | { readonly quantity: 'designRatio' }
  /** Installation ratio at bump minus that at droop; positive where it rises with bump (0.001). */
  | { readonly quantity: 'ratioChange' }
  /** Smallest and largest length of the coilover, eye to eye, over the travel, mm (0.1). */
  | { readonly quantity: 'minLength' | 'maxLength' }
  /** Inclination of the coilover from vertical at the design ride height, degrees, top inboard positive (0.1). */
  | { readonly quantity: 'inclination' }
  /** Fraction of a damper's stroke, mm, that the travel uses (0.001). */
  | { readonly quantity: 'strokeFraction'; readonly stroke: number }
  /** Spring rate, N/mm, that gives a sprung mass (kg) a frequency (Hz) without the tyre (0.1). */
  | { readonly quantity: 'springRate'; readonly sprungMass: number; readonly frequency: number }
  /** Size of the force in a joint or mount, N (10). */
  | ({ readonly quantity: 'jointForce' } & JointForce);

/** A quantity and its goal. */
export type Objective = DesignQuantity & Goal;

/** The unit of each quantity, and its tolerance in it. */
export const OBJECTIVES: Readonly<
  Record<Objective['quantity'], { readonly unit: string; readonly tolerance: number }>
> = {
  designRatio: { unit: '', tolerance: 0.001 },
  ratioChange: { unit: '', tolerance: 0.001 },
  minLength: { unit: 'mm', tolerance: 0.1 },
  maxLength: { unit: 'mm', tolerance: 0.1 },
  inclination: { unit: 'deg', tolerance: 0.1 },
  strokeFraction: { unit: '', tolerance: 0.001 },
  springRate: { unit: 'N/mm', tolerance: 0.1 },
  jointForce: { unit: 'N', tolerance: 10 },
};

/** The columns that objectives are made of. */
export const QUANTITY_COLUMNS = [
  'shockLength',
  'installationRatio',
  'installationRatioSlope',
  'shockInclination',
];

/** Its value at a trial; null where it has none. */
export function valueAt(objective: Objective, trial: Trial): Dual | null {
  const { column, ride, rows } = trial;
  switch (objective.quantity) {
    case 'designRatio':
      return column('installationRatio', ride);
    case 'ratioChange':
      return minus(column('installationRatio', rows - 1), column('installationRatio', 0));
    case 'minLength':
      return extremeLength(trial, -1);
    case 'maxLength':
      return extremeLength(trial, 1);
    case 'inclination':
      return column('shockInclination', ride);
    case 'strokeFraction':
      return scaled(minus(extremeLength(trial, 1), extremeLength(trial, -1)), 1 / objective.stroke);
    case 'springRate': {
      const { sprungMass: m, frequency: f } = objective;
      const [R, slope] = [column('installationRatio', ride), column('installationRatioSlope', ride)];
      return R.value > 0 ? springRate(R, slope, m, f) : null;
    }
    case 'jointForce':
      return jointForce(objective, trial);
  }
}

/** N/mm, from a mass in kg and a frequency in Hz. */
function springRate(R: Dual, slope: Dual, m: number, f: number): Dual {
  const wheelRate = constant(rateForFrequency(m, f), R);
  const F = over(constant(m * GRAVITY, R), R);
  return over(minus(wheelRate, times(F, slope)), times(R, R));
}

/** The largest (sense 1) or least (-1) length of the rows. */
function extremeLength({ column, rows }: Trial, sense: 1 | -1): Dual {
  let most = column('shockLength', 0);
  for (let i = 1; i < rows; i++) {
    const one = column('shockLength', i);
    if (sense * (one.value - most.value) > 0) most = one;
  }
  return most;
}

/** The tolerance of an objective, in its unit. */
export function toleranceOf({ quantity, tolerance }: Objective): number {
  return tolerance ?? OBJECTIVES[quantity].tolerance;
}

/** The nearest value that meets the goal. */
export function nearestGoal({ target, min: least, max: most }: Objective, value: number): number {
  if (target !== undefined) return target;
  if (least !== undefined && value < least) return least;
  return most !== undefined && value > most ? most : value;
}

/** How far a value lies outside its goal, signed, in tolerances. */
export function deviationOf(objective: Objective, value: Dual): Dual {
  const goal = nearestGoal(objective, value.value);
  if (goal === value.value && objective.target === undefined) return constant(0, value);
  const tolerance = toleranceOf(objective);
  return scaled(combined(1, value, -1, constant(goal, value)), 1 / tolerance);
}
