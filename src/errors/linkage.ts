import { LINKAGE } from '../sentences/linkage.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(LINKAGE);
