/**
 * Angles of a lever, radians, at rows of readings, with their derivatives by the wheel's travel: from level, end up positive; of a bar along
 * the car from design ride height, counter-clockwise with y to the left. NaN where the link does not reach or the lever is over its centre.
 */
export interface LeverAngles {
  readonly angle: Float64Array;
  readonly first: Float64Array;
  readonly second: Float64Array;
  /** The end of the lever there, y outboard, mm. */
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** Travel of that end per turn, mm: of a bar across the car up alone. */
  readonly arm: Float64Array;
}

/** So many, to be read into. */
export function leverAngles(rows: number): LeverAngles {
  const { buffer } = new Float64Array(6 * rows);
  const [angle, first, second, y, z, arm] = Array.from(
    { length: 6 },
    (_, k) => new Float64Array(buffer, k * rows * Float64Array.BYTES_PER_ELEMENT, rows),
  );
  return { angle, first, second, y, z, arm };
}
