import type { Drawing } from '../linkage/index.ts';
import { closes } from './closes.ts';
import { continuous } from './continuous.ts';
import { derivativesAgree } from './derivatives.ts';
import { mirror, rotate, scale, translate } from './invariance.ts';
import { keepsLengths } from './keeps-lengths.ts';
import { measuresAgree } from './measures-agree.ts';
import { outAndBack } from './out-and-back.ts';
import { reproducible } from './reproducible.ts';
import type { Law, LawOptions } from './setting.ts';
import { virtualWork } from './virtual-work.ts';

/** Laws that hold for every linkage, by name, the simplest first. Each has a file of its own. */
export const laws = {
  closes,
  keepsLengths,
  continuous,
  measuresAgree,
  derivativesAgree,
  virtualWork,
  mirror,
  translate,
  rotate,
  scale,
  outAndBack,
  reproducible,
} satisfies Record<string, Law>;

/**
 * Checks the linkage that `build` makes of `data` against all laws, in their order.
 *
 * @throws LawViolation for the first that does not hold; InputError if the drawing or the options are faulty, or the linkage
 * cannot be driven.
 */
export function checkLaws<T, P extends string, B extends string, S extends string = never>(
  build: (data: T) => Drawing<P, B, S>,
  data: T,
  options?: LawOptions<T, NoInfer<P>, NoInfer<B | S>>,
): void {
  for (const law of Object.values(laws)) law(build, data, options);
}
