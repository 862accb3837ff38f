import type { Diagnostic, Severity } from '../diagnostic.ts';
import { type Survey, UNLIKELY, type UndeterminedPoints } from './result.ts';
import { deviationFactor, intervalFactor } from './scale.ts';

/** A point known no better than this is hardly known, mm. */
const ROUGH = 10;
/** Half-widths below this factor are hardly wider. */
const HARDLY_WIDER = 1.05;
/** Degrees by which a complement may miss what all other readings say. */
const NEAR_COMPLEMENT = 2;

type Found = Omit<Survey, 'diagnostics'>;
type Values = Diagnostic['values'];

/** What a survey found: checks are to be looked at before its points are built on; paths are places in the survey. */
export function diagnosticsOn(survey: Found): Diagnostic[] {
  const { status, foreAftSuspects } = survey;
  return [
    ...(status === 'converged' ? [] : [check('surveyNotConverged', '', { status })]),
    ...undetermined(survey),
    ...mirrored(survey),
    ...foreAftSuspects.map((point) => check('foreAftSuspect', `points.${point}.x`, { point })),
    ...suspects(survey),
    ...agreement(survey),
    ...leastSure(survey),
    ...unchecked(survey),
  ];
}

function diagnostic(severity: Severity) {
  return (code: string, path: string, values: Values): Diagnostic => ({ code, severity, path, values });
}
const check = diagnostic('check');
const note = diagnostic('note');

/** One for all that hangs on the same readings. */
function undetermined({ undetermined, points }: Found): Diagnostic[] {
  const groups = new Map<string, UndeterminedPoints[]>();
  for (const one of undetermined) {
    const key = JSON.stringify(one.points);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const sought = Object.values(points).filter(({ status }) => status !== 'known').length;
  return [...groups.values()].map((group) => {
    const [{ points: hanging }] = group;
    return note('pointsUndetermined', 'points', {
      points: hanging,
      isAll: hanging.length === sought && sought > 1,
      read: group.map(({ read }) => read),
      of: group.map(({ of }) => of),
    });
  });
}

function mirrored({ mirrorSolutions, points: taken }: Found): Diagnostic[] {
  return mirrorSolutions.map(({ points, other, isDetermined, read, of }) => {
    const axis = read === 'height' ? 1 : 0;
    const values = { points, read, of, taken: taken[of].at[axis], other: other[of][axis] };
    return isDetermined
      ? note('estimateMirrored', `points.${of}`, values)
      : check('pointsMirrored', `points.${of}`, values);
  });
}

/** One for each reading that may be wrong; `or` names the others of which only one is. */
function suspects({ suspects, readings }: Found): Diagnostic[] {
  return suspects.flatMap(({ candidates }) =>
    candidates.map(({ path, points, unit, error }) => {
      const or = candidates.flatMap((other) => (other.path === path ? [] : [other.path]));
      const measured = readings.find((one) => one.path === path)?.measured ?? Number.NaN;
      return unit === 'mm'
        ? check('lengthSuspect', path, { reading: path, points, error, or })
        : check('angleSuspect', path, {
            reading: path,
            points,
            angleError: error,
            fitsAsComplement: fitsAsComplement(measured, error),
            or,
          });
    }),
  );
}

/** Whether an angle that is off by so much would fit as its complement: counted from horizontal instead of vertical, or the other way. */
function fitsAsComplement(measured: number, by: number): boolean {
  // A line is the same after half a turn.
  return [90 - measured, measured - 90].some((complement) => {
    const off = complement - (measured - by);
    return Math.abs(off - 180 * Math.round(off / 180)) < NEAR_COMPLEMENT;
  });
}

/** How well the readings agree, and what that makes of the intervals. */
function agreement({ pValue, chiSquare, degreesOfFreedom, suspects, scale }: Found): Diagnostic[] {
  if (degreesOfFreedom === 0) return [check('surveyUnchecked', '', {})];
  if (chiSquare === null || pValue === null) return [note('readingsNotComparable', '', {})];
  const { birgeRatio } = scale;
  const widened = deviationFactor(scale) * intervalFactor(scale);
  const values = { chiSquare, degreesOfFreedom, pValue, birgeRatio, widened };
  if (pValue < UNLIKELY) return [check('readingsContradict', '', { ...values, suspects: suspects.length })];
  return [
    note(1 - pValue < UNLIKELY ? 'readingsAgreeWell' : 'readingsAgree', '', values),
    ...(widened < HARDLY_WIDER ? [] : [note('intervalsWidened', '', { widened })]),
  ];
}

/** The coordinate known least well. */
function leastSure({ points }: Found): Diagnostic[] {
  const widths = Object.entries(points).flatMap(([point, { plusMinus }]) =>
    plusMinus.flatMap((width, axis) =>
      width === null ? [] : [{ of: point, read: axis === 0 ? 'lateral' : 'height', plusMinus: width }],
    ),
  );
  const worst = widths.reduce((a, b) => (b.plusMinus > a.plusMinus ? b : a), {
    of: '',
    read: '',
    plusMinus: 0,
  });
  if (worst.plusMinus === 0) return [];
  return [note('leastSure', `points.${worst.of}`, { ...worst, isRough: worst.plusMinus > ROUGH })];
}

function unchecked({ readings, degreesOfFreedom }: Found): Diagnostic[] {
  if (degreesOfFreedom === 0) return [];
  return readings
    .filter(({ standardised }) => standardised === null)
    .map(({ path, points }) => note('readingUnchecked', path, { reading: path, points }));
}
