// Readings of a survey against the first guesses: those in another unit, and angles read from the other axis.

import { DEGREES, type Units } from '../../units.ts';
import type { Check } from '../check.ts';
import type { SurveyDocument } from '../survey-schema.ts';
import { type CheckRule, type Found, notesBy } from './check.ts';
import { unitMeant } from './ranges.ts';

/** A survey that is looked at, in the library's units. */
interface SurveySubject {
  readonly survey: SurveyDocument;
  readonly units: Units;
}

/** The largest size of a corner, from the centreline, mm. */
const LARGEST = { least: 300, most: 3000 };
/** A guess is as near as this to what is measured, as a share. */
const GUESS = 0.3;
/** A reading farther off its guess than this by itself, and nearer than that by its complement; degrees. */
const FAR = 25;
const NEAR = 15;

/** The table; sentences by code in `sentences/checks.ts`. */
const SURVEY_CHECKS: readonly CheckRule<SurveySubject>[] = [
  { code: 'surveyUnitsWrong', severity: 'error', find: wrongUnits },
  { code: 'readingInOtherUnit', severity: 'check', find: otherUnit, unless: ['surveyUnitsWrong'] },
  { code: 'angleFromOtherAxis', severity: 'check', find: fromOtherAxis },
];

/** What of a survey should be looked at again; `survey` is in the library's units. */
export function surveyNotes(survey: SurveyDocument, units: Units): Check[] {
  return notesBy(SURVEY_CHECKS, { survey, units }, '', units);
}

type Place = readonly [x: number, y: number, z: number];

/** Where the points lie, known or guessed. */
function placesOf({ points }: SurveyDocument): ReadonlyMap<string, Place> {
  return new Map(
    Object.entries(points).flatMap(([name, { guess, at, x = 0 }]): [string, Place][] => {
      const point = at ?? guess;
      return point === undefined ? [] : [[name, [x, ...point]]];
    }),
  );
}

/** Readings of length beside what they are by the guesses. */
function lengthsOf(survey: SurveyDocument): { path: string; is: number; guessed: number }[] {
  const places = placesOf(survey);
  const { distances = [], heights = [], laterals = [] } = survey;
  const lengths: { path: string; is: number; guessed: number }[] = [];
  const add = (path: string, is: number, guessed: number | undefined) => {
    if (guessed !== undefined) lengths.push({ path, is, guessed });
  };
  distances.forEach(({ between: [a, b], is }, k) => {
    const [p, q] = [places.get(a), places.get(b)];
    add(`distances[${k}]`, is, p && q && Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
  });
  const along = (kind: string, axis: 1 | 2, of: string, from: string | undefined, is: number, k: number) => {
    const p = places.get(of);
    const q = from === undefined ? ([0, 0, 0] as const) : places.get(from);
    add(`${kind}[${k}]`, is, p && q && p[axis] - q[axis]);
  };
  heights.forEach(({ of, above, is }, k) => along('heights', 2, of, above, is, k));
  laterals.forEach(({ of, from, is }, k) => along('laterals', 1, of, from, is, k));
  return lengths;
}

function wrongUnits({ survey, units }: SurveySubject): Found[] {
  const { distances = [], heights = [], laterals = [] } = survey;
  const places = [...placesOf(survey).values()].flatMap(([, y, z]) => [Math.abs(y), Math.abs(z)]);
  const readings = [...distances, ...heights, ...laterals].map(({ is }) => Math.abs(is));
  const largest = Math.max(0, ...readings, ...places);
  if (readings.length < 3 || (largest >= LARGEST.least && largest <= LARGEST.most)) return [];
  const unit = unitMeant([{ value: largest, ...LARGEST }], 'length', units);
  return unit === null ? [] : [{ path: 'units', values: { largest, unit } }];
}

function otherUnit({ survey, units }: SurveySubject): Found[] {
  return lengthsOf(survey).flatMap(({ path, is, guessed }): Found[] => {
    const [least, most] = [1 - GUESS, 1 + GUESS].map((share) => share * Math.abs(guessed));
    // Near zero anything is like anything.
    if (Math.abs(guessed) < 50 || (Math.abs(is) > 0.2 * guessed && Math.abs(is) < 5 * Math.abs(guessed)))
      return [];
    const unit = unitMeant([{ value: Math.abs(is), least, most }], 'length', units);
    return unit === null ? [] : [{ path, values: { is, guessed: Math.abs(guessed), unit } }];
  });
}

function fromOtherAxis({ survey }: SurveySubject): Found[] {
  const places = placesOf(survey);
  return (['leans', 'slopes'] as const).flatMap((kind) =>
    (survey[kind] ?? []).flatMap(({ line: [a, b], is }, k): Found[] => {
      const [p, q] = [places.get(a), places.get(b)];
      if (p === undefined || q === undefined) return [];
      const [across, up] = [Math.abs(p[1] - q[1]), Math.abs(p[2] - q[2])];
      const guessed = (kind === 'leans' ? Math.atan2(across, up) : Math.atan2(up, across)) * DEGREES;
      const complement = Math.abs(90 - Math.abs(is));
      if (Math.abs(Math.abs(is) - guessed) < FAR || Math.abs(complement - guessed) > NEAR) return [];
      return [{ path: `${kind}[${k}]`, values: { is, guessed, complement, isLean: kind === 'leans' } }];
    }),
  );
}
