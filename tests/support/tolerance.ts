import { expect } from 'vitest';
import { noteMet } from './met.ts';

/** Spacing of doubles at 1. */
export const EPS = Number.EPSILON;

/**
 * The tolerance of every comparison of two computed numbers: `times` roundings of something as large as `scale`.
 *
 * `scale` is the largest magnitude that went into the number (a coordinate, a length, 1 for an angle), `times` how
 * often, and how badly, it was rounded on the way.
 */
export interface Roundings {
  readonly times: number;
  readonly scale: number;
}

/** tolerance = times * EPS * scale */
export function tolerance({ times, scale }: Roundings): number {
  return times * EPS * scale;
}

/** Expects two numbers to agree up to roundings; null and NaN agree with nothing. */
export function expectClose(actual: number | null, expected: number, roundings: Roundings): void {
  expectWithin(actual, expected, tolerance(roundings));
}

/**
 * Expects two numbers to agree within a tolerance that is not of rounding: a printed figure, or a difference
 * quotient.
 */
export function expectWithin(actual: number | null, expected: number, within: number): void {
  const off = actual === null ? Number.NaN : Math.abs(actual - expected);
  noteMet(off, within);
  if (!(off <= within)) {
    expect.fail(`${actual} is not ${expected}: off by ${off}, allowed ${within}`);
  }
}

/** Expects what has no tolerance to be the same: a count, a verdict, an exact number. */
export function expectSame(actual: unknown, expected: unknown): void {
  noteMet(0, 0);
  expect(actual).toEqual(expected);
}
