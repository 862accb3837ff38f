import { spaced } from '../words.ts';
import type { Sentences } from './say.ts';

/** What is said about surveys, and about corners made from them. */
export const SURVEY: Sentences = {
  surveyNotConverged: (say) => ({
    problem: 'the search for the surveyed points did not converge',
    got: say.text('status'),
    advice: 'try other first estimates before anything is built on these points',
  }),
  surveySuspect: (say) => ({
    problem: `a reading of the survey is likely wrong: ${say.text('reading')} (${say.text('place')})`,
    got: `${say.number('error') > 0 ? '+' : ''}${say.measure('error', say.text('unit') === 'deg' ? 'angle' : 'length')} against all others`,
    advice: `read it again before anything is built on these points${say.text('fitsAsComplement') === 'true' ? '; 90 degrees minus the reading fits: was it counted from the other line?' : ''}`,
  }),
  surveySuspects: (say) => ({
    problem: `one reading of the survey is likely wrong, and nothing tells which: ${say.text('readings')}`,
    advice: 'read them again, or add a reading',
  }),
  surveyForeAft: (say) => ({
    problem: `the fore-aft place (x) of ${spaced(say.text('point'))} in the survey is likely wrong: without the distances from it all other readings agree`,
    advice: 'check it before any reading',
  }),
  surveyContradiction: (say) => ({
    problem: 'the readings of the survey contradict each other',
    got: `a scatter ${say.number('birgeRatio').toFixed(1)} times that stated, with ${say.text('degreesOfFreedom')} redundant ${say.number('degreesOfFreedom') === 1 ? 'reading' : 'readings'}`,
    advice: `the intervals of its points are ${say.number('widened').toFixed(1)} times as wide for it, which does not cover a misreading: read again what is suspected`,
  }),
  surveyMirrored: (say) => ({
    problem: `the survey fits as well with ${say.text('points').split(', ').map(spaced).join(', ')} mirrored: the first estimate decided`,
    got: `a ${say.text('coordinate')} of ${spaced(say.text('point'))} of ${say.measure('taken', 'length')}, the other being ${say.measure('other', 'length')}`,
    advice: `read the ${say.text('coordinate')} of ${spaced(say.text('point'))}`,
  }),
  surveyUnchecked: () => ({
    problem: 'no reading of the survey checks another: a misreading would go unseen',
    advice: 'add readings',
  }),
  surveyCheck: (say) => ({
    problem: `from the survey of these points: ${say.text('text')}`,
    advice: 'survey again, or take the sentence out of surveyChecks once it is settled',
  }),
};
