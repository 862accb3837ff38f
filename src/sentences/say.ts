import type { Diagnostic } from '../diagnostic.ts';
import {
  fromMetric,
  givenText,
  numberIn,
  type Quantity,
  textIn,
  toMetric,
  type Units,
  unitName,
} from '../units.ts';
import { inWords, short } from '../words.ts';
import { type PlainSay, plainSay, valueIn, type Words, withWords } from './plain.ts';

/** Values of a diagnostic, and how to write them. */
export interface Say extends PlainSay {
  /** The units asked for. */
  readonly units: Units;
  /** A value with its unit: `338.0 mm`; with as many more decimals as tell it from the value `apartFrom`. */
  measure(name: string, quantity: Quantity | 'ratio', apartFrom?: string): string;
  /** The same without its sign. */
  size(name: string, quantity: Quantity): string;
  /** Whether that is nothing as it is written. */
  isNothing(name: string, quantity: Quantity): boolean;
  /** A travel to its side: `71.0 mm of bump`. */
  travel(name: string): string;
  /** A value with all its digits and its unit: `0.0625 in`. */
  given(name: string, quantity: Quantity): string;
  /** The difference of two values, each as `measure` tells it from the other: `9.4 mm`. */
  difference(of: string, less: string, quantity: Quantity): string;
  /** A value as it was written, without its unit: to four digits, or so many. */
  short(name: string, quantity: Quantity, digits?: number): string;
  /** The same of a length with its unit: `2.75 in`. */
  length(name: string, digits?: number): string;
  /** The same of each of a list of lengths. */
  lengths(name: string): readonly string[];
  /** The same of a mass: `1420 lb`. */
  mass(name: string, digits?: number): string;
  /** A point as it was written: `[26.875, 10.875]`. */
  point(y: string, z: string): string;
  /** Name of a quantity's unit: `in`. */
  unit(quantity: Quantity): string;
  /** The same as a sentence has it: `inches`. */
  plural(quantity: Quantity): string;
}

/** For each code what it says. */
export type Sentences = Readonly<Record<string, Words | ((say: Say) => Words)>>;

/** Makes what finds the words of a diagnostic among some sentences, in the units asked for. */
export function wordsIn(
  sentences: Sentences,
): <D extends Diagnostic>(diagnostic: D, units: Units, finer?: number) => D & Words {
  return (diagnostic, units, finer) => withWords(diagnostic, sentences, sayIn(diagnostic, units, finer));
}

/** The values of a diagnostic, to be said in the units asked for; lengths with so many more decimals than usual. */
export function sayIn(diagnostic: Diagnostic, units: Units, finer = 0): Say {
  const value = (name: string) => valueIn(diagnostic, name);
  const written = (name: string, quantity: Quantity) => fromMetric(Number(value(name)), quantity, units);
  const shortOf = (name: string, quantity: Quantity, digits?: number) =>
    short(written(name, quantity), digits);
  const say = plainSay(diagnostic);
  const more = (quantity: Quantity | 'ratio') => (quantity === 'length' ? finer : 0);
  const size = (name: string, quantity: Quantity) => {
    const found = Math.abs(Number(value(name)));
    return textIn(found, quantity, units, found, more(quantity));
  };
  /** Without the rounding of a conversion. */
  const exact = (name: string) => Number(written(name, 'length').toPrecision(12));
  return {
    ...say,
    units,
    short: shortOf,
    given: (name, quantity) => givenText(Number(value(name)), quantity, units),
    lengths: (name) =>
      say
        .list(name)
        .map((value) => `${short(fromMetric(Number(value), 'length', units))} ${unitName('length', units)}`),
    length: (name, digits) => `${shortOf(name, 'length', digits)} ${unitName('length', units)}`,
    mass: (name, digits) => `${shortOf(name, 'mass', digits)} ${unitName('mass', units)}`,
    point: (y, z) => `[${exact(y)}, ${exact(z)}]`,
    unit: (quantity) => unitName(quantity, units),
    plural: (quantity) => inWords(unitName(quantity, units)),
    measure: (name, quantity, apartFrom = name) =>
      textIn(Number(value(name)), quantity, units, Number(value(apartFrom)), more(quantity)),
    size,
    isNothing: (name, quantity) => Number.parseFloat(size(name, quantity)) === 0,
    travel: (name) => `${size(name, 'length')} of ${Number(value(name)) < 0 ? 'droop' : 'bump'}`,
    difference: (of, less, quantity) => {
      const [first, second] = [Number(value(of)), Number(value(less))];
      const a = Number(numberIn(first, quantity, units, second, more(quantity)));
      const b = Number(numberIn(second, quantity, units, first, more(quantity)));
      return textIn(toMetric(a - b, quantity, units), quantity, units, 0, more(quantity));
    },
  };
}
