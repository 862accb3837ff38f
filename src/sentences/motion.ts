import type { PlainSentences } from './plain.ts';

/** What is said where a motion is wanted. */
export const MOTION: PlainSentences = {
  notAMotion: {
    problem: 'not a motion',
    allowed: 'a motion as trace(drawing, ...) gives it',
    advice: 'trace the drawing first',
  },
};
