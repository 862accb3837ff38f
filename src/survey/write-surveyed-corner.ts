import { AXLES } from '../corner/axles.ts';
import { type DrawnCorner, modelOf } from '../corner/corner.ts';
import { hardpointsOf } from '../corner/hardpoint-coordinates.ts';
import { KINDS } from '../corner/kinds.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { UNNAMED_KIND } from '../document/corner-kind.ts';
import { isCorner, kindOf } from '../document/file-schema.ts';
import { readJson } from '../document/json-text.ts';
import { inOrder, placeAt, valueAt } from '../document/parse.ts';
import { refusal as fileRefusal, refuse as refuseFile } from '../errors/file.ts';
import { refusal, refuse } from '../errors/survey.ts';
import { fromMetric, type Units } from '../units.ts';
import type { Survey } from './result.ts';
import { MOUNTED_ON, type SurveyedParts, surveyedCorner, surveyedInput } from './surveyed-corner.ts';

/** Which corner is written, and what a survey does not say of it; the file's own parts are taken where left out. */
export interface SurveyedCornerOptions extends SurveyedParts {
  /** The corner of a car file; not given for a file of one corner. */
  readonly corner?: 'front' | 'rear';
}

const WHAT = 'file for surveyed points';

type Holder = Record<string, unknown>;

/**
 * A car file or corner file (a JSON text, or the value of one) with the points of a survey in a corner of it, as a value for `JSON.stringify`.
 *
 * Each surveyed point goes to its place (`lowerInner` to `lowerArm.inner`, `shockChassisMount` to `coilover.chassisMount`) in the units of
 * the file, its coordinates as `{ value, plusMinus }`; `correlations` says how their errors hang together, `surveyChecks` what the survey
 * leaves to look at. The coilover's `foreAftOffset` follows from the `x` of its ends. All else stays as it is, in its order. `readCar` or
 * `readCorner` makes of it the corner that `surveyedCorner` gives.
 *
 * @throws InputError as `surveyedCorner`, for a text that is no JSON, and for a file without such a corner.
 */
export function writeSurveyedCorner(
  file: unknown,
  survey: Survey,
  options: SurveyedCornerOptions = {},
): Record<string, unknown> {
  if (typeof options !== 'object' || options === null) {
    refuse(WHAT, unknownOptions(options, ['corner']));
  }
  const written = copyOf(file);
  const { corner: axle, ...given } = options;
  refuse(WHAT, placeFaults(written, axle));
  const units = written.units === 'imperial' ? 'imperial' : 'metric';
  const corner = axle === undefined ? written : holderAt(holderAt(written, 'corners'), axle);
  const parts = partsOf(corner, given);
  const drawn = surveyedCorner(survey, parts);
  writePoints(corner, survey, parts, units);
  const correlations = correlationsOf(drawn, survey);
  if (correlations === null) delete corner.correlations;
  else corner.correlations = correlations;
  const { checks = [] } = drawn;
  if (checks.length === 0) delete corner.surveyChecks;
  else corner.surveyChecks = checks.map((check) => checkInFile(check, units));
  return written;
}

/** The value of a file, free to be changed. */
function copyOf(file: unknown): Holder {
  const { value, twice } =
    typeof file === 'string' ? readJson(file, WHAT) : { value: copied(file), twice: [] };
  refuseFile(WHAT, inOrder(twice, value), 'metric');
  if (isHolder(value)) return value;
  throw notAFile(file);
}

function notAFile(given: unknown) {
  return fileRefusal(WHAT, [fault('notAFile', '', { got: show(given) })]);
}

/** A copy of plain data; what holds itself is no file. */
function copied(value: unknown, above: readonly unknown[] = []): unknown {
  if (above.includes(value)) throw notAFile(value);
  const holders = [...above, value];
  if (Array.isArray(value)) return value.map((inner) => copied(inner, holders));
  if (!isHolder(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, copied(inner, holders)]));
}

function placeFaults(written: Holder, axle: unknown): Diagnostic[] {
  const isCar = 'corners' in written;
  if (axle === undefined) return isCar ? [fault('cornerNotNamed', 'corner')] : [];
  if (axle !== 'front' && axle !== 'rear') {
    return [fault('unknownChoice', 'corner', { got: show(axle), allowed: AXLES })];
  }
  return isCar || !isCorner(KINDS, written) ? [] : [fault('oneCornerOnly', 'corner', { got: axle })];
}

/** The parts that the file names, where no others are given. */
function partsOf(corner: Holder, given: SurveyedParts): SurveyedParts {
  const isThere = isCorner(KINDS, corner) || 'kind' in corner;
  const kind = isThere ? kindOf(KINDS, corner) : given.kind;
  if (given.kind !== undefined && kind !== given.kind) {
    throw refusal(WHAT, [fault('otherKindInFile', 'kind', { got: given.kind, allowed: kind ?? '' })]);
  }
  const inFile = Object.entries(MOUNTED_ON).map(([path, part]) => [part, valueAt(corner, placeAt(path))]);
  const camber = valueAt(corner, ['wheel', 'camber']);
  const named: Record<string, unknown> = {
    kind,
    ...Object.fromEntries(inFile),
    camber: typeof camber === 'number' ? camber : undefined,
    ...given,
  };
  return Object.fromEntries(Object.entries(named).filter(([, value]) => value !== undefined));
}

/** Decimals of a coordinate in a file: far below what a tape shows, and no rounding beside its half-width. */
const DECIMALS = 8;
const CORRELATION_DECIMALS = 12;

/** Lengths among the values of checks. */
const LENGTHS = ['error', 'taken', 'other'];

/** A check as a file keeps it, in its units. */
function checkInFile({ code, values }: Diagnostic, units: Units): Holder {
  const written = Object.entries(values).map(([name, value]) => [
    name,
    LENGTHS.includes(name) ? rounded(fromMetric(Number(value), 'length', units), DECIMALS) : value,
  ]);
  return { code, ...Object.fromEntries(written) };
}

function writePoints(corner: Holder, survey: Survey, parts: SurveyedParts, units: Units): void {
  const input = surveyedInput(survey, parts);
  const length = (mm: number) => rounded(fromMetric(mm, 'length', units), DECIMALS);
  const { kind = UNNAMED_KIND } = parts;
  if (kind !== UNNAMED_KIND || 'kind' in corner) corner.kind = kind;
  for (const [path, name] of Object.entries(KINDS[kind].input.points)) {
    const at = valueAt(input, path.split('.')) as readonly number[] | undefined;
    if (at === undefined) continue;
    const { plusMinus } = survey.points[name];
    const coordinates = at.map((mm, axis) => {
      const width = plusMinus[axis] ?? 0;
      return width === 0 ? length(mm) : { value: length(mm), plusMinus: length(width) };
    });
    put(corner, path.split('.'), coordinates);
  }
  for (const path of ['wheel.camber', ...Object.keys(MOUNTED_ON)]) {
    const value = valueAt(input, path.split('.'));
    if (value !== undefined) put(corner, path.split('.'), value);
  }
  // It follows from the camber, whatever was drawn before.
  if (valueAt(input, ['wheel', 'contactPatch']) === undefined) delete holderAt(corner, 'wheel').contactPatch;
  const offset = valueAt(input, ['coilover', 'foreAftOffset']);
  const coilover = corner.coilover;
  if (!isHolder(coilover)) return;
  if (typeof offset === 'number' && (offset !== 0 || 'foreAftOffset' in coilover))
    coilover.foreAftOffset = length(offset);
  // The other end is in one place.
  delete coilover[parts.otherEnd === undefined ? 'otherEnd' : 'chassisMount'];
}

function put(holder: Holder, path: readonly string[], value: unknown): void {
  const inner = path.slice(0, -1).reduce(holderAt, holder);
  inner[path[path.length - 1]] = value;
}

/** The object under a name, made where there is none. */
function holderAt(holder: Holder, name: string): Holder {
  const inner = holder[name];
  if (isHolder(inner)) return inner;
  const made: Holder = {};
  holder[name] = made;
  return made;
}

/** Correlations of the corner's coordinates, in the axes of the file; null where none is uncertain. */
function correlationsOf(drawn: DrawnCorner, { covariance: { coordinates, matrix } }: Survey) {
  const own = hardpointsOf(modelOf(drawn)).map(({ name }) => name);
  const kept = coordinates
    .map((name, k) => ({ name, k }))
    .filter(({ name, k }) => own.includes(name) && matrix[k][k] > 0);
  if (kept.length === 0) return null;
  return {
    coordinates: kept.map(({ name }) => name),
    lowerTriangle: kept.map((a, i) =>
      kept.slice(0, i).map((b) => {
        const correlation = matrix[a.k][b.k] / Math.sqrt(matrix[a.k][a.k] * matrix[b.k][b.k]);
        return rounded(Math.max(-1, Math.min(1, correlation)), CORRELATION_DECIMALS);
      }),
    ),
  };
}

function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals)) + 0;
}

function isHolder(value: unknown): value is Holder {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
