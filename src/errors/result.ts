// Results of other functions as arguments: each is known by some of its own fields.

import { fault, show } from '../diagnostic.ts';
import { RESULT } from '../sentences/result.ts';
import { refuser } from './refuser.ts';

const { refuse } = refuser(RESULT);

/** Names of fields by what is in them. */
type Fields = Readonly<Partial<Record<keyof typeof TYPES, readonly string[]>>>;

const TYPES = {
  lists: Array.isArray,
  objects: (field: unknown) => typeof field === 'object' && field !== null,
  texts: (field: unknown) => typeof field === 'string',
  numbers: (field: unknown) => typeof field === 'number',
  functions: (field: unknown) => typeof field === 'function',
};

/** The results, by what makes them and by some of their fields; of what is left inside them the compiler takes care. */
const RESULTS = {
  diagnostic: {
    is: 'a diagnostic',
    makers: ['readCar(...).notes', 'sizeCoilovers(...).conflicts'],
    fields: { texts: ['code', 'path'], objects: ['values'] },
  },
  advice: {
    is: 'advice',
    makers: ['sizeCoilovers(...).axles[k].advice'],
    fields: { numbers: ['length'], functions: ['filter'] },
  },
  sizing: {
    is: 'a sizing',
    makers: ['sizeCoilovers'],
    fields: { lists: ['axles', 'conflicts', 'openQuestions'] },
  },
  comparison: {
    is: 'a comparison',
    makers: ['compareSizings'],
    fields: { objects: ['names', 'conflicts'], lists: ['figures', 'choices', 'limits'] },
  },
  sheet: {
    is: 'a sheet',
    makers: ['orderSheet', 'reportSheet', 'comparisonSheet'],
    fields: { texts: ['title'], lists: ['blocks'], objects: ['data'] },
  },
  survey: {
    is: 'a survey',
    makers: ['survey'],
    fields: { lists: ['readings', 'suspects'], texts: ['units'] },
  },
  sweep: {
    is: 'a sweep',
    makers: ['sweep'],
    fields: { lists: ['info'], objects: ['columns', 'end'], functions: ['at'] },
  },
  curves: {
    is: 'curves',
    makers: ['sweep', 'forceCurves'],
    fields: { lists: ['info'], objects: ['end'], functions: ['at'] },
  },
  rows: {
    is: 'curves with rows',
    makers: ['sweep', 'forceCurves'],
    fields: { lists: ['info'], objects: ['end'], functions: ['rows'] },
  },
  design: {
    is: 'a design',
    makers: ['design'],
    fields: { objects: ['corner', 'mounts'], lists: ['objectives'] },
  },
  'hand method': {
    is: 'the result of the hand method',
    makers: ['handMethod'],
    fields: { objects: ['columns', 'ride'], numbers: ['estimate'], functions: ['at'] },
  },
  'load case': {
    is: 'a load case',
    makers: ['cornerForces(...).cases'],
    fields: { texts: ['name'], numbers: ['travel'], objects: ['on', 'shock'] },
  },
  'sweep end': {
    is: 'the end of a sweep',
    makers: ['sweep(...).end'],
    fields: { numbers: ['travel'], texts: ['status'] },
  },
} as const satisfies Record<
  string,
  { readonly is: string; readonly makers: readonly string[]; readonly fields: Fields }
>;

/** Throws InputError for what is not a result of its kind. */
export function refuseOtherThan(kind: keyof typeof RESULTS, value: unknown): void {
  const { is, makers, fields } = RESULTS[kind];
  if (!hasFields(value, fields)) refuse(kind, [fault('notAResult', '', { is, got: show(value), makers })]);
}

function hasFields(value: unknown, fields: Fields): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const types = Object.keys(fields) as (keyof Fields)[];
  return types.every((type) =>
    fields[type]?.every((name) => TYPES[type]((value as Record<string, unknown>)[name])),
  );
}
