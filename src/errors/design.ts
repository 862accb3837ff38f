import { DESIGN } from '../sentences/design.ts';
import { wordsIn } from '../sentences/say.ts';
import { refuserBy } from './refuser.ts';

export const { refusal, refuse } = refuserBy(wordsIn(DESIGN));
