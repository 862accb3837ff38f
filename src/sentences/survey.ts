import { spaced } from '../words.ts';
import type { Say, Sentences } from './say.ts';

/** A reading in words, by the list that it stands in and its points: `distance from lower inner to lower outer`. */
export function readingLabel(reading: string, points: readonly string[]): string {
  const [a, b, c] = points.map(spaced);
  switch (reading.replace(/\[.*/, '')) {
    case 'distances':
      return `distance from ${a} to ${b}`;
    case 'heights':
      return `height of ${a} above ${b ?? 'the ground'}`;
    case 'laterals':
      return `lateral distance of ${a} from ${b ?? 'the centreline'}`;
    case 'inclinations':
      return `inclination of the line of ${a} and ${b}`;
    case 'slopes':
      return `slope of the line of ${a} and ${b}`;
    default:
      return `${a} in line with ${b} and ${c}`;
  }
}

/** `distance from lower inner to lower outer (distances[3])`. */
const reading = (say: Say) =>
  `${readingLabel(say.text('reading'), say.list('points'))} (${say.text('reading')})`;
const redundant = (say: Say) =>
  `${say.text('degreesOfFreedom')} redundant ${say.number('degreesOfFreedom') === 1 ? 'reading' : 'readings'}`;
const chiSquare = (say: Say) => `chi-square ${say.number('chiSquare').toFixed(1)} with ${redundant(say)}`;
const widened = (say: Say) => `${say.number('widened').toFixed(1)} times as wide`;
const names = (say: Say, name = 'points') =>
  say
    .list(name)
    .map(spaced)
    .join(', ')
    .replace(/, ([^,]*)$/, ' and $1');
const coordinate = (say: Say) => (say.text('read') === 'height' ? 'height' : 'lateral distance');
const of = (say: Say) => spaced(say.text('of'));

/** What is said about a reading that is likely wrong by so much. */
function suspect(error: (say: Say) => string, hint: (say: Say) => string) {
  return (say: Say) => {
    const by = `by ${error(say).startsWith('-') ? '' : '+'}${error(say)}`;
    const or = say.list('or').join(', ');
    const places = say.text('reading').startsWith('distances')
      ? ', and the fore-aft places (x) of its ends,'
      : '';
    return or === ''
      ? {
          problem: `a reading of the survey is likely wrong, ${by}: ${reading(say)}`,
          advice: `read it again${places} before anything is built on these points${hint(say)}`,
        }
      : {
          problem: `one reading of the survey is likely wrong, perhaps this one, ${by}: ${reading(say)}`,
          advice: `nothing tells it from ${or}: read them again, or add a reading${hint(say)}`,
        };
  };
}

/** What is said about what a survey found. */
export const SURVEY: Sentences = {
  surveyNotConverged: (say) => ({
    problem: NOT_CONVERGED[say.text('status')],
    advice: 'try other first estimates before anything is built on these points',
  }),
  pointsUndetermined: (say) => {
    const [read, of] = [say.list('read'), say.list('of').map(spaced)];
    const what = read.map((one, k) =>
      one === 'height'
        ? `the height of ${of[k]} above the ground`
        : `the lateral distance of ${of[k]} from the centreline`,
    );
    return {
      problem: say.is('isAll')
        ? 'no point is determined: all can still move together'
        : `${names(say)} ${say.list('points').length > 1 ? 'are' : 'is'} not determined`,
      advice: `read ${what.join(' and ')}`,
    };
  },
  pointsMirrored: (say) => ({
    problem: `the survey fits as well with ${names(say)} mirrored, the ${coordinate(say)} of ${of(say)} then being ${say.measure('other', 'length')} in place of ${say.measure('taken', 'length')}: the first estimate decided`,
    advice: `read the ${coordinate(say)} of ${of(say)}`,
  }),
  estimateMirrored: (say) => ({
    problem: `the first estimate had ${names(say)} on the wrong side: the readings put the ${coordinate(say)} of ${of(say)} at ${say.measure('taken', 'length')}, not ${say.measure('other', 'length')}`,
  }),
  foreAftSuspect: (say) => ({
    problem: `the fore-aft place (x) of ${spaced(say.text('point'))} in the survey is likely wrong: without the distances from it all other readings agree`,
    advice: 'check it before any reading',
  }),
  lengthSuspect: suspect(
    (say) => say.measure('error', 'length'),
    () => '',
  ),
  angleSuspect: suspect(
    (say) => say.measure('angleError', 'angle'),
    (say) =>
      say.is('fitsAsComplement')
        ? '; 90 deg minus the reading fits: was it counted from the other line?'
        : '',
  ),
  readingsContradict: (say) => ({
    problem: 'the readings of the survey contradict each other',
    got: `a scatter ${say.number('birgeRatio').toFixed(1)} times that stated, ${chiSquare(say)}`,
    advice: `the intervals of its points are ${widened(say)} for it, which covers half-widths that are all too small, not a misreading${say.number('suspects') > 0 ? ': correct the readings first' : ''}`,
  }),
  readingsAgree: (say) => ({
    problem: `the readings agree as well as their plus-minus says: ${chiSquare(say)}`,
  }),
  readingsAgreeWell: (say) => ({
    problem: `the readings agree better than their plus-minus says: ${chiSquare(say)}`,
  }),
  intervalsWidened: (say) => ({
    problem: `the intervals of all points are ${widened(say)} as the plus-minus of the readings gives: that covers half-widths that are all too small by one factor, not a misreading`,
  }),
  readingsNotComparable: { problem: "the readings can't be set against each other" },
  leastSure: (say) => ({
    problem: `the least certain coordinate is the ${coordinate(say)} of ${of(say)}: ± ${say.measure('plusMinus', 'length')}`,
    ...(say.is('isRough') ? { advice: `read the ${coordinate(say)} itself` } : {}),
  }),
  readingUnchecked: (say) => ({
    problem: `nothing checks this reading: ${reading(say)}`,
  }),
  surveyUnchecked: {
    problem: 'no reading of the survey checks another: a misreading would go unseen',
    advice: 'add readings',
  },
};

const NOT_CONVERGED: Readonly<Record<string, string>> = {
  stalled:
    'the search for the surveyed points came to a stop before the best places: these are the best so far',
  iterationLimit:
    'the search for the surveyed points reached its limit of steps: these are the best places so far',
  notFinite: "the readings can't be computed from the places of the surveyed points",
};
