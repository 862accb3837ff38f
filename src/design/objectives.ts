// What a design is measured by, each from the corner's columns at the rows of its travel, with derivatives by the coordinates
// that may move (R the installation ratio, R' its slope, L the length between the end eyes, ' by travel):
//
//   ratioAtRide      R(0)                         ratioChange     R(bump) - R(droop)
//   shortestLength   least L of the rows          longestLength   largest L of the rows
//   lean             of the shock at ride         strokeUse       (largest L - least L) / stroke
//   springRate       k_s = (k_w - F R') / R^2 at ride: k_w = m (2 pi f)^2 is the wheel rate for a frequency f of the
//                    sprung mass m, F = m g / R what the spring carries (definitions: docs/definitions.md)
//   jointForce       see joint-force.ts
//
// A miss is how far a value lies outside what is wanted, over `within`.

import { rateForFrequency } from '../corner/frequency.ts';
import { combined, constant, type Dual, minus, over, scaled, times } from '../numerics/dual.ts';
import { GRAVITY, quantityIn, textIn, type Units } from '../units.ts';
import { figure } from '../words.ts';
import { type JointForce, jointForce } from './joint-force.ts';
import type { Trial } from './trial.ts';

/** What is wanted of a value: `target`, or `least` or `most` or both. */
export interface Wanted {
  /** The value itself, in the unit of what is measured; or in place of it bounds. */
  readonly target?: number;
  /** The least that is wanted, in that unit. */
  readonly least?: number;
  /** The most that is wanted, in that unit. */
  readonly most?: number;
  /** What is near enough: a value so far off still counts as met, and a miss is counted in it. Default by objective. */
  readonly within?: number;
  /** How much its squared miss counts against others; default 1. */
  readonly weight?: number;
}

/** What a corner is to be measured by; defaults of `within` in brackets. */
export type Measured =
  /** Installation ratio as drawn (0.001). */
  | { readonly of: 'ratioAtRide' }
  /** Installation ratio at bump less that at droop; positive where it rises with bump (0.001). */
  | { readonly of: 'ratioChange' }
  /** Least and largest length between the end eyes over the travel, mm (0.1). */
  | { readonly of: 'shortestLength' | 'longestLength' }
  /** Lean of the coilover from vertical at ride, degrees, top inboard positive (0.1). */
  | { readonly of: 'lean' }
  /** Share of a damper's stroke, mm, that the travel uses (0.001). */
  | { readonly of: 'strokeUse'; readonly stroke: number }
  /** Spring rate, N/mm, that gives a sprung mass (kg) a frequency (Hz) without the tyre (0.1). */
  | { readonly of: 'springRate'; readonly sprungMass: number; readonly frequency: number }
  /** Size of the force in a joint or mount, N (10). */
  | ({ readonly of: 'jointForce' } & JointForce);

/** What is measured, and what is wanted of it. */
export type Objective = Measured & Wanted;

/** An objective in words, its unit, what is near enough, and how many decimals are told. */
interface Kind {
  readonly label: string;
  readonly unit: string;
  readonly within: number;
  readonly decimals: number;
}

export const OBJECTIVES: Readonly<Record<Objective['of'], Kind>> = {
  ratioAtRide: { label: 'installation ratio at ride', unit: '', within: 0.001, decimals: 4 },
  ratioChange: {
    label: 'change of the installation ratio from droop to bump',
    unit: '',
    within: 0.001,
    decimals: 4,
  },
  shortestLength: { label: 'shortest length between the end eyes', unit: 'mm', within: 0.1, decimals: 1 },
  longestLength: { label: 'longest length between the end eyes', unit: 'mm', within: 0.1, decimals: 1 },
  lean: { label: 'lean of the coilover at ride', unit: 'deg', within: 0.1, decimals: 1 },
  strokeUse: { label: 'share of the stroke that is used', unit: '', within: 0.001, decimals: 4 },
  springRate: { label: 'spring rate', unit: 'N/mm', within: 0.1, decimals: 2 },
  jointForce: { label: 'force', unit: 'N', within: 10, decimals: 0 },
};

/** The columns that objectives are made of. */
export const MEASURED_COLUMNS = ['shockLength', 'installationRatio', 'installationRatioSlope', 'shockLean'];

/** An objective in words. */
export function labelOf(objective: Objective): string {
  const { label } = OBJECTIVES[objective.of];
  if (objective.of !== 'jointForce') return label;
  return `${label} in ${objective.joint} at ${objective.station ?? 'ride'}`;
}

/** A value of an objective with its unit, in the units asked for. */
export function written(of: Objective['of'], value: number, units: Units): string {
  const { unit, decimals } = OBJECTIVES[of];
  const quantity = quantityIn(unit);
  if (quantity !== null && units !== 'metric') return textIn(value, quantity, units);
  return `${figure(value, decimals)}${unit === '' ? '' : ` ${unit}`}`;
}

/** What is wanted, in words: `0.62`, `at most 20 deg`, `300 mm to 380 mm`. */
export function wantedWords({ of, target, least, most }: Objective, units: Units): string {
  if (target !== undefined) return written(of, target, units);
  if (least === undefined) return `at most ${written(of, most as number, units)}`;
  return most === undefined
    ? `at least ${written(of, least, units)}`
    : `${written(of, least, units)} to ${written(of, most, units)}`;
}

/** Its value at a trial; null where it has none. */
export function valueAt(objective: Objective, trial: Trial): Dual | null {
  const { column, ride, rows } = trial;
  switch (objective.of) {
    case 'ratioAtRide':
      return column('installationRatio', ride);
    case 'ratioChange':
      return minus(column('installationRatio', rows - 1), column('installationRatio', 0));
    case 'shortestLength':
      return extremeLength(trial, -1);
    case 'longestLength':
      return extremeLength(trial, 1);
    case 'lean':
      return column('shockLean', ride);
    case 'strokeUse':
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

/** What is near enough. */
export function withinOf({ of, within }: Objective): number {
  return within ?? OBJECTIVES[of].within;
}

/** The nearest value that is wanted. */
export function wantedNear({ target, least, most }: Objective, value: number): number {
  if (target !== undefined) return target;
  if (least !== undefined && value < least) return least;
  return most !== undefined && value > most ? most : value;
}

/** How far a value lies outside what is wanted, signed, in what is near enough. */
export function deviationOf(objective: Objective, value: Dual): Dual {
  const wanted = wantedNear(objective, value.value);
  if (wanted === value.value && objective.target === undefined) return constant(0, value);
  const within = withinOf(objective);
  return scaled(combined(1, value, -1, constant(wanted, value)), 1 / within);
}
