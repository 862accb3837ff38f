// Downforce goes with the square of the speed, D = D_0 (v / v_0)^2, at a fixed balance and without feedback of the ride height.
// Half of an axle's part loads each of its corners, and the wheel comes to rest where
//
//   W(z) = m_s g + D_corner;
//
// ride height is lost by z and by what the tyre gives, D_corner / k_t, of which only z uses travel.

import { contactLength } from '../../corner/axial-force.ts';
import type { Axle } from '../../corner/axles.ts';
import { frequencyOn } from '../../corner/frequency.ts';
import type { CarSizingFile } from '../../document/inputs.ts';
import type { Certain } from '../../document/uncertain.ts';
import { GRAVITY } from '../../units.ts';
import { restUnder, travelAtLength, wheelAt } from '../wheel.ts';
import { type FigureInfos, type Numbers, none } from './figure.ts';
import { withTyre } from './rates.ts';
import type { AxleState } from './state.ts';

type Downforce = NonNullable<Certain<CarSizingFile>['downforce']>;

/** A corner at a speed. */
export interface SpeedRow {
  /** km/h. */
  readonly speed: number;
  /** Downforce on this corner, N. */
  readonly downforce: number;
  /** Travel, mm from the drawn ride height, bump +; null where there is no coilover to compute. */
  readonly travel: number | null;
  /** `onSpring`, or at a limit of the travel: `bumpLimit` where bump ends, `droopLimit` at full droop. */
  readonly state: 'onSpring' | 'bumpLimit' | 'droopLimit' | null;
  /** Ride height lost against the static one, mm: travel and tyre; without a tyre rate the travel alone. Null at a limit. */
  readonly rideHeightLoss: number | null;
  /** Bump travel left to contact with the bump stop, mm; null without one. */
  readonly travelToContact: number | null;
  /** Bump travel left to the limit, mm. */
  readonly travelToLimit: number | null;
  /** Hz, of the suspension alone. */
  readonly frequency: number | null;
  /** Hz, with the tyre in series. */
  readonly frequencyWithTyre: number | null;
}

export const DOWNFORCE_FIGURES = {
  topSpeedDownforce: {
    label: 'downforce on the corner at top speed',
    quantity: 'force',
    group: 'car',
    definition: 'half of the axle’s share of the downforce, proportional to the square of the speed',
  },
  topSpeedRideHeightLoss: {
    label: 'ride height lost at top speed',
    quantity: 'length',
    group: 'adjustable',
    definition: 'wheel travel and tyre deflection from standing to top speed, at fixed balance',
  },
  topSpeedBumpTravelLeft: {
    label: 'bump travel available at top speed',
    quantity: 'length',
    group: 'adjustable',
    definition: 'from the ride height at top speed to the first limit',
  },
  topSpeedFrequency: {
    label: 'frequency at top speed',
    quantity: 'frequency',
    group: 'adjustable',
    definition:
      'of the sprung mass on the wheel rate there, without the tyre; the mass does not grow with the load',
  },
} as const satisfies FigureInfos;

/** Downforce of a corner at a speed (km/h), N. */
export function cornerDownforce(
  { speed: v0, force, frontFraction }: Downforce,
  axle: Axle,
  speed: number,
): number {
  const share = axle === 'front' ? frontFraction : 1 - frontFraction;
  return (force * (speed / v0) ** 2 * share) / 2;
}

/** The last of the speeds to look at, or the one at which the force is known. */
export function topSpeedOf({ speedsToCheck, speed }: Downforce): number {
  return speedsToCheck?.[speedsToCheck.length - 1] ?? speed;
}

/** A corner of an axle at a speed. */
export function speedRow(axleState: AxleState, downforce: Downforce, speed: number): SpeedRow {
  const { coilover, mass, rest, shock, ends, given, settings } = axleState;
  const force = cornerDownforce(downforce, given.axle, speed);
  const nothing = {
    speed,
    downforce: force,
    travel: null,
    state: null,
    rideHeightLoss: null,
    travelToContact: null,
    travelToLimit: null,
    frequency: null,
    frequencyWithTyre: null,
  };
  if (coilover === null || mass === null || rest === null) return nothing;
  const { tyreRate } = given.sizing;
  const { travel, state } = restUnder(shock, coilover, mass.sprung * GRAVITY + force, ends, rest.travel);
  const { rate } = wheelAt(shock, coilover, travel);
  const contact = contactLength(given.limits.bumpStop, settings.damper);
  const stop = contact === null ? null : travelAtLength(shock, contact, ends.bump);
  const onSpring = state === 'onSpring';
  return {
    speed,
    downforce: force,
    travel,
    state,
    rideHeightLoss: onSpring ? travel - rest.travel + (tyreRate === undefined ? 0 : force / tyreRate) : null,
    travelToContact: stop === null ? null : stop - travel,
    travelToLimit: ends.bump - travel,
    frequency: onSpring ? frequencyOn(mass.sprung, rate) : null,
    frequencyWithTyre: onSpring ? frequencyOn(mass.sprung, withTyre(rate, tyreRate)) : null,
  };
}

const NOTHING = none(DOWNFORCE_FIGURES);

export function downforceNumbers(
  state: AxleState,
  downforce: Downforce | undefined,
): Numbers<typeof DOWNFORCE_FIGURES> {
  if (downforce === undefined) return NOTHING;
  const top = speedRow(state, downforce, topSpeedOf(downforce));
  return {
    topSpeedDownforce: top.downforce,
    topSpeedRideHeightLoss: top.rideHeightLoss,
    topSpeedBumpTravelLeft: top.travelToLimit,
    topSpeedFrequency: top.frequency,
  };
}
