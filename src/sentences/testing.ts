import { BOUNDED } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about the options of laws. */
export const TESTING: PlainSentences = {
  ...LINKAGE,
  notAFunction: BOUNDED.notAFunction,
  notADriverRange: { problem: 'not a range', allowed: '[from, to] of the driver, the first the smaller' },
  shareNotPositive: {
    problem: 'not a tolerance',
    allowed: 'a finite number greater than 0, a fraction of the size',
  },
};
