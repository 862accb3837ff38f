// What of the library's own code a page must fetch: its dependencies apart, minified, gzipped.

import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

/** What is imported, what for, and the most that it may weigh, kB (1000 bytes). */
export const CEILINGS = [
  { imported: "export * from 'jounce/linkage'", name: 'jounce/linkage', most: 24 },
  {
    imported: ['jounce', 'jounce/linkage', 'jounce/testing']
      .map((entry, k) => `export * as e${k} from '${entry}'`)
      .join(';'),
    name: 'all three entries',
    most: 145,
  },
  { imported: "export { trace } from 'jounce/linkage'", name: 'trace alone', most: 19 },
  {
    imported: "export { doubleWishbone, sweep } from 'jounce'",
    name: 'doubleWishbone and sweep alone',
    most: 42,
  },
] as const;

/** kB of what is imported from the package installed in a folder. */
export async function sizeOf(imported: string, folder: string): Promise<number> {
  const { outputFiles } = await build({
    stdin: { contents: imported, resolveDir: folder },
    bundle: true,
    format: 'esm',
    target: 'es2022',
    minify: true,
    write: false,
    external: ['zod', 'ml-matrix', 'fast-check'],
  });
  return gzipSync(outputFiles[0].contents, { level: 9 }).length / 1000;
}
