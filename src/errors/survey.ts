import { SURVEYED } from '../sentences/surveyed.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(SURVEYED);
