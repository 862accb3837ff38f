import { toMetric, type Units } from '../units.ts';
import { type Finding, found, isRecord, type Place, valueAt } from './parse.ts';

/** Pairs of lengths of which the first is the smaller. */
const SMALLER: readonly (readonly [part: string, small: string, large: string])[] = [
  ['damper', 'compressedLength', 'extendedLength'],
  ['spring', 'minLength', 'freeLength'],
  ['spring', 'solidLength', 'freeLength'],
  ['spring', 'solidLength', 'minLength'],
  ['helper', 'solidLength', 'freeLength'],
  ['bumpStop', 'solidHeight', 'height'],
  ['perch', 'min', 'max'],
];

/** What no single value of what was ordered shows: lengths that contradict each other, tables that do not rise, a half of a pair. */
export function orderedFindings(ordered: unknown, units: Units): Finding[] {
  return [
    ...SMALLER.flatMap(([part, small, large]) => notLess(ordered, part, small, large, units)),
    ...notRising(ordered, ['bumpStop', 'table']),
    ...notRising(ordered, ['valving', 'forceTable']),
    ...halfOfPair(ordered),
  ];
}

function notLess(ordered: unknown, part: string, small: string, large: string, units: Units): Finding[] {
  const [less, more] = [numberAt(ordered, [part, small]), numberAt(ordered, [part, large])];
  if (less === undefined || more === undefined || less < more) return [];
  // A list may give the same figure for both.
  if (large === 'minLength' && less === more) return [];
  const values = { than: `${part}.${large}`, got: String(less), below: toMetric(more, 'length', units) };
  return [found([part, small], 'lengthsExchanged', values)];
}

/** Rows of which the first number must rise from one to the next, and the others must not fall. */
function notRising(ordered: unknown, at: Place): Finding[] {
  const rows = valueAt(ordered, at);
  if (!Array.isArray(rows)) return [];
  const isRow = (row: unknown): row is number[] =>
    Array.isArray(row) && row.every((one) => typeof one === 'number');
  for (let k = 1; k < rows.length; k++) {
    const [before, row] = [rows[k - 1], rows[k]];
    if (!isRow(before) || !isRow(row)) continue;
    if (row[0] > before[0] && row.every((value, c) => value >= (before[c] ?? 0))) continue;
    const [got, after] = [row, before].map((one) => `[${one.join(', ')}]`);
    return [found([...at, k], 'tableNotRising', { got, after })];
  }
  return [];
}

function halfOfPair(ordered: unknown): Finding[] {
  const valving = valueAt(ordered, ['valving']);
  if (!isRecord(valving)) return [];
  const has = (name: string) => valving[name] !== undefined;
  if (has('compressionDamping') && !has('reboundDamping'))
    return [found(['valving', 'reboundDamping'], 'dampingMissing', { beside: 'compressionDamping' })];
  if (!has('forceTable')) return [];
  return ['reboundDamping', 'kneeSpeed', 'highSpeedFraction']
    .filter(has)
    .map((name) => found(['valving', name], 'dampingBesideForceTable'));
}

/** Names in the masses of a car that nothing bears: loads on the scales, of states, and the design state. */
export function loadNameFindings(masses: unknown): Finding[] {
  const added = namesIn(valueAt(masses, ['added']));
  const states = valueAt(masses, ['states']);
  const refer = (at: Place, known: readonly string[], code: string): Finding[] => {
    const name = valueAt(masses, at);
    if (typeof name !== 'string' || known.includes(name)) return [];
    return [found(['masses', ...at], code, { got: JSON.stringify(name), allowed: known.slice(0, 8) })];
  };
  const each = (at: Place): Finding[] => {
    const list = valueAt(masses, at);
    return Array.isArray(list) ? list.flatMap((_, k) => refer([...at, k], added, 'unknownLoad')) : [];
  };
  return [
    ...each(['scales', 'aboard']),
    ...(Array.isArray(states) ? states : []).flatMap((_, k) => each(['states', k, 'loads'])),
    ...refer(['designState'], namesIn(states), 'unknownState'),
    ...twice(added, 'added', 'loadNamedTwice', masses),
    ...twice(namesIn(states), 'states', 'stateNamedTwice', masses),
  ];
}

function namesIn(list: unknown): string[] {
  return Array.isArray(list)
    ? list.map((item) => (isRecord(item) && typeof item.name === 'string' ? item.name : ''))
    : [];
}

/** A name that stands for two things, where names are referred to. */
function twice(names: readonly string[], at: string, code: string, masses: unknown): Finding[] {
  const refers = [['scales', 'aboard'], ['states']].some((place) => valueAt(masses, place) !== undefined);
  if (!refers) return [];
  const seen = new Set<string>();
  return names.flatMap((name, k): Finding[] => {
    if (name === '' || !seen.has(name)) {
      seen.add(name);
      return [];
    }
    return [found(['masses', at, k, 'name'], code, { got: JSON.stringify(name) })];
  });
}

function numberAt(value: unknown, at: Place): number | undefined {
  const found = valueAt(value, at);
  return typeof found === 'number' ? found : undefined;
}
