import { BOUNDED } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSay, PlainSentences } from './plain.ts';

const SEVERAL = LINKAGE.severalFreedoms;

/** What is said about the options of laws. */
export const TESTING: PlainSentences = {
  ...LINKAGE,
  severalFreedoms: (say: PlainSay) => ({
    ...(typeof SEVERAL === 'function' ? SEVERAL(say) : SEVERAL),
    advice: 'the laws are for one degree of freedom: add a body, a joint or a ground point',
  }),
  notFastCheck: {
    problem: 'not fast-check',
    allowed: "what `import fc from 'fast-check'` gives",
    advice: 'pass it as the first argument: linkages(fc)',
  },
  notAFunction: BOUNDED.notAFunction,
  notADriverRange: { problem: 'not a range', allowed: '[from, to] of the driver, the first the smaller' },
  shareNotPositive: {
    problem: 'not a tolerance',
    allowed: 'a finite number greater than 0, a fraction of the size',
  },
};
