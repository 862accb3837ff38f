// Springs as a document lists them, alone and with a helper.

import type { Stack } from '../../corner/spring-stack.ts';
import { toMetric, type Units } from '../../units.ts';
import { coilSpring } from '../springs/coil-spring.ts';
import { type SpringLengths, springLengths } from '../springs/min-length.ts';
import type { CornerSizing } from './inputs.ts';

/** A spring that is fitted. */
export interface Spring extends SpringLengths {
  readonly name: string;
  /** N/mm. */
  readonly rate: number;
  /** Free length, mm; null where nothing is known but the rate. */
  readonly freeLength: number | null;
  /** mm; null as above. */
  readonly innerDiameter: number | null;
  /** mm; null where its wire is not known. */
  readonly outerDiameter: number | null;
}

/** A spring of which nothing is known but its rate, N/mm. */
export function bareSpring(rate: number): Spring {
  return {
    name: '',
    rate,
    freeLength: null,
    solidLength: null,
    minLength: null,
    minLengthSource: null,
    innerDiameter: null,
    outerDiameter: null,
  };
}

/** Springs of a corner's list. */
export function listedSprings({ springs = [] }: CornerSizing): Spring[] {
  return springs.map((spring) => {
    const { name, rate, freeLength: free, innerDiameter, wire } = spring;
    const made = wire === undefined ? null : coilSpring(wire);
    const inside = innerDiameter ?? made?.innerDiameter ?? null;
    return {
      name,
      rate: rate ?? made?.rate ?? Number.NaN,
      freeLength: free,
      ...springLengths(spring),
      innerDiameter: inside,
      outerDiameter: inside === null || wire === undefined ? null : inside + 2 * wire.diameter,
    };
  });
}

/** Steps in which springs are commonly had, in the units of a document: 5 N/mm, 25 lbf/in. Common practice, without a source. */
const COMMON_RATE_STEPS: Readonly<Record<Units, number>> = { metric: 5, imperial: 25 };

/** The common step of spring rates in units, N/mm. */
export function commonRateStep(units: Units): number {
  return toMetric(COMMON_RATE_STEPS[units], 'rate', units);
}

/** A spring with its helper, where there is one. */
export function stackOf({ rate, freeLength, minLength }: Spring, helper: CornerSizing['helper']): Stack {
  const travel =
    freeLength === null || minLength === null ? Number.POSITIVE_INFINITY : freeLength - minLength;
  const main = { rate, travel };
  return {
    springs:
      helper === undefined
        ? [main]
        : [{ rate: helper.rate, travel: helper.freeLength - helper.solidLength }, main],
  };
}

/** Free length of a spring with its helper and the ring between them, mm. */
export function freeLengthOf(free: number, helper: CornerSizing['helper']): number {
  return free + (helper === undefined ? 0 : helper.freeLength + (helper.separatorHeight ?? 0));
}
