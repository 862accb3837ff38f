// What a survey found, in plain words.

import { fromMetric, unitName } from '../units.ts';
import { spaced } from '../words.ts';
import { fitsAsComplement } from './checks.ts';
import {
  type MirrorSolution,
  type Survey,
  type SuspectReading,
  UNLIKELY,
  type UndeterminedPoints,
} from './result.ts';
import { deviationFactor, intervalFactor } from './scale.ts';

/** A point known no better than this is hardly known, mm. */
const ROUGH = 10;

/** The sentences on a survey: how it ended, how well the readings agree, and what to look at again. */
export function sentencesOn(survey: Omit<Survey, 'sentences'>): string[] {
  const { notes, mirrorSolutions, suspects } = survey;
  const say = measureIn(survey.units);
  return [
    ...notes.map(({ path, text }) => `Look again at ${path}: ${text}`),
    ...endSentence(survey),
    ...unfixedSentences(survey),
    ...mirrorSolutions.map((one) => mirroredSentence(one, survey, say)),
    ...survey.foreAftSuspects.map(
      (name) =>
        `Likely wrong: the fore-aft place (x) of ${spaced(name)}. Without the distances from it all other readings agree. Check it before any reading.`,
    ),
    ...suspects.map((suspect) => suspectSentence(suspect, survey, say)),
    agreement(survey),
    ...widening(survey),
    ...sureness(survey, say),
    ...unchecked(survey),
  ];
}

/** Writes a value with its unit, as the document has it. */
type Say = (value: number, unit: 'mm' | 'deg', isSigned?: boolean) => string;

function measureIn(units: Survey['units']): Say {
  return (value, unit, isSigned = false) => {
    const isAngle = unit === 'deg';
    const shown = isAngle ? value : fromMetric(value, 'length', units);
    const decimals = isAngle || units === 'imperial' ? 2 : 1;
    const text = shown.toFixed(decimals);
    const figure = Number(text) === 0 ? text.replace('-', '') : text;
    const name = isAngle ? 'degrees' : unitName('length', units);
    return `${isSigned && value > 0 ? '+' : ''}${figure} ${name}`;
  };
}

function endSentence({ status }: Survey | Omit<Survey, 'sentences'>): string[] {
  switch (status) {
    case 'converged':
      return [];
    case 'stalled':
      return [
        'The search came to a stop before the best places: these are the best so far; try other first estimates.',
      ];
    case 'iterationLimit':
      return ['The search found no end: these are the best places so far; try other first estimates.'];
    case 'notFinite':
      return ["The readings can't be computed from these places: try other first estimates."];
  }
}

/** One sentence for all that hangs on the same readings. */
function unfixedSentences({ undetermined, points }: Omit<Survey, 'sentences'>): string[] {
  const groups = new Map<string, UndeterminedPoints[]>();
  for (const one of undetermined) {
    const key = JSON.stringify(one.points);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const sought = Object.values(points).filter(({ status }) => status !== 'known').length;
  return [...groups.values()].map((group) => {
    const [{ points: hanging }] = group;
    const isAll = hanging.length === sought && sought > 1;
    const who = isAll
      ? 'No point is determined: all can still move together'
      : `${upper(list(hanging))} ${hanging.length > 1 ? 'are' : 'is'} not determined`;
    const what = group.map(({ read, of }) =>
      read === 'height'
        ? `the height of ${spaced(of)} above the ground`
        : `the lateral distance of ${spaced(of)} from the centreline`,
    );
    return `${who}; read ${what.join(' and ')}.`;
  });
}

function mirroredSentence(
  { points, other, isTold, read, of }: MirrorSolution,
  { points: taken }: Omit<Survey, 'sentences'>,
  say: Say,
): string {
  const axis = read === 'height' ? 1 : 0;
  const what = read === 'height' ? 'height' : 'lateral distance';
  const [here, there] = [taken[of].at[axis], other[of][axis]].map((value) => say(value, 'mm'));
  return isTold
    ? `The first estimate had ${list(points)} on the wrong side: the readings put the ${what} of ${spaced(of)} at ${here}, not ${there}.`
    : `${upper(list(points))} could as well lie mirrored, the ${what} of ${spaced(of)} being ${there} instead of ${here}: the first estimate decided. Read that ${what}.`;
}

function suspectSentence(
  { candidates }: SuspectReading,
  survey: Omit<Survey, 'sentences'>,
  say: Say,
): string {
  const each = candidates.map(({ path, label, error, unit }) => {
    const hint = fitsAsComplement(survey, path, error)
      ? ' (90 degrees minus the reading fits: was it counted from the other line?)'
      : '';
    return `${label} (${path}), by ${say(error, unit, true)}${hint}`;
  });
  return each.length === 1
    ? `Likely misread: ${each[0]}. Read it again.`
    : `One of these is likely misread, and nothing tells which: ${each.join('; ')}. Read them again, or add a reading.`;
}

function agreement({ pValue, chiSquare, degreesOfFreedom, suspects }: Omit<Survey, 'sentences'>): string {
  if (degreesOfFreedom === 0) return 'No reading checks another: a misreading would go unseen.';
  if (chiSquare === null || pValue === null) return "The readings can't be set against each other.";
  const spread = Math.sqrt(chiSquare / degreesOfFreedom);
  const count = degreesOfFreedom === 1 ? '1 redundant reading' : `${degreesOfFreedom} redundant readings`;
  const figures = `chi-square ${chiSquare.toFixed(1)} with ${count}`;
  if (suspects.length > 0) {
    return pValue < UNLIKELY ? `The readings contradict each other: ${figures}.` : `${upper(figures)}.`;
  }
  if (pValue < UNLIKELY) {
    return `The readings scatter ${spread.toFixed(1)} times as much as their plus-minus says: ${figures}.`;
  }
  if (1 - pValue < UNLIKELY) {
    return `The readings agree better than their plus-minus says: ${figures}.`;
  }
  return `The readings agree as well as their plus-minus says: ${figures}.`;
}

/** Half-widths below this factor are hardly wider. */
const HARDLY_WIDER = 1.05;

/** That intervals are wider than the readings say, and by how much. */
function widening({ scale, suspects }: Omit<Survey, 'sentences'>): string[] {
  const factor = deviationFactor(scale) * intervalFactor(scale);
  if (factor < HARDLY_WIDER) return [];
  const uncovered =
    suspects.length > 0
      ? 'That covers half-widths that are all too small, not a misreading: correct the readings first.'
      : 'That covers half-widths that are all too small by one factor, not one misreading.';
  return [
    `The intervals of all points are ${factor.toFixed(1)} times as wide as the plus-minus of the readings gives. ${uncovered}`,
  ];
}

/** The coordinate known least well. */
function sureness({ points }: Omit<Survey, 'sentences'>, say: Say): string[] {
  const widths = Object.entries(points).flatMap(([name, { plusMinus }]) =>
    plusMinus.flatMap((width, axis) => (width === null ? [] : [{ name, width, axis }])),
  );
  if (widths.length === 0) return [];
  const worst = widths.reduce((a, b) => (b.width > a.width ? b : a));
  if (worst.width === 0) return [];
  const what = worst.axis === 0 ? 'lateral place' : 'height';
  const advice =
    worst.width > ROUGH ? `; read the ${worst.axis === 0 ? 'lateral distance' : 'height'} itself` : '';
  return [
    `Least sure is the ${what} of ${spaced(worst.name)}: plus or minus ${say(worst.width, 'mm')}${advice}.`,
  ];
}

function unchecked({ readings, degreesOfFreedom }: Omit<Survey, 'sentences'>): string[] {
  const alone = readings.filter(({ standardised }) => standardised === null).map(({ label }) => label);
  if (alone.length === 0 || degreesOfFreedom === 0) return [];
  return [`Nothing checks ${alone.length === 1 ? 'this reading' : 'these readings'}: ${alone.join('; ')}.`];
}

function list(points: readonly string[]): string {
  return points
    .map(spaced)
    .join(', ')
    .replace(/, ([^,]*)$/, ' and $1');
}

function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
