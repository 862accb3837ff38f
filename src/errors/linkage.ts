// Refusals of a linkage, a load or an option: words without units, so that a small bundle has no others.

import type { Diagnostic } from '../diagnostic.ts';
import { LINKAGE } from '../sentences/linkage.ts';
import { plainSay, withWords } from '../sentences/plain.ts';
import { InputError } from './input-error.ts';

/** The error that lists what is wrong. */
export function refusal(what: string, faults: readonly Diagnostic[]): InputError {
  return new InputError(
    what,
    faults.map((one) => withWords(one, LINKAGE, plainSay(one))),
  );
}

/** Throws `InputError` where there are faults. */
export function refuse(what: string, faults: readonly Diagnostic[]): void {
  if (faults.length > 0) throw refusal(what, faults);
}
