import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A block of TypeScript in what users read: the n-th of its page. */
export interface CodeBlock {
  readonly page: string;
  readonly n: number;
  readonly code: string;
  /** A file name for it. */
  readonly file: string;
  /** The picture above it that shows its linkage; null if there is none. */
  readonly picture: { readonly title: string; readonly file: string } | null;
}

const BLOCK = /(?:!\[(.*)\]\((pictures\/guide\/.*)\)\n\n)?```ts\n([\s\S]*?)```/g;

/** Every block of TypeScript in README and docs. */
export function codeBlocks(): CodeBlock[] {
  const guides = readdirSync('docs', { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.md') && !/node_modules|^site\/pages\//.test(path))
    .map((path) => join('docs', path))
    .sort();
  return ['README.md', ...guides].flatMap((page) =>
    [...readFileSync(page, 'utf8').matchAll(BLOCK)].map(([, title, picture, code], k) => {
      const name = page.replace(/\.md$/, '').replaceAll(/[\\/]/g, '-');
      return {
        page,
        n: k + 1,
        code,
        file: `${name}-${k + 1}.ts`,
        picture: picture === undefined ? null : { title, file: join('docs', picture) },
      };
    }),
  );
}
