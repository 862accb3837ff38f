import type { Diagnostic } from '../../diagnostic.ts';
import { BAR_CHECKS } from './bar-checks.ts';
import { type CheckRule, notesBy } from './check.ts';
import type { CornerSubject } from './corner-subject.ts';
import { GEOMETRY_CHECKS, PLACE_CHECKS, STANDING_CHECKS } from './geometry-checks.ts';
import { LOAD_CHECKS, SIZE_CHECKS } from './size-checks.ts';

/** All checks of a corner, in the order in which they are told. */
const CORNER_CHECKS: readonly CheckRule<CornerSubject>[] = [
  ...GEOMETRY_CHECKS,
  ...SIZE_CHECKS,
  ...PLACE_CHECKS,
  ...STANDING_CHECKS,
  ...LOAD_CHECKS,
  ...BAR_CHECKS,
];

/** What of a corner should be looked at again; `under` is its path in the file. */
export function cornerNotes(subject: CornerSubject, under: string): Diagnostic[] {
  return notesBy(CORNER_CHECKS, subject, under);
}
