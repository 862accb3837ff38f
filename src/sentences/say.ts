import type { Issue } from '../errors.ts';
import type { Quantity } from '../units.ts';

/** What a diagnostic says: the problem; what was found and where; what is required; what to do. */
export type Words = Pick<Issue, 'problem' | 'got' | 'allowed' | 'advice'>;

/** Values of a diagnostic, and how to write them. */
export interface Say {
  /** A value with its unit: `338.0 mm`. */
  measure(name: string, quantity: Quantity | 'ratio'): string;
  /** Whether a value is known, and not null. */
  has(name: string): boolean;
  /** A value as it stands. */
  text(name: string): string;
  /** A number as it stands, for a choice of words. */
  number(name: string): number;
}

/** For each code what it says. */
export type Sentences = Readonly<Record<string, (say: Say) => Words>>;
