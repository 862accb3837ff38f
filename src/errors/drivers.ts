import { DRIVERS } from '../sentences/drivers.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(DRIVERS);
