/**
 * A lever's angle, radians, with its derivatives by the wheel's travel: from level, end up positive; of a bar along the car from design
 * ride height, counter-clockwise with y to the left.
 */
export interface LeverAngle {
  readonly angle: number;
  readonly first: number;
  readonly second: number;
}
