import type { Diagnostic } from '../diagnostic.ts';
import { type PlainSentences, plainSay, withWords } from '../sentences/plain.ts';
import { InputError } from './input-error.ts';

/** How a part of the library refuses wrong input, in its own sentences: a small bundle has no others. */
export interface Refuser {
  /** The error that lists what is wrong. */
  readonly refusal: (what: string, faults: readonly Diagnostic[]) => InputError;
  /** Throws `InputError` where there are faults. */
  readonly refuse: (what: string, faults: readonly Diagnostic[]) => void;
}

/** The refuser with the sentences of a part, which need no units. */
export function refuser(sentences: PlainSentences): Refuser {
  const refusal = (what: string, faults: readonly Diagnostic[]) =>
    new InputError(
      what,
      faults.map((one) => withWords(one, sentences, plainSay(one))),
    );
  return {
    refusal,
    refuse(what, faults) {
      if (faults.length > 0) throw refusal(what, faults);
    },
  };
}
