// A sum is printed with parts that add up to it: one part takes what the rounding of all others leaves over.

import { numberIn, type Quantity, toMetric, type Units } from '../units.ts';

/** Parts of a sum to print in units, in the library's units; the one at `taker` is the printed sum less all other printed parts. */
export function printedParts(
  parts: readonly number[],
  taker: number,
  quantity: Quantity,
  units: Units,
): number[] {
  const sum = (values: readonly number[]) => values.reduce((all, part) => all + part, 0);
  const printed = (value: number) => toMetric(Number(numberIn(value, quantity, units)), quantity, units);
  const rounded = parts.map(printed);
  const left = printed(sum(parts)) - sum(rounded.filter((_, k) => k !== taker));
  return rounded.map((part, k) => (k === taker ? left : part));
}
