// Refusals of what is sized: every sentence of the library.

import { worded } from '../sentences/worded.ts';
import { refuserBy } from './refuser.ts';

export const { refusal, refuse } = refuserBy(worded);
