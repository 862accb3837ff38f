import type { Diagnostic, Severity } from '../diagnostic.ts';
import type { Refused } from './judge.ts';
import type { Objective } from './objectives.ts';
import type { Design, ObjectiveResult } from './result.ts';

/** What a design came to: its status, each objective, what limits it, and what to bear in mind. */
export function diagnosticsOn(
  { status, objectives, active, searches, trials }: Omit<Design, 'diagnostics'>,
  refused: ReadonlyMap<string, Refused>,
): Diagnostic[] {
  const missed = objectives.filter(({ met }) => !met).length;
  const unfinished = searches.filter((one) => one.status === 'evaluationLimit').length;
  return [
    diagnostic(
      status,
      { missed, goals: objectives.length, trials },
      status === 'clearanceUnreachable' ? 'conflict' : 'note',
    ),
    ...objectives.map(objectiveDiagnostic),
    ...active,
    ...[...refused.values()].map(({ why, count }) =>
      diagnostic('cornersNotJudged', { ...why.values, count, trials, reason: why.code }),
    ),
    ...(unfinished === 0
      ? []
      : [diagnostic('searchesUnfinished', { unfinished, searches: searches.length })]),
    ...(status === 'targetUnreachable' || status === 'clearanceUnreachable'
      ? [diagnostic('noProof', {})]
      : []),
  ];
}

function objectiveDiagnostic(
  { objective, initial, achieved, deviation, met, nearest }: ObjectiveResult,
  k: number,
): Diagnostic {
  return {
    ...diagnostic(met ? 'objectiveMet' : 'objectiveMissed', {
      ...goalOf(objective),
      initial,
      achieved,
      deviation,
      nearest,
    }),
    path: `objectives[${k}]`,
  };
}

/** What an objective is about, and its goal. */
function goalOf(objective: Objective): Diagnostic['values'] {
  const { quantity, target = null, min = null, max = null } = objective;
  const goal = { quantity, target, min, max };
  if (objective.quantity !== 'jointForce') return goal;
  return { ...goal, joint: objective.joint, station: objective.station ?? 'design' };
}

function diagnostic(code: string, values: Diagnostic['values'], severity: Severity = 'note'): Diagnostic {
  return { code, severity, path: '', values };
}
