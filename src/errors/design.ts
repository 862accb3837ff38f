import { DESIGN } from '../sentences/design.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(DESIGN);
