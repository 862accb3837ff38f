// Without friction the driver's force F_in and the force F_out of the output on its load do the same work (principle of virtual work),
//
//   F_in dm_in = F_out dm_out,   F_out / F_in = dm_in / dm_out:
//
// the mechanical advantage is the reciprocal of the velocity ratio.

import { checkMotion } from '../linkage/check-motion.ts';
import type { Measure } from '../linkage/measure.ts';
import type { Motion } from '../linkage/motion.ts';
import { boundOrRefused } from './extreme-values.ts';
import { quantityReader } from './places.ts';
import { type Transmission, wrapped } from './quantity.ts';

/**
 * The transmission angle of a motion as a function of its driver: the angle between coupler and output link, 0 to pi. At pi/2 the force of
 * the coupler is square to the output link; at 0 and pi it does not move it at all.
 *
 * @throws InputError for what is no motion, and for an unknown name; the function throws outside the range of the motion.
 */
export function transmissionAngle<P extends string, B extends string>(
  motion: Motion<P, B>,
  lines: Transmission<NoInfer<P>>,
): (driver: number) => number;
export function transmissionAngle(motion: Motion, lines: Transmission): (driver: number) => number {
  checkMotion(motion);
  boundOrRefused(motion.path, { transmissionAngle: lines });
  const [a, joint] = lines.coupler;
  const coupler = motion.read({ angle: [joint, a] });
  const line = motion.read({ angle: 'slide' in lines ? lines.slide : lines.output });
  const turn = 'slide' in lines ? 0.5 * Math.PI : 0;
  return (driver) => Math.abs(wrapped(coupler(driver).value - line(driver).value - turn));
}

/**
 * The mechanical advantage of a motion as a function of its driver: the force (moment, for an angle) that a measure exerts where it
 * grows, for a force of 1 on the driver where that grows; without friction and weight. It is 0 at a dead point of the driver, and null
 * where the measure stands still but for rounding: there it has no limit.
 *
 * @throws InputError for what is no motion, and for an unknown measure or name; the function throws outside the range of the motion.
 */
export function mechanicalAdvantage<P extends string, B extends string>(
  motion: Motion<P, B>,
  output: Measure<NoInfer<P>, NoInfer<B>>,
): (driver: number) => number | null;
export function mechanicalAdvantage(motion: Motion, output: Measure): (driver: number) => number | null {
  checkMotion(motion);
  const { path } = motion;
  const quantity = boundOrRefused(path, { velocityRatio: output });
  const ratio = quantityReader(path, quantity);
  const read = motion.read(output);
  const { low, high, system } = path;
  const reach = Math.max(Math.abs(low.at), Math.abs(high.at)) || 1;
  const unit = quantity.measure.unit ?? system.size;
  return (driver) => {
    const reading = read(driver);
    const first = reading.first ?? ratio(driver)[0];
    // What first derivatives are off by where the driver, and the measure, are rounded.
    const rounding = ROUNDINGS * Number.EPSILON * (Math.abs(reading.second ?? 0) * reach + unit / reach);
    return Math.abs(first) <= rounding ? null : 1 / first;
  };
}

/** Roundings of the driver and of the measure that are not told from none. */
const ROUNDINGS = 16;
