import type { Diagnostic } from '../../diagnostic.ts';
import { ASSUMED_CLEARANCE } from '../springs/min-length.ts';
import type { CornerSizing } from './inputs.ts';
import type { Spring } from './listed-springs.ts';
import { isNear, MAX_FREQUENCY_DEVIATION, type SpringFit } from './spring-fit.ts';

/** A spring far from what the target requires. */
export function targetFindings(
  path: string,
  { rate }: Spring,
  fit: SpringFit | null,
  requiredSpringRate: number | null,
): Diagnostic[] {
  if (fit === null || isNear(fit)) return [];
  return [
    conflict('springFarFromTarget', path, {
      springRate: rate,
      requiredSpringRate,
      ...fit,
      maxDeviation: MAX_FREQUENCY_DEVIATION,
    }),
  ];
}

/** Travel of a spring to its minimum length, mm: what the bump limit requires, and what is left of it. */
export function travelValues(spring: Spring | null, required: number, margin: number): Diagnostic['values'] {
  return {
    available: required + margin,
    required,
    margin,
    minLength: spring?.minLength ?? null,
    minLengthSource: spring?.minLengthSource ?? null,
    assumedClearance: ASSUMED_CLEARANCE,
  };
}

/** A spring that has less travel, to its minimum length, than the bump limit requires; `at` is the bump at which it is reached, mm, null where that is not known. */
export function travelFindings(
  path: string,
  spring: Spring | null,
  required: number,
  margin: number,
  at: number | null,
): Diagnostic[] {
  return margin < 0
    ? [conflict('springTravelShort', path, { ...travelValues(spring, required, margin), at })]
    : [];
}

/** A spring that does not go over the body of the damper, comes nearer to it than it may, or is wider than there is room for. */
export function diameterFindings(
  path: string,
  { innerDiameter, outerDiameter }: Spring,
  { bodyDiameter, springClearance, maxSpringOuterDiameter }: NonNullable<CornerSizing['order']> = {},
): Diagnostic[] {
  return [
    ...(innerDiameter === null || bodyDiameter === undefined
      ? []
      : innerFindings(path, innerDiameter, bodyDiameter, springClearance)),
    ...(outerDiameter === null ||
    maxSpringOuterDiameter === undefined ||
    outerDiameter <= maxSpringOuterDiameter * (1 + ROUNDING)
      ? []
      : [conflict('springOuterDiameterLarge', path, { outerDiameter, maxSpringOuterDiameter })]),
  ];
}

function innerFindings(
  path: string,
  innerDiameter: number,
  bodyDiameter: number,
  required: number | undefined,
): Diagnostic[] {
  if (innerDiameter <= bodyDiameter) {
    return [conflict('springInnerDiameterSmall', path, { innerDiameter, bodyDiameter })];
  }
  const clearance = (innerDiameter - bodyDiameter) / 2;
  if (required === undefined || clearance >= required - ROUNDING * innerDiameter) return [];
  return [conflict('springClearanceSmall', path, { clearance, required, innerDiameter, bodyDiameter })];
}

/** Share of a diameter that the conversion of its unit may make. */
const ROUNDING = 1e-9;

function conflict(code: string, path: string, values: Diagnostic['values']): Diagnostic {
  return { code, severity: 'conflict', path, values };
}
