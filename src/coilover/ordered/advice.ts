import type { Axle } from '../../corner/axles.ts';
import type { Diagnostic, Severity } from '../../diagnostic.ts';
import type { AfterOrder, PerchAdvice, WheelAfterOrder, WheelSide } from './after-order.ts';
import type { CrossWeight } from './cross-weight.ts';

/** Turns that nobody can set: less is left as it is. */
const TURN = 0.05;
/** mm that nobody can set, where the pitch is not known. */
const MOVE = 0.1;
/** How far a tape can be off in a ride height, mm: less is no contradiction. */
const TAPE = 2;
/** How far the damping ratio may lie from its target before that is worth a word, as a fraction. Common practice, no source. */
const DAMPING_NEAR = 0.1;
/** Travel that is rounding, mm. */
const ROUNDING = 1e-6;

type Values = Diagnostic['values'];

/** What to do after the order, and what can't be cured, wheel by wheel: notes are to be done, conflicts stay. */
export function adviceOn(axle: Axle, after: AfterOrder, perches: 'reset' | 'untouched' | null): Diagnostic[] {
  const found = (code: string, severity: Severity, place: string, values: Values): Diagnostic => ({
    code,
    severity,
    path: `corners.${axle}.ordered${place === '' ? '' : `.${place}`}`,
    values: { axle, ...values },
  });
  return [
    ...after.wheels.flatMap((wheel) => staticAdvice(wheel, perches, found)),
    ...springAdvice(after, found),
    ...after.wheels.flatMap((wheel) => perchAdviceOn(wheel, after.change !== null, found)),
    ...dampingAdvice(after, found),
    ...after.wheels.flatMap((wheel) => notCured(wheel, found)),
  ];
}

/** What to do at all four perches at once, for the cross weight that is aimed at. */
export function crossWeightAdvice({ weighed, after, wheel, wheels }: CrossWeight): Diagnostic[] {
  const note = (code: string, severity: Severity, path: string, values: Values): Diagnostic => {
    return { code, severity, path, values };
  };
  if (wheels.length === 0)
    return [note('crossWeightOutOfReach', 'conflict', 'masses.scales', { weighed, after, wheel })];
  return [
    note('crossWeightAimed', 'note', 'masses.scales', { weighed, after }),
    ...wheels.flatMap(({ axle, side, perch, withNewSpring }) => {
      const found: Found = (code, severity, place, values) =>
        note(code, severity, `corners.${axle}.ordered.${place}`, { axle, ...values });
      if (perch === null) return [found('crossWeightNotCarried', 'conflict', 'spring', { side })];
      return [
        ...onPerch(side, perch, withNewSpring, found),
        ...(perch.withinThread === false
          ? [found('crossWeightBeyondThread', 'conflict', 'perch', { side, setting: perch.requiredSetting })]
          : []),
      ];
    }),
  ];
}

type Found = (code: string, severity: Severity, place: string, values: Values) => Diagnostic;

/** Where a wheel stands with what is fitted. */
function staticAdvice(
  { side, asFitted }: WheelAfterOrder,
  perches: 'reset' | 'untouched' | null,
  found: Found,
): Diagnostic[] {
  if (asFitted === null) return [];
  const { staticTravel, state } = asFitted;
  if (state !== 'onSpring') {
    return [
      found('wheelStandsOnLimit', 'note', '', {
        side,
        staticTravel,
        limit: state === 'bumpLimit' ? 'bump' : 'droop',
      }),
    ];
  }
  const off = Math.abs(staticTravel);
  const contradicts =
    perches === 'reset' && off > TAPE
      ? [found('resetPerchOff', 'check', 'perch.setting', { side, staticTravel, off })]
      : [];
  return off < MOVE ? [] : [found('wheelStands', 'note', '', { side, staticTravel, off }), ...contradicts];
}

function springAdvice({ change, fitted, requiredRate }: AfterOrder, found: Found): Diagnostic[] {
  if (change === null) return [];
  const { spring, because, fits, maxMinLength, listed } = change;
  const values = { name: spring.name, rate: spring.rate, fitted: fitted.rate, required: requiredRate };
  const length =
    listed || maxMinLength === null || spring.freeLength === null
      ? []
      : [found('newSpringLengths', 'note', 'spring', { freeLength: spring.freeLength, maxMinLength })];
  return [
    found(because === 'target' ? 'changeSpring' : 'changeSpringForTravel', 'note', 'spring', values),
    ...length,
    ...(fits
      ? []
      : [found('newSpringDoesNotFit', 'conflict', 'spring', { name: spring.name, rate: spring.rate })]),
  ];
}

function perchAdviceOn(wheel: WheelAfterOrder, changes: boolean, found: Found): Diagnostic[] {
  const advice = changes ? wheel.perchWithChange : wheel.perch;
  return advice === null ? [] : onPerch(wheel.side, advice, changes, found);
}

function onPerch(side: WheelSide, advice: PerchAdvice, changes: boolean, found: Found): Diagnostic[] {
  const { requiredSetting: setting, move, turns } = advice;
  if (move === null) {
    return setting === null
      ? [found('perchSettingUnknown', 'check', 'perch.setting', { side })]
      : [found('perchSet', 'note', 'perch', { side, setting })];
  }
  if (turns === null ? Math.abs(move) < MOVE : Math.abs(turns) < TURN) {
    return [found('perchStays', 'note', 'perch', { side })];
  }
  const values = {
    side,
    towardsSpring: move > 0,
    withNewSpring: changes,
    move: Math.abs(move),
    setting,
  };
  return turns === null
    ? [found('perchMove', 'note', 'perch', values)]
    : [found('perchTurn', 'note', 'perch', { ...values, turns: Math.abs(turns) })];
}

function dampingAdvice({ damping }: AfterOrder, found: Found): Diagnostic[] {
  if (damping === null || damping.target === null || damping.mean.design === null) return [];
  const { target, requiredDamping } = damping;
  const ratio = damping.mean.design;
  if (requiredDamping === null || Math.abs(ratio - target) <= DAMPING_NEAR * target) return [];
  return [found('dampingOffTarget', 'check', 'valving', { ratio, target, requiredDamping })];
}

/** What neither spring nor perch cures. */
function notCured(wheel: WheelAfterOrder, found: Found): Diagnostic[] {
  const { side, advised, sprungMass } = wheel;
  if (advised === null) {
    return [found('rideHeightNotCarried', 'conflict', 'spring', { side, sprungMass })];
  }
  const advice: PerchAdvice | null = wheel.perchWithChange ?? wheel.perch;
  const { setting, staticTravel, bumpMargin, droopMargin, springMargin } = advised;
  const short = (direction: 'bump' | 'droop', margin: number | null) =>
    margin !== null && margin < -ROUNDING
      ? [found('boughtTravelShort', 'conflict', 'damper', { side, direction, short: -margin })]
      : [];
  return [
    ...(advice?.withinThread === false
      ? [
          found('perchOutOfThread', 'conflict', 'perch', {
            side,
            required: advice.requiredSetting,
            setting,
            staticTravel,
            off: Math.abs(staticTravel),
          }),
        ]
      : []),
    ...short('bump', bumpMargin),
    ...short('droop', droopMargin),
    ...(springMargin !== null && springMargin < -ROUNDING
      ? [found('boughtSpringTravelShort', 'conflict', 'spring', { side, short: -springMargin })]
      : []),
  ];
}
