// The part of vitest that the tests use, with vitest's own `expect`, in a process that runs the same tests again and again.
import { format } from 'node:util';
import {
  ASYMMETRIC_MATCHERS_OBJECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
} from '@vitest/expect';
import * as chai from 'chai';

chai.use(JestExtend);
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
export const expect = Object.assign(
  (value: unknown, message?: string) => chai.expect(value, message),
  chai.expect,
  (globalThis as unknown as Record<symbol, object>)[ASYMMETRIC_MATCHERS_OBJECT],
);

type Run = (context: object) => unknown;

/** A test with the hooks around it, which rejects if it fails. */
export interface Test {
  /** Its file and names. */
  readonly id: string;
  readonly file: string;
  readonly run: () => Promise<void>;
}

/** All tests, in the order of their files. */
export const all: Test[] = [];

let file = '';
const suites: string[] = [];
const before: Run[] = [];
const after: Run[] = [];

/** Tests from here on are those of a file. */
export function begin(path: string): void {
  file = path;
}

/** Calls with each of some cases, and a name that has its values in the places of `%s`, `%d`, `%#` and `$field`. */
const each =
  (one: (name: string, body: () => void) => void) =>
  (cases: readonly unknown[]) =>
  (name: string, body: (...given: unknown[]) => unknown): void => {
    for (const [k, item] of cases.entries()) {
      const given = Array.isArray(item) ? item : [item];
      const fields = name
        .replaceAll('%#', String(k))
        .replaceAll(/\$(\w+)/g, (_, field: string) => String((item as Record<string, unknown>)?.[field]));
      const places = fields.match(/%[sdi]/g)?.length ?? 0;
      one(format(fields, ...given.slice(0, places)), () => body(...given));
    }
  };

function suite(name: string, body: () => void): void {
  suites.push(name);
  body();
  suites.pop();
}

export const describe = Object.assign(suite, { each: each(suite) });

function test(name: string, body: Run): void {
  const context = { task: { name, file: { name: file } } };
  all.push({
    id: [file, ...suites, name].join(' > '),
    file,
    run: async () => {
      for (const one of before) await one(context);
      await body(context);
      for (const one of after) await one(context);
    },
  });
}

export const it = Object.assign(test, { each: each(test) });

export const beforeEach = (hook: Run): unknown => before.push(hook);
export const afterEach = (hook: Run): unknown => after.push(hook);
export const afterAll = (_: Run): void => {};

const hooks: (() => unknown)[] = [];
export const beforeAll = (hook: () => unknown): unknown => hooks.push(hook);

/** Runs what stands before all tests. */
export async function ready(): Promise<void> {
  for (const hook of hooks) await hook();
}
