import type { PlainSay, PlainSentences } from './plain.ts';

/** What is said about any input. */
export const INPUT: PlainSentences = {
  notFinite: { problem: 'not a finite number', allowed: 'a finite number' },
  unknownName: (say) => ({ problem: `unknown ${say.text('what')}`, advice: meant(say, 'correct the name') }),
  renamed: (say) => ({
    problem: `renamed: ${quoted(say.text('was'))} is now called ${quoted(say.text('is'))}`,
    advice: say.is('isThere')
      ? `${say.text('is')} is there too: take ${say.text('was')} out`
      : `write ${say.text('is')}`,
  }),
  unknownOption: (say) => ({
    problem: 'unknown option',
    advice: meant(say, 'correct the spelling, or take it out'),
  }),
  notOptions: (say) => ({
    problem: 'not an object',
    allowed: `{ ${say.text('allowed')} }, each optional`,
  }),
};

/** What is said about numbers within bounds, and choices. */
export const BOUNDED: PlainSentences = {
  missing: { problem: 'missing' },
  missingNumber: (say) => ({ problem: 'missing', allowed: `a number ${bounds(say)}` }),
  outOfRange: (say) => ({ problem: 'out of range', allowed: `a number ${bounds(say)}` }),
  notWhole: (say) => ({
    problem: 'not a whole number',
    allowed: say.has('min') || say.has('max') ? `a whole number, ${bounds(say)}` : 'a whole number',
  }),
  unknownChoice: (say) => ({ problem: 'unknown choice', ...suggestion(say) }),
  notAFunction: { problem: 'not a function', allowed: 'a function' },
  namedTwice: { problem: 'named twice', advice: 'take one out' },
};

/** What is said about a choice of columns. */
export const COLUMNS: PlainSentences = {
  notAListOfColumns: { problem: 'not a list', allowed: "names of columns, as ['camber']" },
};

/** What is said about a search and what it draws. */
export const SEARCHED: PlainSentences = {
  notASeed: { problem: 'not a seed', allowed: 'a whole number' },
  notASignal: { problem: 'not a signal', allowed: '{ aborted }, as an AbortSignal has it' },
};

/** A name in quotes; a choice has them already. */
function quoted(name: string): string {
  return name.startsWith('"') ? name : `"${name}"`;
}

/** Bounds of a number with its unit: `greater than 0 (mm)`, `of 0 or more (kg)`, `1 to 1000`. */
export function bounds(say: PlainSay): string {
  const unit = say.has('unit') ? ` (${say.text('unit')})` : '';
  if (say.has('min') && say.has('max')) return `${say.text('min')} to ${say.text('max')}${unit}`;
  if (say.has('above')) return `greater than ${say.text('above')}${unit}`;
  if (say.has('below')) return `less than ${say.text('below')}${unit}`;
  return say.has('min') ? `of ${say.text('min')} or more${unit}` : `of ${say.text('max')} or less${unit}`;
}

/** The name that was meant, as a question; else the advice. */
export function meant(say: PlainSay, advice: string): string {
  return say.has('meant') ? `did you mean ${say.text('meant')}?` : advice;
}

/** A name that was meant, as a question. */
export function suggestion(say: PlainSay): { advice?: string } {
  return say.has('meant') ? { advice: meant(say, '') } : {};
}
