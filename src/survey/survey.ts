import { type Covariance, HALF_WIDTH } from '../corner/covariance.ts';
import { surveyNotes } from '../document/checks/survey-checks.ts';
import type { SurveyInput } from '../document/inputs.ts';
import { readSurvey } from '../document/survey-schema.ts';
import { deepFreeze } from '../linkage/freeze.ts';
import { chiSquareAbove } from '../numerics/chi-square.ts';
import { diagnosticsOn } from './diagnostics.ts';
import { type Certainty, certaintyOf, estimate, type Fit } from './estimate.ts';
import { foreAftSuspects } from './fore-aft.ts';
import { coordinateOf, type Layout, layOut, placeOf, type Station } from './layout.ts';
import { mirroredSolutions } from './mirror-solutions.ts';
import { misreadings, standardisedResiduals } from './misreadings.ts';
import { type Reading, readingsOf } from './readings.ts';
import type { MirrorSolution, Survey, SurveyedPoint, SurveyedReading, SurveyScale } from './result.ts';
import { deviationFactor, intervalFactor, scaleOf } from './scale.ts';
import { isOpen, missingReadings } from './undetermined.ts';

/**
 * Hardpoints from readings by tape, ruler and angle finder: a JSON text, or the value of one, which `surveyJsonSchema`
 * describes.
 *
 * `points` has all points by name: `{ estimate: [y, z] }` from a rough sketch, `{ known: [y, z] }` where it is known, or
 * `{ pivotAxis: ['A', 'B'] }` for the point where the axis through two others pierces the plane at its `x`. y is outboard from the
 * centreline, z up from the ground, `x` forward of the plane across the wheel centre (0 if left out): mm, or inches with
 * `units: 'imperial'`. Readings: `distances` { between, value } in space, `heights` { of, above, value }, `laterals`
 * { of, from, value }, `inclinations` and `slopes` { line, value } in degrees as seen from the front, `collinear` { point, line }. Each may
 * have a `plusMinus`, the half-width of its 95 % interval; `plusMinus` { tape, ruler, angleFinder } stands for those that
 * have none, else 1.5 mm, 1.5 mm and 0.3 degrees.
 *
 * Contradictory or too few readings are no error: the best estimate comes back with what is wrong.
 *
 * @throws InputError with every issue: numbers that are none, half-widths of 0 or less, unknown points, names twice.
 */
export function survey(input: SurveyInput | string): Survey {
  const { metric, units } = readSurvey(input);
  const layout = layOut(metric.points);
  const readings = readingsOf(metric);
  const first = estimate(layout, readings);
  const { best, turned, others } = mirroredSolutions(layout, readings, first);
  const stated = certaintyOf(layout, readings, best.unknowns);
  const { degreesOfFreedom } = stated;
  const standardised = standardisedResiduals(layout, readings, best.unknowns, stated);
  const scale = scaleOf(best.chiSquare, degreesOfFreedom);
  const suspected = misreadings(layout, readings, best.unknowns, standardised);
  const certainty = scaled(stated, scale);
  const isDetermined = turned.length > 0;
  const found = {
    kind: 'survey' as const,
    ...(metric.name === undefined ? {} : { name: metric.name }),
    units,
    notes: surveyNotes(metric, units),
    status: best.status,
    points: pointsOf(layout, best, certainty, HALF_WIDTH * intervalFactor(scale)),
    covariance: covarianceOf(layout, certainty),
    readings: readings.map((reading, i) => surveyedReading(reading, best.computed[i], standardised[i])),
    chiSquare: best.chiSquare,
    degreesOfFreedom,
    pValue:
      best.chiSquare === null || degreesOfFreedom === 0
        ? null
        : chiSquareAbove(best.chiSquare, degreesOfFreedom),
    scale,
    suspects: suspected.map((suspects) => ({
      candidates: suspects.map(({ reading: { path, points, unit }, error }) => ({
        path,
        points,
        unit,
        error,
      })),
    })),
    foreAftSuspects: suspected.length > 1 ? foreAftSuspects(layout, readings, best.unknowns) : [],
    undetermined: missingReadings(layout, certainty.open),
    mirrorSolutions: [
      ...(isDetermined ? [mirroredPoints(layout, best, first, turned, true)] : []),
      ...others.map(({ points, fit }) => mirroredPoints(layout, best, fit, points, false)),
    ],
  };
  return deepFreeze({ ...found, diagnostics: diagnosticsOn(found) });
}

function surveyedReading(
  { kind, path, points, unit, measured, plusMinus }: Reading,
  computed: number,
  opposite: number | null,
): SurveyedReading {
  const standardised = opposite === null ? null : 0 - opposite;
  return {
    kind,
    path,
    points,
    unit,
    measured,
    computed,
    residual: measured - computed,
    plusMinus,
    standardised,
  };
}

/** How sure the unknowns are where the readings scatter more than they say. */
function scaled(stated: Certainty, scale: SurveyScale): Certainty {
  const square = deviationFactor(scale) ** 2;
  return { ...stated, covariance: stated.covariance.map((row) => row.map((value) => square * value)) };
}

function pointsOf(
  { stations }: Layout,
  { unknowns }: Fit,
  { covariance, open }: Certainty,
  halfWidth: number,
): Record<string, SurveyedPoint> {
  return Object.fromEntries(
    [...stations.values()].map((station) => {
      const { name, x, forms, kind } = station;
      const [y, z] = forms.map((form) =>
        isOpen(form, open) ? null : halfWidth * Math.sqrt(covarianceBetween(form, form, covariance)),
      );
      const isFixed = y !== null && z !== null;
      const between = (i: number, j: number) => covarianceBetween(forms[i], forms[j], covariance);
      const point: SurveyedPoint = {
        at: placeOf(station, unknowns),
        x,
        plusMinus: [y, z],
        covariance: isFixed
          ? [
              [between(0, 0), between(0, 1)],
              [between(1, 0), between(1, 1)],
            ]
          : null,
        status: kind === 'known' ? 'known' : isFixed ? 'determined' : 'undetermined',
      };
      return [name, point];
    }),
  );
}

function covarianceOf({ stations }: Layout, { covariance, open }: Certainty): Covariance {
  const coordinates = [...stations.values()]
    .filter(({ kind }) => kind !== 'known')
    .flatMap(({ name, forms: [y, z] }) => [
      { name: `${name}Y`, form: y },
      { name: `${name}Z`, form: z },
    ])
    .filter(({ form }) => !isOpen(form, open));
  return {
    coordinates: coordinates.map(({ name }) => name),
    matrix: coordinates.map((a) => coordinates.map((b) => covarianceBetween(a.form, b.form, covariance))),
  };
}

type Form = Station['forms'][number];

function covarianceBetween(a: Form, b: Form, covariance: Certainty['covariance']): number {
  return coordinateOf(
    a,
    covariance.map((row) => coordinateOf(b, row, true)),
    true,
  );
}

/** Where the points of another solution lie, and which reading tells them apart best. */
function mirroredPoints(
  { stations }: Layout,
  best: Fit,
  fit: Fit,
  points: readonly string[],
  isDetermined: boolean,
): MirrorSolution {
  const moved = points.flatMap((name) => {
    const station = stations.get(name);
    if (station === undefined) return [];
    const [from, to] = [placeOf(station, best.unknowns), placeOf(station, fit.unknowns)];
    return [{ name, to, by: [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])] }];
  });
  const most = moved.reduce((a, b) => (Math.max(...b.by) > Math.max(...a.by) ? b : a));
  return {
    points,
    other: Object.fromEntries(moved.map(({ name, to }) => [name, to])),
    chiSquare: fit.chiSquare,
    isDetermined,
    read: most.by[0] > most.by[1] ? 'lateral' : 'height',
    of: most.name,
  };
}
