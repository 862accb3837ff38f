import type { Drawing } from '../linkage/index.ts';
import { closes } from './closes.ts';
import { derivativesAgree } from './derivatives.ts';
import { mirror, translate, scale, rotate } from './invariance.ts';
import { keepsLengths } from './keeps-lengths.ts';
import { outAndBack } from './out-and-back.ts';
import { measuresAgree } from './readings.ts';
import { reproducible } from './same-bits.ts';
import type { Law, LawOptions } from './setting.ts';
import { virtualWork } from './virtual-work.ts';

/** What every linkage and its motion keep, by name, the simplest first. Each law opens its own file. */
export const laws = {
  closes,
  keepsLengths,
  readings: measuresAgree,
  derivativesAgree,
  virtualWork,
  mirror,
  move: translate,
  turn: rotate,
  scale,
  outAndBack,
  sameBits: reproducible,
} satisfies Record<string, Law>;

/**
 * Puts the linkage that `build` makes of `data` to all laws, in their order.
 *
 * @throws LawViolation for the first that does not hold; InputError where the drawing is faulty or can't be driven.
 */
export function checkLaws<T>(build: (data: T) => Drawing, data: T, options?: LawOptions<T>): void {
  for (const law of Object.values(laws)) law(build, data, options);
}
