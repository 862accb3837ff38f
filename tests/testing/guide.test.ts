/** The guide to testing: its code runs as it stands, and fails as it says; its example holds. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { LawViolation } from 'jounce/testing';
import { expect, it } from 'vitest';

const guide = readFileSync('docs/testing.md', 'utf8');
const blocks = (kind: string) =>
  [...guide.matchAll(new RegExp(`\`\`\`${kind}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(([, text]) => text);

/** Runs code as a module of its own, and gives what it throws. */
async function run(name: string, code: string): Promise<unknown> {
  mkdirSync('out', { recursive: true });
  const file = resolve('out', name);
  writeFileSync(file, code);
  return import(/* @vite-ignore */ file).then(
    () => null,
    (error: unknown) => error,
  );
}

it('shows code that holds, up to the last block, and the failure of that', async () => {
  const code = blocks('js');
  const [failure] = blocks('text');
  expect(code.length).toBe(3);
  expect(await run('guide-1.mjs', code.slice(0, -1).join('\n'))).toBeNull();

  const error = (await run('guide-2.mjs', code.join('\n'))) as Error;
  expect(error.cause).toBeInstanceOf(LawViolation);
  const [report] = error.message.split('\n\n');
  expect(`${report}\n\n${(error.cause as Error).message}\n`).toBe(failure);
});

it('has an example that holds', async () => {
  await import('../../docs/examples/own-linkage.mjs');
});
