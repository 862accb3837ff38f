import type * as z from 'zod';
import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/document.ts';
import { meantName } from '../spelling.ts';
import { toMetric, type Units, unitName } from '../units.ts';
import { accepts } from './accepts.ts';
import { type Finding, found, type Place } from './finding.ts';
import { withoutFormerNames } from './former-names.ts';
import { numbersMeant } from './number-meant.ts';
import { quantityOf, shapeOf } from './quantity.ts';
import { homesIn, isRequired, namesOf, schemaAt } from './schema-walk.ts';

/**
 * Data of the schema's shape from unknown input: the input itself where it is right as it stands. `check` adds what the shape alone can't tell; it is given the input as it
 * is, whatever its shape. What it finds is worded by `refuseBy`.
 *
 * @throws InputError listing every issue with its path, what was got and what is allowed.
 */
export function parse<Schema extends z.ZodType>(
  schema: Schema,
  input: unknown,
  what: string,
  check: Check = NO_CHECK,
  refuseBy = refuse,
): z.output<Schema> {
  const { data, findings } = examine(schema, input, 'metric', check);
  refuseBy(what, inOrder(findings, input), 'metric');
  return data as z.output<Schema>;
}

/** Findings beside those of the shape. */
export type Check = (input: unknown, units: Units) => readonly Finding[];

const NONE: readonly Finding[] = Object.freeze([]);
const NO_CHECK: Check = () => NONE;

/**
 * The input as data, where its shape is right (the input itself where it is right as it stands), and what is wrong with it.
 * `units` is what its numbers are written in.
 */
export function examine<Schema extends z.ZodType>(
  schema: Schema,
  input: unknown,
  units: Units,
  check: Check,
): { data: z.output<Schema> | undefined; findings: readonly Finding[] } {
  if (accepts(schema, input)) return { data: input, findings: check(input, units) };
  const { value, findings: renamed, writtenAt } = withoutFormerNames(schema, input);
  const result = schema.safeParse(value);
  const misshapen = result.success ? [] : shapeFindings(schema, value, result.error, units);
  const others = [...misshapen, ...unsettled(check(value, units), misshapen)];
  if (renamed.length === 0) return { data: result.data, findings: others };
  const written = others.map((finding) => ({ ...finding, at: writtenAt(finding.at) }));
  return { data: undefined, findings: [...renamed, ...written] };
}

/** Findings of places of which more need be said: no other kind of thing stands there, and they have not been told. */
function unsettled(findings: readonly Finding[], told: readonly Finding[]): readonly Finding[] {
  if (findings.length === 0 || told.length === 0) return findings;
  const places = new Set<string>();
  const wrongKinds = new Set<string>();
  for (const { at, code } of told) {
    places.add(keyOf(at));
    if (code === 'wrongType') wrongKinds.add(keyOf(at));
  }
  const isWithinWrongKind = (at: Place) => at.some((_, k) => wrongKinds.has(keyOf(at.slice(0, k + 1))));
  return findings.filter(({ at }) => at.length === 0 || !(places.has(keyOf(at)) || isWithinWrongKind(at)));
}

export { type Finding, found, type Place } from './finding.ts';

type Values = Diagnostic['values'];

const SEPARATOR = '\u0000';

/** A place as the key of a set: an index is no name. */
function keyOf(at: Place): string {
  return at.map(partOf).join(SEPARATOR);
}

function partOf(key: PropertyKey): string {
  return typeof key === 'number' ? `#${key}` : `.${String(key)}`;
}

/** Findings as diagnostics, in the order in which the input has their places; what is missing comes after what is there. */
export function inOrder(findings: readonly Finding[], input: unknown): Diagnostic[] {
  if (findings.length === 0) return [];
  const places: KeyPlaces = new Map();
  const ranked = findings.map((finding) => ({ finding, rank: rankOf(finding.at, input, places) }));
  ranked.sort((a, b) => compare(a.rank, b.rank));
  return ranked.map(({ finding: { at, code, values } }) => fault(code, pathText(at), values));
}

/** For objects met, where in them each of their keys stands. */
type KeyPlaces = Map<object, ReadonlyMap<string, number>>;

function rankOf(at: Place, input: unknown, places: KeyPlaces): number[] {
  let value = input;
  return at.map((key) => {
    const k = isRecord(value) ? placeOf(key, value, places) : undefined;
    value = isRecord(value) ? value[key] : undefined;
    return k ?? Number.MAX_SAFE_INTEGER;
  });
}

function placeOf(key: PropertyKey, holder: object, places: KeyPlaces): number | undefined {
  let known = places.get(holder);
  if (known === undefined) {
    known = new Map(Object.keys(holder).map((name, k) => [name, k]));
    places.set(holder, known);
  }
  return known.get(String(key));
}

function compare(a: readonly number[], b: readonly number[]): number {
  for (let k = 0; k < Math.min(a.length, b.length); k++) if (a[k] !== b[k]) return a[k] - b[k];
  return a.length - b.length;
}

/** `lowerArm.inner[0]` */
export function pathText(at: Place): string {
  return at.reduce<string>(
    (text, key) =>
      typeof key === 'number' ? `${text}[${key}]` : text === '' ? String(key) : `${text}.${String(key)}`,
    '',
  );
}

/** The place that a path of ours names. */
export function placeAt(path: string): Place {
  const keys = path.match(/\[\d+\]|[^.[]+/g) ?? [];
  return keys.map((key) => (key.startsWith('[') ? Number(key.slice(1, -1)) : key));
}

/** What stands at a place, whatever the input is. */
export function valueAt(input: unknown, at: Place): unknown {
  let value = input;
  for (let k = 0; k < at.length; k++) {
    if (!isRecord(value)) return undefined;
    value = value[at[k]];
  }
  return value;
}

export function isRecord(value: unknown): value is Record<PropertyKey, unknown> {
  return typeof value === 'object' && value !== null;
}

type SchemaIssue = z.core.$ZodIssue;

/** What of an input is not of the schema's shape; `units` is what its numbers are written in. */
function shapeFindings(schema: z.ZodType, input: unknown, error: z.ZodError, units: Units): Finding[] {
  const issues = error.issues.flatMap((issue) => spread(issue, input));
  /** Places that are missing because their names are misspelt: one slip is reported once. */
  const misspelt = new Set<string>();
  const findings: Finding[] = [];
  for (const issue of issues) {
    if (issue.code === 'unrecognized_keys') {
      for (const { finding, meant } of unknownFields(schema, input, issue.path, issue.keys)) {
        findings.push(finding);
        if (meant !== undefined) misspelt.add(pathText([...issue.path, meant]));
      }
    } else {
      findings.push(translate(issue, schema, input, units));
    }
  }
  return findings.filter(({ at, values: { oneOf } }) => {
    const places = Array.isArray(oneOf) ? oneOf.map((name: string) => [...at, name]) : [at];
    return !places.some((place) => misspelt.has(pathText(place)) && valueAt(input, place) === undefined);
  });
}

/** Of what may be one thing or another, the faults of the one that was meant; an empty object was meant for none. */
function spread(issue: SchemaIssue, input: unknown): SchemaIssue[] {
  if (issue.code !== 'invalid_union' || isEmpty(valueAt(input, issue.path))) return [issue];
  const meant = issue.errors.find(
    (option) => !option.some(({ code, path }) => code === 'invalid_type' && path.length === 0),
  );
  if (meant === undefined) return [issue];
  return meant
    .map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] }))
    .flatMap((inner) => spread(inner, input));
}

function isEmpty(value: unknown): boolean {
  return isRecord(value) && !Array.isArray(value) && Object.keys(value).length === 0;
}

function unknownFields(
  schema: z.ZodType,
  input: unknown,
  at: Place,
  names: readonly string[],
): { finding: Finding; meant: string | undefined }[] {
  const holder = schemaAt(schema, at);
  const known = namesOf(holder);
  const free = known.filter((name) => valueAt(input, [...at, name]) === undefined);
  const required = free.filter((name) => isRequired(holder, name));
  const homeOf = homesAround(schema, at);
  return names.map((name) => {
    const meant = meantName(name, required) ?? meantName(name, free);
    const values = { allowed: known, ...(meant === undefined ? homeOf(name) : { meant }) };
    return { finding: found([...at, name], 'unknownField', values), meant };
  });
}

/**
 * Where a name belongs that is none at a place: below, in `homes`, or farther out, in what the name `outer` stands for (the
 * whole input where that is empty), as when a bracket is missing before it.
 */
function homesAround(schema: z.ZodType, at: Place): (name: string) => Values {
  const outside = at.map((_, k) => ({
    names: namesOf(schemaAt(schema, at.slice(0, k))),
    outer: String(at[k - 1] ?? ''),
  }));
  outside.reverse();
  const here = schemaAt(schema, at);
  const below: ReadonlyMap<string, readonly string[]> = here === undefined ? new Map() : homesIn(here);
  return (name) => {
    const around = outside.find(({ names }) => names.includes(name));
    if (around !== undefined) return { outer: around.outer };
    const homes = below.get(name) ?? [];
    return homes.length > 0 ? { homes } : {};
  };
}

function translate(
  issue: Exclude<SchemaIssue, z.core.$ZodIssueUnrecognizedKeys>,
  schema: z.ZodType,
  input: unknown,
  units: Units,
): Finding {
  const at = issue.path;
  const value = valueAt(input, at);
  const here = schemaAt(schema, at);
  const quantity = here && quantityOf(here);
  const got = show(value);
  switch (issue.code) {
    case 'invalid_value': {
      const what = here && shapeOf(here);
      const names = issue.values.map(String);
      const expected = typeof what === 'string' ? { expected: what } : { allowed: what ?? names };
      if (value === undefined) {
        return found(at, 'missing', { ...expected, only: names.length === 1 ? names[0] : null });
      }
      const meant = typeof value === 'string' ? meantName(value, names) : undefined;
      return found(at, 'unknownChoice', { ...expected, got, meant: meant ?? null });
    }
    case 'too_small':
    case 'too_big': {
      if (issue.origin === 'array') {
        const list = { ...expectedOf(here?._zod.def.type ?? 'array', here), got };
        const isLong = issue.code === 'too_big' && Array.isArray(value);
        return found(at, 'wrongType', isLong ? { ...list, count: value.length } : list);
      }
      const [bound, limit] = boundOf(issue);
      return found(at, 'outOfRange', {
        got,
        [bound]: quantity === undefined ? limit : toMetric(limit, quantity, units),
        ...(quantity === undefined ? { share: shareMeant(value, issue) } : { quantity }),
      });
    }
    case 'custom': {
      const oneOf = issue.params?.oneOf as readonly string[];
      const given = oneOf.filter((name) => valueAt(value, [name]) !== undefined);
      return found(at, issue.message, { oneOf, ...(given.length > 1 ? { given } : { got }) });
    }
    case 'invalid_format':
      return found(at, issue.message, { got });
    default: {
      // A quantity of several shapes is a number first of all.
      const type =
        issue.code === 'invalid_type' ? issue.expected : quantity === undefined ? 'union' : 'number';
      // Of alternatives that a name tells apart none has this one.
      const names =
        issue.code === 'invalid_union' && issue.discriminator !== undefined && here && shapeOf(here);
      const expected = names ? { allowed: names } : expectedOf(type, here);
      if (value === undefined) return found(at, 'missing', expected);
      if (names) return found(at, 'unknownChoice', { ...expected, got, meant: null });
      if (type !== 'number' || typeof value !== 'string') return found(at, 'wrongType', { ...expected, got });
      const unit = quantity && unitName(quantity, units);
      return found(at, 'wrongType', { ...expected, got, meant: numbersMeant(value, unit) });
    }
  }
}

function boundOf(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): [name: string, limit: number] {
  return issue.code === 'too_small'
    ? [issue.inclusive === false ? 'above' : 'min', Number(issue.minimum)]
    : [issue.inclusive === false ? 'below' : 'max', Number(issue.maximum)];
}

/** The most that a share or a ratio may be; what may be more is no such number. */
const MOST_RATIO = 2;

/** The share of 1 that is meant by percent; null where none is. */
function shareMeant(value: unknown, issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): number | null {
  if (issue.code !== 'too_big' || typeof value !== 'number' || value > 100) return null;
  const share = Number((value / 100).toPrecision(12));
  return issue.maximum <= MOST_RATIO && share <= Number(issue.maximum) ? share : null;
}

/** Names that every object may have, and that say nothing about it. */
const HOUSEKEEPING = new Set(['$schema', 'notes', 'kind']);

/** What belongs at a place: the name of a kind of value, with the quantity of a number and the fields of an object. */
function expectedOf(type: string, schema: z.core.$ZodTypes | undefined): Values {
  if (schema === undefined) return { expected: type };
  if (type === 'number') {
    const quantity = quantityOf(schema);
    return quantity === undefined ? { expected: type } : { expected: type, quantity };
  }
  const what = shapeOf(schema);
  const { def } = schema._zod;
  const item = def.type === 'array' ? (def.element as z.core.$ZodTypes) : undefined;
  const fields = namesOf(item ?? schema).filter((name) => !HOUSEKEEPING.has(name));
  return {
    expected: typeof what === 'string' ? what : item === undefined ? type : `${item._zod.def.type}List`,
    ...(fields.length === 0 ? {} : { fields }),
  };
}
