import type { Sentences } from './say.ts';

/** What is said about how a corner stands. */
export const STANDING: Sentences = {
  wheelRateNotPositive: (say) => ({
    problem: 'the wheel rate at ride height is not positive: the corner collapses under its weight',
    got: `${say.measure('wheelRate', 'rate')} at the wheel with ${say.measure('springRate', 'rate')} at the spring`,
    allowed: `a spring of more than ${say.measure('softestSpring', 'rate')}, at which the corner just stands`,
    advice: 'choose a stiffer spring, or move a mount so that bump does not reduce the installation ratio',
  }),
};
