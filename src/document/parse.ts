import type * as z from 'zod';
import { type Issue, show, throwIfAny } from '../errors.ts';
import { type Quantity, type Units, unitName } from '../units.ts';
import { inWords } from '../words.ts';
import { accepts } from './accepts.ts';
import type { Finding, Place } from './finding.ts';
import { withoutFormerNames } from './former-names.ts';
import { adviceForText } from './number-meant.ts';
import { quantityOf, shapeOf } from './quantity.ts';
import { homesIn, isRequired, namesOf, schemaAt } from './schema-walk.ts';
import { meantName } from './spelling.ts';

/**
 * Data of the schema's shape from unknown input: the input itself where it is right as it stands. `check` adds what the shape alone can't tell; it is given the input as it
 * is, whatever its shape.
 *
 * @throws InputError listing every issue with its path, what was got and what is allowed.
 */
export function parse<Schema extends z.ZodType>(
  schema: Schema,
  input: unknown,
  what: string,
  check: Check = NO_CHECK,
): z.output<Schema> {
  const { data, findings } = examine(schema, input, 'metric', check);
  throwIfAny(what, inOrder(findings, input));
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
  for (const { at, problem } of told) {
    places.add(keyOf(at));
    if (problem === 'wrong kind of value') wrongKinds.add(keyOf(at));
  }
  const isWithinWrongKind = (at: Place) => at.some((_, k) => wrongKinds.has(keyOf(at.slice(0, k + 1))));
  return findings.filter(({ at }) => at.length === 0 || !(places.has(keyOf(at)) || isWithinWrongKind(at)));
}

export type { Finding, Place } from './finding.ts';

const SEPARATOR = '\u0000';

/** A place as the key of a set: an index is no name. */
function keyOf(at: Place): string {
  return at.map(partOf).join(SEPARATOR);
}

function partOf(key: PropertyKey): string {
  return typeof key === 'number' ? `#${key}` : `.${String(key)}`;
}

/** Findings as issues, in the order in which the input has their places; what is missing comes after what is there. */
export function inOrder(findings: readonly Finding[], input: unknown): Issue[] {
  if (findings.length === 0) return [];
  const places: KeyPlaces = new Map();
  const ranked = findings.map((finding) => ({ finding, rank: rankOf(finding.at, input, places) }));
  ranked.sort((a, b) => compare(a.rank, b.rank));
  return ranked.map(({ finding: { at, ...issue } }) => ({ path: pathText(at), ...issue }));
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

/** What of an input is not of the schema's shape, in our words; `units` is what its numbers are written in. */
function shapeFindings(schema: z.ZodType, input: unknown, error: z.ZodError, units: Units): Finding[] {
  const issues = error.issues.flatMap((issue) => spread(issue, input));
  /** Places that are missing because their names are misspelt: one slip is told once. */
  const misspelt = new Set<string>();
  const findings: (Finding & { readonly oneOf?: readonly string[] })[] = [];
  for (const issue of issues) {
    if (issue.code === 'unrecognized_keys') {
      for (const { finding, meant } of unknownNames(schema, input, issue.path, issue.keys)) {
        findings.push(finding);
        if (meant !== undefined) misspelt.add(pathText([...issue.path, meant]));
      }
    } else {
      findings.push(translate(issue, schema, input, units));
    }
  }
  return findings.flatMap(({ oneOf, ...finding }) => {
    const places = oneOf?.map((name) => [...finding.at, name]) ?? [finding.at];
    const told = places.some((at) => misspelt.has(pathText(at)) && valueAt(input, at) === undefined);
    return told ? [] : [finding];
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

function unknownNames(
  schema: z.ZodType,
  input: unknown,
  at: Place,
  names: readonly string[],
): { finding: Finding; meant: string | undefined }[] {
  const holder = schemaAt(schema, at);
  const known = namesOf(holder);
  const allowed = known.join(', ');
  const free = known.filter((name) => valueAt(input, [...at, name]) === undefined);
  const required = free.filter((name) => isRequired(holder, name));
  const homeOf = homesAround(schema, at);
  return names.map((name) => {
    const meant = meantName(name, required) ?? meantName(name, free);
    const advice = meant === undefined ? homeOf(name) : `did you mean ${meant}?`;
    return { finding: { at: [...at, name], problem: 'unknown name', allowed, advice }, meant };
  });
}

/** Where a name belongs that is none at a place: below, or farther out as when a bracket is missing before it. */
function homesAround(schema: z.ZodType, at: Place): (name: string) => string {
  const outside = at.map((_, k) => ({
    names: namesOf(schemaAt(schema, at.slice(0, k))),
    home: String(at[k - 1] ?? 'the outermost { }'),
  }));
  outside.reverse();
  const here = schemaAt(schema, at);
  const below: ReadonlyMap<string, readonly string[]> = here === undefined ? new Map() : homesIn(here);
  return (name) => {
    const outer = outside.find(({ names }) => names.includes(name));
    if (outer !== undefined) return `it belongs in ${outer.home}: is a } missing before it?`;
    const homes = below.get(name) ?? [];
    return homes.length > 0 ? `it belongs in ${homes.join(' or ')}` : 'correct the spelling, or take it out';
  };
}

function translate(
  issue: Exclude<SchemaIssue, z.core.$ZodIssueUnrecognizedKeys>,
  schema: z.ZodType,
  input: unknown,
  units: Units,
): Finding & { readonly oneOf?: readonly string[] } {
  const at = issue.path;
  const value = valueAt(input, at);
  const here = schemaAt(schema, at);
  const quantity = here === undefined ? undefined : quantityOf(here);
  const unit = quantity === undefined ? undefined : unitName(quantity, units);
  const got = show(value);
  switch (issue.code) {
    case 'invalid_type':
      return wrongKind(at, value, allowedBy(issue.expected, here, unit), issue.expected === 'number', unit);
    case 'invalid_value': {
      const allowed = (here && shapeOf(here)) ?? issue.values.join(', ');
      if (value === undefined) {
        const advice = issue.values.length === 1 ? `write ${show(issue.values[0])}` : 'add it';
        return { at, problem: 'missing', allowed, advice };
      }
      const meant = typeof value === 'string' ? meantName(value, issue.values.map(String)) : undefined;
      const choice = { at, problem: 'unknown choice', got, allowed };
      return meant === undefined ? choice : { ...choice, advice: `did you mean "${meant}"?` };
    }
    case 'too_small':
    case 'too_big':
      if (issue.origin === 'array') {
        const allowed = allowedBy(here?._zod.def.type === 'tuple' ? 'tuple' : 'points', here, unit);
        const list = { at, problem: 'wrong kind of value', got, allowed };
        return issue.code === 'too_big' ? { ...list, advice: adviceForMany(value) } : list;
      }
      return {
        at,
        problem: 'out of range',
        got: withUnit(got, unit),
        allowed: withUnit(rangeText(issue), unit),
        ...adviceForPercent(value, issue, unit),
      };
    case 'invalid_union':
      // A quantity of several shapes is a number first of all.
      return quantity === undefined
        ? wrongKind(at, value, (here && shapeOf(here)) ?? choicesOf(here, unit), false, unit)
        : wrongKind(at, value, allowedBy('number', here, unit), true, unit);
    case 'custom': {
      const oneOf = issue.params?.oneOf as readonly string[] | undefined;
      const there = oneOf?.filter((name) => valueAt(value, [name]) !== undefined) ?? [];
      const custom = { at, problem: issue.message, got: there.length > 1 ? there.join(' and ') : got };
      return oneOf === undefined ? custom : { ...custom, oneOf };
    }
    default:
      return { at, problem: issue.message, got };
  }
}

function wrongKind(
  at: Place,
  value: unknown,
  allowed: string,
  isNumber: boolean,
  unit: string | undefined,
): Finding {
  if (value === undefined) return { at, problem: 'missing', allowed, advice: 'add it' };
  const wrong = { at, problem: 'wrong kind of value', got: show(value), allowed };
  return isNumber && typeof value === 'string' ? { ...wrong, advice: adviceForText(value, unit) } : wrong;
}

function withUnit(text: string, unit: string | undefined): string {
  return unit === undefined ? text : `${text} ${unit}`;
}

function rangeText(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  return issue.code === 'too_small'
    ? `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`
    : `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}`;
}

/** The most that a share or a ratio may be; what may be more is no such number. */
const MOST_RATIO = 2;

/** Percent where a share of 1 belongs. */
function adviceForPercent(
  value: unknown,
  issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig,
  unit: string | undefined,
): { advice?: string } {
  if (issue.code !== 'too_big' || unit !== undefined || typeof value !== 'number' || value > 100) return {};
  const share = Number((value / 100).toPrecision(12));
  return issue.maximum <= MOST_RATIO && share <= Number(issue.maximum)
    ? { advice: `if ${value} % is meant, write ${share}` }
    : {};
}

/** Three numbers for a point: one from another model, or a comma in a decimal. */
function adviceForMany(value: unknown): string {
  return Array.isArray(value) && value.length === 3
    ? 'leave out the fore-aft one; if it is a decimal, write a point for the comma: 12.5'
    : 'if there are decimals, write a point for the comma: 12.5';
}

/** Names that every object may have, and that say nothing about it. */
const HOUSEKEEPING = new Set(['$schema', 'notes', 'kind']);

function allowedBy(expected: string, schema: z.core.$ZodType | undefined, unit: string | undefined): string {
  const names = namesOf(schema).filter((name) => !HOUSEKEEPING.has(name));
  const words: Record<string, string> = {
    number: unit === undefined ? 'a finite number' : `a finite number, in ${inWords(unit)}`,
    tuple: (schema === undefined ? undefined : shapeOf(schema)) ?? 'a list',
    points: 'a list of points [[y, z], ...], one at least',
    array:
      (schema === undefined ? undefined : shapeOf(schema)) ?? 'a list of points [[y, z], ...], one at least',
    record: 'an object { name: ... }',
    object: names.length === 0 ? 'an object { ... }' : `{ ${names.join(', ')} }`,
    string: 'a text',
    boolean: 'true or false',
  };
  return words[expected] ?? expected;
}

/** What a union takes. */
function choicesOf(schema: z.core.$ZodTypes | undefined, unit: Quantity | string | undefined): string {
  if (schema?._zod.def.type !== 'union') return '';
  return schema._zod.def.options
    .map((option) => {
      const { type } = (option as z.core.$ZodTypes)._zod.def;
      return type === 'array' ? 'a list of texts' : allowedBy(type, option, unit);
    })
    .join(' or ');
}
