// The layers of src, as .dependency-cruiser.cjs states them, and proof that each of its rules can fail.
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { cruise, type IConfiguration, type ICruiseResult } from 'dependency-cruiser';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '..');
const { forbidden, options } = createRequire(import.meta.url)('../.dependency-cruiser.cjs') as Required<
  Pick<IConfiguration, 'forbidden' | 'options'>
>;

/** What breaks a rule under `baseDir`, as `rule: from -> to`, sorted. */
async function violations(baseDir: string): Promise<string[]> {
  const folders = ['src', 'tests/judges'].filter((folder) => existsSync(join(baseDir, folder)));
  const { output } = await cruise(
    folders,
    { ...options, baseDir, validate: true, ruleSet: { forbidden } },
    options.enhancedResolveOptions,
  );
  return (output as ICruiseResult).summary.violations
    .map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)
    .sort();
}

/** Statements of a module besides `export ... from '...'`. */
function besidesReexports(source: string): string {
  return source
    .replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')
    .replace(/export\s+(type\s+)?(\*(\s+as\s+\w+)?|\{[^}]*\})\s*from\s*'[^']+';?/g, '')
    .trim();
}

describe('src', () => {
  it('imports one way, without a cycle, and packages only where they are fenced in', async () => {
    expect(await violations(root)).toEqual([]);
  });

  it('has index files that only re-export', () => {
    const indexes = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
      .filter((path) => /(^|[\\/])index\.ts$/.test(path))
      .map((path) => [path, besidesReexports(readFileSync(join(root, 'src', path), 'utf8'))]);
    expect(indexes.length).toBeGreaterThan(0);
    expect(indexes.filter(([, rest]) => rest !== '')).toEqual([]);
  });
});

/** Lines that load a package when they run: those that import more than types. */
function loading(source: string, name: string): string[] {
  return source
    .split('\n')
    .filter((line) => new RegExp(`['"\`]${name}['"\`]`).test(line) && !/^\s*(\/?\*|\/\/)/.test(line))
    .filter((line) => !/^(import|export) type\b|\btypeof import\(/.test(line.trimStart()));
}

it('src knows fast-check as a type only: whoever uses jounce/testing hands it in', () => {
  const files = readdirSync(join(root, 'src/testing')).map((path) =>
    readFileSync(join(root, 'src/testing', path), 'utf8'),
  );
  expect(files.some((text) => text.includes("'fast-check'"))).toBe(true);
  expect(files.flatMap((text) => loading(text, 'fast-check'))).toEqual([]);

  const planted = [
    "import * as fc from 'fast-check';",
    "export { integer } from 'fast-check';",
    "const fc = await import('fast-check');",
  ];
  expect(planted.flatMap((line) => loading(line, 'fast-check'))).toEqual(planted);
});

describe('the check of src', () => {
  // [the rule, a file that breaks it, what that file imports]
  const planted: [rule: string, from: string, to: string][] = [
    ['layer-numerics', 'src/numerics/elimination.ts', '../linkage/drawing.ts'],
    ['layer-numerics', 'src/numerics/rank.ts', '../units.ts'],
    ['layer-linkage', 'src/linkage/system.ts', '../corner/sweep.ts'],
    ['layer-document', 'src/document/schema.ts', '../corner/sweep.ts'],
    ['layer-corner', 'src/corner/limits.ts', '../coilover/springs.ts'],
    ['layer-coilover', 'src/coilover/lengths.ts', '../survey/tape.ts'],
    ['layer-survey', 'src/survey/plumb.ts', '../design/target.ts'],
    ['layer-design', 'src/design/mounts.ts', '../survey/tape.ts'],
    ['layer-report', 'src/report/table.ts', '../testing/laws.ts'],
    ['layer-testing', 'src/testing/shapes.ts', '../corner/sweep.ts'],
    ['layer-command', 'src/command/order.ts', '../coilover/sizing/size.ts'],
    ['layer-base', 'src/words.ts', './numerics/norm.ts'],
    ['known-folder', 'src/helpers/text.ts', '../words.ts'],
    ['known-file', 'src/index.ts', './utils.ts'],
    ['fence-zod', 'src/report/sheet.ts', 'zod'],
    ['fence-ml-matrix', 'src/numerics/inverse.ts', 'ml-matrix'],
    ['fence-fmin', 'src/design/search.ts', 'fmin'],
    ['fence-fmin', 'src/numerics/descent.ts', 'fmin/index.js'],
    ['fence-fast-check', 'src/corner/wild.ts', 'fast-check'],
    ['no-node', 'src/report/file.ts', 'node:fs'],
    ['no-other-package', 'src/report/plot.ts', 'some-package'],
    ['no-other-package', 'src/report/self.ts', 'jounce'],
    ['no-cycle', 'src/linkage/egg.ts', './hen.ts'],
    ['judges-stand-alone', 'tests/judges/four-bar.ts', '../../src/linkage/drawing.ts'],
  ];
  const allowed: [from: string, to: string][] = [
    ['src/linkage/hen.ts', '../numerics/norm.ts'],
    ['src/document/read.ts', 'zod'],
    ['src/numerics/singular-values.ts', 'ml-matrix'],
    ['src/numerics/minimiser.ts', 'fmin/index.js'],
    ['src/testing/laws.ts', '../linkage/index.ts'],
    ['src/report/order.ts', '../design/target.ts'],
    ['src/command/files.ts', 'node:fs'],
  ];

  it('finds each planted violation, and nothing else', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'jounce-architecture-'));
    try {
      const text = new Map<string, string>();
      const add = (path: string, line = '') => text.set(path, (text.get(path) ?? 'export {};\n') + line);
      for (const [from, to] of [...allowed, ...planted.map(([, from, to]) => [from, to] as const)]) {
        add(from, `import type {} from '${to}';\n`);
        if (to.startsWith('.')) add(join(dirname(from), to));
      }
      add('src/linkage/hen.ts', "import './egg.ts';\n");
      for (const [path, content] of text) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        writeFileSync(join(folder, path), content);
      }

      const found = await violations(folder);
      const wanted = planted.map(([rule, from, to]) => {
        const target = to.startsWith('.') ? join(dirname(from), to) : to.replace('node:', '');
        return `${rule}: ${from} -> ${target}`;
      });
      expect(found).toEqual(wanted.sort()); // a cycle is told once
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('sees code in an index file', () => {
    expect(
      besidesReexports("// a\nexport { a, type B } from './a.ts';\nexport type * from './b.ts';\n"),
    ).toBe('');
    expect(besidesReexports("export { a } from './a.ts';\nexport const b = 1;\n")).toBe(
      'export const b = 1;',
    );
  });
});
