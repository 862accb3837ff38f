// What the perch does over its thread. With s the perch setting, L_0 the free length of the spring, t its travel to a minimum
// length, and L(z) the length of the coilover at a wheel travel z:
//
//   just loose at length s + L_0:  loose at full droop      below  s = L(droop end) - L_0
//                                  at that minimum length   above  s = L(bump end) + t - L_0
//
// The required travel moves with the static ride height: raised, droop falls short; lowered, bump. The
// roll gradient is kept as at the setting given.

import { travelOf } from '../../corner/spring-stack.ts';
import { zeroBetween } from '../../numerics/zero.ts';
import { GRAVITY } from '../../units.ts';
import { restUnder } from '../wheel.ts';
import { bindTravel, type OtherEnds } from './lengths.ts';
import { freeLengthOf } from './listed-springs.ts';
import type { TravelRequirement } from './required-travel.ts';
import { type AxleState, atRestWith } from './state.ts';

/** What a perch runs into: its thread, or what fails beyond a setting. */
export type PerchLimitCause =
  | 'thread'
  /** Raised: the required droop travel, the spring's minimum permissible length and its solid length before the bump travel ends. */
  | 'droopTravel'
  | 'springMinLength'
  | 'springSolid'
  /** Lowered: the required bump travel, and the spring loose at full droop. */
  | 'bumpTravel'
  | 'springLoose';

/** A setting beyond which a perch should not go one way, without tolerances. */
export interface PerchLimit {
  readonly cause: PerchLimitCause;
  /** `max`: larger settings, which raise the car, are beyond it; `min`: smaller ones. */
  readonly end: 'min' | 'max';
  /** Perch setting, mm. */
  readonly setting: number;
  /** Travel at which the car stands there, from the drawn ride height, mm, bump + is low. */
  readonly travel: number;
}

/** What a perch can be set to, and where the car stands then: travel from the drawn ride height, mm, bump + is low. */
export interface PerchRange {
  /** With the seats as near to the eyes as they go, and as far. */
  readonly travelAtMin: number;
  readonly travelAtMax: number;
  /** Whether the drawn ride height lies between. */
  readonly reachesDesign: boolean;
  /** Both ends of the thread, and what is met before them; smallest setting first. */
  readonly limits: readonly PerchLimit[];
  /** Settings that pass no limit, mm; null where there is none. */
  readonly usable: { readonly min: number; readonly max: number } | null;
}

/** The range of a perch; null where its thread or the spring's free length is not known. */
export function perchRange(
  state: AxleState,
  otherEnds: OtherEnds,
  required: (state: AxleState) => TravelRequirement,
): PerchRange | null {
  const { given, spring, stack, shock, coilover, wheels, mass, ends, rest } = state;
  const { perch, helper } = given.sizing;
  if (
    perch?.min === undefined ||
    perch.max === undefined ||
    spring?.freeLength == null ||
    coilover === null ||
    stack === null ||
    mass === null ||
    rest === null
  ) {
    return null;
  }
  const [min, max] = [perch.min, perch.max];
  const free = freeLengthOf(spring.freeLength, helper);
  const at = (setting: number) => ({ ...coilover, loose: setting + free });
  const standing = (setting: number) => restUnder(shock, at(setting), mass.sprung * GRAVITY, ends).travel;
  const limit = (cause: PerchLimitCause, end: 'min' | 'max', setting: number): PerchLimit[] =>
    (end === 'max' ? setting <= max : setting >= min)
      ? [{ cause, end, setting, travel: standing(setting) }]
      : [];
  const bumpEnd = bindTravel(state, otherEnds);
  /** Where what is left of the travel on a side comes to 0, from the end of the thread at which there is most of it. */
  const short = (side: 'bump' | 'droop'): PerchLimit[] => {
    const [most, least, end] = side === 'bump' ? ([max, min, 'min'] as const) : ([min, max, 'max'] as const);
    const left = (setting: number) => {
      const travel = required(atRestWith(state, at(setting), wheels, mass))[side];
      if (travel === null) return Number.POSITIVE_INFINITY;
      return side === 'bump' ? bumpEnd - travel : travel - ends.droop;
    };
    if (left(least) >= 0) return [];
    return limit(`${side}Travel`, end, left(most) <= 0 ? most : zeroBetween(left, most, least));
  };
  const closed = shock.at(bumpEnd).length - free;
  const travel = travelOf(stack);
  const { minLength, solidLength } = spring;
  const limits = [
    ...limit('thread', 'min', min),
    ...limit('springLoose', 'min', shock.at(ends.droop).length - free),
    ...short('bump'),
    ...short('droop'),
    ...(minLength === null ? [] : limit('springMinLength', 'max', closed + travel)),
    ...(minLength === null || solidLength === null
      ? []
      : limit('springSolid', 'max', closed + travel + minLength - solidLength)),
    ...limit('thread', 'max', max),
  ].sort((a, b) => a.setting - b.setting);
  const of = (which: 'min' | 'max') =>
    limits.filter(({ end }) => end === which).map(({ setting }) => setting);
  const usable = { min: Math.max(...of('min')), max: Math.min(...of('max')) };
  const [travelAtMin, travelAtMax] = [standing(min), standing(max)];
  return {
    travelAtMin,
    travelAtMax,
    reachesDesign: travelAtMin >= 0 && travelAtMax <= 0,
    limits,
    usable: usable.min <= usable.max ? usable : null,
  };
}
