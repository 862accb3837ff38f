// The spring as it can be bought: of the user's list the one that fits and whose rate is nearest, as a ratio, to the wanted one;
// without a list the wanted rate rounded to the steps in which rates are made.

import { textIn, type Units } from '../../units.ts';
import { coilSpring } from '../springs/coil-spring.ts';
import { type SpringLengths, springLengths } from '../springs/min-length.ts';
import { compressionUnder, type Stack } from '../springs/stack.ts';
import type { CornerSizing } from './inputs.ts';
import type { Carried } from './rates.ts';

/** A spring that is fitted. */
export interface Spring extends SpringLengths {
  readonly name: string;
  /** N/mm. */
  readonly rate: number;
  /** Free length, mm; null where nothing is known but the rate. */
  readonly free: number | null;
  /** mm; null as above. */
  readonly innerDiameter: number | null;
}

/** A spring of which nothing is known but its rate, N/mm. */
export function bareSpring(rate: number): Spring {
  return {
    name: '',
    rate,
    free: null,
    solidLength: null,
    minLength: null,
    minLengthSource: null,
    innerDiameter: null,
  };
}

/** A spring of the list, with what it would come to. */
export interface SpringChoice {
  readonly spring: Spring;
  /** Its rate by the wanted one. */
  readonly ofWanted: number;
  /** Compression at the bump limit, mm; null where that is not known. */
  readonly needs: number | null;
  /** Compression that it has, mm; null where that is not known. */
  readonly has: number | null;
  /** Why it can't be used; empty where it can. */
  readonly against: readonly string[];
}

/** Springs of a corner's list. */
export function listedSprings({ springs = [] }: CornerSizing): Spring[] {
  return springs.map((spring) => {
    const { name, rate, free, innerDiameter, coil } = spring;
    const made = coil === undefined ? null : coilSpring(coil);
    return {
      name,
      rate: rate ?? made?.rate ?? Number.NaN,
      free,
      ...springLengths(spring),
      innerDiameter: innerDiameter ?? made?.innerDiameter ?? null,
    };
  });
}

/** Steps in which springs are commonly had, N/mm: 25 lbf/in, 5 N/mm. Common practice, no source. */
export const RATE_STEP = 5;

/** The available rates just below and above a wanted one, N/mm. */
export function nextRates(wanted: number, step: number): { readonly below: number; readonly above: number } {
  const k = Math.floor(wanted / step + 1e-9);
  return { below: k * step, above: (k + 1) * step };
}

/** A spring with its helper, where there is one. */
export function stackOf({ rate, free, minLength }: Spring, helper: CornerSizing['helper']): Stack {
  const travel = free === null || minLength === null ? Number.POSITIVE_INFINITY : free - minLength;
  const main = { rate, travel };
  return {
    springs:
      helper === undefined ? [main] : [{ rate: helper.rate, travel: helper.free - helper.least }, main],
  };
}

/** Free length of a spring with its helper and the ring between them, mm. */
export function freeLengthOf(free: number, helper: CornerSizing['helper']): number {
  return free + (helper === undefined ? 0 : helper.free + (helper.separator ?? 0));
}

/**
 * The springs of the list, the nearest rate that fits first; `shortest` is the length between the eyes at the bump limit, `units` those
 * of the words.
 */
export function chooseSpring(
  sizing: CornerSizing,
  wanted: number,
  carried: Carried,
  shortest: number | null,
  units: Units,
): SpringChoice[] {
  const { helper, order } = sizing;
  const mm = (value: number) => textIn(value, 'length', units);
  return listedSprings(sizing)
    .map((spring): SpringChoice => {
      const against: string[] = [];
      const { rate, free, minLength, innerDiameter } = spring;
      const stack = stackOf(spring, helper);
      const atRide = compressionUnder(stack, carried.springForce);
      const shut = helper === undefined ? 0 : helper.free - helper.least;
      const needs = shortest === null ? null : Math.max(0, atRide + carried.length - shortest - shut);
      const has = free === null || minLength === null ? null : free - minLength;
      if (needs !== null && has !== null && needs > has) {
        against.push(`it would be compressed by ${mm(needs)} at the bump limit and has ${mm(has)}`);
      }
      if (
        innerDiameter !== null &&
        order?.bodyDiameter !== undefined &&
        innerDiameter <= order.bodyDiameter
      ) {
        against.push(`its inner diameter of ${mm(innerDiameter)} does not go over ${mm(order.bodyDiameter)}`);
      }
      return { spring, ofWanted: rate / wanted, needs, has, against };
    })
    .sort(
      (a, b) =>
        Math.sign(a.against.length) - Math.sign(b.against.length) ||
        Math.abs(Math.log(a.ofWanted)) - Math.abs(Math.log(b.ofWanted)),
    );
}
