import type * as z from 'zod';
import { toMetric, type Units } from '../units.ts';
import { quantityOf } from './quantity.ts';

/** A schema without what only wraps it. */
export function bare(schema: z.core.$ZodType): z.core.$ZodTypes {
  let inner = schema as z.core.$ZodTypes;
  while (inner._zod.def.type === 'optional' || inner._zod.def.type === 'readonly') {
    inner = inner._zod.def.innerType as z.core.$ZodTypes;
  }
  return inner;
}

/** The schema of what stands at a path. */
export function schemaAt(
  schema: z.core.$ZodType,
  path: readonly PropertyKey[],
): z.core.$ZodTypes | undefined {
  let at: z.core.$ZodType | undefined = schema;
  for (const key of path) {
    if (at === undefined) return undefined;
    at = memberOf(at, key);
  }
  return at === undefined ? undefined : bare(at);
}

function memberOf(schema: z.core.$ZodType, key: PropertyKey): z.core.$ZodType | undefined {
  const inner = bare(schema);
  const { def } = inner._zod;
  switch (def.type) {
    case 'object':
      return Object.hasOwn(def.shape, key) ? def.shape[String(key)] : undefined;
    case 'tuple':
      return def.items[Number(key)];
    case 'array':
      return def.element;
    case 'record':
      return def.valueType;
    case 'union':
      return def.options.map((option) => memberOf(option, key)).find((found) => found !== undefined);
    default:
      return undefined;
  }
}

/** Names that an object takes, in their order. */
export function namesOf(schema: z.core.$ZodType | undefined): string[] {
  if (schema === undefined) return [];
  const { def } = bare(schema)._zod;
  if (def.type === 'object') return Object.keys(def.shape);
  if (def.type === 'union') return def.options.flatMap((option) => namesOf(option));
  return [];
}

/** Whether an object must have what stands under a name. */
export function isRequired(schema: z.core.$ZodType | undefined, name: string): boolean {
  const def = schema === undefined ? undefined : bare(schema)._zod.def;
  return def?.type === 'object' && name in def.shape && def.shape[name]._zod.def.type !== 'optional';
}

/** For each name that objects below a schema take, the names of those objects: for `damper` `limits`. */
export function homesIn(schema: z.core.$ZodType): ReadonlyMap<string, readonly string[]> {
  const homes = new Map<string, string[]>();
  collectHomes(schema, homes);
  return homes;
}

function collectHomes(schema: z.core.$ZodType, homes: Map<string, string[]>): void {
  for (const inner of namesOf(schema)) {
    const member = memberOf(schema, inner) as z.core.$ZodType;
    for (const name of namesOf(member)) {
      const known = homes.get(name);
      if (known === undefined) homes.set(name, [inner]);
      else if (!known.includes(inner)) known.push(inner);
    }
    collectHomes(member, homes);
  }
}

/** A copy of a value of a schema's shape, with all its quantities as the library counts them. */
export function inMetric<T>(schema: z.core.$ZodType, value: T, units: Units): T {
  return (units === 'metric' ? copied(value) : converted(schema, value)) as T;
}

function copied(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(copied);
  const copy: Record<string, unknown> = {};
  for (const [name, inner] of Object.entries(value)) copy[name] = copied(inner);
  return copy;
}

function converted(schema: z.core.$ZodType, value: unknown): unknown {
  if (typeof value === 'number') {
    const quantity = quantityOf(bare(schema));
    return quantity === undefined ? value : toMetric(value, quantity, 'imperial');
  }
  if (Array.isArray(value)) {
    return value.map((item, k) => converted(memberOf(schema, k) as z.core.$ZodType, item));
  }
  if (typeof value !== 'object' || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const [name, inner] of Object.entries(value)) {
    copy[name] = converted(memberOf(schema, name) as z.core.$ZodType, inner);
  }
  return copy;
}
