// Refusals of files, and of what is checked as parts of them are.

import { FILE } from '../sentences/file.ts';
import { wordsIn } from '../sentences/say.ts';
import { refuserBy } from './refuser.ts';

export const { refusal, refuse } = refuserBy(wordsIn(FILE));
