// Lengths of a damper between its eyes: closed = dead length + stroke, open = dead length + 2 x stroke. Where none is given, the
// one that the travel asks for: open as long as the shock is anywhere in the droop that is needed, and the stop solid where it is
// shortest in the bump that is needed.

import type { Diagnostic } from '../../diagnostic.ts';
import { type CoiloverForce, contactLength } from '../forces/eye-force.ts';
import type { ShockCurve } from '../wheel.ts';
import type { AxleInputs } from './inputs.ts';

/** Lengths between the eyes, mm. */
export interface DamperLengths {
  readonly open: number;
  readonly closed: number;
}

export type Stop = CoiloverForce['stop'];

/** Length between the eyes at which the bump stop is solid, mm; without one, closed. */
export function solidLength({ limits }: AxleInputs, { closed }: DamperLengths): number {
  return closed + (limits.bumpStop?.solidHeight ?? 0);
}

/** The bump stop on a damper. */
export function stopOf(given: AxleInputs, damper: DamperLengths | null): Stop {
  const table = given.sizing.bumpStopForces;
  const contact = contactLength(given.limits.bumpStop, damper);
  return table === undefined || contact === null ? null : { contact, table };
}

/** The shortest and the longest that the shock is between two travels, looked at in so many places. */
const PLACES = 24;

function range(shock: ShockCurve, from: number, to: number): { least: number; most: number } {
  const lengths = Array.from(
    { length: PLACES + 1 },
    (_, k) => shock.at(from + ((to - from) * k) / PLACES).length,
  );
  return { least: Math.min(...lengths), most: Math.max(...lengths) };
}

/** The damper that so much bump and droop ask for (mm, droop negative). */
export function wantedDamper(
  { limits }: AxleInputs,
  shock: ShockCurve,
  needed: { readonly bump: number; readonly droop: number },
): DamperLengths {
  const { least, most } = range(
    shock,
    Math.max(shock.droop, needed.droop),
    Math.min(shock.bump, needed.bump),
  );
  return { open: most, closed: least - (limits.bumpStop?.solidHeight ?? 0) };
}

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
  return found;
}
