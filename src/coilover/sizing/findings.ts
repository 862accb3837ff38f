// What of a sized axle cannot be made or will not work, as data: `sentences/springs.ts` and `sentences/travel.ts` word it.

import { AXLES } from '../../corner/axles.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { damperFindings } from './damper.ts';
import type { AxleInputs, CornerSizing } from './inputs.ts';
import type { AxleSizing } from './result.ts';
import {
  diameterFindings,
  travelFindings as springTravelFindings,
  targetFindings,
  travelValues,
} from './spring-findings.ts';
import { isBought } from './unsettled.ts';

/** What of a sized axle cannot be made or will not work. */
export function findingsOn(sized: AxleSizing, { sizing, limits }: AxleInputs): Diagnostic[] {
  const { axle, damper, travelRequirement, figure } = sized;
  const installed = figure('designLength').value ?? 0;
  const found: Diagnostic[] =
    travelRequirement.bump === null
      ? []
      : damper === null
        ? [
            {
              code: 'noDamperForTravel',
              severity: 'conflict',
              path: 'coilover',
              values: { installed, required: travelRequirement.bump },
            },
          ]
        : damperFindings(damper, installed, sizing.deadLength);
  found.push(
    ...springFindings(sized, sizing),
    ...perchFindings(sized, sizing),
    ...travelFindings(sized),
    ...tableFindings(sizing, limits),
  );
  if (sizing.perch?.setting !== undefined && sized.spring?.freeLength === null) {
    found.push({
      code: 'perchWithoutFreeLength',
      severity: 'check',
      path: 'sizing.perch.setting',
      values: {},
    });
  }
  return found.map((one) => ({ ...one, path: `corners.${axle}.${one.path}` }));
}

/** What of the spring does not do: its rate, its travel to the minimum length, its diameter. */
function springFindings(sized: AxleSizing, { springs, rateStep, order }: CornerSizing): Diagnostic[] {
  const { spring, springFit, figure } = sized;
  const listed = 'sizing.springs';
  const named = springs === undefined && rateStep !== undefined ? 'sizing.rateStep' : listed;
  return [
    ...(spring === null ? [] : targetFindings(named, spring, springFit, figure('requiredSpringRate').value)),
    ...bindFindings(sized, listed),
    ...(spring === null ? [] : diameterFindings(listed, spring, order)),
  ];
}

/** A spring that has less travel, to its minimum length, than the bump limit asks of it, or may have less. */
function bindFindings({ limits, figure, spring }: AxleSizing, path: string): Diagnostic[] {
  const required = figure('springTravelRequired').value;
  const { value: margin, lower, contributions } = figure('springTravelMargin');
  if (margin === null || required === null) return [];
  if (margin < 0 || lower === null || lower >= 0) {
    const at = limits.bump?.cause === 'springMinLength' ? limits.bump.travel : null;
    return springTravelFindings(path, spring, required, margin, at);
  }
  return [
    {
      code: 'springTravelUncertain',
      severity: 'check',
      path,
      values: {
        ...travelValues(spring, required, margin),
        lowest: lower,
        input: contributions[0]?.input ?? null,
      },
    },
  ];
}

/** Travel that is less than what is required, or may be less, on either side. */
function travelFindings({ limits, travelRequirement: needed, figure }: AxleSizing): Diagnostic[] {
  return (['bump', 'droop'] as const).flatMap((side): Diagnostic[] => {
    const { value: margin, lower, contributions } = figure(`${side}TravelMargin`);
    if (margin === null) return [];
    const available = figure(`${side}TravelAvailable`).value ?? 0;
    const values = { available, required: available - margin, margin };
    if (margin < 0) {
      const worst = needed.cases
        .filter((one) => one.side === side)
        .reduce((a, b) => (b.required > a.required ? b : a));
      const because = { case: worst.name, state: worst.state, cause: limits[side]?.cause ?? null };
      return [
        {
          code: `${side}TravelShort`,
          severity: 'conflict',
          path: 'limits',
          values: { ...values, ...because },
        },
      ];
    }
    if (lower === null || lower >= 0) return [];
    const because = { lowest: lower, input: contributions[0]?.input ?? null };
    return [
      {
        code: `${side}TravelUncertain`,
        severity: 'check',
        path: 'limits',
        values: { ...values, ...because },
      },
    ];
  });
}

/** A perch setting outside the range of the thread. What is bought is judged wheel by wheel, as advice after the order. */
function perchFindings({ figure, input }: AxleSizing, { perch }: CornerSizing): Diagnostic[] {
  const setting = figure('perchSetting').value;
  if (setting === null || perch?.min === undefined || perch.max === undefined || isBought(input)) return [];
  const rounding = ROUNDING * perch.max;
  if (setting >= perch.min - rounding && setting <= perch.max + rounding) return [];
  const { min, max } = perch;
  return [
    { code: 'perchOutOfRange', severity: 'conflict', path: 'sizing.perch', values: { setting, min, max } },
  ];
}

/** A table of the bump stop that goes beyond where the stop is solid. */
function tableFindings(
  { bumpStopTable = [] }: AxleInputs['sizing'],
  { bumpStop }: AxleInputs['limits'],
): Diagnostic[] {
  if (bumpStop === undefined || bumpStopTable.length === 0) return [];
  const max = bumpStop.height - bumpStop.solidHeight;
  const [last] = bumpStopTable[bumpStopTable.length - 1];
  if (last <= max * (1 + ROUNDING)) return [];
  return [
    {
      code: 'bumpStopTableBeyondSolid',
      severity: 'conflict',
      path: 'sizing.bumpStopTable',
      values: { compression: last, max },
    },
  ];
}

/** Share of a length that the conversion of its unit may make. */
const ROUNDING = 1e-9;

/**
 * What the required travel of a car leaves out because an input is missing, each once: of its masses, or an axle that is not described,
 * or has no spring. All else, and what `found` says of masses or of that axle, is a finding of its own.
 */
export function omittedFindings(
  axles: readonly Pick<AxleSizing, 'axle' | 'travelRequirement' | 'spring'>[],
  found: readonly Pick<Diagnostic, 'path'>[],
): Diagnostic[] {
  const unknown = AXLES.filter(
    (name) =>
      (axles.find(({ axle }) => axle === name)?.spring ?? null) === null &&
      !found.some(({ path }) => path.startsWith('masses') || path.startsWith(`corners.${name}`)),
  );
  const missing = axles
    .flatMap(({ axle, travelRequirement }) =>
      travelRequirement.omitted.flatMap((one) => {
        if (one.path.startsWith('masses')) return [one];
        const other = unknown.find((name) => name !== axle);
        return one.values.needs === 'bothAxles' && other !== undefined
          ? [{ ...one, path: `corners.${other}` }]
          : [];
      }),
    )
    .filter(({ values }) => values.state === '');
  const key = ({ path, values }: Diagnostic) => `${path} ${values.part}`;
  return missing.filter((one, k) => missing.findIndex((other) => key(other) === key(one)) === k);
}
