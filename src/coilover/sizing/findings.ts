import type { Issue } from '../../errors.ts';
import type { Units } from '../../units.ts';
import { textIn } from '../../units.ts';
import { damperIssues } from './damper.ts';
import type { AxleInputs } from './inputs.ts';
import type { AxleSizing } from './result.ts';

/** What of a sized axle can't be, each with its numbers in the units of the document. */
export function findingsOn(sized: AxleSizing, { sizing, limits }: AxleInputs, units: Units): Issue[] {
  const { axle, damper, needed, figure } = sized;
  const mm = (value: number) => textIn(value, 'length', units);
  const installed = figure('installedLength').value ?? 0;
  const issues: Issue[] =
    needed.bump === null
      ? []
      : damper === null
        ? [
            {
              path: 'coilover',
              problem: 'the travel that is needed asks for a damper with no closed length left',
              got: `${mm(installed)} installed, ${mm(needed.bump)} of bump needed`,
              allowed: 'a coilover longer than what the bump takes of it',
              advice: 'look at units and mounts again, or ask for less travel',
            },
          ]
        : damperIssues(damper, installed, sizing.deadLength, mm);
  issues.push(...bindIssues(sized, mm), ...travelIssues(sized, mm), ...tableIssues(sizing, limits, mm));
  if (sizing.perch?.eyesToSeats !== undefined && sized.spring?.free === null) {
    issues.push({
      path: 'sizing.perch.eyesToSeats',
      problem: 'says nothing without the free length of the spring, and was left aside',
      advice: 'list the spring that is fitted under springs',
    });
  }
  return issues.map((issue) => ({ ...issue, path: `corners.${axle}.${issue.path}` }));
}

type Write = (mm: number) => string;

function bindIssues({ limits, figure }: AxleSizing, mm: Write): Issue[] {
  const needs = figure('springTravelNeeded').value;
  const margin = figure('bindMargin').value;
  if (margin === null || needs === null || margin >= 0) return [];
  const where =
    limits.bump?.cause === 'springAtLeast' ? `; it binds at ${mm(limits.bump.travel)} of bump` : '';
  return [
    {
      path: 'sizing.springs',
      problem: 'the coils bind before the bump limit',
      got: `${mm(needs + margin)} of spring travel, ${mm(needs)} needed${where}`,
      allowed: `${mm(needs)} or more from free to least length`,
      advice: 'take a longer spring, or a stop that ends the travel before',
    },
  ];
}

/** Travel that is less than what is needed, on either side. */
function travelIssues({ limits, needed, figure }: AxleSizing, mm: Write): Issue[] {
  return (['bump', 'droop'] as const).flatMap((side): Issue[] => {
    const spare = figure(`${side}Spare`).value;
    if (spare === null || spare >= 0) return [];
    const there = figure(`${side}Travel`).value ?? 0;
    const worst = needed.cases
      .filter((one) => one.side === side)
      .reduce((a, b) => (b.travel > a.travel ? b : a));
    const ends = limits[side];
    return [
      {
        path: 'limits',
        problem: `less ${side} travel than is needed`,
        got: `${mm(there)}${ends === null ? '' : `: ${ends.sentence.replace(/\.$/, '')}`}`,
        allowed: `${mm(there - spare)} or more, for ${worst.name}`,
        advice: 'ask for less in travelCases, or move what ends it',
      },
    ];
  });
}

/** A table of the bump stop that goes beyond where the stop is solid. */
function tableIssues(
  { bumpStopForces = [] }: AxleInputs['sizing'],
  { bumpStop }: AxleInputs['limits'],
  mm: Write,
): Issue[] {
  if (bumpStop === undefined || bumpStopForces.length === 0) return [];
  const most = bumpStop.height - bumpStop.solidHeight;
  const [last] = bumpStopForces[bumpStopForces.length - 1];
  if (last <= most * (1 + 1e-9)) return [];
  return [
    {
      path: 'sizing.bumpStopForces',
      problem: 'goes on where the stop is solid already',
      got: `${mm(last)} pressed in`,
      allowed: `${mm(most)}, its height less its solid height`,
      advice: 'look at the table and at limits.bumpStop again',
    },
  ];
}
