// What a survey leaves to look at, as a file keeps it: code and values of a diagnostic, which `sentences/survey.ts` words.

import * as z from 'zod';
import { bareNumber, quantity, takes } from './quantity.ts';

const text = (description: string) => z.string().describe(`${description}.`);
const texts = (description: string, each: string) => z.array(text(each)).describe(`${description}.`);
const yesOrNo = (description: string) => z.boolean().describe(`${description}.`);
const reading = {
  reading: text('Place of the reading in the survey'),
  points: texts('Points that it was read between', 'A point'),
  or: texts('Readings of which one is wrong if this is not', 'Place of a reading'),
};

const CODES = [
  'surveyNotConverged',
  'lengthSuspect',
  'angleSuspect',
  'foreAftSuspect',
  'pointsMirrored',
  'readingsContradict',
  'surveyUnchecked',
] as const;
type Code = (typeof CODES)[number];

function checkOf<One extends Code, Values extends z.ZodRawShape>(code: One, what: string, values: Values) {
  return z
    .strictObject({ code: takes(z.literal(code).describe('What it is.'), CODES), ...values })
    .describe(`${what}.`);
}

/** Each check of a survey as a file keeps it, by its code. */
export const surveyCheckSchemas = {
  surveyNotConverged: checkOf('surveyNotConverged', 'The search for the points did not converge', {
    status: z.enum(['stalled', 'iterationLimit', 'notFinite']).describe('How the search ended.'),
  }),
  lengthSuspect: checkOf('lengthSuspect', 'A length is likely misread', {
    ...reading,
    error: quantity('length', 'Reading minus what all others say, positive if it is too large'),
  }),
  angleSuspect: checkOf('angleSuspect', 'An angle is likely misread', {
    ...reading,
    angleError: quantity('angle', 'Reading minus what all others say, positive if it is too large'),
    fitsAsComplement: yesOrNo('Whether 90 degrees minus the reading fits'),
  }),
  foreAftSuspect: checkOf('foreAftSuspect', 'The fore-aft position of a point is likely wrong', {
    point: text('Point whose x is likely wrong'),
  }),
  pointsMirrored: checkOf(
    'pointsMirrored',
    'Points may lie on the other side: a mirror keeps all distances',
    {
      points: texts('Points that may lie mirrored', 'A point'),
      read: z.enum(['height', 'lateral']).describe('What to read.'),
      of: text('The point to read it of'),
      taken: quantity(
        'length',
        'Where it was taken to be: height above the ground, or outboard from the centreline',
      ),
      other: quantity('length', 'Where it may be, counted alike: up or outboard positive'),
    },
  ),
  readingsContradict: checkOf(
    'readingsContradict',
    'The readings scatter more than their plus-minus allows',
    {
      chiSquare: bareNumber('Sum of the squares of residual ÷ standard deviation, never negative'),
      degreesOfFreedom: bareNumber('Redundant readings, never negative'),
      pValue: bareNumber('Probability of differing as much or more, never negative'),
      birgeRatio: bareNumber('Scatter ÷ that stated, positive'),
      widened: bareNumber('Factor of the intervals of the points, positive'),
      suspects: bareNumber('Number of suspected misreadings, never negative'),
    },
  ),
  surveyUnchecked: checkOf('surveyUnchecked', 'No reading checks another', {}),
} satisfies { readonly [One in Code]: z.ZodObject };

/** What a survey left to look at in its points. */
export const surveyChecksSchema = z
  .array(
    takes(
      z
        .discriminatedUnion('code', [
          surveyCheckSchemas.surveyNotConverged,
          surveyCheckSchemas.lengthSuspect,
          surveyCheckSchemas.angleSuspect,
          surveyCheckSchemas.foreAftSuspect,
          surveyCheckSchemas.pointsMirrored,
          surveyCheckSchemas.readingsContradict,
          surveyCheckSchemas.surveyUnchecked,
        ])
        .meta({ id: 'surveyCheck', description: 'Something to look at, as writeSurveyedCorner writes it.' }),
      'surveyCheck',
    ),
  )
  .describe(
    'What the survey of these points left to look at; the sizing shows it. Take out what is settled.',
  );
