// The faults of some files, each behind a switch, and the tests that judge them, as one bundle.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { commonTokens } from '@stryker-mutator/api/plugin';
import { createInstrumenter } from '@stryker-mutator/instrumenter';
import { build } from 'esbuild';
import { createInjector } from 'typed-inject';
import ts from 'typescript';
import { judgeFiles } from './judges.mjs';

/**
 * A fault of a declaration, by its number in it: the line from the first of the declaration on.
 * @typedef {{ id: number, line: number, mutator: string, replacement: string }} Fault
 * A declaration of a file by the hash of its text, with its first line and its faults.
 * @typedef {{ file: string, hash: string, name: string, line: number, faults: Fault[] }} Declaration
 */

/** @param {import('./campaigns.mjs').Campaign} campaign */
export function filesOf({ code, but = [] }) {
  return code.flatMap((one) =>
    one.endsWith('.ts')
      ? [one]
      : readdirSync(one, { recursive: true, encoding: 'utf8' })
          .filter((file) => file.endsWith('.ts') && !but.includes(file))
          .map((file) => `${one}/${file}`)
          .sort(),
  );
}

/**
 * The files of a campaign with every fault in them behind a switch, and its declarations. Words are not changed.
 * @param {import('./campaigns.mjs').Campaign} campaign
 */
export async function withFaults(campaign) {
  const silent = () => {};
  const logger = {
    ...{ trace: silent, debug: silent, info: silent, warn: silent, error: silent, fatal: silent },
    ...{ isTraceEnabled: () => false, isDebugEnabled: () => false, isInfoEnabled: () => false },
    ...{ isWarnEnabled: () => false, isErrorEnabled: () => false, isFatalEnabled: () => false },
  };
  const instrumenter = createInjector()
    .provideValue(commonTokens.getLogger, () => logger)
    .provideValue(commonTokens.logger, logger)
    .injectFunction(createInstrumenter);
  const sources = filesOf(campaign).map((file) => ({ file, text: readFileSync(file, 'utf8') }));
  const { files, mutants } = await instrumenter.instrument(
    sources.map(({ file, text }) => ({ name: resolve(file), content: text, mutate: true })),
    { plugins: null, excludedMutations: ['StringLiteral'], ignorers: [] },
  );
  /** @type {Map<string, string>} */
  const switched = new Map(files.map(({ name, content }) => [name, switches(content)]));
  const declarations = sources.flatMap(({ file, text }) => {
    const own = mutants.filter(({ fileName, status }) => fileName === resolve(file) && status !== 'Ignored');
    return declarationsOf(file, text).map((one) => {
      const faults = own
        .filter(({ location }) => location.start.line >= one.line && location.start.line <= one.last)
        .map(({ id, location, mutatorName, replacement }) => ({
          id: Number(id),
          line: location.start.line - one.line,
          mutator: mutatorName,
          replacement: String(replacement),
        }));
      return { file, hash: one.hash, name: one.name, line: one.line, faults };
    });
  });
  return { switched, declarations: declarations.filter(({ faults }) => faults.length > 0) };
}

/** Declarations of a file with their lines, counted from 0. */
function declarationsOf(/** @type {string} */ file, /** @type {string} */ text) {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const line = (/** @type {number} */ at) => source.getLineAndCharacterOfPosition(at).line;
  const seen = new Map();
  return source.statements
    .filter((one) => !ts.isImportDeclaration(one) && !ts.isInterfaceDeclaration(one))
    .map((one) => {
      const words = one.getText(source);
      const [, name = ''] = /(?:function\*?|const|let|class|enum)\s+([\w$]+)/.exec(words) ?? [];
      const twin = seen.get(words) ?? 0;
      seen.set(words, twin + 1);
      const hash = createHash('sha256').update(`${twin}${words}`).digest('hex').slice(0, 12);
      return { name, hash, line: line(one.getStart(source)), last: line(one.end) };
    });
}

/** The switches of a mutated file as comparisons of numbers: calls would take most of the time. */
function switches(/** @type {string} */ content) {
  const [, body] = content.split(/(?<=return isActive\(id\);\s*\})/);
  return `import { active as $active, counts as $counts, hit as $hit, isCounting as $isCounting } from 'the-fault';\n${(
    body ?? content
  )
    .replaceAll(/stryMutAct_9fa48\("(\d+)"\)/g, '($active === $1 && $hit())')
    .replaceAll(/stryCov_9fa48\(([^)]*)\)/g, (_, ids) => {
      const counted = [...ids.matchAll(/\d+/g)].map(([id]) => `$counts[${id}]++`);
      return `($isCounting && (${counted.join(', ')}))`;
    })}`;
}

/** Which fault is there, how often it was reached, and how often each would have been. */
const switchOf = (/** @type {number} */ faults) => `
export const counts = new Uint32Array(${faults});
export let active = -1;
export let isCounting = true;
let [hits, most] = [0, Infinity];
export function hit() {
  if (++hits > most) throw new Error('reached too often');
  return true;
}
export function setFault(id, atMost) {
  [active, hits, most] = [id, 0, atMost];
}
export const isEndless = () => hits > most;
export function setCounting(on) {
  isCounting = on;
  if (on) counts.fill(0);
}`;

/**
 * Bundles the tests of a campaign with mutated code.
 * @param {import('./campaigns.mjs').Campaign} campaign
 * @param {ReadonlyMap<string, string>} switched
 * @param {readonly Declaration[]} declarations
 * @param {string} outfile
 */
export async function bundle(campaign, switched, declarations, outfile) {
  const ids = declarations.flatMap(({ faults }) => faults.map(({ id }) => id));
  const instead = resolve('tests/mutation/vitest-in-process.ts');
  await build({
    stdin: {
      contents: [
        "import { all, begin, ready } from 'vitest';",
        "import './tests/setup.ts';",
        "import './tests/mutation/setup.ts';",
        ...judgeFiles(campaign).map((file) => `begin('${file}'); await import('./${file}');`),
        "export { counts, isEndless, setCounting, setFault } from 'the-fault';",
        'await ready();',
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
          onResolve({ filter: /^the-fault$/ }, () => ({ path: 'the-fault', namespace: 'fault' }));
          onLoad({ filter: /.*/, namespace: 'fault' }, () => ({ contents: switchOf(1 + Math.max(...ids)) }));
          // Packages stay imports, but for fmin, whose sources only a bundler can read.
          onResolve({ filter: /^[^./]/ }, ({ path }) =>
            /^(jounce|fmin)(\/|$)/.test(path) ? undefined : { path, external: true },
          );
          onLoad({ filter: /\/src\/.*\.ts$/ }, ({ path }) => {
            const contents = switched.get(path);
            return contents === undefined ? undefined : { contents, loader: 'ts' };
          });
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
}
