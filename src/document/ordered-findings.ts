import { type Finding, isRecord, type Place, valueAt } from './parse.ts';

/** Pairs of lengths of which the first is the smaller. */
const SMALLER: readonly (readonly [part: string, small: string, large: string])[] = [
  ['damper', 'compressedLength', 'extendedLength'],
  ['spring', 'minLength', 'freeLength'],
  ['spring', 'solidLength', 'freeLength'],
  ['spring', 'solidLength', 'minLength'],
  ['helper', 'minLength', 'freeLength'],
  ['bumpStop', 'solidHeight', 'height'],
  ['perch', 'min', 'max'],
];

/** What no single value of what was ordered shows: lengths that contradict each other, tables that do not rise, a half of a pair. */
export function orderedFindings(ordered: unknown, unit: string): Finding[] {
  return [
    ...SMALLER.flatMap(([part, small, large]) => notLess(ordered, part, small, large, unit)),
    ...notRising(ordered, ['bumpStop', 'table']),
    ...notRising(ordered, ['valving', 'forceTable']),
    ...halfOfPair(ordered),
  ];
}

function notLess(ordered: unknown, part: string, small: string, large: string, unit: string): Finding[] {
  const [less, more] = [numberAt(ordered, [part, small]), numberAt(ordered, [part, large])];
  if (less === undefined || more === undefined || less < more) return [];
  // A list may give the same figure for both.
  if (large === 'minLength' && less === more) return [];
  return [
    {
      at: [part, small],
      problem: `not less than ${part}.${large}`,
      got: `${less} ${unit}`,
      allowed: `less than ${more} ${unit}`,
      advice: 'check both lengths: are they exchanged?',
    },
  ];
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
    return [
      {
        at: [...at, k],
        problem: 'the table does not rise',
        got: `[${row.join(', ')}] after [${before.join(', ')}]`,
        allowed: 'rows in order, with a larger first number and forces that do not fall',
      },
    ];
  }
  return [];
}

function halfOfPair(ordered: unknown): Finding[] {
  const valving = valueAt(ordered, ['valving']);
  if (!isRecord(valving)) return [];
  const has = (name: string) => valving[name] !== undefined;
  const missing = (name: string, beside: string): Finding => ({
    at: ['valving', name],
    problem: 'missing',
    allowed: `low-speed damping at the shaft, beside ${beside}`,
  });
  if (has('compressionDamping') && !has('reboundDamping'))
    return [missing('reboundDamping', 'compressionDamping')];
  if (!has('forceTable')) return [];
  return ['reboundDamping', 'kneeSpeed', 'highSpeedFraction'].filter(has).map((name) => ({
    at: ['valving', name],
    problem: 'says the same as forceTable',
    allowed: 'forceTable alone, or damping with its knee',
    advice: 'take one of the two out',
  }));
}

/** Names in the masses of a car that nothing bears: loads on the scales, of states, and the design state. */
export function loadNameFindings(masses: unknown): Finding[] {
  const added = namesIn(valueAt(masses, ['added']));
  const states = valueAt(masses, ['states']);
  const refer = (at: Place, known: readonly string[], what: string): Finding[] => {
    const name = valueAt(masses, at);
    if (typeof name !== 'string' || known.includes(name)) return [];
    return [
      {
        at: ['masses', ...at],
        problem: `no ${what} of this name`,
        got: JSON.stringify(name),
        allowed:
          known.length === 0 ? `a name among ${what}s, and none is given` : known.slice(0, 8).join(', '),
      },
    ];
  };
  const each = (at: Place, what: string): Finding[] => {
    const list = valueAt(masses, at);
    return Array.isArray(list) ? list.flatMap((_, k) => refer([...at, k], added, what)) : [];
  };
  return [
    ...each(['scales', 'aboard'], 'added load'),
    ...(Array.isArray(states) ? states : []).flatMap((_, k) => each(['states', k, 'loads'], 'added load')),
    ...refer(['designState'], namesIn(states), 'state'),
    ...twice(added, 'added', 'aboard and states tell loads apart by their names', masses),
    ...twice(namesIn(states), 'states', 'states are told apart by their names', masses),
  ];
}

function namesIn(list: unknown): string[] {
  return Array.isArray(list)
    ? list.map((item) => (isRecord(item) && typeof item.name === 'string' ? item.name : ''))
    : [];
}

/** A name that stands for two things, where names are referred to. */
function twice(names: readonly string[], at: string, advice: string, masses: unknown): Finding[] {
  const refers = [['scales', 'aboard'], ['states']].some((place) => valueAt(masses, place) !== undefined);
  if (!refers) return [];
  const seen = new Set<string>();
  return names.flatMap((name, k): Finding[] => {
    if (name === '' || !seen.has(name)) {
      seen.add(name);
      return [];
    }
    return [
      {
        at: ['masses', at, k, 'name'],
        problem: 'the same name twice',
        got: JSON.stringify(name),
        allowed: 'a name of its own',
        advice,
      },
    ];
  });
}

function numberAt(value: unknown, at: Place): number | undefined {
  const found = valueAt(value, at);
  return typeof found === 'number' ? found : undefined;
}
