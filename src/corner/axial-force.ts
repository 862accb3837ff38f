// What pushes the end eyes of a coilover apart, by its length L, and its rate k = -dF/dL:
//
//   F = spring(loose - L) + gas + stop(contact - L),
//
// spring the stack by how far it is compressed (spring-stack.ts), gas the rod's area times the pressure, taken as constant, and
// stop the force table of the bump stop by how far it is pressed in.

import { pushOf, type Stack, transfers } from './spring-stack.ts';

/** Force (N) of a bump stop at a compression (mm), both rising from 0. */
export type BumpStopTable = readonly (readonly [compression: number, force: number])[];

/** What a coilover is made of, as far as its force goes. */
export interface CoiloverForce {
  readonly spring: Stack;
  /** Eye-to-eye length at which the spring is just loose, mm. */
  readonly loose: number;
  /** Gas force, N, at any length. */
  readonly gasForce: number;
  /** Eye-to-eye length at which the bump stop makes contact, mm, and its table. */
  readonly bumpStop: { readonly contact: number; readonly table: BumpStopTable } | null;
}

/** Parts of the axial force of a coilover, N: positive pushes the ends apart. */
export interface AxialForce {
  readonly spring: number;
  readonly gas: number;
  readonly bumpStop: number;
}

/** The shares at a length between the end eyes, mm. A spring that has come loose pushes with nothing. */
export function axialForce(coilover: CoiloverForce, length: number): AxialForce {
  return {
    spring: pushOf(coilover.spring, coilover.loose - length).force,
    gas: coilover.gasForce,
    bumpStop: bumpStopForce(coilover.bumpStop, length).force,
  };
}

/** All of it at a length, N, and its rate -dF/dL, N/mm. */
export function totalPush(coilover: CoiloverForce, length: number): { force: number; rate: number } {
  const spring = pushOf(coilover.spring, coilover.loose - length);
  const stop = bumpStopForce(coilover.bumpStop, length);
  return { force: spring.force + coilover.gasForce + stop.force, rate: spring.rate + stop.rate };
}

/** Eye-to-eye lengths, mm, at which the rate jumps: the spring just loose, a spring of the stack solid, a point of the stop's table. */
export function jumpLengths({ spring, loose, bumpStop: stop }: CoiloverForce): number[] {
  const shut = transfers(spring).map(({ compression }) => loose - compression);
  const pressed = stop === null ? [] : [0, ...stop.table.map(([at]) => at)].map((at) => stop.contact - at);
  return [loose, ...shut, ...pressed];
}

/** Eye-to-eye length at which the bump stop makes contact, mm; null where there is none. */
export function contactLength(
  bumpStop: { readonly height: number } | undefined,
  damper: { readonly compressedLength: number } | null | undefined,
): number | null {
  return damper == null || bumpStop === undefined ? null : damper.compressedLength + bumpStop.height;
}

/** Between the points of the table in a straight line; beyond its end as steep as before. */
export function bumpStopForce(
  stop: CoiloverForce['bumpStop'],
  length: number,
): { force: number; rate: number } {
  const pressed = stop === null ? 0 : stop.contact - length;
  if (stop === null || pressed <= 0) return { force: 0, rate: 0 };
  const table = [[0, 0] as const, ...stop.table.filter(([at]) => at > 0)];
  if (table.length === 1) return { force: 0, rate: 0 };
  let k = 1;
  while (k < table.length - 1 && table[k][0] < pressed) k++;
  const [[x, f], [to, up]] = [table[k - 1], table[k]];
  const rate = (up - f) / (to - x);
  return { force: f + rate * (pressed - x), rate };
}
