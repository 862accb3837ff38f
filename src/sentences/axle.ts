import { AXLE_PARTS } from './axle-parts.ts';
import { CORNER } from './corner.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about an axle, and about where it is asked to be. */
export const AXLE: PlainSentences = {
  ...CORNER,
  ...AXLE_PARTS,
  notPlaces: (say) => ({ problem: 'not a list of places', allowed: `finite numbers, ${say.text('unit')}` }),
  notLimits: { problem: 'no limits of a corner', allowed: 'what limits(corner, options) returns' },
  rollTooLarge: (say) => ({
    problem: 'too much roll',
    allowed: `between -${say.text('most')} and ${say.text('most')} degrees`,
  }),
  pathLengthsDiffer: (say) => ({
    problem: 'not as long as heave',
    allowed: `${say.text('count')} numbers, one for each of heave`,
  }),
  poseOutOfReach: (say) => ({
    problem: `the ${say.text('side')} wheel does not get to this heave and roll`,
    advice: 'take less heave or less roll; sweepAxle names what ends the travel of the wheel',
  }),
  axleMissing: { problem: 'the car has no such axle', advice: 'give it, or name the other one' },
  barThere: {
    problem: 'the axle has a bar already',
    advice: 'leave bar out of axle(input), or choose the bar of the other axle',
  },
  turnMissing: {
    problem: 'no turn: a bar does nothing without lateral acceleration',
    allowed: 'a number in g that is not 0',
  },
  oneTarget: {
    problem: 'what the bar is to reach is not given once',
    allowed: 'roll, or frontTransferFraction',
  },
  tooManyPoses: (say) => ({ problem: 'too many poses', allowed: `${say.text('most')} at most` }),
  notAccelerations: (say) => ({
    problem: 'not a list of lateral accelerations',
    allowed: `1 to ${say.text('count')} numbers between -${say.text('most')} and ${say.text('most')} g`,
  }),
  notAnAxle: { problem: 'not an axle', allowed: 'what axle(input) returns' },
  carWithoutAxle: { problem: 'a car without an axle', allowed: 'front, rear, or both' },
  forceAndFreeLength: {
    problem: 'the force of the spring and its free length are both given',
    advice: 'give one of them',
  },
  stopWithoutDamper: {
    problem: 'a bump stop without a damper: where it makes contact is not known',
    advice: 'give damper, with its extended and compressed length',
  },
  notARisingTable: {
    problem: 'not the table of a bump stop',
    allowed: 'pairs [compression in mm, force in N], both rising from 0',
  },
  carriesNothingAtRide: (say) => ({
    problem: `the coilover carries nothing at design ride height: its installation ratio is ${say.text('ratio')}`,
    advice: 'move a mount so that bump shortens the coilover',
  }),
  damperNotAtRide: (say) => ({
    problem: 'the damper does not fit at design ride height',
    got: `${say.text('compressedLength')} mm compressed, ${say.text('extendedLength')} mm extended`,
    allowed: `compressed below ${say.text('length')} mm, extended above`,
  }),
  decelerationAndTransfer: {
    problem: 'a deceleration and a longitudinal transfer are both given',
    advice: 'give one of them',
  },
  wheelbaseMissing: {
    problem: 'the load that braking moves is not known without the wheelbase',
    advice: 'give wheelbase in the car, or longitudinalTransfer in place of deceleration',
  },
  oneAxleOnly: { problem: 'load moves between two axles, and the car has one', advice: 'take it out' },
};
