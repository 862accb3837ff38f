import { BOUNDED } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about the options of laws. */
export const TESTING: PlainSentences = {
  ...LINKAGE,
  freedomsUnderLaws: (say) => ({
    problem: `${say.text('degreesOfFreedom')} degrees of freedom in the drawn pose`,
    got: `points that can move: ${say.text('moving')}`,
    allowed: 'one degree of freedom',
    advice: 'the laws are for linkages with one: add a body, a joint or a ground point',
  }),
  notFastCheck: {
    problem: 'not fast-check',
    allowed: "what `import fc from 'fast-check'` gives",
    advice: 'pass it as the first argument: linkages(fc)',
  },
  notAFunction: BOUNDED.notAFunction,
  notWhole: BOUNDED.notWhole,
  notADriverRange: { problem: 'not a range', allowed: '[from, to] of the driver, the first the smaller' },
  shareNotPositive: {
    problem: 'not a tolerance',
    allowed: 'a finite number greater than 0, a fraction of the size',
  },
};
