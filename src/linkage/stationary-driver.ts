// Several drivers cannot all go on at a dead point. One of them is the cause by itself where its measure is stationary in whatever
// motion the linkage has there: its rate is zero along each vector of the null space of the constraints.

import { nullVector } from '../numerics/elimination.ts';
import type { BoundMeasure } from './measure.ts';
import { measureSeries } from './measure-series.ts';
import { driverScale } from './parameter.ts';
import { factorise } from './rows.ts';
import { STRIDE, taylorExpansion } from './series.ts';
import type { System } from './system.ts';

/** A rate below this share of the measure's scale is none: a dead point is known to the root of a rounding. */
const NO_RATE = 1e-6;

/** The label of the first of some measures that is stationary in a pose of a system. */
export function stationaryDriver(
  system: System,
  drivers: readonly { readonly label: string; readonly measure: BoundMeasure }[],
  pose: Float64Array,
): string | undefined {
  const e = taylorExpansion(system);
  const { elimination, z } = e;
  factorise(e, pose);
  const vector = new Float64Array(pose.length);
  const rate = new Float64Array(2);
  return drivers.find(({ measure }) =>
    elimination.pivotRow.every((row, column) => {
      if (row >= 0) return true;
      nullVector(elimination, column, vector);
      for (let i = 0; i < pose.length; i++) {
        z[i * STRIDE] = pose[i];
        z[i * STRIDE + 1] = vector[i];
      }
      measureSeries(measure, z, STRIDE, 1, rate);
      const scale = (driverScale(measure, system.size) / system.size) * Math.hypot(...vector);
      return Math.abs(rate[1]) < NO_RATE * scale;
    }),
  )?.label;
}
