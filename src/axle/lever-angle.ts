/**
 * A lever's angle, radians, with its derivatives by the wheel's travel: from level, end up positive; of a bar along the car from design
 * ride height, counter-clockwise with y to the left.
 */
export interface LeverAngle {
  angle: number;
  first: number;
  second: number;
  /** The end of the lever there, y outboard, mm. */
  y: number;
  z: number;
  /** Travel of that end per turn, mm: of a bar across the car up alone. */
  arm: number;
}

/** To be read into. */
export function noLeverAngle(): LeverAngle {
  return { angle: 0, first: 0, second: 0, y: 0, z: 0, arm: 0 };
}
