// What acts between the two wheels of an axle: bar, third spring, roll spring. Each has an energy U(w) of one quantity w that both
// wheels share: the twist q_l - q_r of the bar, the length of a spring. On the wheels and on each other it acts with
//
//   U_i = U' w_i,     U_ij = U'' w_i w_j + U' w_ij,        i and j the travels of left and right.

import { NEWTON_METRE_PER_DEGREE } from '../units.ts';
import type { Between } from './axle.ts';
import { type Across, type CrossSpring, lengthAcross, type SpringEnd } from './cross-spring.ts';
import type { Jet } from './jet.ts';

/** Names of what may act between both wheels. */
export const COUPLINGS = ['bar', 'thirdSpring', 'rollSpring'] as const;
export type CouplingName = (typeof COUPLINGS)[number];
export type SpringName = Exclude<CouplingName, 'bar'>;

/** What acts between both wheels of an axle. */
export type Coupling =
  | {
      readonly name: 'bar';
      /** Per turn of its levers, N·mm/rad; N/mm where it acts on travels. */
      readonly torsion: number;
    }
  | { readonly name: SpringName; readonly spring: CrossSpring };

/** Of a wheel, what goes into that: the angle of the lever, and the ends of the springs, by its travel. */
export interface CoupledWheel {
  readonly lever: Jet;
  readonly thirdSpring: SpringEnd;
  readonly rollSpring: SpringEnd;
}

/** A coupling in a pose: its quantity, with force dU/dw and rate. */
export interface Coupled extends Across {
  readonly name: CouplingName;
  force: number;
  rate: number;
  /** The part of the force with which an end of its lengths holds it: it pushes its ends apart where negative. */
  endForce: number;
}

/** The couplings of an axle by what is between its wheels; `otherwise` is the stiffness of a bar that it has not, N·m/deg. */
export function couplingsOf({ bar, thirdSpring, rollSpring }: Between, otherwise = 0): Coupling[] {
  const torsion = (bar?.torsionalStiffness ?? otherwise) * NEWTON_METRE_PER_DEGREE;
  return [
    ...(torsion === 0 ? [] : [{ name: 'bar', torsion } as const]),
    ...(thirdSpring === null ? [] : [{ name: 'thirdSpring', spring: thirdSpring } as const]),
    ...(rollSpring === null ? [] : [{ name: 'rollSpring', spring: rollSpring } as const]),
  ];
}

/** A coupling to be read into. */
export function uncoupled({ name }: Coupling): Coupled {
  return {
    name,
    value: 0,
    left: 0,
    right: 0,
    leftLeft: 0,
    leftRight: 0,
    rightRight: 0,
    force: 0,
    rate: 0,
    endForce: 0,
  };
}

/** mm: a third spring shorter than free by no more than this is loose, so that rounding does not decide it where it just touches. */
export const TOUCHING = 1e-9;

/** Reads a coupling where both wheels are. */
export function couple(coupling: Coupling, left: CoupledWheel, right: CoupledWheel, into: Coupled): void {
  if (coupling.name === 'bar') {
    const [l, r] = [left.lever, right.lever];
    into.value = l[0] - r[0];
    into.left = l[1];
    into.right = -r[1];
    into.leftLeft = l[2];
    into.leftRight = 0;
    into.rightRight = -r[2];
    into.force = coupling.torsion * into.value;
    into.rate = coupling.torsion;
    return;
  }
  const { name, spring } = coupling;
  lengthAcross(left[name], right[name], into);
  const stretch = into.value - spring.freeLength;
  // A third spring that is loose does nothing; a roll spring pulls as it pushes.
  const acts = name === 'rollSpring' || stretch < -TOUCHING;
  into.force = acts ? spring.rate * stretch : 0;
  into.rate = acts ? spring.rate : 0;
}

/** The couplings of an axle where both wheels are. */
export function coupledBy(
  couplings: readonly Coupling[],
  left: CoupledWheel,
  right: CoupledWheel,
): readonly Coupled[] {
  return couplings.map((coupling) => {
    const found = uncoupled(coupling);
    couple(coupling, left, right, found);
    return found;
  });
}

/** What a coupling does to a wheel, N per travel in bump: the left one for `side` 1. */
export function onWheel({ force, left, right }: Coupled, side: 1 | -1): number {
  return force * (side === 1 ? left : right);
}
