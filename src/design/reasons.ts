import { worded } from '../sentences/worded.ts';
import type { Units } from '../units.ts';
import type { Refused } from './judge.ts';
import { written } from './objectives.ts';
import type { Design, DesignStatus, ObjectiveResult } from './result.ts';

/** What a design says of itself. */
export function reasonsFor(
  { status, units, objectives: values, active, searches, trials }: Omit<Design, 'reasons'>,
  refused: ReadonlyMap<string, Refused>,
): string[] {
  const missed = values.filter(({ met }) => !met).length;
  const reasons = [FIRST[status](missed, values.length, trials)];
  reasons.push(...values.map((one) => sentenceOn(one, units)));
  for (const { sentence } of active) reasons.push(`${sentence[0].toUpperCase()}${sentence.slice(1)}.`);
  for (const { why, count } of refused.values()) {
    reasons.push(
      `${count} of the ${trials} corners tried could not be judged: ${worded(why, units).problem}.`,
    );
  }
  const open = searches.filter((one) => one.status === 'evaluationLimit').length;
  if (open > 0) reasons.push(`${open} of ${searches.length} searches reached their limit of evaluations.`);
  if (status === 'targetUnreachable' || status === 'clearanceUnreachable') {
    reasons.push(
      'That is what the searches found; it is no proof that no other place in the boxes does better. More starts look at more places.',
    );
  }
  return reasons;
}

const FIRST: Readonly<Record<DesignStatus, (missed: number, all: number, trials: number) => string>> = {
  targetsMet: (_, all) => (all === 1 ? 'The goal is met.' : `All ${all} goals are met.`),
  targetUnreachable: (missed, all) =>
    all === 1
      ? 'The goal is unreachable: no corner was found that meets it.'
      : `Not all goals can be met together: ${missed} of ${all} are missed.`,
  clearanceUnreachable: () =>
    'No corner was found that keeps all clearances; this is the one with the smallest shortfall, whatever its values.',
  evaluationLimit: (missed, all) =>
    `The search reached its limit of evaluations: ${missed} of ${all} goals are missed, and may come nearer.`,
  cancelled: (_, __, trials) =>
    `Cancelled: this is the best of the ${trials} ${trials === 1 ? 'corner' : 'corners'} tried so far.`,
};

function sentenceOn(
  { quantity, label, goal, initial, achieved, deviation, met, nearest }: ObjectiveResult,
  units: Units,
): string {
  const now = written(quantity, achieved, units);
  const verdict = met
    ? 'met'
    : `${written(quantity, Math.abs(deviation), units)} too ${deviation > 0 ? 'much' : 'little'}`;
  const near =
    met || nearest === null || written(quantity, nearest, units) === now
      ? ''
      : ` The nearest of all corners tried that keep their clearances is ${written(quantity, nearest, units)}.`;
  const name = `${label[0].toUpperCase()}${label.slice(1)}`;
  return `${name}: goal ${goal}, ${written(quantity, initial, units)} as drawn, ${now} now: ${verdict}.${near}`;
}
