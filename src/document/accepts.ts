// Right data passes without zod. An acceptor answers whether a schema takes a value and gives it back as it stands; it is made
// once from the schema, so that each rule stays in one place. It finds no words: what it does not accept goes to zod.
//
// Accepted data always succeeds in zod, and is plain: enumerable fields of plain objects. Zod alone decides on
//   - a kind of schema, check or format that has no case below;
//   - objects and lists of a class or of another realm, and fields that are not enumerable;
//   - records with symbol keys or with a name `__proto__` or `constructor`.

import type * as z from 'zod';

type Acceptor = (value: unknown) => boolean;

const acceptors = new WeakMap<z.core.$ZodType, Acceptor>();

/** Whether a schema takes a value, and gives it back as it stands. */
export function accepts<Schema extends z.ZodType>(schema: Schema, value: unknown): value is z.output<Schema> {
  let acceptor = acceptors.get(schema);
  if (acceptor === undefined) {
    acceptor = acceptorOf(schema);
    acceptors.set(schema, acceptor);
  }
  return acceptor(value);
}

/** The acceptor of a schema, made when it first gets a value: much of a document may be left out, and often is. */
function lazyAcceptorOf(schema: z.core.$ZodType): Acceptor {
  let acceptor: Acceptor | undefined;
  return (value) => {
    acceptor ??= acceptorOf(schema);
    return acceptor(value);
  };
}

/** For what only zod can judge. */
const leaveToZod: Acceptor = () => false;

function acceptorOf(schema: z.core.$ZodType): Acceptor {
  const { def } = schema._zod as z.core.$ZodTypes['_zod'];
  const kind = kindAcceptor(schema as z.core.$ZodTypes);
  const checks = (def.checks ?? []).map((check) => checkAcceptor(check as z.core.$ZodChecks, def.type));
  if (kind === leaveToZod || checks.includes(leaveToZod)) return leaveToZod;
  switch (checks.length) {
    case 0:
      return kind;
    case 1: {
      const [check] = checks;
      return (value) => kind(value) && check(value);
    }
    default:
      return (value) => kind(value) && all(checks, value);
  }
}

function all(acceptors: readonly Acceptor[], value: unknown): boolean {
  for (let k = 0; k < acceptors.length; k++) if (!acceptors[k](value)) return false;
  return true;
}

function any(acceptors: readonly Acceptor[], value: unknown): boolean {
  for (let k = 0; k < acceptors.length; k++) if (acceptors[k](value)) return true;
  return false;
}

const isBoolean: Acceptor = (value) => typeof value === 'boolean';
const isString: Acceptor = (value) => typeof value === 'string';
const isAnything: Acceptor = () => true;

function kindAcceptor(schema: z.core.$ZodTypes): Acceptor {
  const { def, traits } = schema._zod;
  // A format such as z.int() is a check of itself; coercion changes the value.
  if (traits.has('$ZodCheck') || 'coerce' in def) return leaveToZod;
  switch (def.type) {
    case 'number':
      return Number.isFinite;
    case 'boolean':
      return isBoolean;
    case 'string':
      return isString;
    case 'unknown':
      return isAnything;
    case 'enum':
    case 'literal': {
      const { values } = schema._zod as { values?: ReadonlySet<unknown> };
      return values === undefined ? leaveToZod : (value) => values.has(value);
    }
    case 'readonly':
      return acceptorOf(def.innerType);
    case 'optional': {
      const inner = lazyAcceptorOf(def.innerType);
      return (value) => value === undefined || inner(value);
    }
    case 'union': {
      // Of options that a name tells apart no more than one takes a value.
      if (def.inclusive === false && !('discriminator' in def)) return leaveToZod;
      const options = def.options.map(lazyAcceptorOf);
      return (value) => any(options, value);
    }
    case 'tuple':
      return def.rest === null ? tupleAcceptor(def.items.map(acceptorOf)) : leaveToZod;
    case 'array': {
      const element = acceptorOf(def.element);
      return (value) => {
        if (!isPlainList(value)) return false;
        for (let k = 0; k < value.length; k++) if (!element(value[k])) return false;
        return true;
      };
    }
    case 'record':
      return recordAcceptor(def);
    case 'object':
      return objectAcceptor(def);
    default:
      return leaveToZod;
  }
}

function tupleAcceptor(items: readonly Acceptor[]): Acceptor {
  return (value) => {
    if (!isPlainList(value) || value.length !== items.length) return false;
    for (let k = 0; k < items.length; k++) if (!items[k](value[k])) return false;
    return true;
  };
}

/** A strict object: each of its own names, and no other. */
function objectAcceptor({ shape, catchall }: z.core.$ZodObjectDef): Acceptor {
  if (catchall?._zod.def.type !== 'never') return leaveToZod;
  const names = Object.keys(shape);
  const members = names.map((name) => acceptorOf(shape[name]));
  /** Whether what stands under a name may be absent. */
  const omittable = names.map((name) => shape[name]._zod.optin !== undefined);
  return (value) => {
    if (!isPlain(value)) return false;
    let hidden = 0;
    for (const name in value) {
      if (!names.includes(name)) return false;
      hidden--;
    }
    for (let k = 0; k < names.length; k++) {
      const member = value[names[k]];
      if (!members[k](member)) return false;
      if (member !== undefined) hidden++;
      else if (!omittable[k] && !(names[k] in value)) return false;
    }
    return hidden <= 0;
  };
}

function recordAcceptor({ keyType, valueType, mode }: z.core.$ZodRecordDef): Acceptor {
  const { type, checks = [] } = (keyType as z.core.$ZodTypes)._zod.def;
  if (type !== 'string' || checks.length > 0 || keyType._zod.traits.has('$ZodCheck') || mode === 'loose')
    return leaveToZod;
  const inner = acceptorOf(valueType);
  return (value) => {
    if (!isPlain(value) || Object.getOwnPropertySymbols(value).length > 0) return false;
    for (const name of Object.getOwnPropertyNames(value)) {
      if (name === '__proto__' || name === 'constructor' || !inner(value[name])) return false;
    }
    return true;
  };
}

/** A list that its own methods copy as a list. */
function isPlainList(value: unknown): value is readonly unknown[] {
  return Array.isArray(value) && value.constructor === Array;
}

function isPlain(value: unknown): value is Record<string, unknown> {
  if (typeof value !== 'object' || value === null) return false;
  const prototype = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

function checkAcceptor(check: z.core.$ZodChecks, type: string): Acceptor {
  const { def } = check._zod;
  switch (def.check) {
    case 'greater_than':
    case 'less_than':
      return typeof def.value === 'number' ? boundAcceptor(def, def.value) : leaveToZod;
    case 'number_format':
      return def.format === 'safeint' ? Number.isSafeInteger : leaveToZod;
    case 'string_format': {
      const { pattern } = def;
      const isStateless = pattern !== undefined && !pattern.global && !pattern.sticky;
      return def.format === 'regex' && isStateless ? (value) => pattern.test(value as string) : leaveToZod;
    }
    case 'min_length': {
      // Zod counts the length of a text in another way.
      const least = def.minimum;
      return type === 'array' ? (value) => (value as unknown[]).length >= least : leaveToZod;
    }
    default:
      return (def.check as string) === 'custom' ? refinement(def) : leaveToZod;
  }
}

function boundAcceptor(
  { check, inclusive }: z.core.$ZodCheckLessThanDef | z.core.$ZodCheckGreaterThanDef,
  bound: number,
): Acceptor {
  if (check === 'less_than') {
    return inclusive ? (value) => (value as number) <= bound : (value) => (value as number) < bound;
  }
  return inclusive ? (value) => (value as number) >= bound : (value) => (value as number) > bound;
}

function refinement(def: object): Acceptor {
  const { fn } = def as { fn: (value: unknown) => unknown };
  // A promise is not an answer.
  return (value) => fn(value) === true;
}
