import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The README's code blocks, run as they stand; what a line logs is what its comment says. */
const blocks = [...readFileSync('README.md', 'utf8').matchAll(/```ts\n([\s\S]*?)```/g)].map(
  (match) => match[1],
);

describe('README', () => {
  it('has code to run', () => {
    expect(blocks.length).toBeGreaterThanOrEqual(2);
  });

  it.each(blocks.map((code, i) => [i + 1, code] as const))(
    'block %i prints what it says',
    async (i, code) => {
      const printed = [...code.matchAll(/console\.log\(.*\); \/\/ (.*)$/gm)].map((match) => match[1]);
      expect(printed.length).toBeGreaterThan(0);
      const runnable = `export const lines = [];\n${code.replaceAll('console.log(', 'lines.push(')}`;
      const file = resolve('out', `readme-${i}.mjs`);
      mkdirSync('out', { recursive: true });
      writeFileSync(file, runnable);
      const { lines } = (await import(/* @vite-ignore */ file)) as { lines: unknown[] };
      expect(lines.map(String)).toEqual(printed);
    },
  );
});
