// A test runner for StrykerJS that loads the tests once and keeps them. One that starts vitest for each mutant spends most of its
// time on loading modules and on code that is not compiled yet. Here tests and mutated code are one bundle in the process of the
// runner, with `vitest-in-process.ts` in the place of vitest.
//
// What a mutant leaves behind must not judge the next one: a test that fails has to pass again without the mutant, else the bundle is
// loaded anew and the mutant tried once more.
import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { judgeFiles } from './judges.mjs';

/**
 * @typedef {import('./vitest-in-process.ts').Test} Test
 * @typedef {{ testFilter?: string[], activeMutant: { id: string }, hitLimit?: number }} MutantRun
 * @typedef {{ activeMutant?: string | undefined, currentTestId?: string | undefined, hitCount?: number, hitLimit?: number | undefined, mutantCoverage?: unknown }} Namespace
 */

/** What mutated code and StrykerJS share. @type {Namespace} */
const shared = {};
Object.assign(globalThis, { __stryker__: shared });

/** Bundles tests, setup and code of the folder that the process is in. */
async function bundle() {
  const outfile = resolve(`warm-${process.pid}.mjs`);
  const instead = resolve('tests/mutation/vitest-in-process.ts');
  await build({
    stdin: {
      contents: [
        "import { all, begin } from 'vitest';",
        "import './tests/setup.ts';",
        "import './tests/mutation/setup.ts';",
        ...judgeFiles().map((file) => `begin('${file}'); await import('./${file}');`),
        'export { all };',
      ].join('\n'),
      resolveDir: process.cwd(),
      loader: 'ts',
    },
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // package.json calls the library's files free of side effects: the setup is not.
    ignoreAnnotations: true,
    logLevel: 'error',
    plugins: [
      {
        name: 'tests',
        setup({ onLoad, onResolve }) {
          onResolve({ filter: /^vitest$/ }, () => ({ path: instead }));
          // Packages stay imports, but for fmin, whose sources only a bundler can read.
          onResolve({ filter: /^[^./]/ }, ({ path }) =>
            /^(jounce|fmin)(\/|$)/.test(path) ? undefined : { path, external: true },
          );
          onLoad({ filter: /\/tests\/.*\.ts$/ }, ({ path }) => ({
            contents: readFileSync(path, 'utf8')
              .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path)))
              .replaceAll('import.meta.dirname', JSON.stringify(dirname(path))),
            loader: 'ts',
          }));
        },
      },
    ],
  });
  return pathToFileURL(outfile).href;
}

class WarmRunner {
  /** @type {readonly string[]} */
  static inject = [];

  bundle = '';
  loads = 0;
  /** @type {readonly Test[]} */
  tests = [];
  /** Milliseconds that each test took last. @type {Map<string, number>} */
  cost = new Map();
  /** The number of the last mutant that each test caught. @type {Map<string, number>} */
  caught = new Map();
  kills = 0;

  capabilities() {
    // What the tests compute while they load is computed without a mutant, and nothing else is to be loaded anew: what only acts
    // there is not tried (`ignoreStatic`). Without this the process would be started anew for each mutant that acts there too.
    return { reloadEnvironment: true };
  }

  async init() {
    this.bundle = await bundle();
    await this.load();
  }

  async load() {
    const { all } = await import(`${this.bundle}?${++this.loads}`);
    this.tests = all;
  }

  async dryRun() {
    const tests = [];
    for (const test of this.tests) {
      shared.currentTestId = test.id;
      const failureMessage = await this.failureOf(test);
      const timeSpentMs = this.cost.get(test.id);
      const found = { id: test.id, name: test.id, fileName: resolve(test.file), timeSpentMs };
      tests.push(failureMessage === null ? { ...found, status: 0 } : { ...found, status: 1, failureMessage });
    }
    shared.currentTestId = undefined;
    return { status: 'complete', tests, mutantCoverage: shared.mutantCoverage };
  }

  /** @param {MutantRun} run */
  async mutantRun(run) {
    const { killer, result } = await this.trial(run);
    if (killer === null || (await this.failureOf(killer)) === null) return result;
    await this.load();
    return (await this.trial(run)).result;
  }

  /** Runs tests until one fails. @param {MutantRun} run */
  async trial({ testFilter, activeMutant, hitLimit }) {
    const judges = this.inOrder(testFilter);
    const nrOfTests = judges.length;
    Object.assign(shared, { activeMutant: activeMutant.id, hitCount: 0, hitLimit });
    let killer = null;
    let failureMessage = null;
    for (const test of judges) {
      failureMessage = await this.failureOf(test);
      if (failureMessage === null) continue;
      killer = test;
      this.caught.set(test.id, ++this.kills);
      break;
    }
    const endless = hitLimit !== undefined && (shared.hitCount ?? 0) > hitLimit;
    Object.assign(shared, { activeMutant: undefined, hitLimit: undefined });
    if (endless) return { killer, result: { status: 'timeout', reason: 'the code was reached too often' } };
    if (killer === null) return { killer, result: { status: 'survived', nrOfTests } };
    return { killer, result: { status: 'killed', killedBy: [killer.id], failureMessage, nrOfTests } };
  }

  /**
   * First the tests that caught the last mutants, since they are likely to catch their neighbours, then the quickest.
   * @param {readonly string[]} [ids]
   */
  inOrder(ids) {
    const wanted = ids === undefined ? this.tests : this.tests.filter(({ id }) => ids.includes(id));
    const caught = (/** @type {Test} */ { id }) => this.caught.get(id) ?? 0;
    const cost = (/** @type {Test} */ { id }) => this.cost.get(id) ?? 0;
    return [...wanted].sort((a, b) => caught(b) - caught(a) || cost(a) - cost(b));
  }

  /** @param {Test} test */
  async failureOf(test) {
    const start = performance.now();
    try {
      await test.run();
      return null;
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    } finally {
      this.cost.set(test.id, performance.now() - start);
    }
  }
}

export const strykerPlugins = [{ kind: 'TestRunner', name: 'warm', injectableClass: WarmRunner }];
