import type { Diagnostic } from '../diagnostic.ts';
import { type Survey, UNLIKELY } from './result.ts';
import { deviationFactor, intervalFactor } from './scale.ts';

/** Degrees by which a complement may miss what all other readings say. */
const NEAR_COMPLEMENT = 2;

/** Whether an angle that is off by so much would fit as its complement: counted from horizontal instead of vertical, or the other way. */
export function fitsAsComplement({ readings }: Pick<Survey, 'readings'>, path: string, by: number): boolean {
  const reading = readings.find((one) => one.path === path);
  if (reading === undefined || reading.unit !== 'deg') return false;
  const { got } = reading;
  // A line is the same after half a turn.
  return [90 - got, got - 90].some((complement) => {
    const off = complement - (got - by);
    return Math.abs(off - 180 * Math.round(off / 180)) < NEAR_COMPLEMENT;
  });
}

/** What of a survey should be looked at before its points are built on; paths are places in the survey. */
export function surveyChecks(survey: Survey): Diagnostic[] {
  const { how, suspects, foreAftSuspects, mirrored, probability, scale, degreesOfFreedom, points } = survey;
  const check = (code: string, path: string, values: Diagnostic['values']): Diagnostic => ({
    code,
    severity: 'check',
    path,
    values,
  });
  return [
    ...(how === 'converged' ? [] : [check('surveyNotConverged', '', { status: how })]),
    ...suspects.map(({ oneOf }) => {
      const [{ path, words, by, unit }] = oneOf;
      return oneOf.length === 1
        ? check('surveySuspect', path, {
            reading: words,
            place: path,
            error: by,
            unit,
            fitsAsComplement: fitsAsComplement(survey, path, by),
          })
        : check('surveySuspects', '', {
            readings: oneOf.map((one) => `${one.words} (${one.path})`).join('; '),
          });
    }),
    ...foreAftSuspects.map((name) => check('surveyForeAft', `points.${name}.x`, { point: name })),
    ...(probability !== null && probability < UNLIKELY
      ? [
          check('surveyContradiction', '', {
            pValue: probability,
            birgeRatio: scale.birgeRatio,
            degreesOfFreedom,
            widened: deviationFactor(scale) * intervalFactor(scale),
          }),
        ]
      : []),
    ...mirrored
      .filter(({ isTold }) => !isTold)
      .map(({ points: names, other, read, of }) => {
        const axis = read === 'height' ? 1 : 0;
        return check('surveyMirrored', `points.${of}`, {
          points: names.join(', '),
          point: of,
          coordinate: read === 'height' ? 'height' : 'lateral distance',
          taken: points[of].at[axis],
          other: other[of][axis],
        });
      }),
    ...(degreesOfFreedom === 0 ? [check('surveyUnchecked', '', { degreesOfFreedom })] : []),
  ];
}
