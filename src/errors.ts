import { show } from './diagnostic.ts';
import { InputError, type Issue } from './errors/input-error.ts';

export { show } from './diagnostic.ts';
export { describeIssue, InputError, type Issue } from './errors/input-error.ts';

/** Names that a message lists. */
const MOST_NAMES = 100;

/** Names in a row, as a message lists what is allowed. */
export function listed(names: readonly string[]): string {
  const more = names.length - MOST_NAMES;
  return more > 0 ? `${names.slice(0, MOST_NAMES).join(', ')} and ${more} more` : names.join(', ');
}

/** Throws `InputError` when there are issues. */
export function throwIfAny(what: string, issues: readonly Issue[]): void {
  if (issues.length > 0) throw new InputError(what, issues);
}

/**
 * An issue for each name among options that is none of those known.
 *
 * @throws InputError for options that are no object.
 */
export function unknownOptions(what: string, options: unknown, known: readonly string[]): Issue[] {
  if (typeof options !== 'object' || options === null || Array.isArray(options)) {
    throw new InputError(what, [
      {
        path: '',
        problem: 'not an object',
        got: show(options),
        allowed: `{ ${known.join(', ')} }, each optional`,
      },
    ]);
  }
  const issues: Issue[] = [];
  let allowed: string | undefined;
  for (const path of Object.keys(options)) {
    if (known.includes(path)) continue;
    allowed ??= known.join(', ');
    issues.push({ path, problem: 'unknown option', allowed, advice: 'correct the spelling, or take it out' });
  }
  return issues;
}

/** An issue for a name that is none of those known. */
export function unknownName(
  path: string,
  what: string,
  name: unknown,
  known: readonly string[],
  advice = 'correct the name',
): Issue {
  return { path, problem: `unknown ${what}`, got: show(name), allowed: known.join(', '), advice };
}
