// The springs between both wheels of an axle as one corner has them. With both wheels at one travel, U' and U'' the force and rate of a
// spring by its length w (coupling.ts), each wheel has, as the mean of the two,
//
//   load             U' (w_l + w_r) / 2
//   rate in heave    (U'' (w_l + w_r)^2 + U' (w_ll + 2 w_lr + w_rr)) / 2      both wheels alike
//   rate in roll     (U'' (w_l - w_r)^2 + U' (w_ll - 2 w_lr + w_rr)) / 2      one up as far as the other goes down
//
// and a damper beside the spring, its coefficient c, damps a wheel in heave with c (w_l + w_r)^2 / 2.

import type { CornerModel } from '../corner/model.ts';
import { type AxleLinkage, endsOn } from './axle.ts';
import {
  type Coupled,
  type CoupledWheel,
  type Coupling,
  coupledBy,
  couplingsOf,
  onWheel,
  type SpringName,
} from './coupling.ts';
import type { CrossSpring } from './cross-spring.ts';
import { noWheelAt, readWheelAt, wheelReader } from './wheel-at.ts';
import { isAlike, layWheel } from './wheel-curve.ts';

/** A spring between both wheels at a travel of both, as each wheel has it: the mean of the two. */
export interface SpringAcross {
  /** Of the sprung load of the wheel, N. */
  readonly load: number;
  /** Change of that per travel, N/mm: both wheels alike, and one up as far as the other goes down. */
  readonly rate: number;
  readonly rollRate: number;
  /** What its damper adds at the wheel, both wheels alike, N·s/m. */
  readonly damping: number;
}

/** The springs between both wheels at a travel of both. */
export interface SpringsAcross {
  readonly all: SpringAcross;
  readonly thirdSpring: SpringAcross;
  readonly rollSpring: SpringAcross;
  /** Of the third spring between its ends, mm; null without one. */
  readonly length: number | null;
  /** By how much the third spring is longer than free, mm: below 0 where it pushes. */
  readonly stretch: number;
  /** What the left and the right wheel have of the load of all, N. */
  readonly loads: readonly [left: number, right: number];
  /** Force of each spring on its left end, N: y outboard, z up. */
  readonly onLeftEnd: readonly { readonly name: SpringName; readonly force: readonly [number, number] }[];
}

/** The springs between both wheels by the travel of both, mm. */
export type AcrossAt = (travel: number) => SpringsAcross;

/** Travels whose springs are kept: the search for rest comes by the same ones time and again. */
const KEPT = 1024;

/** The springs between two wheels of one corner, by the travel of both, mm, as far as `reach` mm either way; null without any. */
export function springsAcross(
  model: CornerModel,
  { thirdSpring, rollSpring }: Pick<AxleLinkage, SpringName>,
  reach: number,
): AcrossAt | null {
  const between = { bar: null, thirdSpring, rollSpring };
  const couplings = couplingsOf(between);
  if (couplings.length === 0) return null;
  const read = (side: 1 | -1) =>
    wheelReader(layWheel(model, side, null, endsOn(between, side > 0 ? 'left' : 'right'), reach));
  const left = read(1);
  const right = isAlike(between) ? left : read(-1);
  const known = new Map<number, SpringsAcross>();
  return (travel) => {
    const before = known.get(travel);
    if (before !== undefined) return before;
    const [l, r] = [noWheelAt(), noWheelAt()];
    readWheelAt(left, travel, l);
    readWheelAt(right, travel, r);
    const there = across(coupledBy(couplings, l, r), couplings, l, r, thirdSpring);
    if (known.size === KEPT) known.clear();
    known.set(travel, there);
    return there;
  };
}

function across(
  coupled: readonly Coupled[],
  couplings: readonly Coupling[],
  left: CoupledWheel,
  right: CoupledWheel,
  spring: CrossSpring | null,
): SpringsAcross {
  const of = (name: SpringName) => {
    const k = coupled.findIndex((one) => one.name === name);
    const coupling = couplings[k];
    return k < 0 || coupling.name === 'bar' ? NONE : atEach(coupled[k], coupling.spring);
  };
  const [third, roll] = [of('thirdSpring'), of('rollSpring')];
  const loadOn = (side: 1 | -1) => coupled.reduce((sum, one) => sum + onWheel(one, side), 0);
  const found = coupled.find(({ name }) => name === 'thirdSpring');
  return {
    thirdSpring: third,
    rollSpring: roll,
    all: {
      load: third.load + roll.load,
      rate: third.rate + roll.rate,
      rollRate: third.rollRate + roll.rollRate,
      damping: third.damping + roll.damping,
    },
    length: found?.value ?? null,
    stretch: found === undefined || spring === null ? 0 : found.value - spring.freeLength,
    loads: [loadOn(1), loadOn(-1)],
    onLeftEnd: coupled.flatMap(({ name, force, value }) => {
      if (name === 'bar') return [];
      const [[yl, zl], [yr, zr]] = [left[name], right[name]];
      const push = -force / value;
      return [{ name, force: [push * (yl[0] + yr[0]), push * (zl[0] - zr[0])] as const }];
    }),
  };
}

const NONE: SpringAcross = { load: 0, rate: 0, rollRate: 0, damping: 0 };

/** What a spring does at each wheel, the mean of both. */
function atEach(
  { force, rate, left, right, leftLeft, leftRight, rightRight }: Coupled,
  { damping }: CrossSpring,
): SpringAcross {
  const second = (way: 1 | -1) =>
    (rate * (left + way * right) ** 2 + force * (leftLeft + way * 2 * leftRight + rightRight)) / 2;
  return {
    load: (force * (left + right)) / 2,
    rate: second(1),
    rollRate: second(-1),
    damping: (damping * (left + right) ** 2) / 2,
  };
}
