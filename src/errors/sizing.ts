// Refusals of what is sized, and of forces in a corner.

import { wordsIn } from '../sentences/say.ts';
import { SIZING } from '../sentences/sizing.ts';
import { refuserBy } from './refuser.ts';

export const { refusal, refuse } = refuserBy(wordsIn(SIZING));
