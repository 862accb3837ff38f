// The heavier side stands lower. With both perches set alike the loads of a side are W_m + D/2 and W_m - D/2, D = (m_l - m_r) g. On springs
// alone each wheel moves by D / 2 k_w. A bar that adds B to the roll stiffness of the axle pushes on wheels that move by +z and -z, a
// roll of 2 z / t, with the moment B 2 z / t, at each wheel the force 2 B z / t^2: as a spring of 2 B / t^2. The sides differ by
//
//   D / k_w,    with the bar D / (k_w + 2 B / t^2).

import { GRAVITY, NEWTON_METRE_PER_DEGREE } from '../../units.ts';
import type { CarMasses } from '../masses.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import { barStiffness } from './roll.ts';
import type { AxleState } from './state.ts';

export const MASS_FIGURES = {
  leftWheelMass: {
    label: 'mass on the left-hand wheel',
    quantity: 'mass',
    group: 'car',
    definition: 'of the car with the added loads, from shares or scales',
  },
  rightWheelMass: {
    label: 'mass on the right-hand wheel',
    quantity: 'mass',
    group: 'car',
    definition: 'the same on the other side',
  },
  sprungMass: {
    label: 'sprung mass of a corner',
    quantity: 'mass',
    group: 'car',
    definition: 'mean mass on the wheels of the axle − unsprung mass',
  },
  unsprungMass: {
    label: 'unsprung mass of a corner',
    quantity: 'mass',
    group: 'car',
    definition: 'wheel, tyre, upright, brake, and the shares of arms and coilover that move with them',
  },
  leftRightHeightDifference: {
    label: 'left-hand side lower than the right',
    quantity: 'length',
    group: 'adjustable',
    definition:
      'with both perches set alike and no anti-roll bar: difference of the loads ÷ wheel rate at static ride height; the perches take it out',
  },
  leftRightHeightDifferenceWithBar: {
    label: 'left-hand side lower than the right, anti-roll bar connected',
    quantity: 'length',
    group: 'adjustable',
    definition:
      'the same with the bar, unloaded while both wheels are level: difference of the loads ÷ (wheel rate + 2 × bar ÷ track²)',
  },
} as const satisfies FigureInfos;

export const CAR_FIGURES = {
  totalMass: {
    label: 'mass of the car with the added loads',
    quantity: 'mass',
    group: 'car',
    definition: 'on all four wheels',
  },
  frontFraction: {
    label: 'fraction on the front axle',
    quantity: 'ratio',
    group: 'car',
    definition: 'mass on the front wheels ÷ mass on all wheels',
  },
  frequencyRatio: {
    label: 'rear ride frequency ÷ front',
    quantity: 'ratio',
    group: 'adjustable',
    definition:
      'suspension alone, at static ride height; on the road the rear is often 10 to 20 % higher (common practice)',
  },
} as const satisfies FigureInfos;

/** What an anti-roll bar (N m/deg at the axle) adds to the rate of each wheel where the two move apart, N/mm; track in mm. */
export function barRate(rollStiffness: number, track: number): number {
  return (2 * rollStiffness * NEWTON_METRE_PER_DEGREE) / track ** 2;
}

export function massNumbers({
  wheels,
  given,
  mass,
  atRest,
  rest,
  shock,
}: AxleState): Numbers<typeof MASS_FIGURES> {
  const { unsprungMass } = given.sizing;
  const bar = barStiffness(given);
  const lower = (rate: number) => (wheels === null ? null : ((wheels.left - wheels.right) * GRAVITY) / rate);
  return {
    leftWheelMass: wheels?.left ?? null,
    rightWheelMass: wheels?.right ?? null,
    sprungMass: mass?.sprung ?? null,
    unsprungMass: unsprungMass ?? null,
    leftRightHeightDifference: atRest === null ? null : lower(atRest.rollRate),
    leftRightHeightDifferenceWithBar:
      atRest === null || rest === null || bar === null
        ? null
        : lower(atRest.rollRate + barRate(bar, 2 * shock.patch(rest.travel).y)),
  };
}

export function carFigures(
  masses: CarMasses | null,
  front: number | null,
  rear: number | null,
): Numbers<typeof CAR_FIGURES> {
  return {
    totalMass: masses?.total ?? null,
    frontFraction: masses?.frontFraction ?? null,
    frequencyRatio: front === null || rear === null ? null : rear / front,
  };
}
