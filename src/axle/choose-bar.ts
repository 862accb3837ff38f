// The anti-roll bar of an axle that gives a car a roll angle, or a split of the load transfer. Stiffnesses are tried from soft to stiff, each twice
// the one before; between two at which the car rests, one below and one above what is to be reached, the one that reaches it is found.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/axle.ts';
import { power } from '../numerics/power.ts';
import { zeroBetween } from '../numerics/zero.ts';
import { type CarLoads, type CarOnAxles, checkCar, checkLoads, LOADS } from './car.ts';
import { setUpCar, withAntiRollBar } from './car-set-up.ts';
import { type Equilibrium, equilibriumOf } from './equilibrium.ts';

/** For which turn, on which axle, and what the bar is to reach: `roll` or `frontTransferFraction`. */
export interface ChooseBarOptions extends CarLoads {
  /** Axle that gets the bar. Its linkage has none. */
  readonly axle: 'front' | 'rear';
  /** In g, to the left positive; not 0. */
  readonly lateralAcceleration: number;
  /** Degrees, as in `Equilibrium`: positive in a left turn. */
  readonly roll?: number;
  /** Fraction of the load transfer on the front axle, 0 to 1; needs both axles. */
  readonly frontTransferFraction?: number;
}

/** The bar that reaches it. */
export interface ChosenBar {
  readonly status: 'found';
  /** N·m/deg, for `antiRollBarStiffness` of the axle. */
  readonly stiffness: number;
  /** The car with it. */
  readonly equilibrium: Equilibrium;
}

/** No bar does. */
export interface NoBar {
  readonly status: 'outOfReach';
  /** Smallest and largest value of the quantity with any bar, in its unit; null where the car does not come to rest with any. */
  readonly reached: { readonly min: number; readonly max: number } | null;
}

const OPTIONS = [...LOADS, 'axle', 'roll', 'frontTransferFraction'];
/** N·m/deg: no bar at all, and then from what no car notices to what no bar has. */
const STIFFNESSES = [0, ...Array.from({ length: 18 }, (_, k) => power(2, k))];

/**
 * The roll stiffness that an anti-roll bar must add to an axle, for a roll angle or for a split of the load transfer in a steady turn. A bar
 * that the axle has by `antiRollBarStiffness` is replaced. The softest, where several reach it.
 *
 * @throws InputError for a car or options that cannot be, with every issue.
 */
export function chooseBar(car: CarOnAxles, options: ChooseBarOptions): ChosenBar | NoBar {
  checkCar(car);
  const wrong = unknownOptions(options, OPTIONS);
  refuse('options of chooseBar', wrong);
  const { axle, roll, frontTransferFraction, ...loads } = options;
  checkLoads(car, loads, optionFaults(car, options));
  const target = roll ?? frontTransferFraction ?? Number.NaN;
  const ready = setUpCar(car);
  const restWith = (stiffness: number): Equilibrium | null => {
    const found = equilibriumOf(withAntiRollBar(ready, axle, stiffness), loads);
    return found.status === 'rests' ? found : null;
  };
  const valueIn = (found: Equilibrium | null) =>
    (roll === undefined ? found?.frontTransferFraction : found?.roll) ?? Number.NaN;
  const over = (stiffness: number) => valueIn(restWith(stiffness)) - target;
  const tried = STIFFNESSES.map((stiffness) => ({ stiffness, off: over(stiffness) }));
  const k = tried.findIndex(
    ({ off }, n) => off === 0 || Math.sign(off) * Math.sign(tried[n - 1]?.off ?? Number.NaN) < 0,
  );
  const stiffness =
    k < 0
      ? null
      : tried[k].off === 0
        ? tried[k].stiffness
        : zeroBetween(over, tried[k - 1].stiffness, tried[k].stiffness);
  const found = stiffness === null ? null : restWith(stiffness);
  if (stiffness !== null && found !== null) return { status: 'found', stiffness, equilibrium: found };
  const values = tried.flatMap(({ off }) => (Number.isNaN(off) ? [] : [off + target]));
  return {
    status: 'outOfReach',
    reached: values.length === 0 ? null : { min: Math.min(...values), max: Math.max(...values) },
  };
}

/** What is wrong with the options beside the loads. */
function optionFaults(car: CarOnAxles, options: ChooseBarOptions): Diagnostic[] {
  const { axle, lateralAcceleration, roll, frontTransferFraction } = options;
  const found: Diagnostic[] = [];
  if (axle !== 'front' && axle !== 'rear')
    found.push(fault('unknownChoice', 'axle', { got: show(axle), allowed: ['front', 'rear'] }));
  else if (car[axle] === undefined) found.push(fault('axleMissing', axle));
  else if (car[axle].linkage.bar !== null) found.push(fault('barThere', `${axle}.linkage`));
  if (lateralAcceleration === undefined || lateralAcceleration === 0)
    found.push(fault('turnMissing', 'lateralAcceleration'));
  if ((roll === undefined) === (frontTransferFraction === undefined)) found.push(fault('oneTarget', 'roll'));
  for (const [path, value] of Object.entries({ roll, frontTransferFraction }))
    if (value !== undefined && !Number.isFinite(value))
      found.push(fault('notFinite', path, { got: show(value) }));
  if (frontTransferFraction !== undefined && (car.front === undefined || car.rear === undefined))
    found.push(fault('oneAxleOnly', 'frontTransferFraction'));
  return found;
}
