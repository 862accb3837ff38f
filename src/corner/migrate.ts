import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { isCorner, kindOf } from '../document/file-schema.ts';
import { FORMAT_VERSION, refuseNewer } from '../document/format-version.ts';
import { withoutFormerNames } from '../document/former-names.ts';
import { readJson } from '../document/json-text.ts';
import { inOrder, valueAt } from '../document/parse.ts';
import { surveySchema } from '../document/survey-schema.ts';
import { refuse } from '../errors/file.ts';
import { deepFreeze } from '../linkage/freeze.ts';
import { AXLES } from './axles.ts';
import { FILES } from './file-schemas.ts';
import { KINDS } from './kinds.ts';

/** What `migrateFile` returns. */
export interface MigratedFile {
  /** The file as data in the present format: for `JSON.stringify`, and for `readCar`, `readCorner` or `survey`. */
  readonly file: Record<string, unknown>;
  /** A diagnostic `renamed` for each former name, by its path in the given file; its `is` is the name of today. */
  readonly renamed: readonly Diagnostic[];
}

const WHAT = 'file to migrate';

/**
 * A car file, a corner file or a survey (a JSON text, or the value of one) of any earlier format in the present one: each former name gives
 * way to the name of today, and `formatVersion` is written. All else stays as it is, in its order, right or wrong: reading it will tell.
 *
 * @throws InputError for a text that is no JSON, for no file, for a file of a later format, and where a field has both its names.
 */
export function migrateFile(json: unknown): MigratedFile {
  const { value, twice } = typeof json === 'string' ? readJson(json, WHAT) : { value: json, twice: [] };
  refuseNewer(value, WHAT);
  const isFile = typeof value === 'object' && value !== null && !Array.isArray(value);
  if (!isFile) refuse(WHAT, [fault('notAFile', '', { got: show(value) })], 'metric');
  const { value: renamed, findings } = withoutFormerNames(schemaFor(value), value);
  const both = findings.filter(({ values }) => values.isThere === true);
  refuse(WHAT, inOrder([...twice, ...both], value), 'metric');
  const { $schema, formatVersion: _, ...rest } = renamed as Record<string, unknown>;
  const file = { ...($schema === undefined ? {} : { $schema }), formatVersion: FORMAT_VERSION, ...rest };
  return Object.freeze({ file, renamed: deepFreeze(inOrder(findings, value)) });
}

/** The schema of what a file seems to be: a car has corners, a corner has parts of its kind, and a survey neither. */
function schemaFor(value: unknown) {
  if (valueAt(value, ['corners']) !== undefined) {
    const [front, rear] = AXLES.map((axle) => kindOf(KINDS, valueAt(value, ['corners', axle])));
    return FILES.car(front, rear);
  }
  return isCorner(KINDS, value) ? FILES.corner[kindOf(KINDS, value)] : surveySchema;
}
