import type { Diagnostic, Value } from '../diagnostic.ts';

/** What a diagnostic says. */
export interface Words {
  /** What is wrong, in a few words. */
  readonly problem: string;
  /** The offending value as it would be written, where there is one. */
  readonly got?: string;
  /** What would have been accepted. */
  readonly allowed?: string;
  /** What is usual, where anything is accepted. */
  readonly usual?: string;
  /** What to do about it. */
  readonly advice?: string;
}

/** Values of a diagnostic as they stand. */
export interface PlainSay {
  /** Whether a value is known, and not null. */
  has(name: string): boolean;
  /** Whether a value is true. */
  is(name: string): boolean;
  /** A value as it stands. */
  text(name: string): string;
  /** The parts of a list, each as it stands. */
  list(name: string): readonly string[];
  /** A number as it stands, for a choice of words. */
  number(name: string): number;
}

/** For each code what it says, in words that need no units. `got` and `allowed` among the values are said as they stand. */
export type PlainSentences = Readonly<Record<string, Words | ((say: PlainSay) => Words)>>;

/** Names that a message lists. */
const MOST_NAMES = 100;

/** Names in a row, as a message lists what is allowed. */
function listed(names: readonly unknown[]): string {
  const more = names.length - MOST_NAMES;
  return more > 0 ? `${names.slice(0, MOST_NAMES).join(', ')} and ${more} more` : names.join(', ');
}

/** A value of a diagnostic, which must have it. */
export function valueIn({ code, values }: Diagnostic, name: string): Value {
  if (name in values) return values[name];
  throw new Error(`no value ${name} in ${code}`);
}

/** The values of a diagnostic, to be said as they stand. */
export function plainSay(diagnostic: Diagnostic): PlainSay {
  const value = (name: string) => valueIn(diagnostic, name);
  return {
    has: (name) => (diagnostic.values[name] ?? null) !== null,
    is: (name) => value(name) === true,
    text: (name) => textOf(value(name)),
    list: (name) => [value(name)].flat().map(String),
    number: (name) => Number(value(name)),
  };
}

function textOf(value: Value): string {
  return Array.isArray(value) ? listed(value) : String(value);
}

/** A diagnostic with its words; `say` writes its values. */
export function withWords<Say, D extends Diagnostic>(
  diagnostic: D,
  sentences: Readonly<Record<string, Words | ((say: Say) => Words)>>,
  say: Say,
): D & Words {
  const { code, values } = diagnostic;
  const sentence = sentences[code];
  if (sentence === undefined) throw new Error(`no sentence for ${code}`);
  const { got, allowed } = values;
  return {
    ...diagnostic,
    ...(got === undefined ? {} : { got: textOf(got) }),
    ...(allowed === undefined ? {} : { allowed: textOf(allowed) }),
    ...(typeof sentence === 'function' ? sentence(say) : sentence),
  };
}
