import type { Sentences } from './say.ts';

/** What is said about forces, bearings and the donor. */
export const LOADS: Sentences = {};
