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

/** Values of each check, by its code. */
const VALUES = {
  surveyNotConverged: {
    status: z.enum(['stalled', 'iterationLimit', 'notFinite']).describe('How the search ended.'),
  },
  lengthSuspect: { ...reading, error: quantity('length', 'Measured minus what all others say') },
  angleSuspect: {
    ...reading,
    angleError: quantity('angle', 'Measured minus what all others say'),
    fitsAsComplement: yesOrNo('Whether 90 degrees minus the reading fits'),
  },
  foreAftSuspect: { point: text('Point whose x is likely wrong') },
  pointsMirrored: {
    points: texts('Points that may lie mirrored', 'A point'),
    read: z.enum(['height', 'lateral']).describe('What to read.'),
    of: text('The point to read it of'),
    taken: quantity('length', 'Where it was taken to be'),
    other: quantity('length', 'Where it may be'),
  },
  readingsContradict: {
    chiSquare: bareNumber('Sum of the squares of residual ÷ standard deviation'),
    degreesOfFreedom: bareNumber('Redundant readings'),
    pValue: bareNumber('Probability of differing as much or more'),
    birgeRatio: bareNumber('Scatter ÷ that stated'),
    widened: bareNumber('Factor of the intervals of the points'),
    suspects: bareNumber('Suspected misreadings'),
  },
  surveyUnchecked: {},
} satisfies Readonly<Record<string, z.ZodRawShape>>;

const CODES = Object.keys(VALUES);
const checkOf = <Values extends z.ZodRawShape>(code: string, values: Values) =>
  z.strictObject({ code: takes(z.literal(code).describe('What it is.'), CODES), ...values });
const [first, ...others] = Object.entries(VALUES).map(([code, values]) => checkOf(code, values));

/** What a survey left to look at in its points. */
export const surveyChecksSchema = z
  .array(
    takes(
      z
        .discriminatedUnion('code', [first, ...others])
        .meta({ id: 'surveyCheck', description: 'Something to look at, as writeSurveyedCorner writes it.' }),
      'surveyCheck',
    ),
  )
  .describe(
    'What the survey of these points left to look at; the sizing shows it. Take out what is settled.',
  );
