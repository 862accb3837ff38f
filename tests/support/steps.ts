// Tests that are no tests of vitest, because each is a program of its own or needs what the one before it made.

/** Words on the command line choose those tests whose names have one of them. */
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('--'));

let passed = 0;
let failed = 0;

/** One test: told in a line, with what it says when it is good, and what went wrong when it is not. */
export async function test(name: string, body: () => Promise<string | undefined>): Promise<void> {
  if (wanted.length > 0 && !wanted.some((word) => name.includes(word))) return;
  const start = performance.now();
  const [good, words] = await body().then(
    (said) => [true, said] as const,
    (error) => [false, error instanceof Error ? error.message : String(error)] as const,
  );
  if (good) passed += 1;
  else failed += 1;
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  console.log(`${good ? 'ok    ' : 'FAILED'} ${name}${good && words ? `: ${words}` : ''} (${seconds} s)`);
  if (!good) console.log(words);
}

export function expectNone(wrong: readonly string[]): void {
  if (wrong.length > 0) throw new Error(wrong.slice(0, 20).join('\n'));
}

/** The last line, and the exit code. */
export function count(): void {
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
}
