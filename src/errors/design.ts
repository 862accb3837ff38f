import { DESIGN } from '../sentences/design.ts';
import { unitRefuser } from './unit-refuser.ts';

export const { refusal, refuse } = unitRefuser(DESIGN);
