import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The code blocks of what users read, run as they stand; what a line logs is what its comment says. */
const pages = readdirSync('docs').filter((name) => name.endsWith('.md'));
const blocks = ['README.md', ...pages.map((name) => `docs/${name}`)].flatMap((file) =>
  [...readFileSync(file, 'utf8').matchAll(/```ts\n([\s\S]*?)```/g)].map(
    ([, code], i) => [file, i + 1, code] as const,
  ),
);

describe('the code that users read', () => {
  it('is there', () => {
    expect(blocks.length).toBeGreaterThanOrEqual(3);
  });

  it.each(blocks)('of %s, block %i, prints what it says', async (from, i, code) => {
    const printed = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map((match) => match[1]);
    expect(printed.length).toBeGreaterThan(0);
    const pushing = code.replace(/console\.log\((.*)\); \/\//g, "lines.push([$1].join(' ')); //");
    const runnable = `export const lines = [];\n${pushing}`;
    const file = resolve('out', `${basename(from, '.md')}-${i}.mjs`);
    mkdirSync('out', { recursive: true });
    writeFileSync(file, runnable);
    const { lines } = (await import(/* @vite-ignore */ file)) as { lines: unknown[] };
    expect(lines.map(String)).toEqual(printed);
  });
});
