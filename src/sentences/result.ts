import type { PlainSentences } from './plain.ts';

/** What is said about what is no result of another function. */
export const RESULT: PlainSentences = {
  notAResult: (say) => ({
    problem: `not ${say.text('is')}`,
    allowed: `what ${say
      .list('makers')
      .map((name) => (name.includes('(') ? name : `${name}(...)`))
      .join(', ')} returns`,
  }),
};
