import type { Sentences } from './say.ts';

/** What is said about travel and damper lengths. */
export const TRAVEL: Sentences = {};
