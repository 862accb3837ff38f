import type { Diagnostic } from '../diagnostic.ts';
import type { Units } from '../units.ts';
import { line } from './line.ts';
import type { Words } from './plain.ts';
import { worded } from './worded.ts';

/** A diagnostic as a line: `path: problem, got X (allowed: Y); advice`. An issue of an `InputError` keeps the words that it has. */
export function describeIssue(diagnostic: Diagnostic, units: Units = 'metric'): string {
  return line(wordsOf(diagnostic, units), diagnostic.path);
}

/** The same without the path, as a sentence: with a capital, and a full stop. */
export function sentence(diagnostic: Diagnostic, units: Units = 'metric'): string {
  const text = line(wordsOf(diagnostic, units));
  return `${text[0].toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? '' : '.'}`;
}

function wordsOf(diagnostic: Diagnostic | (Diagnostic & Words), units: Units): Words {
  return 'problem' in diagnostic ? diagnostic : worded(diagnostic, units);
}
