/** The worked example of a new kind of corner in DEVELOPERS.md: it compiles as it stands, and moves, reads and is drawn. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { build, type Plugin } from 'esbuild';
import ts from 'typescript';
import { expect, it } from 'vitest';
import { expectWithin } from './support/tolerance.ts';

const [, section] = readFileSync('DEVELOPERS.md', 'utf8').split('## A new kind of corner');

/** A file of `src` with the added lines of a diff, each after the line before it. */
function added(path: string, diff: string): string {
  let text = readFileSync(path, 'utf8');
  let before = '';
  for (const line of diff.trimEnd().split('\n')) {
    const content = line.slice(1);
    if (line.startsWith('+')) {
      expect(text).toContain(`${before}\n`);
      text = text.replace(`${before}\n`, () => `${before}\n${content}\n`);
    }
    before = content;
  }
  return text;
}

/** The files that the page shows, by their paths. */
const files = new Map(
  [
    ...section.matchAll(/`(src\/[\w/-]+\.ts)`\.[^`]*(?:`[^`]+`[^`]*)*?```(typescript|diff)\n([\s\S]*?)```/g),
  ].map(([, path, language, code]) => [resolve(path), language === 'diff' ? added(path, code) : code]),
);

/** What some code exports, with the files of the page among those of `src`. */
async function bundled(contents: string) {
  const shown: Plugin = {
    name: 'shown',
    setup({ onLoad, onResolve }) {
      onResolve({ filter: /^\./ }, ({ path, resolveDir }) => {
        const at = resolve(resolveDir, path);
        return files.has(at) ? { path: at } : undefined;
      });
      onLoad({ filter: /\.ts$/ }, ({ path }) => {
        const text = files.get(path);
        return text === undefined ? undefined : { contents: text, loader: 'ts' };
      });
    },
  };
  const outfile = resolve(`out/new-kind/${contents.replaceAll(/\W+/g, '-')}.mjs`);
  await build({
    stdin: { contents, resolveDir: resolve('.') },
    outfile,
    bundle: true,
    format: 'esm',
    external: ['zod', 'ml-matrix'],
    plugins: [shown],
  });
  return import(/* @vite-ignore */ outfile);
}

it('is four files of src', () => {
  expect([...files.keys()]).toEqual(
    ['document/kinds/swing-arm.ts', 'corner/swing-arm.ts', 'corner/kinds.ts', 'index.ts'].map((path) =>
      resolve('src', path),
    ),
  );
});

it('compiles, with the types of its input', async () => {
  const { inputTypes } = await bundled("export * from './tests/document/input-types.ts'");
  files.set(resolve('src/document/inputs.ts'), inputTypes());
  const { config } = ts.readConfigFile('src/tsconfig.json', ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, resolve('src'));
  const host = ts.createCompilerHost(options);
  const overlaid: ts.CompilerHost = {
    ...host,
    fileExists: (path) => files.has(resolve(path)) || host.fileExists(path),
    readFile: (path) => files.get(resolve(path)) ?? host.readFile(path),
    getSourceFile(path, target, ...rest) {
      const text = files.get(resolve(path));
      return text === undefined
        ? host.getSourceFile(path, target, ...rest)
        : ts.createSourceFile(path, text, target);
    },
  };
  const program = ts.createProgram([resolve('src/index.ts'), ...files.keys()], options, overlaid);
  const faults = ts.getPreEmitDiagnostics(program);
  expect(faults.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'))).toEqual([]);
});

it('moves on a circle about its pivot, and comes from a file and into a picture', async () => {
  const { swingArm, sweep, readCorner, drawCorner } = await bundled("export * from './src/index.ts'");
  const pivot = [120, 290];
  const input = {
    arm: { pivot },
    wheel: { centre: [690, 300], camber: -1 },
    coilover: { mount: [480, 270], chassisMount: [400, 600] },
  };
  const corner = swingArm(input);
  const swept = sweep(corner, { bump: 60, droop: 60 });
  for (const { wheelCentreY, wheelCentreZ, armAngle } of swept.rows()) {
    const [y, z] = [wheelCentreY - pivot[0], wheelCentreZ - pivot[1]];
    expectWithin(Math.hypot(y, z), Math.hypot(570, 10), 1e-9);
    expectWithin(armAngle, (Math.atan2(z, y) * 180) / Math.PI, 1e-9);
  }
  expect(readCorner({ kind: 'swingArm', ...input })).toMatchObject({ corner, notes: [] });
  expect(drawCorner(corner, swept)).toContain('arm pivot');
});
