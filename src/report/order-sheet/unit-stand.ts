// How a coilover stands in the car, seen from the front.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { modelOf } from '../../corner/corner.ts';
import { DEGREES } from '../../units.ts';

/** From the vertical; beyond it a unit has no upper end to speak of. */
const LYING = 45;

/** Whether the chassis end is the upper one, and the angle to the vertical at ride height, degrees. */
export function standOf({ input: { corner } }: Pick<AxleSizing, 'input'>): {
  readonly chassisUp: boolean;
  readonly angle: number;
} {
  const { shock, drawing } = modelOf(corner);
  const [[y1, z1], [y2, z2]] = [drawing.points[shock.inner], drawing.points[shock.outer]];
  return {
    chassisUp: z1 >= z2,
    angle: Math.atan2(Math.hypot(y1 - y2, shock.foreAftOffset), Math.abs(z1 - z2)) * DEGREES,
  };
}

/** Whether a coilover lies rather than stands. */
export function isLying(sized: Pick<AxleSizing, 'input'>): boolean {
  return standOf(sized).angle > LYING;
}
