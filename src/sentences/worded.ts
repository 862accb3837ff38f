import type { Diagnostic } from '../diagnostic.ts';
import type { Issue } from '../errors.ts';
import { fromMetric, numberIn, type Quantity, textIn, toMetric, type Units, unitName } from '../units.ts';
import { inWords, short } from '../words.ts';
import { CHECKS } from './checks.ts';
import { LOADS } from './loads.ts';
import { ORDERED } from './ordered.ts';
import type { Say, Sentences } from './say.ts';
import { SPRINGS } from './springs.ts';
import { STANDING } from './static-equilibrium.ts';
import { SURVEY } from './survey.ts';
import { TRAVEL } from './travel.ts';

/** Every sentence, by the code of its diagnostic. */
export const SENTENCES: Sentences = {
  ...CHECKS,
  ...LOADS,
  ...ORDERED,
  ...SPRINGS,
  ...STANDING,
  ...SURVEY,
  ...TRAVEL,
};

/** A diagnostic with its sentence, in the units asked for. */
export function worded<D extends Diagnostic>(diagnostic: D, units: Units): D & Issue {
  const { code, values } = diagnostic;
  const sentence = SENTENCES[code];
  if (sentence === undefined) throw new Error(`no sentence for ${code}`);
  const value = (name: string) => {
    if (name in values) return values[name];
    throw new Error(`no value ${name} in ${code}`);
  };
  const written = (name: string, quantity: Quantity) => fromMetric(Number(value(name)), quantity, units);
  const shortOf = (name: string, quantity: Quantity, digits?: number) =>
    short(written(name, quantity), digits);
  /** Without the rounding of a conversion. */
  const exact = (name: string) => Number(written(name, 'length').toPrecision(12));
  const say: Say = {
    is: (name) => value(name) === true,
    has: (name) => value(name) !== null,
    short: shortOf,
    length: (name, digits) => `${shortOf(name, 'length', digits)} ${unitName('length', units)}`,
    mass: (name, digits) => `${shortOf(name, 'mass', digits)} ${unitName('mass', units)}`,
    point: (y, z) => `[${exact(y)}, ${exact(z)}]`,
    unit: (quantity) => unitName(quantity, units),
    plural: (quantity) => inWords(unitName(quantity, units)),
    measure: (name, quantity) => textIn(Number(value(name)), quantity, units),
    difference: (of, less, quantity) => {
      const [a, b] = [of, less].map((name) => Number(numberIn(Number(value(name)), quantity, units)));
      return textIn(toMetric(a - b, quantity, units), quantity, units);
    },
    text: (name) => String(value(name)),
    number: (name) => Number(value(name)),
  };
  return { ...diagnostic, ...sentence(say) };
}
