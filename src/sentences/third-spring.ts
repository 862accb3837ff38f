import type { Say, Sentences } from './say.ts';

/** States in which both wheels move alike. */
const STATES: Readonly<Record<string, string>> = {
  rest: 'at rest',
  topSpeed: 'at top speed',
  braking: 'under braking',
};

const end = (say: Say) =>
  say.text('side') === 'bump' ? 'its shortest length in bump' : 'its longest length in droop';

/** What is said about the third spring of an axle beside its coilovers. */
export const THIRD_SPRING: Sentences = {
  thirdSpringCarriesAll: (say) => ({
    problem: 'the third spring leaves no load for the coilovers at ride height',
    got: `${say.measure('load', 'force', 'max')} carried at each wheel, of a sprung load of ${say.measure('sprungWeight', 'force')}`,
    allowed: `less than ${say.measure('max', 'force', 'load')}, so that the coilover carries the rest`,
    advice: 'give it less preload, or a longer way to its free length',
  }),
  thirdSpringTakesAll: (say) => ({
    problem: 'the third spring gives all of the required wheel rate: nothing is left for the coilovers',
    got: `${say.measure('rate', 'rate', 'max')} at each wheel, for ${say.measure('wheelRate', 'rate')} required`,
    allowed: `less than ${say.measure('max', 'rate', 'rate')} at each wheel, both wheels alike`,
    advice: 'choose a softer third spring, move its ends nearer to the pivots, or set a stiffer target',
  }),
  thirdSpringJustLoose: {
    problem: 'the third spring just comes loose at ride height: it stiffens bump alone',
    advice:
      'give it preload, or a freeLength that leaves a gap; at ride height the coilovers are sized without its rate',
  },
  thirdSpringUneven: (say) => ({
    problem: 'the third spring carries unlike loads at the left and the right wheel',
    got: `${say.measure('left', 'force')} left, ${say.measure('right', 'force')} right at ride height`,
    advice: 'the coilovers are sized for the mean of the two: set each perch for ride height',
  }),
  thirdSpringEndsHeave: (say) => ({
    problem: `with both wheels alike the third spring comes to ${end(say)} before a wheel alone comes to its limit`,
    got: say.travel('travel'),
    allowed: `beyond ${say.travel('limit')}, the limit of each wheel`,
    advice: 'check that the spring, its damper and the rockers can take that stop',
  }),
  thirdSpringEndsTooSoon: (say) => ({
    problem: `the third spring is at ${end(say)} ${STATES[say.text('state')]}`,
    got: say.travel('travel'),
    allowed: `beyond ${say.travel('held')}, where both wheels are held`,
    advice: 'give the third spring more travel, or the coilovers more rate',
  }),
  thirdSpringHeldInCorner: (say) => ({
    problem: `in the steady corner of ${say.text('lateralAcceleration')} g the third spring is held at its ${say.text('end') === 'compressed' ? 'shortest' : 'longest'} length`,
    got: `${say.measure('endForce', 'force')} at ${say.measure('length', 'length')}`,
    advice: 'check that what stops it there can take that force, or give it more travel',
  }),
  thirdSpringDampsAll: (say) => ({
    problem: 'the damper beside the third spring gives all of the target damping ratio',
    got: say.measure('ratio', 'ratio', 'target'),
    allowed: `less than ${say.measure('target', 'ratio', 'ratio')}, so that the coilovers damp the rest`,
    advice: 'damp the third spring less: roll and a wheel alone are damped by the coilovers',
  }),
};
