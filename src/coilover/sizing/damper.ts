// Lengths of a damper between its eyes: closed = dead length + stroke, open = dead length + 2 x stroke. Where none is given, the
// one that the travel asks for: open as long as the shock is anywhere in the droop that is needed, and the stop solid where it is
// shortest in the bump that is needed.

import type { Issue } from '../../errors.ts';
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

/** What of a damper can't be built. */
export function damperIssues(
  { open, closed }: DamperLengths,
  installed: number,
  least: number | undefined,
  mm: (value: number) => string,
): Issue[] {
  const stroke = open - closed;
  const issues: Issue[] = [];
  if (open < installed || closed > installed) {
    issues.push({
      path: 'limits.damper',
      problem: 'does not fit the installed length at the drawn ride height',
      got: `${mm(closed)} closed, ${mm(open)} open`,
      allowed: `closed less and open more than ${mm(installed)}`,
      advice: 'change the lengths, or move a mount',
    });
  }
  if (least !== undefined && closed - stroke < least) {
    issues.push({
      path: 'sizing.deadLength',
      problem: `a stroke of ${mm(stroke)} can't fit the installed length of ${mm(installed)}`,
      got: `${mm(closed - stroke)} left for what is not stroke`,
      allowed: `${mm(least)} or more: closed length ${mm(least + stroke)}, open ${mm(least + 2 * stroke)}`,
      advice:
        'ask for less travel, move a mount so that the coilover is longer, or take one with a shorter body',
    });
  }
  return issues;
}
