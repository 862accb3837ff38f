// The four perches of a weighed car at once, for half of its weight on each diagonal at design ride height. The scales give the load of
// each wheel and with them where the centre of gravity lies across the car; perch-moves.ts gives the force of each spring for that cross
// weight, with tyres and springs between the wheels, the anti-roll bars disconnected. From the force follows the perch:
//
//   loose length = L + x(F),    perch setting = loose length - free length.

import { axle as axleOf } from '../../axle/axle.ts';
import type { CarAxle as AxleOnWheels } from '../../axle/car.ts';
import type { WheelName } from '../../axle/equilibrium.ts';
import { perchMoves } from '../../axle/perch-moves.ts';
import { AXLES, type Axle } from '../../corner/axles.ts';
import { compressionUnder, travelOf } from '../../corner/spring-stack.ts';
import { GRAVITY } from '../../units.ts';
import { stackOf } from '../sizing/listed-springs.ts';
import type { CornerMass } from '../sizing/state.ts';
import { endsOnWheel, fitsAtRide } from '../sizing/steady-corner.ts';
import {
  type BoughtAxle,
  type PerchAdvice,
  perchFor,
  type SpringChange,
  settingNow,
  sprungOn,
  type WheelSide,
} from './after-order.ts';

/** A wheel of a weighed car, and what its perch is to do. */
export interface CrossWeightWheel {
  readonly axle: Axle;
  readonly side: WheelSide;
  /** N, as weighed with the loads of the design state, and after. */
  readonly load: { readonly weighed: number; readonly after: number };
  /** null where a third spring or the bump stop leaves this spring nothing to carry, or more than its travel. */
  readonly perch: PerchAdvice | null;
  /** Whether that is for the spring to change to. */
  readonly withNewSpring: boolean;
}

/** The four perches of a weighed car at once, the car level at design ride height. */
export interface CrossWeight {
  /** Fraction of the weight on front right and rear left, as weighed. */
  readonly weighed: number;
  /** The same with the perches set so. */
  readonly after: number;
  /** The first wheel or spring that would have to pull for that: then there are no `wheels`; null where none would. */
  readonly wheel: WheelName | null;
  readonly wheels: readonly CrossWeightWheel[];
}

/** What the cross weight is set to. */
const HALF = 0.5;
/** mm: a height that counts for nothing on a level car. */
const ANY_HEIGHT = 1;

/** An axle with what was bought for it, and the spring to change to. */
export interface AxleToSet extends Pick<BoughtAxle, 'state' | 'perches'> {
  readonly change: SpringChange | null;
}

/** An axle of a weighed car that stands on coilovers of its own. */
interface Weighed {
  readonly bought: AxleToSet;
  readonly mass: CornerMass & { readonly unsprung: number };
  readonly onWheels: AxleOnWheels;
  readonly halfTrack: number;
}

/** Null where the car was not weighed, has one axle, or one that is not bought, does not stand or has no unsprung mass. */
export function crossWeightOf(axles: readonly AxleToSet[]): CrossWeight | null {
  const found = axles.map(weighedAxle);
  const [front, rear] = found;
  if (found.length !== 2 || !front || !rear) return null;
  const both = [front, rear];
  const sprung = both.reduce((sum, { mass }) => sum + 2 * mass.sprung, 0);
  const moment = both.reduce(
    (sum, { mass, halfTrack }) => sum + (sprungOn(mass, 'left') - sprungOn(mass, 'right')) * halfTrack,
    0,
  );
  const moves = perchMoves(
    {
      front: front.onWheels,
      rear: rear.onWheels,
      sprungCentreOfGravityHeight: ANY_HEIGHT,
      sprungCentreOfGravityY: moment / sprung,
    },
    { crossWeight: HALF },
  );
  const loadOn = ({ mass }: Weighed, side: WheelSide) => (sprungOn(mass, side) + mass.unsprung) * GRAVITY;
  const all = both.reduce((sum, one) => sum + loadOn(one, 'left') + loadOn(one, 'right'), 0);
  const weighed = (loadOn(front, 'right') + loadOn(rear, 'left')) / all;
  const isFound = moves.status === 'found';
  const wheels = both.flatMap((one, k) =>
    SIDES.flatMap((side): CrossWeightWheel[] => {
      const move = isFound ? moves.wheels[WHEELS[k][side]] : undefined;
      if (move === undefined) return [];
      const load = { weighed: loadOn(one, side), after: move.load };
      const perch = perchUnder(one, side, move.springForce, move.travel);
      return [{ axle: AXLES[k], side, load, perch, withNewSpring: one.bought.change !== null }];
    }),
  );
  return { weighed, after: HALF, wheel: moves.wheel, wheels };
}

const SIDES = ['left', 'right'] as const;
const WHEELS = [
  { left: 'frontLeft', right: 'frontRight' },
  { left: 'rearLeft', right: 'rearRight' },
] as const;

/** What the perch of a wheel is to do for a force of its spring at a travel, with the spring that is advised. */
function perchUnder(
  { bought, mass }: Weighed,
  side: WheelSide,
  force: number,
  travel: number,
): PerchAdvice | null {
  const { state } = bought;
  const fitted = state.spring;
  if (fitted === null) return null;
  const spring = bought.change?.spring ?? fitted;
  const stack = stackOf(spring, state.given.sizing.helper);
  const x = compressionUnder(stack, force);
  if (x >= travelOf(stack)) return null;
  const now = settingNow(bought, side, sprungOn(mass, side), fitted);
  return perchFor(state, spring, now, state.shock.at(travel).length + x);
}

function weighedAxle(bought: AxleToSet): Weighed | null {
  const { state, perches } = bought;
  const { mass, spring, coilover, shock, given, settings } = state;
  const isReady = perches !== null && given.ordered !== undefined && spring !== null && coilover !== null;
  if (!isReady || mass === null || mass.wheels === null || mass.unsprung === null) return null;
  const { damper } = settings;
  if (!fitsAtRide(shock, damper)) return null;
  const { corner, thirdSpring, rollSpring } = given.input;
  const { gasForce } = coilover;
  const { tyreRate } = given.sizing;
  return {
    bought,
    mass: { ...mass, unsprung: mass.unsprung },
    halfTrack: shock.patch(0).y,
    onWheels: {
      linkage: axleOf({ left: corner, thirdSpring, rollSpring }),
      sprungMass: 2 * mass.sprung,
      unsprungMass: mass.unsprung,
      left: {
        springRate: spring.rate,
        gasForce,
        ...endsOnWheel(damper, coilover),
      },
      ...(tyreRate === undefined ? {} : { tyreRate }),
    },
  };
}
