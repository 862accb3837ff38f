// Quantities written for reading, in metric and imperial units.

import { fromMetric, type Quantity, type Units, unitName } from '../units.ts';

/** Decimals that a figure deserves, by its unit. */
const DECIMALS: Readonly<Record<string, number>> = {
  mm: 1,
  inch: 2,
  kg: 1,
  lb: 1,
  N: 0,
  lbf: 0,
  'N/mm': 1,
  'lbf/in': 0,
  'N s/m': 0,
  'lbf s/in': 1,
  degrees: 1,
  'km/h': 0,
  mph: 0,
  'mm/s': 0,
  'inch/s': 1,
  bar: 1,
  'lbf/in^2': 0,
  'N m/deg': 0,
  'lbf ft/deg': 0,
  Hz: 2,
};
const RATIO_DECIMALS = 3;

/** A value of the library as a number in the units wanted, rounded for reading; never a minus before zero. */
export function numberIn(value: number, quantity: Quantity | 'ratio', units: Units): string {
  const shown = quantity === 'ratio' ? value : fromMetric(value, quantity, units);
  const decimals = quantity === 'ratio' ? RATIO_DECIMALS : (DECIMALS[unitName(quantity, units)] ?? 2);
  const text = shown.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** The same with its unit: `338.0 mm`. */
export function textIn(value: number, quantity: Quantity | 'ratio', units: Units): string {
  const number = numberIn(value, quantity, units);
  return quantity === 'ratio' ? number : `${number} ${unitName(quantity, units)}`;
}

/** In both units: `338.0 mm (13.31 inch)`; once where they are the same. */
export function inBoth(value: number, quantity: Quantity | 'ratio'): string {
  const metric = textIn(value, quantity, 'metric');
  const imperial = textIn(value, quantity, 'imperial');
  return metric === imperial ? metric : `${metric} (${imperial})`;
}
