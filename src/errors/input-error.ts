import { cut, type Diagnostic } from '../diagnostic.ts';
import type { Words } from '../sentences/plain.ts';

/** One thing wrong with an input: a diagnostic with its words. */
export interface Issue extends Diagnostic, Words {}

/** Issues that a message lists; a last line says how many more there are. Nobody reads on. */
const MOST_LISTED = 100;

/**
 * Thrown for wrong input, once, with every issue found. `message` is made from `issues`: it lists the first 100 and says how
 * many more there are.
 */
export class InputError extends Error {
  override readonly name = 'InputError';
  /** Everything found wrong, in the order of the input, however much it is. */
  readonly issues: readonly Issue[];

  constructor(what: string, issues: readonly Issue[]) {
    const lines = issues.slice(0, MOST_LISTED).map((issue) => `  ${describeIssue(issue)}`);
    const more = issues.length - lines.length;
    if (more > 0) lines.push(`  and ${more} more`);
    super([`invalid ${what}`, ...lines].join('\n'));
    this.issues = issues;
  }
}

/** Signs of a path that a message gives: no name of ours makes it nearly as long. */
const LONGEST_PATH = 160;

/** One issue as a line: `path: problem, got X (allowed: Y); advice`. */
export function describeIssue(issue: Words & { readonly path: string }): string {
  const place = issue.path === '' ? '' : `${cut(issue.path, LONGEST_PATH)}: `;
  const got = issue.got === undefined ? '' : `, got ${issue.got}`;
  const allowed = issue.allowed === undefined ? '' : ` (allowed: ${issue.allowed})`;
  const advice = issue.advice === undefined ? '' : `; ${issue.advice}`;
  return `${place}${issue.problem}${got}${allowed}${advice}`;
}
