// What of a sized axle cannot be made or will not work, as data: `sentences/springs.ts` and `sentences/travel.ts` word it.

import type { Diagnostic } from '../../diagnostic.ts';
import { ASSUMED_CLEARANCE } from '../springs/min-length.ts';
import { damperFindings } from './damper.ts';
import type { AxleInputs } from './inputs.ts';
import type { AxleSizing } from './result.ts';

/** What of a sized axle cannot be made or will not work. */
export function findingsOn(sized: AxleSizing, { sizing, limits }: AxleInputs): Diagnostic[] {
  const { axle, damper, needed, figure } = sized;
  const installed = figure('installedLength').value ?? 0;
  const found: Diagnostic[] =
    damper === null
      ? [
          {
            code: 'noDamperForTravel',
            severity: 'conflict',
            path: 'coilover',
            values: { installed, required: needed.bump },
          },
        ]
      : damperFindings(damper, installed, sizing.deadLength);
  found.push(...springFindings(sized), ...travelFindings(sized), ...tableFindings(sizing, limits));
  if (sizing.perch?.eyesToSeats !== undefined && sized.spring?.free === null) {
    found.push({
      code: 'perchWithoutFreeLength',
      severity: 'check',
      path: 'sizing.perch.eyesToSeats',
      values: {},
    });
  }
  return found.map((one) => ({ ...one, path: `corners.${axle}.${one.path}` }));
}

/** A spring that has less travel, to its minimum length, than the bump limit asks of it. */
function springFindings({ limits, figure, spring }: AxleSizing): Diagnostic[] {
  const required = figure('springTravelNeeded').value;
  const margin = figure('bindMargin').value;
  if (margin === null || required === null || margin >= 0) return [];
  return [
    {
      code: 'springTravelShort',
      severity: 'conflict',
      path: 'sizing.springs',
      values: {
        available: required + margin,
        required,
        margin,
        minLength: spring?.minLength ?? null,
        minLengthSource: spring?.minLengthSource ?? null,
        assumedClearance: ASSUMED_CLEARANCE,
        at: limits.bump?.cause === 'springAtLeast' ? limits.bump.travel : null,
      },
    },
  ];
}

/** Travel that is less than what is required, on either side. */
function travelFindings({ limits, needed, figure }: AxleSizing): Diagnostic[] {
  return (['bump', 'droop'] as const).flatMap((side): Diagnostic[] => {
    const margin = figure(`${side}Spare`).value;
    if (margin === null || margin >= 0) return [];
    const available = figure(`${side}Travel`).value ?? 0;
    const worst = needed.cases
      .filter((one) => one.side === side)
      .reduce((a, b) => (b.travel > a.travel ? b : a));
    return [
      {
        code: `${side}TravelShort`,
        severity: 'conflict',
        path: 'limits',
        values: {
          available,
          required: available - margin,
          margin,
          case: worst.name,
          cause: limits[side]?.cause ?? null,
        },
      },
    ];
  });
}

/** A table of the bump stop that goes beyond where the stop is solid. */
function tableFindings(
  { bumpStopForces = [] }: AxleInputs['sizing'],
  { bumpStop }: AxleInputs['limits'],
): Diagnostic[] {
  if (bumpStop === undefined || bumpStopForces.length === 0) return [];
  const most = bumpStop.height - bumpStop.solidHeight;
  const [last] = bumpStopForces[bumpStopForces.length - 1];
  if (last <= most * (1 + ROUNDING)) return [];
  return [
    {
      code: 'bumpStopTableBeyondSolid',
      severity: 'check',
      path: 'sizing.bumpStopForces',
      values: { compression: last, max: most },
    },
  ];
}

/** Share of a length that the conversion of its unit may make. */
const ROUNDING = 1e-9;
