import type { PlainSentences } from './plain.ts';

/** What is said about any input: names, kinds of value, numbers. */
export const INPUT: PlainSentences = {
  missing: { problem: 'missing', advice: 'add it' },
  wrongType: { problem: 'wrong kind of value' },
  outOfRange: { problem: 'out of range' },
  notFinite: { problem: 'not a finite number', allowed: 'a finite number' },
  unknownName: (say) => ({
    problem: `unknown ${say.text('what')}`,
    advice: 'correct the name',
  }),
  unknownOption: { problem: 'unknown option', advice: 'correct the spelling, or take it out' },
  notOptions: (say) => ({
    problem: 'not an object',
    allowed: `{ ${say.text('allowed')} }, each optional`,
  }),
};
