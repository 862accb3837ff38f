import { BOUNDED, SEARCHED } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about quantities of a motion, and about what a linkage is designed for. */
export const SYNTHESIS: PlainSentences = {
  ...LINKAGE,
  ...BOUNDED,
  ...SEARCHED,
  notALine: { problem: 'not a line', allowed: "the names of two points, ['A', 'B']" },
};
