// What of the library's own code a page must fetch: its dependencies apart, minified, gzipped.

import { gzipSync } from 'node:zlib';
import { build, type Plugin } from 'esbuild';

/** What is imported, what for, and kB (1000 bytes): the most that it may weigh, and what it was hoped to. */
export const CEILINGS: readonly {
  readonly imported: string;
  readonly name: string;
  readonly most: number;
  readonly hoped?: number;
}[] = [
  { imported: "export * from 'jounce/linkage'", name: 'jounce/linkage', most: 40.4 },
  {
    imported: ['jounce', 'jounce/linkage', 'jounce/statics', 'jounce/synthesis', 'jounce/testing']
      .map((entry, k) => `export * as e${k} from '${entry}'`)
      .join(';'),
    name: 'all five entries',
    most: 305,
    hoped: 120,
  },
  { imported: "export { trace } from 'jounce/linkage'", name: 'trace alone', most: 35.5, hoped: 15 },
  {
    imported: "export { doubleWishbone, sweep } from 'jounce'",
    name: 'doubleWishbone and sweep alone',
    most: 47.4,
    hoped: 24,
  },
  {
    imported: "export { doubleWishbone, limits } from 'jounce'",
    name: 'doubleWishbone and limits alone',
    most: 55.5,
  },
];

/** Of what is imported, by the package as it is installed in a folder or by the source of each entry; files that `without` matches left out. */
export async function sizeOf(
  imported: string,
  from: { readonly folder: string } | { readonly source: Readonly<Record<string, string>> },
  without?: RegExp,
): Promise<{ readonly gzipped: number; readonly bytesOf: Readonly<Record<string, number>> }> {
  const { outputFiles, metafile } = await build({
    stdin: { contents: imported, resolveDir: 'folder' in from ? from.folder : process.cwd() },
    ...('source' in from ? { alias: from.source } : {}),
    bundle: true,
    format: 'esm',
    target: 'es2022',
    minify: true,
    metafile: true,
    write: false,
    external: ['zod', '#zod', 'ml-matrix', '#ml-matrix', 'fast-check'],
    plugins: without === undefined ? [] : [leavingOut(without)],
    logLevel: without === undefined ? 'warning' : 'silent',
  });
  const [output] = Object.values(metafile.outputs);
  return {
    gzipped: gzipSync(outputFiles[0].contents, { level: 9 }).length / 1000,
    bytesOf: Object.fromEntries(
      Object.entries(output.inputs).map(([file, { bytesInOutput }]) => [file, bytesInOutput]),
    ),
  };
}

function leavingOut(files: RegExp): Plugin {
  return {
    name: 'leaving out',
    setup({ onLoad }) {
      onLoad({ filter: files }, () => ({ contents: 'module.exports = {}' }));
    },
  };
}
