// Roll of the sprung part on both axles. With t the track, k_w the wheel rate at rest, one wheel up as far as the other goes down, and B
// what a bar adds:
//
//   roll stiffness of an axle   K = k_w t^2 / 2 + B
//   roll angle per g            phi = m_s g h / (K_front + K_rear - m_s g h)
//
// h the height of the sprung centre of gravity above the roll axis, which joins the roll centres of the axles and is taken where the
// sprung mass lies (T. D. Gillespie, "Fundamentals of Vehicle Dynamics", 1992, ch. 6; from memory). Tyres are taken as rigid.

import { AXLES } from '../../corner/axles.ts';
import { DEGREES, GRAVITY, NEWTON_METRE_PER_DEGREE } from '../../units.ts';
import { type FigureInfos, type Numbers, none } from './figure.ts';
import type { AxleInputs } from './inputs.ts';
import type { AxleState } from './state.ts';

export const ROLL_FIGURES = {
  rollStiffness: {
    label: 'roll stiffness of the axle, springs alone',
    quantity: 'rollStiffness',
    group: 'adjustable',
    definition: 'wheel rate at static ride height × track² ÷ 2',
  },
  rollStiffnessWithBar: {
    label: 'roll stiffness of the axle with its bar',
    quantity: 'rollStiffness',
    group: 'adjustable',
    definition:
      'springs and anti-roll bar together; a bar given by its geometry with its ratio at design ride height',
  },
  rollCentreHeight: {
    label: 'roll centre above the ground',
    quantity: 'length',
    group: 'car',
    definition:
      'at static ride height, both wheels moving alike: where the line square to the path of the contact patch meets the centreline',
  },
} as const satisfies FigureInfos;

export const CAR_ROLL_FIGURES = {
  rollGradient: {
    label: 'roll gradient, without anti-roll bars',
    quantity: 'rollGradient',
    group: 'adjustable',
    definition:
      'moment per g (sprung weight × its height above the roll axis) ÷ (roll stiffness of both axles − that moment); tyres rigid',
  },
  rollGradientWithBars: {
    label: 'roll gradient, with anti-roll bars',
    quantity: 'rollGradient',
    group: 'adjustable',
    definition: 'the same with the anti-roll bars',
  },
} as const satisfies FigureInfos;

export function rollOfAxle({ atRest, rest, shock, given }: AxleState): Numbers<typeof ROLL_FIGURES> {
  if (atRest === null || rest === null) {
    return { ...none(ROLL_FIGURES), rollCentreHeight: shock.patch(0).rollCentreHeight };
  }
  const { y, rollCentreHeight } = shock.patch(rest.travel);
  const bar = barStiffness(given);
  const stiffness = (atRest.rollRate * (2 * y) ** 2) / 2 / NEWTON_METRE_PER_DEGREE;
  return {
    rollStiffness: stiffness,
    rollStiffnessWithBar: bar === null ? null : stiffness + bar,
    rollCentreHeight,
  };
}

/** What the anti-roll bar of an axle adds to its roll stiffness, N·m/deg; null without one. */
export function barStiffness({ sizing, drawnBarStiffness }: AxleInputs): number | null {
  return sizing.antiRollBarStiffness ?? drawnBarStiffness;
}

/** Sprung mass of a car, kg; null where that of an axle is not known. */
export function sprungMassOf(states: readonly AxleState[]): number | null {
  const known = states.flatMap(({ mass }) => mass?.sprung ?? []);
  return known.length < AXLES.length ? null : known.reduce((sum, sprung) => sum + 2 * sprung, 0);
}

/** Roll per g of a car whose sprung centre is so high, mm; degrees. */
export function rollOfCar(
  states: readonly AxleState[],
  centreOfGravityHeight: number | undefined,
): Numbers<typeof CAR_ROLL_FIGURES> {
  const sprung = sprungMassOf(states);
  if (sprung === null || centreOfGravityHeight === undefined) return none(CAR_ROLL_FIGURES);
  const axles = states.map((axle) => ({ roll: rollOfAxle(axle), sprung: axle.mass?.sprung ?? 0 }));
  const axis = axles.reduce(
    (sum, axle) => sum + (2 * axle.sprung * (axle.roll.rollCentreHeight ?? 0)) / sprung,
    0,
  );
  const moment = sprung * GRAVITY * (centreOfGravityHeight - axis);
  const angle = (stiffness: (number | null)[]) => {
    const [f, r] = stiffness;
    if (f === null || r === null) return null;
    const left = (f + r) * NEWTON_METRE_PER_DEGREE - moment;
    return left > 0 ? (moment / left) * DEGREES : null;
  };
  return {
    rollGradient: angle(axles.map(({ roll }) => roll.rollStiffness)),
    rollGradientWithBars: angle(axles.map(({ roll }) => roll.rollStiffnessWithBar ?? roll.rollStiffness)),
  };
}
