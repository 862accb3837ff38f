import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about the options of laws. */
export const TESTING: PlainSentences = {
  ...LINKAGE,
  notARange: { problem: 'not a range', allowed: '[from, to] of the driver, the first the smaller' },
  notAFunction: { problem: 'not a function', allowed: 'a function' },
  shareNotPositive: {
    problem: 'not a tolerance',
    allowed: 'a finite number greater than 0, a share of the size',
  },
};
