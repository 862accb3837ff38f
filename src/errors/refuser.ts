import type { Diagnostic } from '../diagnostic.ts';
import { type PlainSentences, plainSay, withWords } from '../sentences/plain.ts';
import type { Units } from '../units.ts';
import { InputError, type Issue } from './input-error.ts';

/** How a part of the library refuses wrong input; `units` are those in which its numbers are written, metric if left out. */
export interface Refuser {
  /** The error that lists what is wrong. */
  readonly refusal: (what: string, faults: readonly Diagnostic[], units?: Units) => InputError;
  /** Throws `InputError` where there are faults. */
  readonly refuse: (what: string, faults: readonly Diagnostic[], units?: Units) => void;
}

/** The refuser of a part that finds its own words: a small bundle has no others. */
export function refuserBy(words: (fault: Diagnostic, units: Units) => Issue): Refuser {
  const refusal = (what: string, faults: readonly Diagnostic[], units: Units = 'metric') =>
    new InputError(
      what,
      faults.map((one) => words(one, units)),
    );
  return {
    refusal,
    refuse(what, faults, units) {
      if (faults.length > 0) throw refusal(what, faults, units);
    },
  };
}

/** The refuser with the sentences of a part, which need no units. */
export function refuser(sentences: PlainSentences): Refuser {
  return refuserBy((one) => withWords(one, sentences, plainSay(one)));
}
