// What of the library's own code a page must fetch, and which folders it comes from.

import { CEILINGS, sizeOf } from '../tests/package/size.ts';

/** Entries by name, as the package has them. */
const SOURCE = {
  jounce: './src/index.ts',
  'jounce/linkage': './src/linkage/index.ts',
  'jounce/statics': './src/statics/index.ts',
  'jounce/synthesis': './src/synthesis/index.ts',
  'jounce/testing': './src/testing/index.ts',
};

/**
 * What finds words for what is wrong: checks of a drawing, why nothing moves, issues, sentences, spelling, former names. Without it no input
 * could be refused: what is left is the floor.
 */
const WORDS =
  /\/src\/(diagnostic|words|errors\/.*|sentences\/.*|linkage\/(drawing|degrees-of-freedom|bar-misfit|former-names)|document\/(former-names|spelling|number-meant|quantity|schema-walk|parse|geometry|checks\/.*))\.ts$/;

/** Folders named in the table; the rest is told together. */
const FOLDERS = 6;

/** A table in Markdown. */
export async function weightTable(): Promise<string> {
  const rows = await Promise.all(
    CEILINGS.map(async ({ name, imported, hoped }) => {
      const { gzipped, bytesOf } = await sizeOf(imported, { source: SOURCE });
      const asked =
        hoped === undefined ? ['', ''] : [`at most ${hoped}`, gzipped <= hoped ? 'met' : 'missed'];
      const floor = await sizeOf(imported, { source: SOURCE }, WORDS);
      return [name, `**${gzipped.toFixed(1)}**`, ...asked, floor.gzipped.toFixed(1), sharesOf(bytesOf)];
    }),
  );
  return [
    ['imported', 'kB', 'target', '', 'floor', 'minified, by folder'],
    ['---', '---:', '---:', '---', '---:', '---'],
    ...rows,
  ]
    .map((cells) => `| ${cells.join(' | ')} |`)
    .join('\n');
}

function sharesOf(bytesOf: Readonly<Record<string, number>>): string {
  const by = new Map<string, number>();
  let all = 0;
  for (const [file, bytes] of Object.entries(bytesOf)) {
    const folder = /^src\/([^/]+)\//.exec(file)?.[1] ?? 'the rest';
    by.set(folder, (by.get(folder) ?? 0) + bytes);
    all += bytes;
  }
  const largest = [...by].sort(([, a], [, b]) => b - a).slice(0, FOLDERS);
  return largest.map(([folder, bytes]) => `${folder} ${((100 * bytes) / all).toFixed(0)} %`).join(', ');
}
