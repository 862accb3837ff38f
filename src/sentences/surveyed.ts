import { CORNER } from './corner.ts';
import type { PlainSentences } from './plain.ts';

const READ: Readonly<Record<string, string>> = {
  height: 'the height of',
  lateral: 'the lateral distance of',
};

/** What is said about a survey that is made a corner, and a file that it is written into. */
export const SURVEYED: PlainSentences = {
  ...CORNER,
  notASurvey: { problem: 'not a survey', allowed: 'what survey(...) returns' },
  pointMissing: (say) => ({
    problem: `missing: the survey has ${say.list('there').join(', ')}`,
    advice: say.has('otherName')
      ? `name ${say.text('otherName')} so in the survey: ${say.text('otherName')} is its name inside a part of a car file`
      : say.is('followsFromCamber')
        ? 'survey it, or give the camber'
        : 'give the point that is meant this name, or survey it',
  }),
  pointNotDetermined: (say) => ({
    problem: 'not fixed by the readings',
    advice: `read ${say
      .list('of')
      .map((point, k) => `${READ[say.list('read')[k]]} ${point}`)
      .join(' and ')}`,
  }),
  cornerNotNamed: { problem: 'missing', allowed: 'front, rear', advice: 'say which corner of the car' },
  oneCornerOnly: {
    problem: 'a file of one corner has no front or rear',
    advice: 'leave corner out',
  },
  otherKindInFile: {
    problem: 'not the kind of the corner in the file',
    advice: 'leave kind out, or take the corner out of the file first',
  },
};
