import type * as z from 'zod';
import { InputError, type Issue, show } from '../errors.ts';

/**
 * Data of the schema's shape from unknown input.
 *
 * @throws InputError listing every issue with its path, what was got and what is allowed.
 */
export function parse<Schema extends z.ZodType>(
  schema: Schema,
  input: unknown,
  what: string,
): z.output<Schema> {
  const result = schema.safeParse(input);
  if (result.success) return result.data;
  throw new InputError(
    what,
    result.error.issues.flatMap((issue) => translate(issue, input)),
  );
}

type SchemaIssue = z.core.$ZodIssue;

function translate(issue: SchemaIssue, input: unknown): Issue[] {
  const path = pathText(issue.path);
  const got = valueAt(input, issue.path);
  switch (issue.code) {
    case 'invalid_type':
      return [
        got === undefined
          ? { path, problem: 'missing', allowed: allowedBy(issue.expected), advice: 'add it' }
          : { path, problem: 'wrong kind of value', got: show(got), allowed: allowedBy(issue.expected) },
      ];
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        path: path === '' ? key : `${path}.${key}`,
        problem: 'unknown name',
        advice: 'correct the spelling, or take it out',
      }));
    case 'invalid_value':
      return [
        {
          path,
          problem: got === undefined ? 'missing' : 'unknown choice',
          got: show(got),
          allowed: issue.values.join(', '),
        },
      ];
    case 'too_small':
    case 'too_big':
      if (issue.origin === 'array') {
        return [{ path, problem: 'wrong kind of value', got: show(got), allowed: allowedBy('tuple') }];
      }
      return [{ path, problem: 'out of range', got: show(got), allowed: rangeText(issue) }];
    default:
      return [{ path, problem: issue.message, got: show(got) }];
  }
}

function rangeText(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  return issue.code === 'too_small'
    ? `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}`
    : `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}`;
}

function allowedBy(expected: string): string {
  const words: Record<string, string> = {
    number: 'a finite number',
    tuple: 'a point: two finite numbers [y, z]',
    object: 'an object { ... }',
    string: 'a text',
    boolean: 'true or false',
  };
  return words[expected] ?? expected;
}

/** `lowerArm.inner[0]` */
function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) =>
      typeof key === 'number' ? `${text}[${key}]` : text === '' ? String(key) : `${text}.${String(key)}`,
    '',
  );
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) => (typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined),
    input,
  );
}
