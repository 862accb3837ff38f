// Refusals of what has the shape of a document, as `doubleWishbone` takes it.

import { DOCUMENT } from '../sentences/document.ts';
import { unitRefuser } from './unit-refuser.ts';

export const { refusal, refuse } = unitRefuser(DOCUMENT);
