import type { Diagnostic } from '../diagnostic.ts';
import { line } from '../sentences/line.ts';
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
    const lines = issues.slice(0, MOST_LISTED).map((issue) => `  ${line(issue, issue.path)}`);
    const more = issues.length - lines.length;
    if (more > 0) lines.push(`  and ${more} more`);
    super([`invalid ${what}`, ...lines].join('\n'));
    this.issues = issues;
  }
}
