import { InputError } from 'jounce';

/** What a call is refused for: code and place of each issue; nothing if it is not. */
export function refusedFor(run: () => unknown): string[] {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error.issues.map(({ code, path }) => `${code} ${path}`.trim());
    throw error;
  }
  return [];
}
