import { ballJointName } from '../words.ts';
import type { Say, Sentences } from './say.ts';

/** `the load pulls the stud out of its housing with 812 N at the lower outer ball joint, and shears it with 70 N` */
function jointLoad(say: Say): string {
  const size = say.size('axial', 'force');
  const joint = `the ${ballJointName(say.text('joint'))}`;
  const way = say.isNothing('axial', 'force')
    ? `neither pulls the stud out of its housing nor pushes it in at ${joint}`
    : say.number('axial') > 0
      ? `pulls the stud out of its housing with ${size} at ${joint}`
      : `pushes the stud into its housing with ${size} at ${joint}`;
  return `the load ${way}, and shears it with ${say.measure('radial', 'force')}`;
}

/** Where the force comes from that spring, gas and bump stop do not give. */
const REST: Readonly<Record<string, (size: string) => string>> = {
  toppedOut: (size) => `${size} of that is held back inside the damper, which is topped out`,
  bottomedOut: (size) => `metal on metal bears the other ${size}`,
  notReached: (size) => `that is ${size} more than the case requires: the wheel does not get there`,
  unsprungWeight: (size) =>
    `the unsprung weight, which does not stand over the contact patch, makes the difference of ${size}`,
};

/** What is said about forces in a corner. */
export const FORCES: Sentences = {
  loadCase: (say) => {
    const rest = say.isNothing('metalContact', 'force')
      ? ''
      : `; ${REST[say.text('rest')](say.size('metalContact', 'force'))}`;
    const lift =
      !say.has('jacking') || say.isNothing('jacking', 'force')
        ? ''
        : `. The lateral force lifts the car with ${say.measure('jacking', 'force')}`;
    return {
      problem: `in the case "${say.text('case')}" (travel ${say.measure('travel', 'length')}) the coilover bears ${say.measure('total', 'force')}: spring ${say.measure('spring', 'force')}, gas ${say.measure('gas', 'force')}, bump stop ${say.measure('bumpStop', 'force')}${rest}${lift}`,
    };
  },
  ballJointLoad: (say) => ({ problem: jointLoad(say) }),
  maxPullOut: (say) => ({
    problem: `maximum pull-out, in the case "${say.text('case')}": ${jointLoad(say)}`,
  }),
  maxPushIn: (say) => ({ problem: `maximum push-in, in the case "${say.text('case')}": ${jointLoad(say)}` }),
  notInEquilibrium: (say) => ({
    problem: `not in equilibrium: a force of ${Number(say.number('residual').toPrecision(4))} (unit of the loads) is left over`,
    advice: `give ${say.text('missing')} more ${say.number('missing') === 1 ? 'driver or hold' : 'drivers or holds'}`,
  }),
  slackRope: (say) => ({
    problem: `the rope "${say.text('rope')}" would have to push with ${Number(say.number('push').toPrecision(4))} (unit of the loads): it hangs slack, and the linkage does not stay in this pose`,
  }),
  loadsNotStrengths: {
    problem:
      'these are loads, not strengths: sections, welds, fasteners and joints are for a qualified engineer, and whether a car may go on the road is a matter of local codes',
  },
  loadsInOnePlane: {
    problem:
      'the corner is planar: braking, drive and caster act out of this plane and are not counted; links have no mass, pins no friction',
  },
  bothWheelsAlike: {
    problem:
      'springs between both wheels push as they do with both wheels at the travel of the case: where one wheel moves alone, their part of the loads is another',
  },
  loadFactorsWithoutSource: {
    problem: 'the factors of the cases are common practice without a source: set your own',
  },
};
