// A margin is printed as the difference of required and available as they are printed, so that rows add up.

import type { AxleFigureName } from '../coilover/sizing/numbers.ts';
import type { AxleSizing, Figure } from '../coilover/sizing/result.ts';
import { numberIn, toMetric, type Units } from '../units.ts';

/** The names of what each margin is the difference of: required, and available where that is a figure. */
const MARGINS: Readonly<
  Record<string, readonly [required: AxleFigureName, available: AxleFigureName | null]>
> = {
  bumpTravelMargin: ['bumpTravelRequired', 'bumpTravelAvailable'],
  droopTravelMargin: ['droopTravelRequired', 'droopTravelAvailable'],
  springTravelMargin: ['springTravelRequired', null],
};

/** The margin between two lengths, mm, as they are printed in units; mm. */
export function printedMargin(required: number, available: number, units: Units): number {
  const rounded = (mm: number) => toMetric(Number(numberIn(mm, 'length', units)), 'length', units);
  return rounded(available) - rounded(required);
}

/** The value of an axle's figure to print in units: a margin as the difference of what stands beside it. */
export function printedValue(
  { figure }: Pick<AxleSizing, 'figure'>,
  { name, value }: Pick<Figure, 'name' | 'value'>,
  units: Units,
): number | null {
  const of = MARGINS[name];
  if (value === null || of === undefined) return value;
  const required = figure(of[0]).value;
  if (required === null) return value;
  const available = of[1] === null ? required + value : figure(of[1]).value;
  return available === null ? value : printedMargin(required, available, units);
}
