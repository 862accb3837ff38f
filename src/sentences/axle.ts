import { CORNER } from './corner.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about an axle, and about where it is asked to be. */
export const AXLE: PlainSentences = {
  ...CORNER,
  leverOverCentre: {
    problem:
      'the drop link goes through the axis of the bar at design ride height: the bar would lock the axle',
    advice: 'move linkMount, or leverEnd with the lever',
  },
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
  tooManyPoses: (say) => ({ problem: 'too many poses', allowed: `${say.text('most')} at most` }),
};
