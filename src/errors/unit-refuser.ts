import type { Diagnostic } from '../diagnostic.ts';
import { withWords } from '../sentences/plain.ts';
import { type Sentences, sayIn } from '../sentences/say.ts';
import type { Units } from '../units.ts';
import { InputError } from './input-error.ts';

/** How a part of the library refuses wrong input whose numbers are written in one system of units or the other. */
export interface UnitRefuser {
  /** The error that lists what is wrong, in the units of the input. */
  readonly refusal: (what: string, faults: readonly Diagnostic[], units: Units) => InputError;
  /** Throws `InputError` where there are faults. */
  readonly refuse: (what: string, faults: readonly Diagnostic[], units: Units) => void;
}

/** The refuser with the sentences of a part. */
export function unitRefuser(sentences: Sentences): UnitRefuser {
  const refusal = (what: string, faults: readonly Diagnostic[], units: Units) =>
    new InputError(
      what,
      faults.map((one) => withWords(one, sentences, sayIn(one, units))),
    );
  return {
    refusal,
    refuse(what, faults, units) {
      if (faults.length > 0) throw refusal(what, faults, units);
    },
  };
}
