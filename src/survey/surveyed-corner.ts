import { type CornerParts, type DrawnCorner, drawnCorner, modelOf } from '../corner/corner.ts';
import type { Covariance } from '../corner/covariance.ts';
import { hardpointsOf } from '../corner/hardpoint-coordinates.ts';
import { KINDS, type Kind } from '../corner/kinds.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { isMovingEnd, isOtherEnd, type OnPath, type PartOf, UNNAMED_KIND } from '../document/corner-kind.ts';
import { placeAt } from '../document/parse.ts';
import { isRequired, schemaAt } from '../document/schema-walk.ts';
import { refusal, refuse } from '../errors/survey.ts';
import type { Survey } from './result.ts';
import { intervalFactor } from './scale.ts';

/** What a survey does not say of its corner. */
export interface SurveyedParts {
  /** Default `doubleWishbone`. */
  readonly kind?: Kind;
  /** What the coilover's `shockMount` is bolted to; not with a rocker, nor for a strut that has no coilover beside it. */
  readonly coilover?: CarrierPart;
  /** What its `shockOtherMount` is bolted to, where that end moves too. */
  readonly otherEnd?: CarrierPart;
  /** What the wheel end of the rod is bolted to. */
  readonly rod?: CarrierPart;
  /** Camber, degrees, top outboard positive; required if `contactPatch` was not surveyed. */
  readonly camber?: number;
}

type Input = (typeof KINDS)[Kind]['input'];
type CarrierPart = { [Name in Kind]: PartOf<(typeof KINDS)[Name]['input']> }[Kind];

const OPTIONS = ['kind', 'coilover', 'otherEnd', 'rod', 'camber'];

/** Where inputs say what a mount is on, and by which name it is given here. */
export const MOUNTED_ON = {
  'coilover.on': 'coilover',
  'coilover.otherEnd.on': 'otherEnd',
  'rod.on': 'rod',
} as const satisfies Readonly<
  Record<{ [Name in Kind]: OnPath<(typeof KINDS)[Name]['input']> }[Kind], keyof SurveyedParts>
>;

/**
 * The corner that a survey's points make. Its `plusMinus` is their covariance, which `uncertaintyBands` and `monteCarlo` use. Points have
 * the names of hardpoints: `lowerInner`, `lowerOuter`, `upperInner`, `upperOuter`,
 * `wheelCentre`, `contactPatch`, `shockMount`, `shockChassisMount` (or `shockOtherMount`); with a rocker `rodMount`,
 * `rodRockerMount`, `rockerPivot` and `shockRockerMount`; of a strut `strutTop` and `strutLower`. Others are left out. The
 * coilover's fore-aft offset is the difference of the `x` of its ends. Checks of the survey, such as suspected readings, are the corner's
 * `checks`, which a sizing shows among its own.
 *
 * @throws InputError for a point that is missing or not determined, and as the function of its kind.
 */
export function surveyedCorner(survey: Survey, parts: SurveyedParts = {}): DrawnCorner {
  const corner = drawnCorner(surveyedInput(survey, parts));
  const checks = survey.diagnostics.filter(({ severity }) => severity === 'check');
  return Object.freeze({
    ...corner,
    plusMinus: covarianceFor(corner, survey),
    ...(checks.length === 0 ? {} : { checks: Object.freeze(checks) }),
  });
}

/**
 * What a survey's corner is made from, of the shape that the function of its kind takes, mm.
 *
 * @throws InputError as `surveyedCorner`.
 */
export function surveyedInput(survey: Survey, parts: SurveyedParts): CornerParts {
  refuse('surveyed corner', [...unknownOptions(parts, OPTIONS), ...surveyFaults(survey)]);
  const { kind = UNNAMED_KIND } = parts;
  if (!Object.hasOwn(KINDS, kind)) {
    throw refusal('surveyed corner', [
      fault('unknownChoice', 'kind', { got: show(kind), allowed: Object.keys(KINDS) }),
    ]);
  }
  const { input } = KINDS[kind];
  const needed = neededPoints(input, parts);
  refuse(
    'surveyed corner',
    needed.flatMap(([path, name]) => pointFaults(survey, path, name)),
  );
  return inputOf(survey, kind, parts, needed);
}

function surveyFaults(survey: Survey): Diagnostic[] {
  if (survey?.kind === 'survey') return [];
  return [fault('notASurvey', '', { got: show(survey) })];
}

/** The points that a corner must have, with their paths: a contact patch in place of the camber, one of the coilover's other ends. */
function neededPoints(
  { schema, points }: Input,
  { coilover, otherEnd, camber }: SurveyedParts,
): [path: string, name: string][] {
  const hasCoilover = coilover !== undefined || isRequired(schema, 'coilover');
  const left = [
    ...(camber === undefined ? [] : ['wheel.contactPatch']),
    otherEnd === undefined ? 'coilover.otherEnd.mount' : 'coilover.chassisMount',
  ];
  return Object.entries(points).filter(
    ([path]) => !left.includes(path) && (hasCoilover || !path.startsWith('coilover.')),
  );
}

function pointFaults({ points, undetermined }: Survey, path: string, name: string): Diagnostic[] {
  if (!Object.hasOwn(points, name)) {
    const inFiles = [path, path.slice(path.lastIndexOf('.') + 1)];
    const otherName = inFiles.find((written) => Object.hasOwn(points, written)) ?? null;
    return [
      fault('pointMissing', `points.${name}`, {
        there: Object.keys(points),
        otherName,
        followsFromCamber: name === 'contactPatch',
      }),
    ];
  }
  if (points[name].status !== 'undetermined') return [];
  const missing = undetermined.filter(({ points: hanging }) => hanging.includes(name));
  return [
    fault('pointNotDetermined', `points.${name}`, {
      read: missing.map(({ read }) => read),
      of: missing.map(({ of }) => of),
    }),
  ];
}

/** Input of the function of its kind. */
function inputOf(
  { points }: Survey,
  kind: Kind,
  parts: SurveyedParts,
  needed: readonly (readonly [path: string, name: string])[],
): CornerParts {
  const input: Record<string, unknown> = { kind };
  const put = (path: string, value: unknown) => {
    if (value === undefined) return;
    const keys = path.split('.');
    let holder = input;
    for (const key of keys.slice(0, -1)) {
      holder[key] ??= {};
      holder = holder[key] as Record<string, unknown>;
    }
    holder[keys[keys.length - 1]] = value;
  };
  for (const [path, name] of needed) put(path, points[name].at);
  put('wheel.contactPatch', points.contactPatch?.at);
  put('wheel.camber', parts.camber);
  for (const [path, part] of Object.entries(MOUNTED_ON)) {
    const isThere = schemaAt(KINDS[kind].input.schema, placeAt(path)) !== undefined;
    if (isThere) put(path, parts[part]);
  }
  const foreAft = (isEnd: (path: string) => boolean) =>
    needed.filter(([path]) => isEnd(path)).map(([, name]) => points[name].x)[0];
  const [outer, inner] = [isMovingEnd, isOtherEnd].map(foreAft);
  if (inner !== undefined) put('coilover.foreAftOffset', outer - inner);
  return input as unknown as CornerParts;
}

/**
 * The covariance of the coordinates that the corner has, those of a right-hand one mirrored; 1.96 standard deviations of it are the 95 %
 * half-widths of the survey, Student's factor included.
 */
function covarianceFor(corner: DrawnCorner, { covariance, scale }: Survey): Covariance {
  const names = hardpointsOf(modelOf(corner)).map(({ name }) => name);
  const kept = covariance.coordinates
    .map((name, k) => ({ name, k }))
    .filter(({ name }) => names.includes(name));
  const sign = (name: string) => (corner.mirrored && name.endsWith('Y') ? -1 : 1) * intervalFactor(scale);
  return Object.freeze({
    coordinates: Object.freeze(kept.map(({ name }) => name)),
    matrix: Object.freeze(
      kept.map((a) =>
        Object.freeze(kept.map((b) => sign(a.name) * sign(b.name) * covariance.matrix[a.k][b.k])),
      ),
    ),
  });
}
