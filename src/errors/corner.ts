import { CORNER } from '../sentences/corner.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(CORNER);
