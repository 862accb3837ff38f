import { spaced } from '../words.ts';
import type { Say, Sentences } from './say.ts';
import { minLengthSource } from './springs.ts';

const axle = (say: Say) => say.text('axle');
const percent = (say: Say, name: string) => Math.round(100 * say.number(name));

/** What travel cases are made of. */
const TRAVEL_CASES: Readonly<Record<string, (say: Say) => string>> = {
  lateralAcceleration: (say) => `cornering at ${say.text('lateralAcceleration')} g`,
  deceleration: (say) => `braking at ${say.text('deceleration')} g`,
  roadBump: (say) => `a road bump of ${say.measure('roadBump', 'length')}`,
  roadDip: (say) => `a dip of ${say.measure('roadDip', 'length')}`,
  margin: (say) => `a margin of ${say.measure('margin', 'length')}`,
};

/** What is said about assumptions. */
export const ASSUMPTIONS: Sentences = {
  linksIdeal: {
    problem: 'the corner is planar and rigid: links without mass, joints without friction, no steering',
  },
  sidesAveraged: {
    problem: 'each axle is sized for the mean of its two sides; a heavier side is levelled with its perch',
  },
  cornersUncoupled: {
    problem: 'frequencies are those of one corner by itself: bounce and pitch are taken as uncoupled',
  },
  rollTravelEstimated: {
    problem:
      'roll in the required travel is the linear estimate by the roll gradient: on its own curves the car does not come to rest in the corner',
  },
  thirdSpringCounted: (say) => ({
    problem: `the ${axle(say)} coilovers are sized beside the third spring: at ride height it ${say.number('rate') === 0 ? 'is loose, and it counts where it pushes' : `carries ${say.measure('load', 'force')} of the sprung load of each wheel and gives ${say.measure('rate', 'rate')} of its wheel rate, both wheels alike`}`,
  }),
  rollSpringCounted: (say) => ({
    problem: `the ${axle(say)} roll spring counts in the roll stiffness, and is free at ride height`,
  }),
  gasForceConstant: { problem: 'the gas force does not change with the stroke' },
  travelCasesAssumed: (say) => ({
    problem: `travel cases from common practice, without a source: ${Object.entries(TRAVEL_CASES)
      .flatMap(([name, words]) => (say.has(name) ? [words(say)] : []))
      .join(', ')}`,
  }),
  downforceWithSpeedSquared: {
    problem:
      'downforce is proportional to the square of the speed, at a fixed balance; ride height does not change it',
  },
  coiloverAlongStrut: (say) => ({
    problem: `the ${axle(say)} spring and damper act along the strut; their lengths go from topMount to lowerMount`,
  }),
  rateStepAssumed: (say) => ({
    problem: `${axle(say)} springs are taken to be available in steps of ${say.measure('rateStep', 'rate')} (common practice)`,
  }),
  compressionFractionAssumed: (say) => ({
    problem: `${axle(say)} damping is split ${percent(say, 'fraction')} % compression to ${100 - percent(say, 'fraction')} % rebound (common practice)`,
  }),
  highSpeedFractionAssumed: (say) => ({
    problem: `above the knee the ${axle(say)} damper force rises at ${percent(say, 'fraction')} % of its low-speed slope (common practice)`,
  }),
  damperFromTravel: (say) => ({
    problem: `no ${axle(say)} damper is given: the lengths follow from the upper end of the 95 % interval of the required travel, on the softest and on the stiffest springs that may be fitted, rounded outward to whole mm`,
  }),
  minLengthTaken: (say) => ({
    problem: `the minimum permissible length L_n of the ${axle(say)} spring "${say.text('spring')}" is ${say.measure('minLength', 'length')}, ${minLengthSource(say)}`,
  }),
  loadFactorsAssumed: (say) => ({
    problem: `load cases for the joints take ${say.text('bump')} static wheel loads in bump; ${say.text('transfer')} in a corner, with ${say.number('cornering') === 1 ? 'the same force' : `${say.text('cornering')} times that force`} sideways; ${say.text('kerb')} on a kerb, at ${say.text('kerbAngle')} deg towards the car: common practice, without a source`,
  }),
};

/** Inputs that may be missing; others are called as they are written. */
const INPUTS: Readonly<Record<string, string>> = {
  sizing: 'sizing (unsprung mass, target)',
  bearings: 'end bearings',
  mounts: 'mounts to order',
  bodyEnd: 'which end the body is at',
  bodyDiameter: 'body diameter',
  lengthTolerance: 'tolerances',
};

/** What is said about what is still to be found out or agreed. */
export const OPEN_QUESTIONS: Sentences = {
  ownQuestion: (say) => ({ problem: say.text('text') }),
  massesMissing: {
    problem: 'the masses of the car are not given',
    advice:
      'give masses: until then, spring, preload and damping are to be agreed where a corner has no sprungMass of its own, and roll and dive are not counted',
  },
  massesEstimated: {
    problem: 'the masses are estimated',
    advice: 'weigh the car on four scales when it stands, and run this again',
  },
  perchSettingMissing: (say) => ({
    problem: `the ${axle(say)} axle was weighed with the perches untouched`,
    advice: 'measure perch.setting, or the ride height on the scales is not known',
  }),
  inputsMissing: (say) => ({
    problem: `not given yet at the ${axle(say)}: ${say
      .list('missing')
      .map((name) => INPUTS[name] ?? spaced(name))
      .join(', ')}`,
  }),
  springLengthsOpen: (say) => ({
    problem: `the ${axle(say)} spring is a rate only: free length and minimum permissible length are to be agreed`,
    advice: 'agree them with the spring maker, or list springs that you can buy',
  }),
  minLengthOpen: (say) => ({
    problem: `the minimum permissible length of the ${axle(say)} spring is to be agreed with the spring maker; this sizing takes ${say.measure('minLength', 'length')}, ${minLengthSource(say)}`,
  }),
};
