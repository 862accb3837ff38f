// Documents spoilt at random: each must be refused with an InputError that can be read, or be read and then move and
// meet its limits with every figure a number.

import { readFileSync } from 'node:fs';
import { InputError, limits, readCar, readCorner, sweep } from 'jounce';

/** Seeded and small: mulberry32. */
function generator(start: number): () => number {
  let a = start >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

let random = generator(1);
const below = (n: number) => Math.floor(random() * n);
const oneOf = <T>(list: readonly T[]): T => list[below(list.length)];

type Holder = Record<string, unknown>;

/** All places of a value, as the object or list that holds each and its key there. */
function places(value: unknown): [Holder, string][] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.keys(value).flatMap((key): [Holder, string][] => [
    [value as Holder, key],
    ...places((value as Holder)[key]),
  ]);
}

function junk(depth = 0): unknown {
  const plain = [null, true, 0, -1, 1e-300, 1e308, -0, '', 'arm', '12,5', '17 3/8', '__proto__', [], {}];
  if (depth > 3 || random() < 0.6) return oneOf(plain);
  return random() < 0.5
    ? Array.from({ length: below(4) }, () => junk(depth + 1))
    : Object.fromEntries(Array.from({ length: below(4) }, (_, k) => [oneOf(NAMES) + k, junk(depth + 1)]));
}

const NAMES = ['inner', 'outer', 'centre', 'limits', 'constructor', 'toString', '0', 'front', 'x'];

const SPOILERS: Record<string, (holder: Holder, key: string) => void> = {
  deleted: (holder, key) => {
    if (Array.isArray(holder) && /^\d+$/.test(key)) {
      for (let k = Number(key); k < holder.length - 1; k++) holder[k] = holder[k + 1];
      holder.length--;
    } else {
      delete holder[key];
    }
  },
  retyped: (holder, key) => {
    const value = holder[key];
    holder[key] =
      typeof value === 'string' ? 3 : typeof value === 'number' ? `${value}` : value === null ? {} : 'text';
  },
  renamed: (holder, key) => {
    const name =
      key.slice(0, below(key.length)) + oneOf(['', 'x', 'e', ' ']) + key.slice(below(key.length + 1));
    const value = holder[key];
    delete holder[key];
    holder[name] = value;
  },
  'no number': (holder, key) => {
    holder[key] = oneOf([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, undefined]);
  },
  huge: (holder, key) => {
    holder[key] = oneOf([1e308, -1e308, 1e20, 1e9, 999_999, -1e6, Number.MAX_VALUE]);
  },
  tiny: (holder, key) => {
    holder[key] = oneOf([0, -0, 1e-320, 1e-12, -1e-9, 5e-324]);
  },
  shifted: (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = value + (random() - 0.5) * 10 ** below(4);
  },
  rounded: (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = Math.round(value / 10) * 10;
  },
  negated: (holder, key) => {
    const value = holder[key];
    if (typeof value === 'number') holder[key] = -value;
  },
  copied: (holder, key) => {
    const [from, name] = oneOf(places(document_));
    holder[key] = structuredClone(from[name]);
  },
  junk: (holder, key) => {
    holder[key] = junk();
  },
  added: (holder) => {
    holder[oneOf(NAMES)] = junk();
  },
};

/** A text with a few signs deleted, doubled or exchanged. */
function garbled(text: string): string {
  let out = text;
  for (let k = 0; k <= below(3); k++) {
    const at = below(out.length);
    const put = oneOf([
      '',
      '',
      ',',
      '"',
      '}',
      '{',
      '[',
      ']',
      ':',
      '\n',
      '//',
      '\\',
      'NaN',
      '17 3/8',
      '\u0000',
      '𝄞',
    ]);
    out = out.slice(0, at) + put + out.slice(at + below(3));
  }
  return out;
}

const folder = new URL('../../../docs/examples/', import.meta.url);
const example = (name: string): Holder => JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
const car = example('car.json');
const corners = car.corners as Holder;
const corner: Holder = { units: 'imperial', ...(corners.front as Holder) };
const EXAMPLES = {
  car,
  corner,
  frontCorner: example('front-corner.json'),
  pushrod: example('pushrod-corner.json'),
  strut: example('strut-corner.json'),
};

let document_: Holder = car;
/** Paths of values that are neither numbers, texts, null nor made of such. */
function unsound(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} ${value}`];
  if (ArrayBuffer.isView(value)) return unsound(Array.from(value as Float64Array), path);
  if (Array.isArray(value)) return value.flatMap((inner, k) => unsound(inner, `${path}[${k}]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => unsound(inner, `${path}.${key}`));
}

/** What is wrong with the answer to a document; null where it is refused in words that can be read, or has figures that are numbers. */
function faultOf(input: unknown, kind: keyof typeof EXAMPLES): string | null {
  try {
    const read = kind === 'car' ? Object.values(readCar(input).corners) : [readCorner(input)];
    for (const { corner, limits: given, sprungMass } of read) {
      const bad = unsound({ corner, given, sprungMass });
      if (bad.length > 0) return `not a number in the corner: ${bad[0]}`;
      const odd = unsound(sweep(corner, { bump: 60, droop: 60, step: 20 }).columns);
      if (odd.length > 0) return `not a number in a sweep: ${odd[0]}`;
      const wrong = unsound(limits(corner, given));
      if (wrong.length > 0) return `not a number in limits: ${wrong[0]}`;
    }
    return null;
  } catch (error) {
    if (!(error instanceof InputError)) return String((error as Error).stack).slice(0, 400);
    const isRead = error.issues.length > 0 && !/undefined|\[object/.test(error.message);
    return isRead ? null : `unreadable: ${error.message}`;
  }
}

/** Documents of a seed. */
export function* documents(seed: number, cases: number): Generator<() => string | null> {
  random = generator(seed);
  for (let k = 0; k < cases; k++) {
    const kind = oneOf(Object.keys(EXAMPLES) as (keyof typeof EXAMPLES)[]);
    document_ = structuredClone(EXAMPLES[kind]);
    const way = random();
    let input: unknown = document_;
    if (way < 0.15) {
      input = garbled(JSON.stringify(document_, null, 2));
    } else {
      const slips = 1 + below(random() < 0.2 ? 12 : 3);
      for (let slip = 0; slip < slips; slip++) {
        const all = places(document_);
        if (all.length === 0) break;
        // Numbers more often than the rest, so that many a document can be read.
        const numbers = all.filter(([holder, key]) => typeof holder[key] === 'number');
        const [holder, key] = oneOf(random() < 0.6 && numbers.length > 0 ? numbers : all);
        const name =
          random() < 0.45 ? oneOf(['shifted', 'rounded', 'negated']) : oneOf(Object.keys(SPOILERS));
        SPOILERS[name](holder, key);
      }
      if (way < 0.3) input = JSON.stringify(document_);
    }
    yield () => {
      const fault = faultOf(input, kind);
      return fault === null ? null : `${fault}\n${inWords(input)}`;
    };
  }
}

function inWords(input: unknown): string {
  if (typeof input === 'string') return input;
  return JSON.stringify(input, (_, v) => (typeof v === 'number' && !Number.isFinite(v) ? String(v) : v));
}
