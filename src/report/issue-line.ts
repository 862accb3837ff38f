import type { Diagnostic } from '../diagnostic.ts';
import { describeIssue } from '../sentences/sentence.ts';
import type { Units } from '../units.ts';
import { ended } from '../words.ts';

/** A diagnostic with its place, ended as a sentence is. */
export function issueLine(diagnostic: Diagnostic, units: Units): string {
  return ended(describeIssue(diagnostic, units));
}
