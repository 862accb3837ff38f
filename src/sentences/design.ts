import { CORNER } from './corner.ts';
import { DOCUMENT } from './document.ts';
import { SEARCHED, suggestion } from './input.ts';
import { LOADS } from './loads.ts';
import type { Sentences } from './say.ts';

const TYRE = "{ overallRadius, width } in mm, or its marking: '205/55R16'";

/** What is said about the options of a design. */
export const DESIGN: Sentences = {
  ...CORNER,
  unknownField: DOCUMENT.unknownField,
  notAnObject: (say) => ({ problem: 'not an object', allowed: `{ ${say.text('allowed')} }` }),
  notASignal: SEARCHED.notASignal,
  notARange: { problem: 'not a range', allowed: '[min, max] in mm, the first the smaller' },
  boxWithoutDrawnCorner: (say) => ({
    problem: 'a box without the corner as drawn in it',
    allowed: `a range with ${say.text('drawn')} in it`,
    advice: say.is('isMirrored')
      ? 'the corner is mirrored: y counts outboard'
      : 'widen it, or draw the mount inside',
  }),
  emptyBox: {
    problem: 'nothing that may be moved',
    allowed: '{ y: [min, max], z: [min, max] }, or one of them',
  },
  noBoxes: (say) => ({
    problem: 'nothing that may be moved',
    allowed: `boxes of one or more of ${say.text('points')}`,
  }),
  noObjectives: {
    problem: 'not a list of objectives',
    allowed: "[{ quantity: 'designRatio', target: 0.6 }, ...]",
  },
  notAnObjective: { problem: 'not an objective', allowed: '{ quantity, target }, or { quantity, min, max }' },
  unknownObjective: (say) => ({ problem: 'unknown objective', ...suggestion(say) }),
  targetAndBounds: {
    problem: 'both a target and bounds',
    allowed: 'target, or min or max or both',
    advice: 'take one out',
  },
  noGoal: {
    problem: 'no goal',
    allowed: 'target, or min or max or both',
    advice: 'say what it should be',
  },
  boundsReversed: { problem: 'min is more than max', allowed: 'min <= max' },
  missingForce: { problem: 'missing', allowed: '[y, z] in N' },
  notAWheelForce: { problem: 'not a force', allowed: '[y, z] in N' },
  springMissing: {
    problem: 'missing',
    allowed: '{ diameter, seatOffset } in mm',
    advice: 'say how thick it is, and where it begins',
  },
  tyreMissing: { problem: 'missing', allowed: TYRE },
  notATyre: { problem: 'not a tyre', allowed: TYRE },
  linkageCannotMove: { problem: 'the linkage cannot be moved' },
  travelNotReached: (say) => ({
    problem: `the linkage does not reach the required ${say.text('side')}: it ends at ${say.measure('travel', 'length')}`,
  }),
  columnNotDefined: (say) => ({ problem: `${say.text('column')} is not defined throughout` }),
  valueNotDefined: { problem: 'a value is not defined' },
  coiloverCarriesNothing: LOADS.coiloverCarriesNothing,
  forceNotDetermined: { problem: 'a force is not determined' },
};
