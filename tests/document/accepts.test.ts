/**
 * An acceptor agrees with the schema it is made from: held against zod's own safeParse, on documents drawn from the schemas
 * themselves and then spoilt, and on kinds of schemas one by one.
 */
import * as fc from 'fast-check';
import { doubleWishbone, readCorner } from 'jounce';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { FILES } from '../../src/corner/file-schemas.ts';
import { accepts } from '../../src/document/accepts.ts';
import { customCornerSchema } from '../../src/document/custom-schema.ts';
import { limitOptionsSchema } from '../../src/document/limits-schema.ts';
import { surveySchema } from '../../src/document/survey-schema.ts';
import { ALL_KINDS, INPUTS } from '../support/kinds.ts';
import { errorOf, exampleText, type Json, placesOf, roadsterText } from './support.ts';

/** Values that a schema may take or just miss: numbers at and beside bounds, misspelt choices, absent members. */
function near(schema: z.core.$ZodType): fc.Arbitrary<Json> {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  switch (def.type) {
    case 'number': {
      const bounds = (def.checks ?? []).flatMap((check) => {
        const { value } = check._zod.def as { value?: number };
        return typeof value === 'number' ? [value, value + 1, value - 1] : [];
      });
      return fc.oneof(
        { weight: 30, arbitrary: fc.integer({ min: 1, max: bounds.length > 2 ? 1 : 40 }) },
        { weight: 2, arbitrary: fc.constantFrom(0.5, -0, ...bounds) },
      );
    }
    case 'string':
      return fc.constantFrom('a', '', 'lowerArm', '205/55R16');
    case 'boolean':
      return fc.boolean();
    case 'unknown':
      return fc.constantFrom(1, 'x', null, undefined, {});
    case 'enum':
      return fc.constantFrom(...Object.values(def.entries));
    case 'literal':
      return fc.constantFrom(...def.values);
    case 'readonly':
      return near(def.innerType);
    case 'optional':
      return fc.oneof(fc.constant(undefined), near(def.innerType));
    case 'union':
      return fc.oneof(...def.options.map(near));
    case 'tuple':
      return fc.tuple(...def.items.map(near));
    case 'array':
      return fc.array(near(def.element), { minLength: 1, maxLength: 2 });
    case 'record':
      return fc.dictionary(fc.constantFrom('A', 'B', 'c d'), near(def.valueType));
    case 'object': {
      const names = Object.keys(def.shape);
      const absent = names.filter((name) => def.shape[name]._zod.optin !== undefined);
      const required = names.filter((name) => !absent.includes(name));
      return fc.record(Object.fromEntries(names.map((name) => [name, near(def.shape[name])])), {
        requiredKeys: required as never[],
      });
    }
    default:
      throw new Error(`no values for ${def.type}`);
  }
}

const ODD: fc.Arbitrary<Json> = fc.oneof(
  fc.constantFrom<Json>(
    undefined,
    null,
    0,
    -0,
    -1,
    1,
    0.5,
    45,
    -45,
    90,
    1e9,
    2 ** 53,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    '',
    '12',
    'upright',
    'lowerArm',
    true,
    1n,
    Symbol('s'),
    () => 1,
    new Date(0),
  ),
  fc.constantFrom<Json>([], [1], [1, 2], [1, 2, 3], new Array(2), [undefined, 1], {}, new Float64Array(2)),
  fc.constantFrom<Json>(
    { value: 1, plusMinus: 0 },
    { value: 1, plusMinus: -1 },
    { value: 1 },
    { plusMinus: 1 },
    { value: { value: 1, plusMinus: 1 }, plusMinus: 1 },
  ),
  fc.anything({ withNullPrototype: true, maxDepth: 2 }),
);

interface Change {
  readonly place: number;
  readonly how: 'replace' | 'delete' | 'add' | 'wrap' | 'twice';
  readonly name: string;
  readonly value: Json;
}

const change: fc.Arbitrary<Change> = fc.record({
  place: fc.nat(),
  how: fc.constantFrom('replace', 'replace', 'delete', 'add', 'wrap', 'twice'),
  name: fc.constantFrom('extra', 'notes', 'offset', 'value', '__proto__', 'constructor', 'toString', '0', ''),
  value: ODD,
});

/** A copy of a document with something in it changed. */
function spoilt(document: Json, { place, how, name, value }: Change): Json {
  const copy = copied(document);
  const places = placesOf(copy);
  if (places.length === 0) return value;
  const [keys, at] = places[place % places.length];
  const holder = keys.slice(0, -1).reduce((inner: Json, key) => inner[key], copy);
  const key = keys[keys.length - 1];
  if (how === 'replace') holder[key] = value;
  else if (how === 'wrap') holder[key] = [at];
  else if (how === 'twice') holder[key] = Array.isArray(at) ? [...at, ...at] : at;
  else if (how === 'delete') Array.isArray(holder) ? holder.splice(Number(key), 1) : delete holder[key];
  // A list has no names: those that one is given are passed over.
  else if (typeof at === 'object' && at !== null && (!Array.isArray(at) || name === 'constructor'))
    Object.defineProperty(at, name, { value, enumerable: true, writable: true, configurable: true });
  return copy;
}

function copied(value: Json): Json {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return Array.from(value, copied);
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, copied(inner)]));
}

/** Objects on which zod alone decides, as the head of `accepts.ts` says. */
function isLeftToZod(value: Json): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const prototype = Object.getPrototypeOf(value);
  if (
    Array.isArray(value) ? value.constructor !== Array : prototype !== Object.prototype && prototype !== null
  )
    return true;
  if (Object.getOwnPropertySymbols(value).length > 0) return true;
  return Object.entries(value).some(
    ([name, inner]) => name === '__proto__' || name === 'constructor' || isLeftToZod(inner),
  );
}

/** What acceptor and schema say; fails where they differ. */
function compared(schema: z.ZodType, value: Json): boolean {
  const { success, data } = schema.safeParse(value);
  const accepted = accepts(schema, value);
  if (accepted) {
    expect(success).toBe(true);
    expect(value).toEqual(data);
  } else if (success) {
    expect(isLeftToZod(value)).toBe(true);
  }
  return accepted;
}

const example = (name: string) => JSON.parse(exampleText(name));

const SCHEMAS: Readonly<Record<string, readonly [schema: z.ZodType, right: Json]>> = {
  ...Object.fromEntries(ALL_KINDS.map(({ kind, input, inputs }) => [kind, [input.schema, inputs[0]]])),
  'custom corner': [
    customCornerSchema,
    {
      drawing: {},
      upright: 'a',
      wheelCentre: 'b',
      contactPatch: 'c',
      shock: { outer: 'd', inner: 'e' },
      angles: { first: { angle: ['a', 'b'] }, second: { turn: 'a' } },
    },
  ],
  limits: [
    limitOptionsSchema,
    { ...example('front-corner.json').limits, ballJoints: { a: { maxArticulation: 20, housing: 'arm' } } },
  ],
  'corner file': [FILES.corner.doubleWishbone, example('front-corner.json')],
  'pushrod file': [FILES.corner.pushrod, example('pushrod-corner.json')],
  'strut file': [FILES.corner.strut, example('strut-corner.json')],
  'car file': [FILES.car('doubleWishbone', 'doubleWishbone'), JSON.parse(roadsterText())],
  survey: [surveySchema, example('survey.json')],
};

describe.each(Object.entries(SCHEMAS))('the acceptor of %s', (_, [schema, right]) => {
  it('takes a right document', () => {
    expect(compared(schema, right)).toBe(true);
  });

  it('says what zod says of spoilt documents', () => {
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 2 }), (changes) => {
        compared(schema, changes.reduce(spoilt, right));
      }),
      { numRuns: 400 },
    );
  });

  it('says what zod says of documents drawn from the schema, right or spoilt', () => {
    let taken = 0;
    fc.assert(
      fc.property(near(schema), fc.option(change), (document, spoiling) => {
        if (compared(schema, spoiling === null ? document : spoilt(document, spoiling))) taken++;
      }),
      { numRuns: 300 },
    );
    if (schema !== SCHEMAS['car file'][0]) expect(taken).toBeGreaterThan(0);
  });

  it.each([undefined, null, 1, 'x', [], {}, new Map(), Object.create(right)])('agrees on %s', (value) => {
    compared(schema, value);
  });
});

describe('an acceptor of one kind of schema', () => {
  const numbers = [-1, -0, 0, 0.5, 1, 1.5, 2, 3, 2 ** 53, Number.NaN, Number.POSITIVE_INFINITY, '1', null];
  const texts = ['', 'a', 'b', 1, undefined, null];
  const lists = [[], [1], [1, 2], [1, 2, 3], ['a'], new Array(1), 'ab', { length: 1 }];
  const objects = [
    {},
    { a: 1 },
    { a: undefined },
    { b: 1 },
    { a: 1, b: 2 },
    { a: 'x' },
    [],
    null,
    Object.create({ a: 1 }),
  ];
  const KNOWN: readonly [string, z.ZodType, readonly Json[]][] = [
    ['a number', z.number(), numbers],
    ['a lower bound', z.number().gt(1), numbers],
    ['an inclusive lower bound', z.number().gte(1), numbers],
    ['an upper bound', z.number().lt(1), numbers],
    ['an inclusive upper bound', z.number().lte(1), numbers],
    ['two bounds', z.number().gte(0).lt(2), numbers],
    ['a whole number', z.number().int().gt(0), numbers],
    ['a choice', z.enum(['a', 'b']), texts],
    ['a literal', z.literal(['a', 1]), texts],
    ['a text', z.string(), texts],
    ['true or false', z.boolean(), [true, false, 0, 'true']],
    ['an optional text', z.string().optional(), texts],
    ['a list', z.array(z.number()), lists],
    ['a list of one at least', z.array(z.number()).min(1), lists],
    ['a tuple', z.tuple([z.number(), z.number()]), lists],
    ['one or the other', z.union([z.number(), z.string()]), [...numbers, ...texts]],
    ['an object', z.strictObject({ a: z.number() }), objects],
    ['an object with an optional member', z.strictObject({ a: z.number().optional() }), objects],
    ['an object with anything in it', z.strictObject({ a: z.unknown() }), objects],
    ['a record', z.record(z.string(), z.number()), objects],
    ['a refinement', z.strictObject({ a: z.number().optional() }).refine((o) => o.a !== 1), objects],
    ['what can only be read', z.tuple([z.number()]).readonly(), lists],
  ];

  it.each(KNOWN)('%s', (_, schema, values) => {
    const taken = values.map((value) => compared(schema, value));
    expect(new Set(taken)).toEqual(new Set([true, false]));
  });

  // Each of these changes a value, or has rules that no acceptor knows.
  it.each([
    ['a default', z.number().default(1), 1],
    ['coercion', z.coerce.number(), 1],
    ['a transformation', z.string().transform((text) => text.length), 'a'],
    ['a trimmed text', z.string().trim(), ' a '],
    ['a format', z.email(), 'a@example.org'],
    ['a length of a text', z.string().min(1), 'a'],
    ['a whole number by its own', z.int(), 1],
    ['a multiple', z.number().multipleOf(2), 2],
    ['a loose object', z.looseObject({ a: z.number() }), { a: 1, b: 2 }],
    ['a stripped object', z.object({ a: z.number() }), { a: 1, b: 2 }],
    ['a tuple with a rest', z.tuple([z.number()], z.number()), [1, 2]],
    ['one and no other', z.xor([z.number(), z.string()]), 1],
    ['a record of some keys', z.record(z.enum(['a']), z.number()), { a: 1 }],
    ['a list of those', z.array(z.coerce.number()), [1]],
  ])('%s is left to zod', (_, schema, value) => {
    expect(schema.safeParse(value).success).toBe(true);
    expect(accepts(schema as z.ZodType, value)).toBe(false);
  });

  it('leaves objects that are not plain to zod', () => {
    class Corner {
      a = 1;
    }
    const hidden = Object.defineProperty({}, 'a', { value: 1, enumerable: false });
    const schema = z.strictObject({ a: z.number() });
    for (const value of [new Corner(), hidden, Object.create({ a: 1 })]) {
      expect(schema.safeParse(value).success).toBe(true);
      expect(accepts(schema, value)).toBe(false);
    }
    class Points extends Array<number> {}
    const odd = Object.assign([1, 2], { constructor: 'x' });
    for (const list of [Points.of(1, 2), odd]) {
      for (const schema of [z.array(z.number()), z.tuple([z.number(), z.number()])]) {
        expect(schema.safeParse(list).success).toBe(true);
        expect(accepts(schema, list)).toBe(false);
      }
    }
    const record = z.record(z.string(), z.number());
    const { data } = record.safeParse(JSON.parse('{ "__proto__": 1 }'));
    expect(data).toEqual({});
    expect(accepts(record, JSON.parse('{ "__proto__": 1 }'))).toBe(false);
  });
});

describe('data that passes as it stands', () => {
  it('is neither kept nor frozen', () => {
    const input = structuredClone<Json>(INPUTS.doubleWishbone[0]);
    const before = structuredClone(input);
    const made = doubleWishbone(input);
    const frozen = structuredClone(made);
    for (const [, value] of placesOf(input))
      expect(typeof value === 'object' && Object.isFrozen(value)).toBe(false);
    input.lowerArm.inner[0] = 7;
    input.coilover.mount[1] = 7;
    expect(made).toEqual(frozen);
    expect(made).toEqual(doubleWishbone(before));

    const file = example('pushrod-corner.json');
    const read = readCorner(file);
    const kept = structuredClone(read);
    for (const [, value] of placesOf(file))
      expect(typeof value === 'object' && Object.isFrozen(value)).toBe(false);
    file.limits.damper.extendedLength = 7;
    expect(read).toEqual(kept);
  });

  it('does not make a typed array a point', () => {
    const { lowerArm, ...others } = structuredClone<Json>(INPUTS.doubleWishbone[0]);
    const { issues } = errorOf(() =>
      doubleWishbone({ ...others, lowerArm: { ...lowerArm, inner: new Float64Array([255, 165]) } }),
    );
    expect(issues.map(({ path, problem }) => [path, problem])).toEqual([
      ['lowerArm.inner', 'wrong kind of value'],
    ]);
  });
});
