import type { Sentences } from './say.ts';

/** What is said about springs and tolerances. */
export const SPRINGS: Sentences = {};
