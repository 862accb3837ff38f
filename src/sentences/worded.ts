import type { Diagnostic } from '../diagnostic.ts';
import type { Units } from '../units.ts';
import { CHECKS } from './checks.ts';
import { DESIGN } from './design.ts';
import { FILE } from './file.ts';
import { LOADS } from './loads.ts';
import { ORDERED } from './ordered.ts';
import { type Words, withWords } from './plain.ts';
import { type Sentences, sayIn } from './say.ts';
import { SIZING } from './sizing.ts';
import { SPRINGS } from './springs.ts';
import { STANDING } from './static-equilibrium.ts';
import { SURVEY } from './survey.ts';
import { TRAVEL } from './travel.ts';

/** Every sentence, by the code of its diagnostic. */
export const SENTENCES: Sentences = {
  ...CHECKS,
  ...DESIGN,
  ...FILE,
  ...LOADS,
  ...ORDERED,
  ...SIZING,
  ...SPRINGS,
  ...STANDING,
  ...SURVEY,
  ...TRAVEL,
};

/** A diagnostic with its sentence, in the units asked for. */
export function worded<D extends Diagnostic>(diagnostic: D, units: Units): D & Words {
  return withWords(diagnostic, SENTENCES, sayIn(diagnostic, units));
}
