import { fixAfterAdvice } from './after-advice.ts';
import type { Say, Sentences } from './say.ts';

/** Steady states in words. */
const STATES: Readonly<Record<string, string>> = {
  rest: 'at rest',
  topSpeed: 'at top speed',
  corner: 'in a steady corner',
  braking: 'under steady braking',
};

const state = (say: Say) => STATES[say.text('state')];
/** Why a car does not come to rest in a turn, in words. */
const NO_REST: Readonly<Record<string, string>> = {
  travelEnd: 'a wheel comes to the end of its linkage',
  fallsOver: 'it falls over',
  axleLifted: 'an axle lifts off the ground',
  unstable: 'no rest that holds was found',
};

/** What is said about how a corner stands. */
export const STATIC_STABILITY: Sentences = {
  unsprungMassMissing: () => ({
    problem: 'the unsprung mass of this corner is not given, so its sprung mass is unknown',
    allowed:
      'the mass of wheel, tyre, upright, brake and the shares of arms and coilover that move with them',
    advice: 'weigh or estimate it; spring, preload, damping and load cases of this axle wait for it',
  }),
  wheelRateNotPositive: (say) => ({
    problem: 'the wheel rate at ride height is not positive: the corner does not stand there',
    got: `${say.measure('wheelRate', 'rate')} at the wheel with ${say.measure('springRate', 'rate')} at the spring; the wheel sinks to ${
      say.text('atEnd') === 'true' ? 'the end of the bump travel' : say.travel('goesTo')
    }`,
    allowed: say.has('softestSpring')
      ? `a spring of more than ${say.measure('softestSpring', 'rate')}, at which the corner just stands`
      : 'a helper that is stiffer or solid at ride height: with this one no main spring makes the corner stand',
    advice: 'choose a stiffer spring, or move a mount so that bump does not reduce the installation ratio',
  }),
  springSolidAtRide: (say) => ({
    problem: 'the spring is solid before it carries the sprung weight at ride height',
    got: `${say.measure('carries', 'force', 'springForce')} with the spring solid`,
    allowed: `${say.measure('springForce', 'force', 'carries')} or more, the spring force at ride height`,
    advice: 'choose a longer or a stiffer spring',
  }),
  noRest: (say) => ({
    problem:
      say.text('side') === 'bump'
        ? 'the coilover does not carry the sprung weight within the travel: the wheel goes to the bump limit'
        : 'the coilover pushes more than the sprung weight within the travel: the wheel stays at the droop limit',
    got: `${say.measure('borne', 'force')} at ${say.travel('travel')}`,
    allowed: `${say.measure('load', 'force')} between the limits of the travel`,
    advice: 'set the perch for the ride height, or choose another spring',
  }),
  wheelRateReachesZero: (say) => ({
    problem: 'the wheel rate falls to 0 within the travel: the corner collapses beyond',
    got: `0 at ${say.travel('travel')}, where the sprung wheel load is ${say.measure('load', 'force')}, ${say.number('ofStatic').toFixed(2)} times the static load; ${
      say.has('standsAgain')
        ? `the wheel rate is positive again from ${say.travel('standsAgain')}`
        : 'the wheel rate stays negative to the limit'
    }${say.has('comesTo') ? `, and the wheel stops at ${say.travel('comesTo')}` : ''}`,
    allowed: 'a positive wheel rate to both limits of the travel',
    advice: 'choose a stiffer spring, end the travel before, or move a mount',
  }),
  collapsesWhenSteady: (say) => ({
    problem: `the corner collapses ${state(say)}: it is past the travel at which the wheel rate is 0`,
    got: say.travel('travel'),
    allowed: `less than ${say.travel('from')}, with at most ${say.measure('load', 'force')} of sprung wheel load`,
    advice: 'choose a stiffer spring, or move a mount so that bump does not reduce the installation ratio',
  }),
  collapseBeyondLimit: (say) => ({
    problem: 'the wheel rate falls to 0 just beyond the bump limit',
    got: `0 at ${say.travel('travel')}, ${say.measure('beyond', 'length')} beyond the limit`,
    allowed: `a bump limit that stays at ${say.measure('limit', 'length')}`,
    advice: 'do not shorten the damper or the bump stop without a stiffer spring',
  }),
  ridesOnBumpStop: (say) => ({
    problem: `the wheel rides on the bump stop ${state(say)}, ${say.difference('travel', 'contact', 'length')} past contact`,
    got: `${say.travel('travel')}, where ${
      say.has('wheelRate')
        ? `the wheel rate is ${say.measure('wheelRate', 'rate')}, against ${say.measure('wheelRateBefore', 'rate')} before contact`
        : 'the wheel rate is not known without the forces of the stop'
    }`,
    allowed: `less than ${say.travel('contact')}, where the bump stop makes contact`,
    advice: fixAfterAdvice(
      say,
      'choose a stiffer spring or anti-roll bar, a shorter bump stop, or accept the harsher ride',
    ),
  }),
  noRestInCorner: (say) => ({
    problem: `the car does not come to rest in the steady corner of ${say.text('lateralAcceleration')} g: ${NO_REST[say.text('cause')]}`,
    ...(say.has('reached') ? { got: `rest up to ${say.number('reached').toFixed(2)} g` } : {}),
    advice: 'check the height of the centre of gravity, springs and anti-roll bars',
  }),
  springLooseAtDroop: (say) => ({
    problem: 'the spring is loose at the droop limit: there is no damping ratio there',
    got: `a gap of ${say.measure('gap', 'length')} at ${say.travel('travel')}${
      say.has('looseFrom') ? `; loose from ${say.travel('looseFrom')}` : ''
    }`,
    allowed: 'a spring that is still compressed at the droop limit',
    advice: 'fit a helper spring to keep the spring seated',
  }),
};
