import { MOTION } from '../sentences/motion.ts';
import { refuser } from './refuser.ts';

export const { refuse } = refuser(MOTION);
