import type { Sentences } from './say.ts';

/** What is said about what was ordered, load states and comparisons. */
export const ORDERED: Sentences = {};
