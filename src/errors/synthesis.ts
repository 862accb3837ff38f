import { SYNTHESIS } from '../sentences/synthesis.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(SYNTHESIS);
