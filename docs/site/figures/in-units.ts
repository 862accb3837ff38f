// Lengths as a figure shows them: in the units of its file. Whatever it computes is in mm.

import type { Units } from 'jounce';
import { fromMetric, toMetric, unitName } from '#jounce/units.js';

/** Lengths in the units of a file. */
export interface LengthUnit {
  readonly name: string;
  readonly decimals: number;
  /** Of a number that is typed, and of an arrow key, in this unit. */
  readonly step: number;
  /** Between the marks along a travel, in this unit. */
  readonly tick: number;
  readonly fromMm: (mm: number) => number;
  readonly toMm: (value: number) => number;
}

const lengths = (units: Units, decimals: number, step: number, tick: number): LengthUnit => ({
  name: unitName('length', units),
  decimals,
  step,
  tick,
  fromMm: (mm) => fromMetric(mm, 'length', units),
  toMm: (value) => toMetric(value, 'length', units),
});

/** Of the places that a file is given in: to a tenth of a mm, or to a hundredth of an inch. */
export const LENGTHS: Readonly<Record<Units, LengthUnit>> = {
  metric: lengths('metric', 1, 1, 20),
  imperial: lengths('imperial', 2, 0.05, 1),
};

/** A number to so many decimals: with the true minus sign, and never a minus before nothing. */
export function shown(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

/** The same with its sign in front, whichever it is. */
export function signed(value: number, decimals: number): string {
  const text = shown(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** A length in a unit, without its name. */
export const lengthIn = (unit: LengthUnit, mm: number): string => shown(unit.fromMm(mm), unit.decimals);
