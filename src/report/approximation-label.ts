import type { HandMethodApproximation } from '../corner/hand-method.ts';
import { fault, show } from '../diagnostic.ts';
import { refusal } from '../errors/report.ts';
import { APPROXIMATIONS } from '../sentences/hand-method.ts';

/**
 * An approximation of the hand method in words.
 *
 * @throws InputError for a name that is not in `HAND_METHOD_APPROXIMATIONS`.
 */
export function approximationLabel(approximation: HandMethodApproximation): string {
  if (typeof approximation === 'string' && Object.hasOwn(APPROXIMATIONS, approximation))
    return APPROXIMATIONS[approximation];
  throw refusal('approximation label', [
    fault('unknownChoice', 'approximation', {
      got: show(approximation),
      allowed: Object.keys(APPROXIMATIONS),
    }),
  ]);
}
