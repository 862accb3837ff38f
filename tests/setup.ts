// Runs before each test file.
import { configureGlobal } from 'fast-check';
import { afterAll, afterEach, beforeEach, type TestContext } from 'vitest';
import { beginTest, writeMet } from './support/met.ts';

/** Property tests draw the same cases on every run, until FC_SEED says otherwise. */
const defaultSeed = 20260401;

/** An integer from the environment. */
function integer(name: string, least: number): number | undefined {
  const text = process.env[name];
  if (text === undefined || text === '') return undefined;
  const value = Number(text);
  if (!Number.isInteger(value) || value < least) throw new Error(`invalid ${name}: ${text}`);
  return value;
}

// fast-check prints the seed and the path of a failing case itself.
const numRuns = integer('FC_RUNS', 1);
configureGlobal({
  seed: integer('FC_SEED', -(2 ** 31)) ?? defaultSeed,
  ...(numRuns === undefined ? {} : { numRuns }),
});

// The library never prints. A call to console is noted, with the line it came from, and fails the test that it
// happened in; one made while the file loads, or after its last test, fails the file.
const calls: string[] = [];
const noted = console as unknown as Record<string, unknown>;
for (const name of Object.keys(console)) {
  if (typeof noted[name] !== 'function') continue;
  noted[name] = (...args: unknown[]) => {
    const from = new Error().stack?.split('\n')[2]?.trim() ?? '';
    calls.push(`console.${name}(${args.map(String).join(', ')}) ${from}`);
  };
}

function failOnCalls(): void {
  if (calls.length === 0) return;
  throw new Error(`a test must not print:\n${calls.splice(0).join('\n')}`);
}

beforeEach(failOnCalls);
afterEach(failOnCalls);
afterAll(failOnCalls);

/** The names of a test and of all that it stands in. */
function nameOf({ task }: TestContext): string {
  const names = [task.name];
  for (let suite = task.suite; suite?.name; suite = suite.suite) names.unshift(suite.name);
  return names.join(' > ');
}

beforeEach((context) => beginTest(context.task.file.name, nameOf(context)));
afterAll(writeMet);

const messages = process.env.MESSAGES === undefined ? null : await import('./messages/record.ts');
afterAll(() => messages?.writeMessages());
