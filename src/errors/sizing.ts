// Refusals of what is sized: every sentence of the library, in metric units.

import type { Diagnostic } from '../diagnostic.ts';
import { worded } from '../sentences/worded.ts';
import { InputError } from './input-error.ts';

/** The error that lists what is wrong. */
export function refusal(what: string, faults: readonly Diagnostic[]): InputError {
  return new InputError(
    what,
    faults.map((one) => worded(one, 'metric')),
  );
}

/** Throws `InputError` where there are faults. */
export function refuse(what: string, faults: readonly Diagnostic[]): void {
  if (faults.length > 0) throw refusal(what, faults);
}
