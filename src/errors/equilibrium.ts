import { EQUILIBRIUM } from '../sentences/equilibrium.ts';
import { refuser } from './refuser.ts';

export const { refuse } = refuser(EQUILIBRIUM);
