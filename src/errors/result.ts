// Results of other functions as arguments: each is known by some of its own fields.

import { fault, show } from '../diagnostic.ts';
import { RESULT } from '../sentences/result.ts';
import { refuser } from './refuser.ts';

const { refuse } = refuser(RESULT);

type Fields = Readonly<Record<string, 'list' | 'object' | 'text' | 'number' | 'function'>>;

/** The results, by what makes them and by some of their fields; of what is left inside them the compiler takes care. */
const RESULTS = {
  diagnostic: {
    is: 'a diagnostic',
    makers: ['readCar(...).notes', 'sizeCoilovers(...).conflicts'],
    fields: { code: 'text', path: 'text', values: 'object' },
  },
  advice: {
    is: 'advice',
    makers: ['sizeCoilovers(...).axles[k].advice'],
    fields: { length: 'number', filter: 'function' },
  },
  sizing: {
    is: 'a sizing',
    makers: ['sizeCoilovers'],
    fields: { axles: 'list', conflicts: 'list', openQuestions: 'list' },
  },
  comparison: {
    is: 'a comparison',
    makers: ['compareSizings'],
    fields: { names: 'object', figures: 'list', choices: 'list', limits: 'list', conflicts: 'object' },
  },
  sheet: {
    is: 'a sheet',
    makers: ['orderSheet', 'reportSheet', 'comparisonSheet'],
    fields: { title: 'text', blocks: 'list', data: 'object' },
  },
  survey: {
    is: 'a survey',
    makers: ['survey'],
    fields: { readings: 'list', suspects: 'list', units: 'text' },
  },
  sweep: {
    is: 'a sweep',
    makers: ['sweep'],
    fields: { info: 'list', columns: 'object', end: 'object', at: 'function' },
  },
  curves: {
    is: 'curves',
    makers: ['sweep', 'forceCurves'],
    fields: { info: 'list', end: 'object', at: 'function' },
  },
  rows: {
    is: 'curves with rows',
    makers: ['sweep', 'forceCurves'],
    fields: { info: 'list', end: 'object', rows: 'function' },
  },
  design: {
    is: 'a design',
    makers: ['design'],
    fields: { corner: 'object', mounts: 'object', objectives: 'list' },
  },
  'hand method': {
    is: 'the result of the hand method',
    makers: ['handMethod'],
    fields: { columns: 'object', ride: 'object', estimate: 'number', at: 'function' },
  },
  'load case': {
    is: 'a load case',
    makers: ['cornerForces(...).cases'],
    fields: { name: 'text', travel: 'number', on: 'object', shock: 'object' },
  },
  'sweep end': {
    is: 'the end of a sweep',
    makers: ['sweep(...).end'],
    fields: { travel: 'number', status: 'text' },
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
  return Object.entries(fields).every(([name, type]) => {
    const field = (value as Record<string, unknown>)[name];
    if (type === 'list') return Array.isArray(field);
    return type === 'text' ? typeof field === 'string' : typeof field === type && field !== null;
  });
}
