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

export function describe(name: string, body: () => void): void {
  suites.push(name);
  body();
  suites.pop();
}

export const it = Object.assign(
  (name: string, body: Run): void => {
    const context = { task: { name, file: { name: file } } };
    all.push({
      id: [file, ...suites, name].join(' > '),
      file,
      run: async () => {
        for (const each of before) await each(context);
        await body(context);
        for (const each of after) await each(context);
      },
    });
  },
  {
    each:
      (cases: readonly unknown[]) =>
      (name: string, body: (...given: unknown[]) => unknown): void => {
        for (const one of cases) {
          const given = Array.isArray(one) ? one : [one];
          const places = name.match(/%[sd]/g)?.length ?? 0;
          it(format(name, ...given.slice(0, places)), () => body(...given));
        }
      },
  },
);

export const beforeEach = (hook: Run): unknown => before.push(hook);
export const afterEach = (hook: Run): unknown => after.push(hook);
export const afterAll = (_: Run): void => {};
