import { BOUNDED, SEARCHED } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** Why a linkage can't be tried. */
const NOT_TRIED: PlainSentences = {
  linkageNotTraced: { problem: 'the linkage cannot be traced over the range of the driver' },
  rangeNotReached: (say) => ({
    problem: `the linkage does not reach ${say.text('side')} of the driver: it ends at ${say.text('at')} (${say.text('status')})`,
  }),
  quantityNotDefined: { problem: 'a quantity, or its derivative, is not defined' },
};

/** What is said about quantities of a motion, and about what a linkage is designed for. */
export const SYNTHESIS: PlainSentences = {
  ...LINKAGE,
  ...BOUNDED,
  ...SEARCHED,
  ...NOT_TRIED,
  notALine: { problem: 'not a line', allowed: "the names of two points, ['A', 'B']" },
  rangeReversed: { problem: '`from` is more than `to`', allowed: 'from <= to' },
  nothingMoves: (say) => ({
    problem: 'nothing that may move',
    allowed: `boxes of one or more of ${say.text('points')}`,
  }),
  emptyMove: {
    problem: 'nothing that may move',
    allowed: '{ x: [min, max], y: [min, max] }, or one of them',
  },
  notAnInterval: { problem: 'not a range', allowed: '[min, max], the first the smaller' },
  boxWithoutDrawnPoint: (say) => ({
    problem: 'a box without the point as drawn in it',
    allowed: `a range with ${say.text('drawn')} in it`,
    advice: 'widen it, or draw the point inside',
  }),
  noSynthesisObjectives: {
    problem: 'not a list of objectives',
    allowed: "[{ path: 'P', through: [[x, y], ...] }, ...]",
  },
  notASynthesisObjective: {
    problem: 'not an objective',
    allowed: '{ path, through, at? }, { quantity, at, values } or { quantity, extreme, target }',
  },
  noPlaces: { problem: 'not a list of places', allowed: '[[x, y], ...]' },
  noValues: { problem: 'not a list of values', allowed: '[number, ...]' },
  notPrecisionPoints: (say) => ({
    problem: 'not the values of the driver at the precision points',
    allowed: `a list of ${say.text('count')} finite numbers${
      say.has('from') ? ` from ${say.text('from')} to ${say.text('to')}` : ''
    }`,
  }),
  noQuantityBounds: { problem: 'not a list of bounds', allowed: '[{ quantity, min, max }, ...]' },
  notQuantityBounds: { problem: 'not bounds', allowed: '{ quantity, min, max }, or one of the two' },
  boundsNotApart: {
    problem: 'min is not less than max',
    allowed: 'min < max',
    advice: 'for a fixed value, write an objective',
  },
};

/** What is said about a linkage that was found. */
export const SYNTHESISED: PlainSentences = {
  pointAtMin: (say) => ({
    problem: `${say.text('axis')} of ${say.text('point')} is at its minimum, ${say.text('at')}`,
  }),
  pointAtMax: (say) => ({
    problem: `${say.text('axis')} of ${say.text('point')} is at its maximum, ${say.text('at')}`,
  }),
  boundReached: (say) => ({
    problem: `the ${say.text('side')} is reached, at ${say.text('at')} of the driver`,
  }),
  boundExceeded: (say) => ({
    problem: `the ${say.text('side')} is not kept: ${say.text('value')} at ${say.text('at')} of the driver`,
  }),
  linkagesNotTried: (say) => {
    const words = NOT_TRIED[say.text('reason')];
    const why = typeof words === 'function' ? words(say) : words;
    return {
      problem: `${say.text('count')} of the ${say.text('trials')} linkages drawn could not be tried: ${why?.problem}`,
    };
  },
};
