import type { Quantity, Units } from '../../units.ts';
import { givenInBoth, inBoth } from '../../units.ts';

/** Writes a value in both units, those of the file first. */
export interface Say {
  (value: number, quantity: Quantity | 'ratio'): string;
  /** The same for a value that the file gives, with all its digits. */
  given(value: number, quantity: Quantity): string;
}

export function sayIn(units: Units): Say {
  return Object.assign((value: number, quantity: Quantity | 'ratio') => inBoth(value, quantity, units), {
    given: (value: number, quantity: Quantity) => givenInBoth(value, quantity, units),
  });
}
