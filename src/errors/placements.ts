import { PLACEMENTS } from '../sentences/placements.ts';
import { refuser } from './refuser.ts';

export const { refuse } = refuser(PLACEMENTS);
