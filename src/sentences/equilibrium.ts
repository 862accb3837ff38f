import { BOUNDED } from './input.ts';
import { LINKAGE } from './linkage.ts';
import type { PlainSentences } from './plain.ts';

/** What is said about loads along a motion. */
export const EQUILIBRIUM: PlainSentences = {
  ...LINKAGE,
  ...BOUNDED,
  notALoadOfAMotion: {
    problem: 'not a load',
    allowed:
      '{ at, force }, { at, force, relativeTo }, { on, moment }, { between, push }, { along, rate, freeAt }, { along, gas }, { along, table }',
  },
  notATable: {
    problem: 'not a table of forces',
    allowed: '[[value, force], ...], two rows or more, values growing',
  },
  notAGas: { problem: 'not a gas spring', allowed: '{ force, at, column, exponent? }' },
  notABarThatGrows: {
    problem: 'not a bar that can grow',
    allowed: 'a moving body of two points, on which nothing slides and whose turn no ratio couples',
  },
  startOutsideMotion: { problem: 'outside the motion' },
};
