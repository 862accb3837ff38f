import type { Diagnostic } from './diagnostic.ts';

/** One thing wrong with an input: where, what was got, what is allowed, what to do. */
export interface Issue extends Partial<Pick<Diagnostic, 'code' | 'severity' | 'values'>> {
  /** Place in the input, as `bodies.upright[1]`; empty for the input as a whole. */
  readonly path: string;
  /** What is wrong, in a few words. */
  readonly problem: string;
  /** The offending value as it would be written, where there is one. */
  readonly got?: string;
  /** What would have been accepted. */
  readonly allowed?: string;
  /** What to do about it. */
  readonly advice?: string;
}

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

/** One issue as a line: `path: problem, got X (allowed: Y); advice`. */
export function describeIssue(issue: Issue): string {
  const place = issue.path === '' ? '' : `${cut(issue.path, LONGEST_PATH)}: `;
  const got = issue.got === undefined ? '' : `, got ${issue.got}`;
  const allowed = issue.allowed === undefined ? '' : ` (allowed: ${issue.allowed})`;
  const advice = issue.advice === undefined ? '' : `; ${issue.advice}`;
  return `${place}${issue.problem}${got}${allowed}${advice}`;
}

/** Signs of a path that a message gives: no name of ours makes it nearly as long. */
const LONGEST_PATH = 160;

function cut(text: string, longest: number): string {
  return text.length > longest ? `${text.slice(0, longest - 3)}...` : text;
}

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
  for (const path in options) {
    if (known.includes(path) || !Object.hasOwn(options, path)) continue;
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

/** A value as it would be written in the input, cut to a readable length. */
export function show(value: unknown): string {
  if (typeof value === 'number' || value === undefined) return String(value);
  let text: string;
  try {
    text = JSON.stringify(value, (_key, inner) => legible(inner)) ?? typeof value;
  } catch {
    text = typeof value;
  }
  text = text.replaceAll(/"\\u0000([^"]*)"/g, '$1');
  return cut(text, 60);
}

/** JSON writes NaN and Infinity as null; a message must not. They are marked, and the marks and quotes taken out after. */
function legible(value: unknown): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? `\u0000${value}` : value;
}
