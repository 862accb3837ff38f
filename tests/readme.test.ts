import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { drawLinkage } from 'jounce';
import type { Drawing, Motion } from 'jounce/linkage';
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { codeBlocks } from './support/code-blocks.ts';
import { givenUpInProse } from './support/words.ts';

/**
 * The code blocks of what users read, run as they stand; what a line logs is what its comment says. Above some is a picture of their
 * linkage as drawn and at both ends of its motion: `npm run pictures` draws these anew.
 */
const blocks = codeBlocks();

describe('the code that users read', () => {
  it('is there', () => {
    expect(blocks.length).toBeGreaterThanOrEqual(3);
  });

  it.each(blocks)('of $page, block $n, prints what it says', async ({ file, code, picture }) => {
    const printed = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map((match) => match[1]);
    expect(printed.length).toBeGreaterThan(0);
    const pushing = code.replace(/console\.log\((.*)\); \/\//g, "lines.push([$1].join(' ')); //");
    const [drawn, moved] = ['linkage', 'trace'].map((call) => firstConstant(code, call));
    const shown = picture === null ? '' : `export { ${drawn} as drawn, ${moved} as moved };\n`;
    const runnable = `export const lines: unknown[] = [];\n${pushing}${shown}`;
    const path = resolve('out', file);
    mkdirSync('out', { recursive: true });
    writeFileSync(path, runnable);
    const { lines, ...linkage } = (await import(/* @vite-ignore */ path)) as { lines: unknown[] };
    expect(lines.map(String)).toEqual(printed);
    if (picture === null) return;
    const { drawn: drawing, moved: motion } = linkage as { drawn: Drawing; moved: Motion };
    const poses = [motion.low, motion.high]
      .filter(({ at }) => at !== motion.drawn)
      .map(({ at }) => motion.at(at));
    const svg = drawLinkage(drawing, { title: picture.title, poses });
    await expect(svg).toMatchFileSnapshot(resolve(picture.file));
  });

  it('shows every picture that is kept for it', () => {
    const kept = readdirSync('docs/pictures/guide').map((name) => `docs/pictures/guide/${name}`);
    expect(blocks.flatMap(({ picture }) => picture?.file ?? [])).toEqual(expect.arrayContaining(kept));
  });
});

/** The first constant that is what a function gives. */
function firstConstant(code: string, call: string): string | undefined {
  return new RegExp(`^const (\\w+) = ${call}\\(`, 'm').exec(code)?.[1];
}

/** Drawn by hand; every other picture is drawn by an example. */
const BY_HAND = ['two-paths.svg'];

it('the pictures that users see are those that the examples draw: node docs/examples/corner.mjs, and so on', async () => {
  const drawn = new Map<string, string>();
  vi.doMock('node:fs', async (original) => ({
    ...(await original<typeof import('node:fs')>()),
    writeFileSync: ({ pathname }: URL, svg: string) => void drawn.set(basename(pathname), svg),
  }));
  vi.spyOn(console, 'log').mockImplementation(() => {});
  onTestFinished(() => {
    vi.doUnmock('node:fs');
    vi.restoreAllMocks();
  });
  for (const name of ['axes', 'axle', 'corner', 'design', 'forces', 'hand-method', 'survey'])
    await import(`../docs/examples/${name}.mjs`);

  const kept = readdirSync('docs/pictures').filter(
    (name) => name.endsWith('.svg') && !BY_HAND.includes(name),
  );
  expect([...drawn.keys()].sort()).toEqual(kept.sort());
  for (const name of kept) expect(drawn.get(name), name).toBe(readFileSync(`docs/pictures/${name}`, 'utf8'));
});

/** The changelog names what is gone. */
const READ = [
  'README.md',
  'DEVELOPERS.md',
  ...filesIn('docs', '.md').filter((file) => file !== 'docs/changelog.md'),
  ...filesIn('docs/api', '.md'),
  ...filesIn('docs/examples', '.json'),
  ...filesIn('schemas', '.json'),
];

function filesIn(folder: string, end: string): string[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith(end))
    .map((file) => `${folder}/${file}`);
}

it.each(READ)('%s has no word that was given up', (file) => {
  expect(givenUpInProse(readFileSync(file, 'utf8'))).toEqual([]);
});
