import type { Quantity } from '../units.ts';
import { bounds, meant } from './input.ts';
import type { Words } from './plain.ts';
import type { Say, Sentences } from './say.ts';

/** What the kinds of value that inputs are made of are called. */
export type Expected = Readonly<Record<string, string | ((say: Say) => string)>>;

const POINTS = 'a list of points [[y, z], ...], one at least';

export const EXPECTED: Expected = {
  number: (say) =>
    say.has('quantity') ? `a finite number, in ${say.plural(quantityOf(say))}` : 'a finite number',
  int: 'a whole number',
  string: 'a text',
  boolean: 'true or false',
  object: (say) => (say.has('fields') ? fields(say) : 'an object { ... }'),
  record: 'an object { name: ... }',
  tuple: 'a list',
  tupleList: POINTS,
  stringList: 'a list of texts',
  numberList: 'a list of numbers',
  arrayList: 'a list of lists',
  uncertainNumber: 'a number, or { value, plusMinus }',
  point: 'a point: two finite numbers [y, z]',
  direction: 'a direction: two finite numbers [y, z]',
  twoPoints: "names of two points, as ['A', 'B']",
  lineOrTurn: "{ angle: ['A', 'B'] } or { turn: 'body' }",
};

/** `{ inner, outer }` */
export function fields(say: Say): string {
  return `{ ${say.text('fields')} }`;
}

export function quantityOf(say: Say): Quantity {
  return say.text('quantity') as Quantity;
}

/** Names in a row as alternatives: `limits or ordered`. */
export function alternatives(say: Say, name: string): string {
  return say.list(name).join(' or ');
}

/** What is said where something is missing or is of the wrong kind, `expected` by its name. */
export function kindSentences(expected: Expected): Sentences {
  const allowed = (say: Say) => {
    if (!say.has('expected')) return {};
    const name = say.text('expected');
    const words = expected[name] ?? name;
    return { allowed: typeof words === 'string' ? words : words(say) };
  };
  return {
    missing: (say) => ({
      problem: 'missing',
      ...allowed(say),
      advice: say.has('only') ? `write "${say.text('only')}"` : 'add it',
    }),
    wrongType: (say) => ({ problem: 'wrong kind of value', ...allowed(say), ...instead(say) }),
    unknownChoice: (say) => ({
      problem: 'unknown choice',
      ...allowed(say),
      advice: say.has('meant') ? `did you mean "${say.text('meant')}"?` : 'choose one of them',
    }),
  };
}

/** What to do about a text in place of a number, and about too long a list. */
function instead(say: Say): { advice?: string } {
  if (say.has('meant')) return { advice: `${bareNumber(say)}, without quotes` };
  if (!say.has('count')) return {};
  const decimals = 'write a point for the comma: 12.5';
  return {
    advice:
      say.number('count') === 3
        ? `leave out the fore-aft one; if it is a decimal, ${decimals}`
        : `if there are decimals, ${decimals}`,
  };
}

/** What number to write, of those that may be meant. */
export function bareNumber(say: Say): string {
  if (say.text('meant') !== '') return `write ${alternatives(say, 'meant')}`;
  return say.has('quantity')
    ? `write the bare number, in ${say.plural(quantityOf(say))}`
    : 'write the bare number';
}

/** The bound of a quantity. */
function boundOf(say: Say): string {
  const [name, words] = BOUNDS.find(([name]) => say.has(name)) ?? ['max', 'at most'];
  return `${words} ${say.given(name, quantityOf(say))}`;
}

const BOUNDS = [
  ['above', 'more than'],
  ['min', 'at least'],
  ['below', 'less than'],
] as const;

/** What was given of some names, or what stands there. */
function given(say: Say): { got?: string } {
  return say.has('given') ? { got: say.list('given').join(' and ') } : {};
}

const rest = (say: Say) => say.text('oneOf').replace(/, ([^,]*)$/, ' and $1');

const APART = 'measure the two again: they must lie apart';
const Z_COUNTS = 'z counts up from the ground at design ride height';

function notAbove(say: Say, what: string): Words {
  const point = say.has('point') ? `${say.text('point')} at z = ` : '';
  return {
    problem: `wheel centre not above ${what}`,
    got: `${point}${say.text('got')} ${say.unit('length')}`,
    allowed: `more than ${say.given('above', 'length')}`,
    advice: Z_COUNTS,
  };
}

/** What is said about anything of the shape of a document, and about the points of a corner. */
export const DOCUMENT: Sentences = {
  ...kindSentences(EXPECTED),
  outOfRange: (say) => ({
    problem: 'out of range',
    ...(say.has('quantity')
      ? { got: `${say.text('got')} ${say.unit(quantityOf(say))}`, allowed: boundOf(say) }
      : { allowed: `a number ${bounds(say)}` }),
    advice: say.has('share')
      ? `if ${say.text('got')} % is meant, write ${say.text('share')}`
      : 'check the number, its sign and its unit',
  }),
  unknownField: (say) => ({ problem: 'unknown field', advice: homeOf(say) }),
  notOneOf: (say) => ({ problem: `give one of ${rest(say)}`, ...given(say) }),
  noneOf: (say) => ({ problem: `give ${alternatives(say, 'oneOf')}`, ...given(say) }),
  moreThanOneOf: (say) => ({ problem: `give ${alternatives(say, 'oneOf')}, not both`, ...given(say) }),
  wheelNotPlaced: { problem: 'give camber (degrees) or contactPatch [y, z], or both' },
  otherEndMissing: {
    problem: 'give chassisMount [y, z], or otherEnd { on, mount } where that end moves too',
  },
  otherEndTwice: (say) => ({
    problem: 'chassisMount and otherEnd are two places for one end: take one out',
    ...given(say),
  }),
  samePlace: (say) => ({ problem: `in the same place as ${say.text('other')}`, advice: APART }),
  wheelNotAboveGround: (say) => notAbove(say, 'the ground'),
  wheelNotAboveContactPatch: (say) => notAbove(say, 'its contact patch'),
  bothEndsOnOnePart: (say) => ({
    problem: 'both ends of the coilover on one part',
    advice: say.has('isDrawn')
      ? 'its ends must be on two parts that move against each other'
      : 'name the part that the other end is bolted to, or give chassisMount in place of otherEnd',
  }),
};

/** Where a name belongs. */
function homeOf(say: Say): string {
  if (say.has('outer')) {
    const outer = say.text('outer') === '' ? 'the outermost { }' : say.text('outer');
    return `it belongs in ${outer}: is a } missing before it?`;
  }
  return say.has('homes')
    ? `it belongs in ${alternatives(say, 'homes')}`
    : meant(say, 'correct the spelling, or take it out');
}
