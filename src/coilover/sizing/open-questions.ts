import { strutOf } from '../../corner/corner.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { ASSUMED_CLEARANCE } from '../springs/min-length.ts';
import type { CarInputs } from './inputs.ts';
import type { AxleSizing } from './result.ts';

/** What is still to be found out or agreed: the user's own questions, then what is missing. */
export function openQuestionsOf(inputs: CarInputs, axles: readonly AxleSizing[]): Diagnostic[] {
  const { openQuestions = [], masses } = inputs.car;
  return [
    ...openQuestions.map((text, k) => open('ownQuestion', `openQuestions[${k}]`, { text })),
    ...(masses === undefined ? [open('massesMissing', 'masses')] : []),
    ...(masses?.estimate === undefined ? [] : [open('massesEstimated', 'masses.estimate')]),
    ...(masses?.scales?.perches !== 'untouched'
      ? []
      : inputs.axles
          .filter(({ sizing }) => sizing.perch?.setting === undefined)
          .map(({ axle }) => open('perchSettingMissing', `corners.${axle}.sizing.perch.setting`, { axle }))),
    ...axles.flatMap(onAxle),
  ];
}

function onAxle({ axle, spring, input: { corner, sizing, limits } }: AxleSizing): Diagnostic[] {
  const { order } = sizing ?? {};
  const missing = Object.entries({
    sizing,
    ...(sizing === undefined
      ? {}
      : { target: sizing.target, tyreRate: sizing.tyreRate, damping: sizing.damping }),
    bearings: limits.bearings,
    bumpStop: limits.bumpStop,
    mounts: order?.mounts,
    ...(strutOf(corner) === null ? { bodyEnd: order?.bodyEnd } : {}),
    bodyDiameter: order?.bodyDiameter,
    adjusters: order?.adjusters,
    lengthTolerance: order?.lengthTolerance,
  }).flatMap(([name, given]) => (given === undefined ? [name] : []));
  const springs = `corners.${axle}.sizing.springs`;
  const { freeLength = null, minLength = null, minLengthSource = null } = spring ?? {};
  return [
    ...(missing.length === 0 ? [] : [open('inputsMissing', `corners.${axle}`, { axle, missing })]),
    ...(spring === null || freeLength !== null ? [] : [open('springLengthsOpen', springs, { axle })]),
    ...(minLengthSource === 'estimated' || minLengthSource === 'assumed'
      ? [
          open('minLengthOpen', springs, {
            axle,
            minLength,
            minLengthSource,
            assumedClearance: ASSUMED_CLEARANCE,
          }),
        ]
      : []),
  ];
}

function open(code: string, path: string, values: Diagnostic['values'] = {}): Diagnostic {
  return { code, severity: 'note', path, values };
}
