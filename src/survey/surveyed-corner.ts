import { type CornerParts, type DrawnCorner, drawnCorner, modelOf } from '../corner/corner.ts';
import type { Covariance } from '../corner/covariance.ts';
import { hardpointsOf } from '../corner/hardpoint-coordinates.ts';
import { type Part, PLACES } from '../corner/hardpoints.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refusal, refuse } from '../errors/survey.ts';
import type { Survey } from './result.ts';
import { intervalFactor } from './scale.ts';

/** What a survey does not say of its corner. */
export interface SurveyedParts {
  /** Default `doubleWishbone`. */
  readonly kind?: DrawnCorner['kind'];
  /** What the coilover's `shockMount` is bolted to; not with a rocker, nor for a strut that has no coilover beside it. */
  readonly coilover?: Part;
  /** What its `shockOtherMount` is bolted to, where that end moves too. */
  readonly otherEnd?: Part;
  /** What the wheel end of the rod is bolted to. */
  readonly rod?: Part;
  /** Degrees, top outboard positive; needed where `contactPatch` was not surveyed. */
  readonly camber?: number;
}

const OPTIONS = ['kind', 'coilover', 'otherEnd', 'rod', 'camber'];

/** Hardpoints that a corner of a kind must have; the coilover's follow from its parts. */
const NEEDED: Readonly<Record<DrawnCorner['kind'], readonly string[]>> = {
  doubleWishbone: ['lowerInner', 'lowerOuter', 'upperInner', 'upperOuter', 'wheelCentre', 'shockMount'],
  pushrod: [
    'lowerInner',
    'lowerOuter',
    'upperInner',
    'upperOuter',
    'wheelCentre',
    'rodMount',
    'rodRockerMount',
    'rockerPivot',
    'shockRockerMount',
  ],
  strut: ['lowerInner', 'lowerOuter', 'strutTop', 'strutLower', 'wheelCentre'],
};

/**
 * The corner that a survey's points make, as sure as they are: its `plusMinus` is their covariance, which `bands` and
 * `monteCarlo` take up. Points go by the names of hardpoints: `lowerInner`, `lowerOuter`, `upperInner`, `upperOuter`,
 * `wheelCentre`, `contactPatch`, `shockMount`, `shockChassisMount` (or `shockOtherMount`); with a rocker `rodMount`,
 * `rodRockerMount`, `rockerPivot` and `shockRockerMount`; of a strut `strutTop` and `strutLower`. Others are left out. The
 * coilover's fore-aft offset is the difference of the `x` of its ends. What the survey leaves to look at, suspected readings above all, goes
 * along as `checks`, which a sizing shows among its own.
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
  const { kind = 'doubleWishbone' } = parts;
  if (!Object.hasOwn(NEEDED, kind)) {
    throw refusal('surveyed corner', [
      fault('unknownChoice', 'kind', { got: show(kind), allowed: Object.keys(NEEDED) }),
    ]);
  }
  const needed = neededPoints(kind, parts);
  refuse(
    'surveyed corner',
    needed.flatMap((name) => pointFaults(survey, name)),
  );
  return inputOf(survey, kind, parts, needed);
}

function surveyFaults(survey: Survey): Diagnostic[] {
  if (survey?.kind === 'survey') return [];
  return [fault('notASurvey', '', { got: show(survey) })];
}

function neededPoints(kind: DrawnCorner['kind'], { coilover, otherEnd, camber }: SurveyedParts): string[] {
  const hasCoilover = kind !== 'strut' || coilover !== undefined;
  return [
    ...NEEDED[kind],
    ...(camber === undefined ? ['contactPatch'] : []),
    ...(kind === 'strut' && hasCoilover ? ['shockMount'] : []),
    ...(hasCoilover ? [otherEnd === undefined ? 'shockChassisMount' : 'shockOtherMount'] : []),
  ];
}

function pointFaults({ points, undetermined }: Survey, name: string): Diagnostic[] {
  if (!Object.hasOwn(points, name)) {
    const otherName = namesInFiles(name).find((written) => Object.hasOwn(points, written)) ?? null;
    return [
      fault('pointMissing', `points.${name}`, {
        allowed: Object.keys(points),
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

/** What car files call a point: `chassisMount` and `coilover.chassisMount` for `shockChassisMount`. */
function namesInFiles(name: string): string[] {
  return Object.entries(PLACES)
    .filter(([, point]) => point === name)
    .flatMap(([path]) => [path, path.slice(path.lastIndexOf('.') + 1)]);
}

/** Input of the function of its kind. */
function inputOf(
  { points }: Survey,
  kind: DrawnCorner['kind'],
  { coilover, otherEnd, rod, camber }: SurveyedParts,
  needed: readonly string[],
): CornerParts {
  const input: Record<string, unknown> = { kind };
  const put = (path: string, value: unknown) => {
    const keys = path.split('.');
    let holder = input;
    for (const key of keys.slice(0, -1)) {
      holder[key] ??= {};
      holder = holder[key] as Record<string, unknown>;
    }
    holder[keys[keys.length - 1]] = value;
  };
  const isThere = (name: string) => needed.includes(name) || name === 'contactPatch';
  for (const [path, name] of Object.entries(PLACES)) {
    if (isThere(name) && points[name] !== undefined) put(path, points[name].at);
  }
  if (camber !== undefined) put('wheel.camber', camber);
  if (coilover !== undefined && kind !== 'pushrod') put('coilover.on', coilover);
  if (otherEnd !== undefined) put('coilover.otherEnd.on', otherEnd);
  if (rod !== undefined) put('rod.on', rod);
  const [outer, inner] = ['shockMount', 'shockRockerMount', 'shockChassisMount', 'shockOtherMount']
    .filter((name) => needed.includes(name))
    .map((name) => points[name].x);
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
