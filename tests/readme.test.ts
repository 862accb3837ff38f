import { mkdirSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { codeBlocks } from './support/code-blocks.ts';

/** The code blocks of what users read, run as they stand; what a line logs is what its comment says. */
const blocks = codeBlocks();

describe('the code that users read', () => {
  it('is there', () => {
    expect(blocks.length).toBeGreaterThanOrEqual(3);
  });

  it.each(blocks)('of $page, block $n, prints what it says', async ({ file, code }) => {
    const printed = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map((match) => match[1]);
    expect(printed.length).toBeGreaterThan(0);
    const pushing = code.replace(/console\.log\((.*)\); \/\//g, "lines.push([$1].join(' ')); //");
    const runnable = `export const lines: unknown[] = [];\n${pushing}`;
    const path = resolve('out', file);
    mkdirSync('out', { recursive: true });
    writeFileSync(path, runnable);
    const { lines } = (await import(/* @vite-ignore */ path)) as { lines: unknown[] };
    expect(lines.map(String)).toEqual(printed);
  });
});
