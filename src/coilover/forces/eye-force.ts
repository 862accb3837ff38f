// What pushes the end eyes of a coilover apart, by its length L. With L_0 and F_0 length and total force as it stands at ride,
//
//   F = max(0, F_0 - gas - stop(L_0) + k (L_0 - L)) + gas + stop(L),
//
// gas the rod's area times the pressure, taken as constant, and stop the force table of the bump stop by how far it is pressed in.

/** A bump stop as a table: how far it is pressed in (mm) and its force there (N), both rising from 0. */
export type StopTable = readonly (readonly [pressed: number, force: number])[];

/** What a coilover is made of, as far as its force goes. */
export interface CoiloverForce {
  /** N/mm of the spring itself. */
  readonly springRate: number;
  /** N that the gas pushes with at any length. */
  readonly gasForce: number;
  /** Length between the end eyes at which the bump stop is first touched, mm, and its table. */
  readonly stop: { readonly contact: number; readonly table: StopTable } | null;
  /** Length between the end eyes at ride, mm, and total force there, N. */
  readonly rideLength: number;
  readonly rideForce: number;
}

/** Shares of the force between the end eyes, N: positive pushes them apart. */
export interface EyeForce {
  readonly spring: number;
  readonly gas: number;
  readonly stop: number;
}

/** The shares at a length between the end eyes, mm. A spring that has come loose pushes with nothing. */
export function eyeForce(coilover: CoiloverForce, length: number): EyeForce {
  const { springRate, gasForce, rideLength, rideForce } = coilover;
  const atRide = rideForce - gasForce - stopForce(coilover, rideLength);
  return {
    spring: Math.max(0, atRide + springRate * (rideLength - length)),
    gas: gasForce,
    stop: stopForce(coilover, length),
  };
}

/** Between the points of the table in a straight line; beyond its end as steep as before. */
function stopForce({ stop }: CoiloverForce, length: number): number {
  if (stop === null) return 0;
  const pressed = stop.contact - length;
  if (pressed <= 0) return 0;
  const table = [[0, 0] as const, ...stop.table.filter(([at]) => at > 0)];
  let k = 1;
  while (k < table.length - 1 && table[k][0] < pressed) k++;
  if (table.length === 1) return 0;
  const [[x, f], [to, up]] = [table[k - 1], table[k]];
  return f + ((up - f) * (pressed - x)) / (to - x);
}
