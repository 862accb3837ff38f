// Diagnostics in words, for users: what else is given is refused.

import type { Diagnostic } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import * as words from '../sentences/sentence.ts';
import { SENTENCES } from '../sentences/worded.ts';
import type { Units } from '../units.ts';
import { unitsFaults } from './looks.ts';

/**
 * A diagnostic as a line: `path: problem, got X (allowed: Y); advice`. An issue of an `InputError` keeps the words that it has.
 *
 * @throws InputError for what is no diagnostic, and for other units.
 */
export function describeIssue(diagnostic: Diagnostic, units: Units = 'metric'): string {
  return checked(words.describeIssue, diagnostic, units);
}

/**
 * The same without the path, as a sentence: with a capital, and a full stop.
 *
 * @throws InputError as `describeIssue`.
 */
export function sentence(diagnostic: Diagnostic, units: Units = 'metric'): string {
  return checked(words.sentence, diagnostic, units);
}

/**
 * The same in lines: the problem, after the axle of a car that it is about; `found:` the value and its place in the input; `required:` or, of names, `allowed:`, of a check `usual:`; `fix:` what to do.
 * A line that has nothing to say is left out.
 *
 * @throws InputError as `describeIssue`.
 */
export function issueLines(diagnostic: Diagnostic, units: Units = 'metric'): string[] {
  return checked(words.issueLines, diagnostic, units);
}

function checked<Text>(write: (one: Diagnostic, units: Units) => Text, one: Diagnostic, units: Units): Text {
  refuseOtherThan('diagnostic', one);
  if (!('problem' in one) && !Object.hasOwn(SENTENCES, one.code)) refuseOtherThan('diagnostic', null);
  refuse('units', unitsFaults(units));
  return write(one, units);
}
