import { TESTING } from '../sentences/testing.ts';
import { refuser } from './refuser.ts';

export const { refuse } = refuser(TESTING);
