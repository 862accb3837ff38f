import type { Diagnostic } from '../diagnostic.ts';
import { describeIssue } from '../sentences/sentence.ts';
import type { Units } from '../units.ts';

/** A diagnostic with its place, ended as a sentence is. */
export function issueLine(diagnostic: Diagnostic, units: Units): string {
  const line = describeIssue(diagnostic, units);
  return /[.?!]$/.test(line) ? line : `${line}.`;
}
