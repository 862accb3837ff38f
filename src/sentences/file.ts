import { counted } from '../words.ts';
import { AXLE_PARTS } from './axle-parts.ts';
import { CORNER } from './corner.ts';
import {
  alternatives,
  bareNumber,
  DOCUMENT,
  EXPECTED,
  type Expected,
  fields,
  kindSentences,
} from './document.ts';
import { suggestion } from './input.ts';
import type { Words } from './plain.ts';
import type { Say, Sentences } from './say.ts';

/** What is expected in the parts of files. */
const IN_FILES: Expected = {
  ...EXPECTED,
  units: 'metric (mm, kg), imperial (in, lb)',
  surveyCheck: 'a check as writeSurveyedCorner writes it',
  remarks: 'a text or a list of texts',
  tyre: (say) => `${fields(say)} or a text`,
  parts: (say) => `a list of parts ${fields(say)}, one at least`,
  loads: (say) => `a list of loads ${fields(say)}, one at least`,
  loadNames: 'a list of names of added loads, as ["driver"]',
  states: (say) => `a list of states ${fields(say)}, one at least`,
  stateLoads: (say) => `a list of names of added loads, or of loads ${fields(say)}; [] for the empty car`,
  load: (say) => `a name of an added load, or a load ${fields(say)} of its own`,
  springs: (say) => `a list of springs ${fields(say)}, one at least`,
  speeds: 'a list of speeds, one at least',
  shaftSpeeds: 'a list of shaft speeds, one at least',
  bumpStopTable: 'a list of pairs [compression, force], both rising',
  forceTable: 'a list of rows [shaft speed, compression force, rebound force], speeds rising',
  readings: (say) => `a list of readings [${fields(say)}, ...]`,
};

/** What is said about texts that are no JSON. */
const JSON_TEXT: Sentences = {
  notJson: slip({ problem: 'not JSON', advice: 'compare the text with the example files' }),
  jsonComment: slip({
    problem: 'a comment, which JSON does not allow',
    advice: 'put it into "notes": "..." or take it out',
  }),
  jsonTooDeep: slip({ problem: 'brackets nested too deeply', advice: 'take them out' }),
  jsonNameTwice: (say) => ({
    problem: `written twice, again at ${place(say)}`,
    advice: 'take one out: only the last would count',
  }),
  jsonColonMissing: slip((say) => ({
    problem: `a colon is missing after "${say.text('name')}"`,
    advice: `write "${say.text('name')}": and then its value`,
  })),
  jsonOtherBracket: slip((say) => ({
    problem: `"${say.text('open')}" of ${place(say)} is closed by another bracket`,
    advice: `close it with ${say.text('close')} first`,
  })),
  jsonBracketNotClosed: slip((say) => ({
    problem: `the text ends before "${say.text('open')}" of ${place(say)} is closed`,
    advice: `close it with ${say.text('close')}`,
  })),
  jsonNumberGoesOn: slip((say) => ({
    problem: 'what follows the number does not belong to it',
    advice: `${bareNumber(say)}; "units" says once what all of them are in`,
  })),
  jsonSemicolon: slip({ problem: 'a semicolon, where a comma belongs', advice: 'write , for ;' }),
  jsonCommaMissing: slip((say) => ({
    problem: 'a comma is missing before this',
    advice: `put one after what ends on line ${say.text('line')}`,
  })),
  jsonCommaTooMany: slip((say) => ({
    problem: 'a comma too many',
    allowed: 'a comma only between two values',
    advice: say.has('close')
      ? `nothing follows it before ${say.text('close')}: take it out, or write what is missing`
      : 'take it out',
  })),
  jsonNameMissing: slip((say) => ({
    problem: 'a name in double quotes is missing here',
    ...quotesAdvice(say.text('sign')),
  })),
  jsonNameWithoutQuotes: slip((say) => ({
    problem: 'a name without quotes',
    advice: `write "${say.text('name')}"`,
  })),
  jsonTextNotClosed: slip({ problem: 'a text that is not closed on its line', advice: 'end it with "' }),
  jsonControlSign: slip({ problem: 'a tab or another control character in a text', advice: 'write a space' }),
  jsonBackslash: slip({ problem: 'a backslash in a text', advice: 'write it twice: \\\\' }),
  jsonNumber: slip((say) => ({
    problem: 'not a number as JSON writes it',
    advice: say.has('meant') ? `write ${say.text('meant')}` : 'write it as 12.5 or -12.5',
  })),
  jsonNotFinite: slip({
    problem: 'not a number as JSON writes it',
    advice: 'write the number, or leave the whole entry out',
  }),
  jsonValueMissing: slip((say) => ({ problem: 'a value is missing here', ...signAdvice(say.text('sign')) })),
  jsonTextWithoutQuotes: slip((say) => ({
    problem: 'a text without quotes',
    advice: `write "${say.text('text')}"`,
  })),
  jsonEmpty: slip({ problem: 'nothing in it', advice: 'start from one of the example files' }),
  jsonFileName: slip({
    problem: 'the name of a file, not what is in it',
    advice: 'read the file, and give its text',
  }),
  jsonMoreText: slip({
    problem: 'more text after the end',
    advice: 'take it out, or look for a bracket that closes too early',
  }),
};

/** A sentence about a place in a text, at which its end or that of a line may stand. */
function slip(words: Words | ((say: Say) => Words)): (say: Say) => Words {
  return (say) => ({
    ...(say.has('endOf') ? { got: `the end of the ${say.text('endOf')}` } : {}),
    ...(typeof words === 'function' ? words(say) : words),
  });
}

function place(say: Say): string {
  return `line ${say.text('line')}, column ${say.text('column')}`;
}

/** What to do about quotation marks that are none to JSON. */
function quotesAdvice(sign: string): { advice?: string } {
  return /['‘’“”„`]/.test(sign) ? { advice: 'write straight double quotes: "' } : {};
}

/** What to do about a sign where a value belongs; the text ends where there is none. */
function signAdvice(sign: string): { advice?: string } {
  if (sign === '') return { advice: 'the text is not complete' };
  if (/[−–—]/.test(sign)) return { advice: 'write the short minus of the keyboard: -' };
  if (sign === '(') return { advice: 'write square brackets round a point: [y, z]' };
  if (/[,\]}]/.test(sign)) return { advice: 'write one, or take the whole entry out' };
  if (sign === '?') return { advice: 'leave the whole entry out if you do not know it' };
  return {
    advice: 'take it out: JSON does not allow this character, which may be invisible',
    ...quotesAdvice(sign),
  };
}

/** A length that is not less than another. */
function notLess(advice: string | ((say: Say) => string), than?: string): (say: Say) => Words {
  return (say) => ({
    problem: `not less than ${than ?? say.text('than')}`,
    got: `${say.text('got')} ${say.unit('length')}`,
    allowed: `less than ${say.given('below', 'length')}`,
    advice: typeof advice === 'string' ? advice : advice(say),
  });
}

/** A name that none of those given bears. */
function noneNamed(what: string): (say: Say) => Words {
  return (say) => ({
    problem: `no ${what} of this name`,
    ...(say.text('allowed') === '' ? { allowed: `a name among ${what}s, and none is given` } : {}),
  });
}

/** What is said about limits, and about what was ordered. */
const PARTS: Sentences = {
  damperLengthsExchanged: notLess(() => 'are the two lengths exchanged?'),
  bumpStopHeightsExchanged: notLess(
    (say) =>
      `${say.text('large')} is the free height, ${say.text('small')} the solid height: are the two exchanged?`,
  ),
  strokeNotLessThanLength: notLess(
    (say) => `${say.text('large')} is eye to eye, ${say.text('small')} how far the damper moves`,
  ),
  bumpStopAsHighAsStroke: notLess(
    'a stop as high as the stroke leaves nothing of it: check it and the lengths of the damper',
    "the damper's stroke",
  ),
  springNotAtRide: (say) => ({
    problem: 'the spring does not fit at design ride height',
    got: `${say.text('got')} ${say.unit('length')}`,
    allowed: `compressedLength below ${say.given('length', 'length')}, extendedLength above`,
  }),
  lengthsExchanged: notLess('check both lengths: are they exchanged?'),
  bumpStopWithoutDamper: (say) => ({
    problem: 'a bump stop without a damper',
    advice: `give damper: ${fields(say)} too: its heights count from the compressed length`,
  }),
  archWithoutTyre: {
    problem: 'an arch without a tyre',
    advice: 'give tyre: { overallRadius, width }, or its marking as "205/55R16"',
  },
  noDirection: {
    problem: 'no direction',
    allowed: 'a direction [y, z] other than [0, 0]: [0, 1] is up',
  },
  endDoesNotMove: (say) => ({
    problem: 'an end that does not move in this corner',
    advice: `name it ${say.text('meant')}`,
  }),
  endMoves: (say) => ({
    problem: 'an end that moves in this corner',
    advice: `name it ${say.text('meant')}`,
  }),
  holdsNotThisJoint: (say) => ({ problem: 'not a part of this joint', ...suggestion(say) }),
  notARevision: { problem: 'not a revision as A or B2: letters and digits, 8 at most' },
  notADate: { problem: 'not a date as 2026-11-29: year, month, day' },
  dampingNotGiven: { problem: 'give compressionDamping and reboundDamping, or forceTable' },
  dampingMissing: (say) => ({
    problem: 'missing',
    allowed: `low-speed damping at the shaft, beside ${say.text('beside')}`,
  }),
  dampingBesideForceTable: {
    problem: 'says the same as forceTable',
    allowed: 'forceTable alone, or damping with its knee',
    advice: 'take one of the two out',
  },
  tableNotRising: (say) => ({
    problem: 'the table does not rise',
    got: `${say.text('got')} after ${say.text('after')}`,
    allowed: 'rows in order, with a larger first number and forces that do not fall',
  }),
  unknownLoad: noneNamed('added load'),
  unknownState: noneNamed('state'),
  loadNamedTwice: {
    problem: 'the same name twice',
    allowed: 'a name of its own',
    advice: 'aboard and states tell loads apart by their names',
  },
  stateNamedTwice: {
    problem: 'the same name twice',
    allowed: 'a name of its own',
    advice: 'states are told apart by their names',
  },
};

/** What is said about surveys, and about what a corner file has of one. */
const SURVEYED: Sentences = {
  pointNotPlaced: (say) => {
    const [estimate, known, pivotAxis] = say.list('oneOf');
    return { problem: `give one of ${estimate} [y, z], ${known} [y, z] and ${pivotAxis} [two points]` };
  },
  nameAlike: (say) => ({
    problem: `the same name as ${say.text('other')}`,
    advice: 'give one of the two another name, or take it out',
  }),
  unknownPoint: (say) => ({
    problem: 'unknown point',
    advice: 'add it to points, or correct the name',
    ...suggestion(say),
  }),
  axisThroughAxisPoint: (say) => ({
    problem: 'itself a point on an axis',
    advice: `give it ${alternatives(say, 'fields')}`,
  }),
  axisNotForeAndAft: (say) => ({
    problem: 'an axis that does not run fore and aft: both its points have the same x',
    advice: `give x of ${say.text('ends').replace(', ', ' and ')}: how far they lie forward of the wheel centre`,
  }),
  pointTwiceInReading: { problem: 'the same point twice in one reading' },
  coordinateWithoutPlusMinus: {
    problem: 'a coordinate without plusMinus',
    advice: 'write it as { value, plusMinus } at its point, or take it out here',
  },
  rowsNotOfCoordinates: (say) => ({
    problem: 'not a row for each coordinate',
    got: counted(say.text('rows'), 'row'),
    allowed: `${counted(say.text('required'), 'row')}, the first one empty`,
  }),
  rowNotOfCoordinatesBefore: (say) => ({
    problem: 'not a correlation with each coordinate before it',
    got: counted(say.text('count'), 'number'),
    allowed: counted(say.text('required'), 'number'),
  }),
  notCorrelations: {
    problem: 'not correlations: a sum of coordinates would have a negative variance',
    advice: 'take them as a survey gives them',
  },
};

const ENDS_OF: Readonly<Record<string, string>> = {
  shock: 'name the two end eyes of the coilover',
  kingpin: 'name two points of the axis that the wheel steers about',
  rod: 'name the two ends of the rod',
  rodOnRocker: 'name the end of the rod that is on the rocker',
};

/** What is said about a corner of any linkage. */
const CUSTOM: Sentences = {
  pointNotOnPart: (say) => ({ problem: `point not on the ${say.text('part')}` }),
  onePointForTwo: (say) => ({ problem: 'one point for two', advice: ENDS_OF[say.text('of')] }),
  twoPointsInOnePlace: (say) => ({ problem: 'two points in one place', advice: ENDS_OF[say.text('of')] }),
  columnNameTaken: (say) => ({
    problem: `its column would have the name of another, ${say.text('name')}`,
    advice: 'give it another name',
  }),
};

/** What is said about files and their parts, and about corners of any linkage. */
export const FILE: Sentences = {
  ...CORNER,
  ...AXLE_PARTS,
  ...DOCUMENT,
  ...kindSentences(IN_FILES),
  ...JSON_TEXT,
  ...PARTS,
  ...SURVEYED,
  ...CUSTOM,
  noMeasureOfACar: (say) => ({
    problem: 'out of range',
    allowed: `${say.text('min')} to ${say.text('max')}`,
    advice: 'look for a typing error',
  }),
  notAFile: { problem: 'not a file', allowed: 'a JSON text, or the value of one' },
  newerFormat: {
    problem: 'a file of a later format than this version of jounce reads',
    advice: 'update jounce',
  },
  carInPlaceOfCorner: {
    problem: 'a file of a whole car, where one corner is required',
    advice: 'take it as a car (readCar, jounce order), or one of its corners',
  },
  cornerInPlaceOfCar: {
    problem: 'a file of one corner, where a car is required',
    advice:
      'put the corner into "corners": { "front": { ... } }, or take it as one corner (readCorner, jounce corner)',
  },
};
