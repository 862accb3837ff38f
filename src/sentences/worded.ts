import { ASSUMPTIONS, OPEN_QUESTIONS } from './assumptions.ts';
import { CAR_REST } from './car-rest.ts';
import { CHECKS } from './checks.ts';
import { DESIGN } from './design.ts';
import { DESIGNED } from './designed.ts';
import { DONOR_DAMPER } from './donor.ts';
import { FILE } from './file.ts';
import { FORCES } from './forces.ts';
import { HAND_METHOD } from './hand-method.ts';
import { LIMITS } from './limits.ts';
import { ORDERED } from './ordered.ts';
import { REPORT } from './report.ts';
import { type Sentences, wordsIn } from './say.ts';
import { SIZING } from './sizing.ts';
import { STATIC_STABILITY } from './static-stability.ts';
import { SURVEY } from './survey.ts';
import { SURVEYED } from './surveyed.ts';
import { SYNTHESISED } from './synthesis.ts';
import { TRAVEL } from './travel.ts';

/** Every sentence, by the code of its diagnostic: of what any input may have, files say most. */
export const SENTENCES: Sentences = {
  ...REPORT,
  ...SURVEYED,
  ...DESIGN,
  ...SIZING,
  ...FILE,
  ...CHECKS,
  ...DESIGNED,
  ...ASSUMPTIONS,
  ...OPEN_QUESTIONS,
  ...CAR_REST,
  ...DONOR_DAMPER,
  ...FORCES,
  ...HAND_METHOD,
  ...LIMITS,
  ...ORDERED,
  ...STATIC_STABILITY,
  ...SURVEY,
  ...SYNTHESISED,
  ...TRAVEL,
};

/** A diagnostic with its sentence, in the units asked for. */
export const worded = wordsIn(SENTENCES);
