// What a car that stands on its wheels asks of coilovers that are bought. At the drawn ride height (travel 0) a wheel with the sprung
// mass m takes the whole axial force F = (m g - T) / R, T what the springs between both wheels bear; what gas and stop leave of it compresses the springs by x, and so
//
//   loose length = L + x,     perch setting = loose length - free length,
//
// exactly, and the seat moves by the difference from the setting that it has now, towards the spring +. To first order that is
// p = z k_w / (k_c R) for a wheel that stands z too low, k_c the rate of the springs alone.
//
// Each wheel is taken with the load that it had on the scales: the anti-roll bar is disconnected, the chassis is rigid, and a turn at
// one wheel moves some load to the others.

import type { CoiloverForce } from '../../corner/axial-force.ts';
import { frequencyOn } from '../../corner/frequency.ts';
import { compressionUnder, pushOf, travelOf } from '../../corner/spring-stack.ts';

import { candidateSprings, type SpringOption } from '../sizing/choose-spring.ts';
import { bumpStopOf } from '../sizing/damper.ts';
import { dampingRatioAt } from '../sizing/damping.ts';
import { bindTravel, contactTravel, type OtherEnds } from '../sizing/lengths.ts';
import { freeLengthOf, type Spring, stackOf } from '../sizing/listed-springs.ts';
import { carriedAtRide, gasForceOf, wheelRateOn } from '../sizing/rates.ts';
import type { TravelRequirement } from '../sizing/required-travel.ts';
import { type AxleState, atRestWith, type CornerMass, goesTo } from '../sizing/state.ts';
import { wheelAt } from '../wheel.ts';
import { boughtDamping } from './valving.ts';

/** A side of the car. */
export type WheelSide = 'left' | 'right';

/** A wheel with a spring and a perch setting: where it stands and what travel is left. mm from the drawn ride height, bump +. */
export interface WheelStand {
  /** Eye-to-eye length minus spring length; null where the free length of the spring is not known. */
  readonly setting: number | null;
  readonly staticTravel: number;
  /** `onSpring` between the ends of its travel, or at one of them. */
  readonly state: 'onSpring' | 'bumpLimit' | 'droopLimit';
  /** N/mm, without the tyre. */
  readonly wheelRate: number;
  /** Hz, of the suspension alone; null where the wheel rate is not positive. */
  readonly frequency: number | null;
  /** Travel that is there less the travel that is required; null where the wheel does not stand. */
  readonly bumpMargin: number | null;
  readonly droopMargin: number | null;
  /** Spring travel left at the bump limit; null where the minimum length is not known. */
  readonly springMargin: number | null;
}

/** What to do at the perch of a wheel. */
export interface PerchAdvice {
  /** Setting that brings the wheel to the drawn ride height; null where the free length of the spring is not known. */
  readonly requiredSetting: number | null;
  /** From the setting that it has now, mm, towards the spring + (raises the car); null where that is not known. */
  readonly move: number | null;
  /** The same in turns; null without a thread pitch. */
  readonly turns: number | null;
  /** Whether the thread reaches that setting; null where its range is not known. */
  readonly withinThread: boolean | null;
}

/** A wheel after the order. */
export interface WheelAfterOrder {
  readonly side: WheelSide;
  /** kg. */
  readonly sprungMass: number;
  /** With what is fitted; null where the perch was left untouched and its setting is not known. */
  readonly asFitted: WheelStand | null;
  /** Perch for the spring that is fitted. */
  readonly perch: PerchAdvice | null;
  /** Perch for the spring to change to; null where none is. */
  readonly perchWithChange: PerchAdvice | null;
  /** With the spring changed, where one is, and the perch as near to ride height as it goes; null where it can't carry the car. */
  readonly advised: WheelStand | null;
}

/** The spring to change to. */
export interface SpringChange {
  readonly spring: Spring;
  /** Whether the list names it, or it is the nearest rate that is made, with the free length of the fitted one. */
  readonly listed: boolean;
  /** What speaks for it: nearer to the target, or the fitted one has too little travel. */
  readonly because: 'target' | 'travel';
  /** Whether it fits itself. */
  readonly fits: boolean;
  /** Largest minimum length that the required travel leaves, mm; null where its free length is not known. */
  readonly maxMinLength: number | null;
}

/** Damping ratios, a share of critical damping, at low speed: at the droop limit (null where the spring is loose there), at ride height, at contact with the bump stop or the bump limit. */
export interface RatioOverTravel {
  readonly droop: number | null;
  readonly design: number | null;
  readonly bump: number | null;
}

/** An axle after the order. */
export interface AfterOrder {
  readonly revision: string | null;
  readonly date: string | null;
  /** Whether the masses come from scales. */
  readonly weighed: boolean;
  /** The spring that is fitted. */
  readonly fitted: Spring;
  /** Spring rate that the target requires for these masses, N/mm; null without a target. */
  readonly requiredRate: number | null;
  readonly change: SpringChange | null;
  readonly wheels: readonly WheelAfterOrder[];
  /** What the bought valving gives, with the spring and perch advised; null where none was bought. */
  readonly damping: {
    readonly compression: RatioOverTravel;
    readonly rebound: RatioOverTravel;
    /** Mean of the two, the figure that the target means. */
    readonly mean: RatioOverTravel;
    /** Target damping ratio; null without a target. */
    readonly target: number | null;
    /** Mean low-speed damping at the shaft that gives it, N·s/m; null without a target. */
    readonly requiredDamping: number | null;
  } | null;
}

/** What an axle after the order is computed from. */
export interface BoughtAxle {
  readonly state: AxleState;
  readonly springOptions: readonly SpringOption[];
  /** Where something else than damper, stop and spring ends the travel. */
  readonly otherEnds: OtherEnds;
  /** Whether and how the car was weighed. */
  readonly perches: 'reset' | 'untouched' | null;
  /** Travel that a wheel requires in a state. */
  travelRequirement(state: AxleState, side: WheelSide): TravelRequirement;
}

/** Share by which a rate must be nearer to the target to be worth a change: rounding. */
const NEARER = 1e-9;

/** An axle after the order; null where nothing was bought for it or its coilover can't be computed. */
export function afterOrder(bought: BoughtAxle): AfterOrder | null {
  const { state, perches } = bought;
  const { given, mass, spring, required } = state;
  const { ordered } = given;
  if (ordered === undefined || mass === null || spring === null || state.coilover === null) return null;
  const change = springChange(bought, spring);
  const wheels = (['left', 'right'] as const).flatMap((side): WheelAfterOrder[] => {
    const sprung = sprungOn(mass, side);
    return sprung > 0 ? [wheelAfterOrder(bought, side, sprung, spring, change)] : [];
  });
  return {
    revision: ordered.revision ?? null,
    date: ordered.date ?? null,
    weighed: perches !== null,
    fitted: spring,
    requiredRate: required.springRate,
    change,
    wheels,
    damping: dampingOf(state, change?.spring ?? spring),
  };
}

/** Sprung mass of a wheel, kg: that of the mean of the two, and by how much it carries more. */
export function sprungOn({ sprung, wheels }: CornerMass, side: WheelSide): number {
  return sprung + (wheels === null ? 0 : wheels[side] - (wheels.left + wheels.right) / 2);
}

/**
 * The wheel at the drawn ride height: length of the coilover at which a spring is just loose; null where the spring can't carry that, or the
 * corner does not stand there, its wheel rate k R^2 + F R' not being positive.
 */
function looseAtRide(state: AxleState, sprung: number, spring: Spring): number | null {
  const { given, shock, settings } = state;
  const stop = bumpStopOf(given, settings.damper);
  const { carried } = carriedAtRide(sprung, shock, gasForceOf(given.sizing.gas), stop);
  if (carried === null) return null;
  const { length, springForce } = carried;
  const stack = stackOf(spring, given.sizing.helper);
  const x = compressionUnder(stack, springForce);
  if (x >= travelOf(stack)) return null;
  return wheelRateOn(pushOf(stack, x).rate, carried) > 0 ? length + x : null;
}

/** An axle's state with one wheel's mass, a spring, and the length at which that is loose. */
function wheelState(
  state: AxleState,
  sprung: number,
  spring: Spring,
  loose: number,
  bumpEnd: number,
): AxleState {
  const { given, settings, mass, wheels } = state;
  const coilover: CoiloverForce = {
    spring: stackOf(spring, given.sizing.helper),
    loose,
    gasForce: gasForceOf(given.sizing.gas),
    bumpStop: bumpStopOf(given, settings.damper),
  };
  const ends = { droop: state.ends.droop, bump: bumpEnd };
  const more = sprung - (mass?.sprung ?? sprung);
  const whole = wheels === null ? null : (wheels.left + wheels.right) / 2 + more;
  const alike = whole === null ? null : { left: whole, right: whole };
  return atRestWith({ ...state, spring, stack: coilover.spring, ends }, coilover, alike, {
    wheels: alike,
    sprung,
    unsprung: mass?.unsprung ?? null,
  });
}

/** Travel at which the bump side ends, the spring apart. */
function bumpEndOf({ state, otherEnds }: BoughtAxle): number {
  return bindTravel(state, otherEnds);
}

function wheelAfterOrder(
  bought: BoughtAxle,
  side: WheelSide,
  sprung: number,
  fitted: Spring,
  change: SpringChange | null,
): WheelAfterOrder {
  const { state } = bought;
  const now = settingNow(bought, side, sprung, fitted);
  const stand = (spring: Spring, loose: number, setting: number | null) =>
    standOf(bought, side, wheelState(state, sprung, spring, loose, bumpEndOf(bought)), setting);
  const perch = perchAdvice(state, sprung, fitted, now);
  const perchWithChange = change === null ? null : perchAdvice(state, sprung, change.spring, now);
  const advised = change?.spring ?? fitted;
  const atRide = looseAtRide(state, sprung, advised);
  const { requiredSetting = null } = (change === null ? perch : perchWithChange) ?? {};
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = state.given.sizing.perch ?? {};
  const kept = requiredSetting === null ? null : Math.min(max, Math.max(min, requiredSetting));
  const off = kept === null || requiredSetting === null ? 0 : kept - requiredSetting;
  return {
    side,
    sprungMass: sprung,
    asFitted: now === null ? null : stand(fitted, now.loose, now.setting),
    perch,
    perchWithChange,
    advised: atRide === null ? null : stand(advised, atRide + off, kept),
  };
}

/** How a perch is set now. */
interface SettingNow {
  /** Length of the coilover at which the fitted spring is just loose, mm. */
  readonly loose: number;
  readonly setting: number | null;
}

/** The setting that was measured; without one the perch was set for the drawn ride height, unless it was left untouched. */
export function settingNow(
  { state, perches }: Pick<BoughtAxle, 'state' | 'perches'>,
  side: WheelSide,
  sprung: number,
  spring: Spring,
): SettingNow | null {
  const { ordered, sizing } = state.given;
  const free = spring.freeLength === null ? null : freeLengthOf(spring.freeLength, sizing.helper);
  const setting = ordered?.perch?.[side] ?? sizing.perch?.setting;
  if (setting !== undefined && free !== null) return { loose: setting + free, setting };
  if (perches === 'untouched') return null;
  const loose = looseAtRide(state, sprung, spring);
  return loose === null ? null : { loose, setting: free === null ? null : loose - free };
}

function perchAdvice(
  state: AxleState,
  sprung: number,
  spring: Spring,
  now: SettingNow | null,
): PerchAdvice | null {
  const loose = looseAtRide(state, sprung, spring);
  return loose === null ? null : perchFor(state, spring, now, loose);
}

/** What a perch is to do so that a spring is just loose at a length of the coilover, mm. */
export function perchFor(
  state: AxleState,
  spring: Spring,
  now: SettingNow | null,
  loose: number,
): PerchAdvice {
  const { perch, helper } = state.given.sizing;
  const free = spring.freeLength === null ? null : freeLengthOf(spring.freeLength, helper);
  const requiredSetting = free === null ? null : loose - free;
  const before = now === null ? null : now.setting;
  // A perch whose setting has no number was set for ride height with the fitted spring.
  const asSet = now !== null && spring === state.spring ? loose - now.loose : null;
  const move = requiredSetting !== null && before !== null ? requiredSetting - before : asSet;
  const { min, max, threadPitch } = perch ?? {};
  const range = requiredSetting === null || (min === undefined && max === undefined);
  return {
    requiredSetting,
    move,
    turns: move === null || threadPitch === undefined ? null : move / threadPitch,
    withinThread: range
      ? null
      : requiredSetting >= (min ?? requiredSetting) && requiredSetting <= (max ?? requiredSetting),
  };
}

function standOf(bought: BoughtAxle, side: WheelSide, state: AxleState, setting: number | null): WheelStand {
  const { shock, mass, stack, coilover, ends } = state;
  const rest = goesTo(state);
  const rate = coilover === null || rest === null ? 0 : wheelAt(shock, coilover, rest.travel).rate;
  const needed = bought.travelRequirement(state, side);
  const travel = stack === null ? Number.POSITIVE_INFINITY : travelOf(stack);
  const compressed = (coilover?.loose ?? 0) - shock.at(ends.bump).length;
  return {
    setting,
    staticTravel: rest?.travel ?? 0,
    state: rest?.state ?? 'onSpring',
    wheelRate: rate,
    frequency: frequencyOn(mass?.sprung ?? 0, rate),
    bumpMargin: needed.bump === null ? null : ends.bump - needed.bump,
    droopMargin: needed.droop === null ? null : needed.droop - ends.droop,
    springMargin: Number.isFinite(travel) ? travel - Math.max(0, compressed) : null,
  };
}

/** The spring to change to: where one that can be bought is nearer to the target, or the fitted one has too little travel. */
function springChange(bought: BoughtAxle, fitted: Spring): SpringChange | null {
  const { state, springOptions } = bought;
  const { given, carried, required, mass } = state;
  const nearest = springOptions[0]?.spring ?? candidateSprings(given, carried, required)[0];
  if (nearest === undefined || required.springRate === null || mass === null) return null;
  const off = (rate: number) => Math.abs(Math.log(rate / (required.springRate ?? rate)));
  const listed = springOptions.length > 0;
  const spring = listed
    ? nearest
    : { ...nearest, freeLength: fitted.freeLength, innerDiameter: fitted.innerDiameter };
  const compressed = compressionAtBump(bought, mass.sprung, spring);
  const fits = (one: Spring) => {
    const compression = compressionAtBump(bought, mass.sprung, one);
    return compression !== null && compression <= travelOf(stackOf(one, given.sizing.helper));
  };
  const nearer = off(spring.rate) < off(fitted.rate) - NEARER;
  const longer = !fits(fitted) && fits(spring) && listed;
  if (!nearer && !longer) return null;
  const free = spring.freeLength === null ? null : freeLengthOf(spring.freeLength, given.sizing.helper);
  return {
    spring,
    listed,
    because: nearer ? 'target' : 'travel',
    fits: listed ? springOptions[0].conflicts.length === 0 && fits(spring) : fits(spring),
    maxMinLength: free === null || compressed === null ? null : free - compressed,
  };
}

/** How far a spring is compressed from free at the bump limit, its perch set for ride height, mm. */
function compressionAtBump(bought: BoughtAxle, sprung: number, spring: Spring): number | null {
  const loose = looseAtRide(bought.state, sprung, spring);
  return loose === null ? null : Math.max(0, loose - bought.state.shock.at(bumpEndOf(bought)).length);
}

/** Damping ratios of the bought valving on the mean corner of the axle, with a spring set for ride height. */
function dampingOf(state: AxleState, spring: Spring): AfterOrder['damping'] {
  const { given, mass, ends } = state;
  const low = boughtDamping(given.ordered?.valving);
  const loose = mass === null ? null : looseAtRide(state, mass.sprung, spring);
  if (low === null || mass === null || loose === null) return null;
  const at = wheelState(state, mass.sprung, spring, loose, ends.bump);
  const untouched: AxleState =
    at.coilover === null ? at : { ...at, coilover: { ...at.coilover, bumpStop: null } };
  const contact = contactTravel(at);
  const ratios = (c: number): RatioOverTravel => ({
    droop: dampingRatioAt(at, c, ends.droop),
    design: dampingRatioAt(at, c, 0),
    bump:
      contact === null
        ? dampingRatioAt(at, c, ends.bump)
        : dampingRatioAt(untouched, c, Math.min(contact, ends.bump)),
  });
  const c = (low.compression + low.rebound) / 2;
  const mean = ratios(c);
  const target = given.sizing.damping?.ratio ?? null;
  // Of the damper beside a third spring alone: the coilover's adds to it in proportion.
  const besideIt = dampingRatioAt(at, 0, 0) ?? 0;
  return {
    compression: ratios(low.compression),
    rebound: ratios(low.rebound),
    mean,
    target,
    requiredDamping:
      target === null || mean.design === null || mean.design === 0
        ? null
        : (c * (target - besideIt)) / (mean.design - besideIt),
  };
}
