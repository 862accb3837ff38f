// Refusals of files, and of what is checked as parts of them are.

import { FILE } from '../sentences/file.ts';
import { unitRefuser } from './unit-refuser.ts';

export const { refusal, refuse } = unitRefuser(FILE);
