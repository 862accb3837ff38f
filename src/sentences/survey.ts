import type { Sentences } from './say.ts';

/** What is said about surveys. */
export const SURVEY: Sentences = {};
