import { strutOf } from '../../corner/corner.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { LOAD_FACTORS } from '../forces/load-cases.ts';
import { ASSUMED_CLEARANCE } from '../springs/min-length.ts';
import { COMPRESSION_FRACTION, HIGH_SPEED_FRACTION, isSplitAssumed } from './damping.ts';
import type { AxleInputs, CarInputs } from './inputs.ts';
import { TRAVEL_CASES } from './required-travel.ts';
import type { AxleSizing } from './result.ts';
import type { AxleState, Settings } from './state.ts';
import { springsAcrossAssumed } from './third-spring.ts';

/** What was assumed. */
export function assumptionsOf(
  { travelCases, downforce }: CarInputs['car'],
  axles: readonly (AxleInputs & {
    readonly sized: AxleSizing;
    readonly chosen: Settings;
    readonly state: AxleState;
  })[],
): Diagnostic[] {
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
    ...rollAssumed(axles),
    ...axles.flatMap(({ sized, state, rateStep }) => onAxle(sized, state, rateStep)),
    assumed('loadFactorsAssumed', '', { ...LOAD_FACTORS }),
  ];
}

/** That roll counts as estimated, where the wheels could not be followed through the corner. */
function rollAssumed(
  axles: readonly { readonly sized: AxleSizing; readonly chosen: Settings }[],
): Diagnostic[] {
  const isCounted = axles.some(
    ({ sized, chosen }) =>
      chosen.roll == null && sized.travelRequirement.cases.some(({ parts }) => 'roll' in parts),
  );
  return isCounted ? [assumed('rollTravelEstimated', 'travelCases.lateralAcceleration')] : [];
}

function onAxle(sized: AxleSizing, state: AxleState, rateStep: number): Diagnostic[] {
  const { axle, travelRequirement, damper, input, springOptions } = sized;
  const { corner, sizing } = input;
  const strut = strutOf(corner);
  const found = (code: string, place: string, values: Diagnostic['values'] = {}) =>
    assumed(code, `corners.${axle}.${place}`, { axle, ...values });
  return [
    ...springsAcrossAssumed(state).map((one) => found(...one)),
    ...(strut === null ? [] : [found('coiloverAlongStrut', strut)]),
    ...(sizing?.target !== undefined && sizing.rateStep === undefined
      ? [found('rateStepAssumed', 'sizing.rateStep', { rateStep })]
      : []),
    ...travelRequirement.omitted.map((one) => assumed(one.code, one.path, { ...one.values, axle })),
    ...dampingAssumed(sized).map((one) => found(...one)),
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

/** What a valving that is not bought takes from common practice. */
function dampingAssumed(sized: AxleSizing): [code: string, place: string, values: Diagnostic['values']][] {
  const { dampingTable, input } = sized;
  const { kneeSpeed, highSpeedFraction } = input.sizing?.damping ?? {};
  if (dampingTable.length === 0 || input.ordered?.valving !== undefined) return [];
  return [
    ...(isSplitAssumed(sized)
      ? [assumption('compressionFractionAssumed', 'compressionFraction', { fraction: COMPRESSION_FRACTION })]
      : []),
    ...(kneeSpeed === undefined || highSpeedFraction !== undefined
      ? []
      : [assumption('highSpeedFractionAssumed', 'highSpeedFraction', { fraction: HIGH_SPEED_FRACTION })]),
  ];
}

const assumption = (
  code: string,
  name: string,
  values: Diagnostic['values'],
): [code: string, place: string, values: Diagnostic['values']] => [code, `sizing.damping.${name}`, values];

function assumed(code: string, path = '', values: Diagnostic['values'] = {}): Diagnostic {
  return { code, severity: 'note', path, values };
}
