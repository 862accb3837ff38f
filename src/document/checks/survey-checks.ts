// Readings of a survey against the first estimates: those in another unit, and angles read from the other axis.

import type { Diagnostic } from '../../diagnostic.ts';
import { DEGREES, type Units } from '../../units.ts';
import type { SurveyInput } from '../inputs.ts';
import { type CheckRule, type Found, notesBy } from './check.ts';
import { unitMeant } from './ranges.ts';

/** A survey that is looked at, in the library's units. */
interface SurveySubject {
  readonly survey: SurveyInput;
  readonly units: Units;
}

/** The largest size of a corner, from the centreline, mm. */
const LARGEST = { least: 300, most: 3000 };
/** An estimate is as near as this to what is measured, as a share. */
const NEARNESS = 0.3;
/** A reading farther off its estimate than this by itself, and nearer than that by its complement; degrees. */
const FAR = 25;
const NEAR = 15;

/** The table; sentences by code in `sentences/checks.ts`. */
const SURVEY_CHECKS: readonly CheckRule<SurveySubject>[] = [
  { code: 'surveyUnitsWrong', severity: 'error', find: wrongUnits },
  { code: 'readingInOtherUnit', severity: 'check', find: otherUnit, unless: ['surveyUnitsWrong'] },
  { code: 'angleFromOtherAxis', severity: 'check', find: fromOtherAxis },
];

/** What of a survey should be looked at again; `survey` is in the library's units. */
export function surveyNotes(survey: SurveyInput, units: Units): Diagnostic[] {
  return notesBy(SURVEY_CHECKS, { survey, units }, '');
}

type Place = readonly [x: number, y: number, z: number];

/** Where the points lie, known or estimated. */
function placesOf({ points }: SurveyInput): ReadonlyMap<string, Place> {
  return new Map(
    Object.entries(points).flatMap(([name, { estimate, known, x = 0 }]): [string, Place][] => {
      const point = known ?? estimate;
      return point === undefined ? [] : [[name, [x, ...point]]];
    }),
  );
}

/** Readings of length beside what they are by the estimates. */
function lengthsOf(survey: SurveyInput): { path: string; value: number; estimated: number }[] {
  const places = placesOf(survey);
  const { distances = [], heights = [], laterals = [] } = survey;
  const lengths: { path: string; value: number; estimated: number }[] = [];
  const add = (path: string, value: number, estimated: number | undefined) => {
    if (estimated !== undefined) lengths.push({ path, value, estimated });
  };
  distances.forEach(({ between: [a, b], value }, k) => {
    const [p, q] = [places.get(a), places.get(b)];
    add(`distances[${k}]`, value, p && q && Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
  });
  const along = (
    kind: string,
    axis: 1 | 2,
    of: string,
    from: string | undefined,
    value: number,
    k: number,
  ) => {
    const p = places.get(of);
    const q = from === undefined ? ([0, 0, 0] as const) : places.get(from);
    add(`${kind}[${k}]`, value, p && q && p[axis] - q[axis]);
  };
  heights.forEach(({ of, above, value }, k) => along('heights', 2, of, above, value, k));
  laterals.forEach(({ of, from, value }, k) => along('laterals', 1, of, from, value, k));
  return lengths;
}

function wrongUnits({ survey, units }: SurveySubject): Found[] {
  const { distances = [], heights = [], laterals = [] } = survey;
  const places = [...placesOf(survey).values()].flatMap(([, y, z]) => [Math.abs(y), Math.abs(z)]);
  const readings = [...distances, ...heights, ...laterals].map(({ value }) => Math.abs(value));
  const largest = Math.max(0, ...readings, ...places);
  if (readings.length < 3 || (largest >= LARGEST.least && largest <= LARGEST.most)) return [];
  const unit = unitMeant([{ value: largest, ...LARGEST }], 'length', units);
  return unit === null ? [] : [{ path: 'units', values: { largest, unit } }];
}

function otherUnit({ survey, units }: SurveySubject): Found[] {
  return lengthsOf(survey).flatMap(({ path, value, estimated }): Found[] => {
    const [least, most] = [1 - NEARNESS, 1 + NEARNESS].map((share) => share * Math.abs(estimated));
    const [size, expected] = [Math.abs(value), Math.abs(estimated)];
    // Near zero anything is like anything.
    if (expected < 50 || (size > 0.2 * estimated && size < 5 * expected)) return [];
    const unit = unitMeant([{ value: size, least, most }], 'length', units);
    return unit === null ? [] : [{ path, values: { value, estimated: expected, unit } }];
  });
}

function fromOtherAxis({ survey }: SurveySubject): Found[] {
  const places = placesOf(survey);
  return (['inclinations', 'slopes'] as const).flatMap((kind) =>
    (survey[kind] ?? []).flatMap(({ line: [a, b], value }, k): Found[] => {
      const [p, q] = [places.get(a), places.get(b)];
      if (p === undefined || q === undefined) return [];
      const [across, up] = [Math.abs(p[1] - q[1]), Math.abs(p[2] - q[2])];
      const estimated = (kind === 'inclinations' ? Math.atan2(across, up) : Math.atan2(up, across)) * DEGREES;
      const complement = Math.abs(90 - Math.abs(value));
      if (Math.abs(Math.abs(value) - estimated) < FAR || Math.abs(complement - estimated) > NEAR) return [];
      return [
        { path: `${kind}[${k}]`, values: { value, estimated, complement, isLean: kind === 'inclinations' } },
      ];
    }),
  );
}
