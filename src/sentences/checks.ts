import type { Sentences } from './say.ts';

/** What is said about inputs that look wrong. */
export const CHECKS: Sentences = {};
