import { BOUNDED, COLUMNS, meant, SEARCHED, suggestion } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSay, PlainSentences } from './plain.ts';

const STEPS = (say: PlainSay) => `mm, more than 0, ${say.text('maxRows')} rows at most`;

/** What is said about a corner, a sweep, and how far hardpoints may be off. */
export const CORNER: PlainSentences = {
  ...LINKAGE,
  ...BOUNDED,
  ...COLUMNS,
  notACorner: (say) => ({
    problem: 'not a corner',
    allowed: `what ${say
      .list('makers')
      .map((name) => `${name}(...)`)
      .join(', ')
      .replace(/, ([^,]+)$/, ' or $1')} returns`,
    advice: 'make the corner with one of them first',
  }),
  outsideSweep: (say) => ({
    problem: 'outside the sweep',
    got: `${say.text('got')} mm`,
    allowed: `${say.text('min')} mm (${say.text('minStatus')}) to ${say.text('max')} mm (${say.text('maxStatus')})`,
  }),
  notADistance: { problem: 'not a distance', allowed: 'mm, 0 or more; droop counts downward' },
  notAStep: (say) => ({ problem: 'not a step', allowed: STEPS(say) }),
  tooManyRows: (say) => ({ problem: 'too many rows', allowed: STEPS(say) }),
  columnTwice: { problem: 'column named twice', advice: 'take one out' },
  unknownColumn: { problem: 'unknown column' },
  notADrawCount: (say) => ({
    problem: 'not a number of draws',
    allowed: `a whole number, ${say.text('min')} to ${say.text('max')}`,
  }),
  notASeed: SEARCHED.notASeed,
  plusMinusMissing: {
    problem: 'not given, nor in the corner',
    allowed: 'mm for all coordinates, or { lowerInnerY: mm, ... }',
    advice: 'give it, or write coordinates of the corner as { value, plusMinus }',
  },
  notAHalfWidth: (say) => ({
    problem: 'not a half-width',
    allowed: say.is('ofAll') ? 'mm, 0 or more, or { lowerInnerY: mm, ... }' : 'mm, 0 or more',
  }),
  unknownCoordinate: (say) => ({
    problem: 'unknown coordinate',
    advice: say.is('followsFromCamber')
      ? 'the contact patch follows from the camber that was given: take it out'
      : meant(say, 'correct the name, or take it out'),
  }),
  unknownJoint: (say) => ({ problem: 'unknown joint', ...suggestion(say) }),
  notCoordinates: { problem: 'not a list of coordinates' },
  notASquareMatrix: (say) => ({
    problem: 'not a square matrix',
    allowed: `${say.text('size')} rows of ${say.text('size')} finite numbers, mm²`,
  }),
  negativeVariance: { problem: 'a negative variance' },
  notSymmetric: (say) => ({ problem: `not the same as ${say.text('other')}` }),
  notACovariance: {
    problem: 'not a covariance: a sum of coordinates would have a negative variance',
    advice: 'take it as a survey gives it',
  },
  notATyreSize: {
    problem: 'not a size marking',
    allowed: 'width/ratio R rim, as "205/55R16"',
    advice: 'copy it from the side wall, or give { overallRadius, width }',
  },
  bearingSizeOutOfRange: (say) => ({
    problem: 'out of range',
    allowed: say.has('below') ? `mm, between 0 and ${BELOW[say.text('below')]}` : 'mm, more than 0',
  }),
  rateBesideFrequency: {
    problem: 'given beside springRate, from which it follows',
    advice: 'take one of the two out',
  },
};

const BELOW: Readonly<Record<string, string>> = {
  ballDiameter: 'the diameter of the ball',
  ballWidth: 'the width of the ball',
};
