// Plausibility: what of a file that can be read should be looked at again. A check says what it looks at and what of that is odd,
// as data in the library's units; its sentence stands under its code in `sentences/checks.ts`.

import type { Diagnostic, Severity } from '../../diagnostic.ts';

/** Something odd: where, and the numbers and names behind it. */
export interface Found {
  readonly path: string;
  readonly values: Diagnostic['values'];
}

/** One entry of a table of checks. */
export interface CheckRule<Subject> {
  readonly code: string;
  readonly severity: Severity;
  readonly find: (subject: Subject) => readonly Found[];
  /** Checks above it in the table: where one of them has found something this one would only repeat it. */
  readonly unless?: readonly string[];
  /** The same, of one place alone. */
  readonly unlessHere?: readonly string[];
}

/** Notes by a table of checks, in its order; `under` is the path of the subject. */
export function notesBy<Subject>(
  checks: readonly CheckRule<Subject>[],
  subject: Subject,
  under: string,
): Diagnostic[] {
  const found: Diagnostic[] = [];
  for (const { code, severity, find, unless = [], unlessHere = [] } of checks) {
    if (found.some((other) => unless.includes(other.code))) continue;
    const isTold = ({ path }: Found) =>
      found.some((other) => other.path === path && unlessHere.includes(other.code));
    const more = find(subject).filter((one) => !isTold(one));
    found.push(...more.map(({ path, values }) => ({ code, severity, path, values })));
  }
  return found.map((one) => ({ ...one, path: pathUnder(under, one.path) }));
}

/** `units` is the file's, wherever it is asked about. */
function pathUnder(under: string, path: string): string {
  if (path === 'units' || under === '') return path;
  return path === '' ? under : `${under}.${path}`;
}
