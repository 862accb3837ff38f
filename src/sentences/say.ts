import type { Quantity } from '../units.ts';
import type { PlainSay, Words } from './plain.ts';

/** Values of a diagnostic, and how to write them. */
export interface Say extends PlainSay {
  /** A value with its unit: `338.0 mm`. */
  measure(name: string, quantity: Quantity | 'ratio'): string;
  /** The difference of two values, each as it is written: `9.4 mm`. */
  difference(of: string, less: string, quantity: Quantity): string;
  /** A value as it was written, without its unit: to four digits, or so many. */
  short(name: string, quantity: Quantity, digits?: number): string;
  /** The same of a length with its unit: `2.75 inch`. */
  length(name: string, digits?: number): string;
  /** The same of a mass: `1420 lb`. */
  mass(name: string, digits?: number): string;
  /** A point as it was written: `[26.875, 10.875]`. */
  point(y: string, z: string): string;
  /** Name of a quantity's unit: `inch`. */
  unit(quantity: Quantity): string;
  /** The same as a sentence has it: `inches`. */
  plural(quantity: Quantity): string;
}

/** For each code what it says. */
export type Sentences = Readonly<Record<string, Words | ((say: Say) => Words)>>;
