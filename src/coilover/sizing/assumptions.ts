import type { Diagnostic } from '../../diagnostic.ts';
import { LOAD_FACTORS } from '../forces/load-cases.ts';
import { ASSUMED_CLEARANCE } from '../springs/min-length.ts';
import { type CarInputs, isStrutUnit, ofAxle } from './inputs.ts';
import { TRAVEL_CASES } from './required-travel.ts';
import type { AxleSizing } from './result.ts';

/** What was assumed. */
export function assumptionsOf(inputs: CarInputs, axles: readonly AxleSizing[]): Diagnostic[] {
  const { travelCases, downforce } = inputs.car;
  const taken = Object.entries(TRAVEL_CASES).filter(
    ([name]) => travelCases?.[name as keyof typeof TRAVEL_CASES] === undefined,
  );
  return [
    assumed('linksIdeal'),
    assumed('sidesAveraged'),
    assumed('cornersUncoupled'),
    assumed('gasForceConstant'),
    ...(taken.length === 0 ? [] : [assumed('travelCasesAssumed', 'travelCases', Object.fromEntries(taken))]),
    ...(downforce === undefined ? [] : [assumed('downforceWithSpeedSquared', 'downforce')]),
    ...axles.flatMap((sized) => onAxle(sized, ofAxle(inputs, sized.axle).rateStep)),
    assumed('loadFactorsAssumed', '', { ...LOAD_FACTORS }),
  ];
}

function onAxle(sized: AxleSizing, rateStep: number): Diagnostic[] {
  const { axle, travelRequirement, damper, input, springOptions } = sized;
  const { corner, sizing } = input;
  const found = (code: string, place: string, values: Diagnostic['values'] = {}) =>
    assumed(code, `corners.${axle}.${place}`, { axle, ...values });
  return [
    ...(isStrutUnit(corner) ? [found('coiloverAlongStrut', 'strut')] : []),
    ...(sizing?.target !== undefined && sizing.rateStep === undefined
      ? [found('rateStepAssumed', 'sizing.rateStep', { rateStep })]
      : []),
    ...travelRequirement.omitted.map((one) => assumed(one.code, one.path, { ...one.values, axle })),
    ...(damper === null || damper.specified ? [] : [found('damperFromTravel', 'limits.damper')]),
    ...springOptions.flatMap(({ spring: { name, minLength, minLengthSource } }) =>
      minLengthSource === 'estimated' || minLengthSource === 'assumed'
        ? [
            found('minLengthTaken', 'sizing.springs', {
              spring: name,
              minLength,
              minLengthSource,
              assumedClearance: ASSUMED_CLEARANCE,
            }),
          ]
        : [],
    ),
  ];
}

function assumed(code: string, path = '', values: Diagnostic['values'] = {}): Diagnostic {
  return { code, severity: 'note', path, values };
}
