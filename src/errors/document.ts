// Refusals of what has the shape of a document, as `doubleWishbone` takes it.

import { DOCUMENT } from '../sentences/document.ts';
import { wordsIn } from '../sentences/say.ts';
import { refuserBy } from './refuser.ts';

export const { refusal, refuse } = refuserBy(wordsIn(DOCUMENT));
