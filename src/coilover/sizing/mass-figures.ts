import { GRAVITY } from '../../units.ts';
import type { CarMasses } from '../masses.ts';
import type { FigureInfos, Numbers } from './figure.ts';
import type { AxleState } from './state.ts';

export const MASS_FIGURES = {
  leftMass: {
    label: 'mass on the left-hand wheel',
    quantity: 'mass',
    settled: 'car',
    definition: 'of the car with what was added, by its shares or scales',
  },
  rightMass: {
    label: 'mass on the right-hand wheel',
    quantity: 'mass',
    settled: 'car',
    definition: 'the same on the other side',
  },
  sprungMass: {
    label: 'sprung mass of a corner',
    quantity: 'mass',
    settled: 'car',
    definition: 'mean mass on the wheels of the axle less the unsprung mass',
  },
  unsprungMass: {
    label: 'unsprung mass of a corner',
    quantity: 'mass',
    settled: 'car',
    definition: 'wheel, tyre, upright, brake, and the shares of arms and coilover that move with them',
  },
  leftLower: {
    label: 'left-hand side lower than the right',
    quantity: 'length',
    settled: 'later',
    definition:
      'with both perches set alike: difference of the loads by the wheel rate at rest; the perches take it out',
  },
} as const satisfies FigureInfos;

export const CAR_FIGURES = {
  totalMass: {
    label: 'mass of the car with what was added',
    quantity: 'mass',
    settled: 'car',
    definition: 'on all four wheels',
  },
  frontShare: {
    label: 'share on the front axle',
    quantity: 'ratio',
    settled: 'car',
    definition: 'mass on the front wheels by that on all',
  },
  rearToFront: {
    label: 'frequency of the rear by that of the front',
    quantity: 'ratio',
    settled: 'later',
    definition:
      'of the suspension alone, at rest; on the road the rear is often made quicker by 10 to 20 % (common practice)',
  },
} as const satisfies FigureInfos;

export function massNumbers({ wheels, mass, given, atRest }: AxleState): Numbers<typeof MASS_FIGURES> {
  return {
    leftMass: wheels?.left ?? null,
    rightMass: wheels?.right ?? null,
    sprungMass: mass?.sprung ?? null,
    unsprungMass: given.sizing.unsprungMass ?? null,
    leftLower:
      mass?.wheels == null || atRest === null || !(atRest.rate > 0)
        ? null
        : ((mass.wheels.left - mass.wheels.right) * GRAVITY) / atRest.rate,
  };
}

export function carFigures(
  masses: CarMasses | null,
  front: number | null,
  rear: number | null,
): Numbers<typeof CAR_FIGURES> {
  return {
    totalMass: masses?.total ?? null,
    frontShare: masses?.frontShare ?? null,
    rearToFront: front === null || rear === null ? null : rear / front,
  };
}
