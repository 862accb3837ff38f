import type { Diagnostic } from '../diagnostic.ts';
import type { Issue } from '../errors.ts';
import { textIn, type Units } from '../units.ts';
import { CHECKS } from './checks.ts';
import { LOADS } from './loads.ts';
import { ORDERED } from './ordered.ts';
import type { Say, Sentences } from './say.ts';
import { SPRINGS } from './springs.ts';
import { STANDING } from './standing.ts';
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
  const say: Say = {
    measure: (name, quantity) => textIn(Number(value(name)), quantity, units),
    has: (name) => value(name) !== null,
    text: (name) => String(value(name)),
    number: (name) => Number(value(name)),
  };
  return { ...diagnostic, ...sentence(say) };
}
