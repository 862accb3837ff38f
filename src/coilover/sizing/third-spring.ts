// What the springs between both wheels of an axle take of load, rate and damping, and what of them does not do.

import { TOUCHING } from '../../axle/coupling.ts';
import type { Diagnostic } from '../../diagnostic.ts';
import { NEWTON_METRE_PER_DEGREE } from '../../units.ts';
import { travelAtThirdLength } from '../wheel.ts';
import { dampingRatioAt } from './damping.ts';
import { type FigureInfos, type Numbers, none } from './figure.ts';
import type { AxleState } from './state.ts';
import type { SteadyState } from './static-stability.ts';

export const THIRD_SPRING_FIGURES = {
  thirdSpringLoad: {
    label: 'carried by the third spring',
    quantity: 'force',
    group: 'adjustable',
    definition:
      'of the sprung load of each wheel at static ride height, mean of left and right; the axial force of the coilover is that of the rest',
  },
  thirdSpringWheelRate: {
    label: 'wheel rate of the third spring',
    quantity: 'rate',
    group: 'adjustable',
    definition:
      'its part of the wheel rate at static ride height, both wheels alike; the required spring rate is for the rest, and roll has the wheel rate without it',
  },
  rollSpringStiffness: {
    label: 'roll stiffness of the roll spring',
    quantity: 'rollStiffness',
    group: 'adjustable',
    definition:
      'its part of the roll stiffness of the axle at static ride height, springs alone and with the bar',
  },
} as const satisfies FigureInfos;

const NOTHING = none(THIRD_SPRING_FIGURES);

export function thirdSpringNumbers({ rest, shock, given }: AxleState): Numbers<typeof THIRD_SPRING_FIGURES> {
  const across = rest === null ? undefined : shock.across?.(rest.travel);
  if (rest === null || across === undefined) return NOTHING;
  const { thirdSpring, rollSpring } = across;
  const { linkage } = given;
  return {
    thirdSpringLoad: linkage.thirdSpring === null ? null : thirdSpring.load,
    thirdSpringWheelRate: linkage.thirdSpring === null ? null : thirdSpring.rate,
    rollSpringStiffness:
      linkage.rollSpring === null
        ? null
        : (rollSpring.rollRate * (2 * shock.patch(rest.travel).y) ** 2) / 2 / NEWTON_METRE_PER_DEGREE,
  };
}

/** What of the third spring of an axle does not do with its coilovers, or is worth knowing; paths from the corner. */
export function thirdSpringDiagnostics(state: AxleState, steady: readonly SteadyState[]): Diagnostic[] {
  const { shock, given } = state;
  if (given.linkage.thirdSpring === null || shock.across == null) return [];
  const { loads, stretch } = shock.across(0);
  const [left, right] = loads;
  return [
    ...(Math.abs(stretch) > TOUCHING ? [] : [found('thirdSpringJustLoose', 'check', 'thirdSpring', {})]),
    ...(Math.abs(left - right) <= ROUNDING * Math.abs(left)
      ? []
      : [found('thirdSpringUneven', 'check', 'thirdSpring.right', { left, right })]),
    ...endsOfHeave(state, steady),
    ...dampsAll(state),
  ];
}

/** Share of a load that is rounding. */
const ROUNDING = 1e-9;

/** Steady states in which both wheels move alike. */
const IN_HEAVE: readonly SteadyState['state'][] = ['rest', 'topSpeed', 'braking'];

/** Where the third spring comes to an end of its lengths before the wheels come to theirs. */
function endsOfHeave({ shock, ends, given }: AxleState, steady: readonly SteadyState[]): Diagnostic[] {
  const { thirdSpring } = given.linkage;
  return (['bump', 'droop'] as const).flatMap((side): Diagnostic[] => {
    const name = side === 'bump' ? 'compressedLength' : 'extendedLength';
    const length = thirdSpring?.[name] ?? null;
    const travel = length === null ? null : travelAtThirdLength(shock, length, ends[side]);
    if (travel === null) return [];
    const past = ({ travel: held }: SteadyState) => (side === 'bump' ? held - travel : travel - held);
    const worst = steady
      .filter((one) => IN_HEAVE.includes(one.state) && past(one) > 0)
      .reduce<SteadyState | null>((a, b) => (a === null || past(b) > past(a) ? b : a), null);
    const path = `thirdSpring.${name}`;
    return [
      worst === null
        ? found('thirdSpringEndsHeave', 'note', path, { side, travel, limit: ends[side], length })
        : found('thirdSpringEndsTooSoon', 'conflict', path, {
            side,
            travel,
            length,
            state: worst.state,
            held: worst.travel,
          }),
    ];
  });
}

/** A damper beside the third spring that leaves nothing for those of the coilovers. */
function dampsAll(state: AxleState): Diagnostic[] {
  const target = state.given.sizing.damping?.ratio;
  if (target === undefined || state.rest === null) return [];
  const ratio = dampingRatioAt(state, 0, state.rest.travel) ?? 0;
  if (ratio < target) return [];
  return [found('thirdSpringDampsAll', 'conflict', 'thirdSpring.damping', { ratio, target })];
}

function found(
  code: string,
  severity: Diagnostic['severity'],
  path: string,
  values: Diagnostic['values'],
): Diagnostic {
  return { code, severity, path, values };
}

type Assumed = readonly [code: string, place: string, values: Diagnostic['values']];
const assumed = (...one: Assumed): Assumed => one;

/** How the springs between both wheels count at design ride height: code, place and values of what the sizing assumes of them. */
export function springsAcrossAssumed({ given, shock, coilover }: AxleState): Assumed[] {
  const { thirdSpring, rollSpring } = given.linkage;
  const across = shock.across?.(0);
  if (across === undefined || coilover === null) return [];
  const { load, rate } = across.thirdSpring;
  return [
    ...(thirdSpring === null ? [] : [assumed('thirdSpringCounted', 'thirdSpring', { load, rate })]),
    ...(rollSpring === null ? [] : [assumed('rollSpringCounted', 'rollSpring', {})]),
  ];
}
