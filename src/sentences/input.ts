import type { PlainSay, PlainSentences } from './plain.ts';

/** What is said about any input: names, kinds of value, numbers. */
export const INPUT: PlainSentences = {
  missing: { problem: 'missing' },
  wrongType: { problem: 'wrong kind of value' },
  notFinite: { problem: 'not a finite number', allowed: 'a finite number' },
  missingNumber: (say) => ({ problem: 'missing', allowed: `a number ${bounds(say)}` }),
  outOfRange: (say) => ({ problem: 'out of range', allowed: `a number ${bounds(say)}` }),
  notWhole: (say) => ({
    problem: 'not a whole number',
    allowed: say.has('min') || say.has('max') ? `a whole number, ${bounds(say)}` : 'a whole number',
  }),
  unknownName: (say) => ({ problem: `unknown ${say.text('what')}`, advice: meant(say, 'correct the name') }),
  unknownChoice: (say) => ({ problem: 'unknown choice', ...suggestion(say) }),
  namedTwice: { problem: 'named twice', advice: 'take one out' },
  unknownOption: (say) => ({
    problem: 'unknown option',
    advice: meant(say, 'correct the spelling, or take it out'),
  }),
  notOptions: (say) => ({
    problem: 'not an object',
    allowed: `{ ${say.text('allowed')} }, each optional`,
  }),
};

/** Bounds of a number with its unit: `more than 0 mm`, `0 kg or more`, `1 to 1000`. */
function bounds(say: PlainSay): string {
  const unit = say.has('unit') ? ` ${say.text('unit')}` : '';
  const least = say.has('above')
    ? `more than ${say.text('above')}${unit}`
    : say.has('min')
      ? `${say.text('min')}${unit} or more`
      : '';
  if (say.has('min') && say.has('max')) return `${say.text('min')} to ${say.text('max')}${unit}`;
  const most = say.has('below')
    ? `less than ${say.text('below')}${unit}`
    : say.has('max')
      ? `${say.text('max')}${unit} at most`
      : '';
  return [least, most].filter((part) => part !== '').join(', ');
}

/** The name that was meant, as a question; else the advice. */
function meant(say: PlainSay, advice: string): string {
  return say.has('meant') ? `did you mean ${say.text('meant')}?` : advice;
}

function suggestion(say: PlainSay): { advice?: string } {
  return say.has('meant') ? { advice: `did you mean ${say.text('meant')}?` } : {};
}
