// How pictures and tables are to be shown: what many of their options have in common.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import type { Units } from '../units.ts';

/** The units that figures are written in. */
const UNITS: readonly Units[] = ['metric', 'imperial'];

/** Options that a picture of a corner has. */
export const CORNER_LOOKS = ['title', 'units', 'limits', 'bodyEnd', 'tyre', 'tyreWidth', 'rimDiameter'];

/** What is wrong with the options of a picture or a table: names it does not know, and values of those that many have. */
export function lookFaults(options: unknown, known: readonly string[]): Diagnostic[] {
  const faults = unknownOptions(options, known);
  if (typeof options !== 'object' || options === null) return faults;
  const { title, units, bodyEnd, tyreWidth, rimDiameter } = options as Record<string, unknown>;
  faults.push(...titleFaults(title), ...unitsFaults(units));
  if (bodyEnd !== undefined && bodyEnd !== 'up' && bodyEnd !== 'down') {
    faults.push(fault('unknownChoice', 'bodyEnd', { got: show(bodyEnd), allowed: ['up', 'down'] }));
  }
  for (const [path, size] of Object.entries({ tyreWidth, rimDiameter })) {
    if (size === undefined || (typeof size === 'number' && size > 0 && size < Number.POSITIVE_INFINITY))
      continue;
    faults.push(fault('outOfRange', path, { got: show(size), above: 0, unit: 'mm' }));
  }
  return faults;
}

/** What is wrong with a title, as far as there is one. */
export function titleFaults(title: unknown): Diagnostic[] {
  return title === undefined || typeof title === 'string'
    ? []
    : [fault('notATitle', 'title', { got: show(title) })];
}

/** What is wrong with units, as far as some are named. */
export function unitsFaults(units: unknown): Diagnostic[] {
  return units === undefined || UNITS.some((one) => one === units)
    ? []
    : [fault('unknownChoice', 'units', { got: show(units), allowed: UNITS })];
}
