import { InputError, issueLines } from 'jounce';

/** What is wrong with what was drawn, in words; null if the error is none of that. */
export function refusal(error: unknown): string | null {
  return error instanceof InputError ? issueLines(error.issues[0]).join(' ') : null;
}
