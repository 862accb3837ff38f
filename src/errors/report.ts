import { REPORT } from '../sentences/report.ts';
import { refuser } from './refuser.ts';

export const { refusal, refuse } = refuser(REPORT);
