// Lengths of a damper between its eyes: compressed = dead length + stroke, extended = dead length + 2 x stroke. Where none is given, the
// one that the travel asks for: extended as long as the shock is anywhere in the droop that is needed, and the stop solid where it is
// shortest in the bump that is needed.

import { type CoiloverForce, contactLength } from '../../corner/axial-force.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import type { ShockCurve } from '../wheel.ts';
import type { AxleInputs } from './inputs.ts';
import type { Estimate } from './uncertainty.ts';

/** Eye-to-eye lengths of a damper, mm. */
export interface DamperLengths {
  readonly extendedLength: number;
  readonly compressedLength: number;
}

export type BumpStop = CoiloverForce['bumpStop'];

/** Length between the eyes at which the bump stop is solid, mm; without one, compressed. */
export function solidLength(
  { limits }: Pick<AxleInputs, 'limits'>,
  { compressedLength }: DamperLengths,
): number {
  return compressedLength + (limits.bumpStop?.solidHeight ?? 0);
}

/** The bump stop on a damper. */
export function bumpStopOf(given: AxleInputs, damper: DamperLengths | null): BumpStop {
  const table = given.sizing.bumpStopTable;
  const contact = contactLength(given.limits.bumpStop, damper);
  return table === undefined || contact === null ? null : { contact, table };
}

/** Places between ride and the ends at which lengths are looked at, mm of travel: fixed, so that more travel has all of less. */
const PLACES = 5;

/** Travels from droop to bump (mm): both ends and fixed places between. */
function placesBetween(droop: number, bump: number): number[] {
  const places = [droop, bump];
  for (let k = Math.ceil(droop / PLACES); k * PLACES <= bump; k++) places.push(k * PLACES);
  return places;
}

/**
 * The damper that so much bump and droop (mm, droop negative) ask for, in whole mm outward: extended as long as the shock is anywhere in that
 * travel, and its stop solid where it is shortest. `lengths` gives the 95 % interval of the shock's length at each of some travels, and the
 * tolerance of the order is added to it. More travel never gives a shorter unit. Null where no compressed length is left.
 */
export function damperForTravel(
  { limits, sizing }: AxleInputs,
  shock: ShockCurve,
  { bump, droop }: { readonly bump: number | null; readonly droop: number | null },
  lengths: (travels: readonly number[]) => readonly Estimate[],
): DamperLengths | null {
  if (bump === null || droop === null) return null;
  const found = lengths(placesBetween(Math.max(shock.droop, droop), Math.min(shock.bump, bump)));
  const tolerance = sizing.order?.lengthTolerance ?? 0;
  const longest = Math.max(...found.map(({ value, upper }) => upper ?? value ?? 0));
  const shortest = Math.min(...found.map(({ value, lower }) => lower ?? value ?? 0));
  const compressedLength = Math.floor(shortest - tolerance - (limits.bumpStop?.solidHeight ?? 0) + ROUNDING);
  return compressedLength > 0
    ? { extendedLength: Math.ceil(longest + tolerance - ROUNDING), compressedLength }
    : null;
}

/** mm that are rounding and no length. */
const ROUNDING = 1e-9;

/** What of a damper cannot be built; `deadLength` is the least that its maker needs, mm. */
export function damperFindings(
  { extendedLength, compressedLength }: DamperLengths,
  installed: number,
  deadLength: number | undefined,
): Diagnostic[] {
  const stroke = extendedLength - compressedLength;
  const found: Diagnostic[] = [];
  if (extendedLength < installed || compressedLength > installed) {
    found.push({
      code: 'damperDoesNotFit',
      severity: 'conflict',
      path: 'limits.damper',
      values: { extended: extendedLength, compressed: compressedLength, installed },
    });
  }
  if (deadLength !== undefined && compressedLength - stroke < deadLength) {
    found.push({
      code: 'deadLengthShort',
      severity: 'conflict',
      path: 'sizing.deadLength',
      values: {
        available: compressedLength - stroke,
        required: deadLength,
        stroke,
        installed,
        compressed: deadLength + stroke,
        extended: deadLength + 2 * stroke,
      },
    });
  }
  if (deadLength === undefined && compressedLength <= stroke) {
    found.push({
      code: 'strokeTooLong',
      severity: 'conflict',
      path: 'limits.damper',
      values: { stroke, compressed: compressedLength },
    });
  } else if (deadLength === undefined && compressedLength - stroke < USUAL_DEAD_LENGTH) {
    found.push({
      code: 'deadLengthSmall',
      severity: 'check',
      path: 'sizing.deadLength',
      values: {
        available: compressedLength - stroke,
        usual: USUAL_DEAD_LENGTH,
        stroke,
        compressed: compressedLength,
      },
    });
  }
  return found;
}

/** Dead length below which few coilovers are built, mm; common practice, no source. */
const USUAL_DEAD_LENGTH = 100;
