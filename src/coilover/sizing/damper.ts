// Lengths of a damper between its eyes: closed = dead length + stroke, open = dead length + 2 x stroke. Where none is given, the
// one that the travel asks for: open as long as the shock is anywhere in the droop that is needed, and the stop solid where it is
// shortest in the bump that is needed.

import type { Diagnostic } from '../../diagnostic.ts';
import { type CoiloverForce, contactLength } from '../forces/axial-force.ts';
import type { ShockCurve } from '../wheel.ts';
import type { AxleInputs } from './inputs.ts';
import type { Estimate } from './uncertainty.ts';

/** Lengths between the eyes, mm. */
export interface DamperLengths {
  readonly open: number;
  readonly closed: number;
}

export type BumpStop = CoiloverForce['bumpStop'];

/** Length between the eyes at which the bump stop is solid, mm; without one, closed. */
export function solidLength({ limits }: AxleInputs, { closed }: DamperLengths): number {
  return closed + (limits.bumpStop?.solidHeight ?? 0);
}

/** The bump stop on a damper. */
export function bumpStopOf(given: AxleInputs, damper: DamperLengths | null): BumpStop {
  const table = given.sizing.bumpStopForces;
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
  const closed = Math.floor(shortest - tolerance - (limits.bumpStop?.solidHeight ?? 0) + ROUNDING);
  return closed > 0 ? { open: Math.ceil(longest + tolerance - ROUNDING), closed } : null;
}

/** mm that are rounding and no length. */
const ROUNDING = 1e-9;

/** What of a damper cannot be built; `deadLength` is the least that its maker needs, mm. */
export function damperFindings(
  { open, closed }: DamperLengths,
  installed: number,
  deadLength: number | undefined,
): Diagnostic[] {
  const stroke = open - closed;
  const found: Diagnostic[] = [];
  if (open < installed || closed > installed) {
    found.push({
      code: 'damperDoesNotFit',
      severity: 'conflict',
      path: 'limits.damper',
      values: { extended: open, compressed: closed, installed },
    });
  }
  if (deadLength !== undefined && closed - stroke < deadLength) {
    found.push({
      code: 'deadLengthShort',
      severity: 'conflict',
      path: 'sizing.deadLength',
      values: {
        available: closed - stroke,
        required: deadLength,
        stroke,
        installed,
        compressed: deadLength + stroke,
        extended: deadLength + 2 * stroke,
      },
    });
  }
  if (deadLength === undefined && closed - stroke < USUAL_DEAD_LENGTH) {
    found.push({
      code: 'deadLengthSmall',
      severity: 'check',
      path: 'sizing.deadLength',
      values: { available: closed - stroke, usual: USUAL_DEAD_LENGTH, stroke, compressed: closed },
    });
  }
  return found;
}

/** Dead length below which few coilovers are built, mm; common practice, no source. */
const USUAL_DEAD_LENGTH = 100;
