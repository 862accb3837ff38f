import { AXLE } from '../sentences/axle.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(AXLE);
