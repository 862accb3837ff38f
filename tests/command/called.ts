/** The command as a shell calls it, on the source. */
import { vi } from 'vitest';
import { run } from '../../src/command/run.ts';

/** What the command printed, and its exit code. */
export interface Called {
  readonly out: string;
  readonly complaints: string;
  readonly code: number;
}

export async function called(...words: string[]): Promise<Called> {
  const printed: string[] = [];
  const complaints: string[] = [];
  const out = vi.spyOn(process.stdout, 'write').mockImplementation((text) => printed.push(String(text)) > 0);
  const error = vi
    .spyOn(process.stderr, 'write')
    .mockImplementation((text) => complaints.push(String(text)) > 0);
  try {
    const code = await run(words);
    return { out: printed.join('').trimEnd(), complaints: complaints.join('').trimEnd(), code };
  } finally {
    out.mockRestore();
    error.mockRestore();
  }
}
