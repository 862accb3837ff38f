import type { Diagnostic } from '../diagnostic.ts';
import { type Survey, UNLIKELY } from './result.ts';
import { deviationFactor, intervalFactor } from './scale.ts';

/** Degrees by which a complement may miss what all other readings say. */
const NEAR_COMPLEMENT = 2;

/** Whether an angle that is off by so much would fit as its complement: counted from horizontal instead of vertical, or the other way. */
export function fitsAsComplement({ readings }: Pick<Survey, 'readings'>, path: string, by: number): boolean {
  const reading = readings.find((one) => one.path === path);
  if (reading === undefined || reading.unit !== 'deg') return false;
  const { measured } = reading;
  // A line is the same after half a turn.
  return [90 - measured, measured - 90].some((complement) => {
    const off = complement - (measured - by);
    return Math.abs(off - 180 * Math.round(off / 180)) < NEAR_COMPLEMENT;
  });
}

/** What of a survey should be looked at before its points are built on; paths are places in the survey. */
export function surveyChecks(survey: Survey): Diagnostic[] {
  const { status, suspects, foreAftSuspects, mirrorSolutions, pValue, scale, degreesOfFreedom, points } =
    survey;
  const check = (code: string, path: string, values: Diagnostic['values']): Diagnostic => ({
    code,
    severity: 'check',
    path,
    values,
  });
  return [
    ...(status === 'converged' ? [] : [check('surveyNotConverged', '', { status })]),
    ...suspects.map(({ candidates }) => {
      const [{ path, label, error, unit }] = candidates;
      return candidates.length === 1
        ? check('surveySuspect', path, {
            reading: label,
            place: path,
            error,
            unit,
            fitsAsComplement: fitsAsComplement(survey, path, error),
          })
        : check('surveySuspects', '', {
            readings: candidates.map((one) => `${one.label} (${one.path})`).join('; '),
          });
    }),
    ...foreAftSuspects.map((name) => check('surveyForeAft', `points.${name}.x`, { point: name })),
    ...(pValue !== null && pValue < UNLIKELY
      ? [
          check('surveyContradiction', '', {
            pValue,
            birgeRatio: scale.birgeRatio,
            degreesOfFreedom,
            widened: deviationFactor(scale) * intervalFactor(scale),
          }),
        ]
      : []),
    ...mirrorSolutions
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
