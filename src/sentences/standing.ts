import type { Sentences } from './say.ts';

/** What is said about how a corner stands. */
export const STANDING: Sentences = {
  unsprungMassMissing: () => ({
    problem: 'the unsprung mass of this corner is not given, so its sprung mass is unknown',
    allowed:
      'the mass of wheel, tyre, upright, brake and the shares of arms and coilover that move with them',
    advice: 'weigh or estimate it; spring, preload, damping and load cases of this axle wait for it',
  }),
  wheelRateNotPositive: (say) => ({
    problem: 'the wheel rate at ride height is not positive: the corner collapses under its weight',
    got: `${say.measure('wheelRate', 'rate')} at the wheel with ${say.measure('springRate', 'rate')} at the spring`,
    allowed: `a spring of more than ${say.measure('softestSpring', 'rate')}, at which the corner just stands`,
    advice: 'choose a stiffer spring, or move a mount so that bump does not reduce the installation ratio',
  }),
};
