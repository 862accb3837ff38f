// JSON as RFC 8259 has it, read for its mistakes: where the text goes wrong, what stands there, what to do. The value
// itself comes from JSON.parse, which says too little about what it refuses and nothing about a name written twice.

import { InputError } from '../errors.ts';
import { adviceForText } from './number-meant.ts';
import type { Finding, Place } from './parse.ts';

/** A JSON text's value, and the names that stand twice in one object of it. */
export interface JsonText {
  readonly value: unknown;
  readonly twice: readonly Finding[];
}

/** Brackets within brackets: no document needs nearly as many. */
const DEEPEST = 100;

/**
 * Reads a JSON text.
 *
 * @throws InputError with line and column, what stands there and what to do, where it is not JSON.
 */
export function readJson(written: string, what: string): JsonText {
  // Some editors put a mark of their own at the start.
  const text = written.startsWith('\uFEFF') ? written.slice(1) : written;
  const twice: Finding[] = [];
  try {
    scan(text, twice);
    return { value: JSON.parse(text), twice };
  } catch (error) {
    const { at, problem, advice } =
      error instanceof Slip ? error : new Slip(0, 'not JSON', 'compare the text with the example files');
    throw new InputError(what, [
      {
        path: placeInText(text, at),
        problem,
        got: standing(text, at),
        ...(advice === undefined ? {} : { advice }),
      },
    ]);
  }
}

/** Where a text stops being JSON. */
class Slip extends Error {
  readonly at: number;
  readonly problem: string;
  readonly advice: string | undefined;

  constructor(at: number, problem: string, advice?: string) {
    super(problem);
    this.at = at;
    this.problem = problem;
    this.advice = advice;
  }
}

function placeInText(text: string, at: number): string {
  const before = text.slice(0, at).split(/\r\n|\n|\r/);
  return `line ${before.length}, column ${before[before.length - 1].length + 1}`;
}

/** The rest of the line, cut to a readable length. */
function standing(text: string, at: number): string {
  const rest = /^[^\r\n]*/.exec(text.slice(at, at + 200))?.[0].trimEnd() ?? '';
  if (at >= text.length) return 'the end of the text';
  if (rest === '') return 'the end of the line';
  return `\`${rest.length > 30 ? `${rest.slice(0, 27)}...` : rest}\``;
}

/** Places in a text that are asked for from its start to its end, so that each line is counted once. */
function placesAlong(text: string): (at: number) => string {
  const breaks = /\r\n|\n|\r/g;
  let line = 1;
  let start = 0;
  let next = 0;
  return (at) => {
    while (next <= at) {
      if (next > 0) line++;
      start = next;
      next = breaks.exec(text) === null ? Number.POSITIVE_INFINITY : breaks.lastIndex;
    }
    return `line ${line}, column ${at - start + 1}`;
  };
}

function scan(text: string, twice: Finding[]): void {
  let at = 0;
  const placeAlong = placesAlong(text);

  function blanks(): void {
    while (/[ \t\r\n]/.test(text.charAt(at))) at++;
    const two = text.slice(at, at + 2);
    if (two === '//' || two === '/*' || two.startsWith('#')) {
      throw new Slip(at, 'a comment, which JSON has not', 'put it into "notes": "..." or take it out');
    }
  }

  function value(place: Place): void {
    blanks();
    if (place.length > DEEPEST) throw new Slip(at, 'brackets within brackets without end', 'take them out');
    const first = text.charAt(at);
    if (first === '{') members(place);
    else if (first === '[') items(place);
    else if (first === '"') quoted();
    else if (/[-\d.+]/.test(first) && first !== '') number();
    else word();
  }

  function members(place: Place): void {
    const opened = at++;
    const names = new Set<string>();
    blanks();
    if (text.charAt(at) === '}') {
      at++;
      return;
    }
    for (;;) {
      blanks();
      const from = at;
      if (text.charAt(at) === '}') throw commaTooMany('}');
      if (text.charAt(at) !== '"') throw unnamed(opened);
      const name = quoted();
      if (names.has(name)) {
        twice.push({
          at: [...place, name],
          problem: `written twice, again at ${placeAlong(from)}`,
          advice: 'take one out: only the last would count',
        });
      }
      names.add(name);
      blanks();
      if (text.charAt(at) !== ':') {
        throw new Slip(at, `a colon is missing after "${name}"`, `write "${name}": and then its value`);
      }
      at++;
      value([...place, name]);
      if (next('}', opened)) return;
    }
  }

  function items(place: Place): void {
    const opened = at++;
    blanks();
    if (text.charAt(at) === ']') {
      at++;
      return;
    }
    for (let k = 0; ; k++) {
      blanks();
      if (text.charAt(at) === ']') throw commaTooMany(']');
      value([...place, k]);
      if (next(']', opened)) return;
    }
  }

  /** Passes a comma, or the closing bracket: then true. */
  function next(close: string, opened: number): boolean {
    const end = at;
    blanks();
    const here = text.charAt(at);
    if (here === ',' || here === close) {
      at++;
      return here === close;
    }
    if (here === '') throw unclosed(opened);
    if (here === '}' || here === ']') {
      throw new Slip(
        at,
        `"${text.charAt(opened)}" of ${placeInText(text, opened)} is closed by another bracket`,
        `close it with ${close} first`,
      );
    }
    const sameLine = !/[\r\n]/.test(text.slice(end, at));
    if (sameLine && /[\d./"'”″°a-z]/i.test(here) && /\d/.test(text.charAt(end - 1))) {
      throw new Slip(at, 'what follows the number does not belong to it', bareNumberAdvice(text, end));
    }
    if (here === ';') throw new Slip(at, 'a semicolon, where a comma belongs', 'write , for ;');
    throw new Slip(
      at,
      'a comma is missing before this',
      `put one after what ends on line ${placeInText(text, end).replace(/^line (\d+).*/, '$1')}`,
    );
  }

  function commaTooMany(close: string): Slip {
    const comma = text.lastIndexOf(',', at);
    return new Slip(
      comma,
      'a comma too many',
      `nothing follows it before ${close}: take it out, or write what is missing`,
    );
  }

  function unclosed(opened: number): Slip {
    const open = text.charAt(opened);
    return new Slip(
      text.length,
      `the text ends before "${open}" of ${placeInText(text, opened)} is closed`,
      `close it with ${open === '{' ? '}' : ']'}`,
    );
  }

  function unnamed(opened: number): Slip {
    const here = text.charAt(at);
    if (here === '') return unclosed(opened);
    if (here === ',') return new Slip(at, 'a comma too many', 'take it out');
    const bareName = /^[A-Za-z_$][\w$]*/.exec(text.slice(at, at + 60))?.[0];
    return bareName === undefined
      ? new Slip(at, 'a name in double quotes is missing here', quotesAdvice(here))
      : new Slip(at, 'a name without quotes', `write "${bareName}"`);
  }

  function quoted(): string {
    const from = at++;
    for (;;) {
      const here = text.charAt(at);
      if (here === '"') {
        at++;
        return JSON.parse(text.slice(from, at)) as string;
      }
      if (here === '' || here === '\n' || here === '\r') {
        throw new Slip(from, 'a text that is not closed on its line', 'end it with "');
      }
      if (here < ' ') throw new Slip(at, 'a tab or another such sign in a text', 'write a space');
      if (here === '\\') {
        if (!/^\\(["\\/bfnrt]|u[\da-fA-F]{4})/.test(text.slice(at, at + 6))) {
          throw new Slip(at, 'a backslash in a text', 'write it twice: \\\\');
        }
        at++;
      }
      at++;
    }
  }

  function number(): void {
    const [all] = /^[-+.\deE]+/.exec(text.slice(at, at + 400)) as RegExpExecArray;
    if (!/^-?(0|[1-9]\d*)(\.\d+)?([eE][-+]?\d+)?$/.test(all)) {
      const plain = Number(all);
      throw new Slip(
        at,
        'not a number as JSON writes it',
        Number.isFinite(plain) ? `write ${plain}` : 'write it as 12.5 or -12.5',
      );
    }
    at += all.length;
  }

  function word(): void {
    const here = text.charAt(at);
    const found = /^[A-Za-z_]+/.exec(text.slice(at, at + 60))?.[0];
    if (found === 'true' || found === 'false' || found === 'null') {
      at += found.length;
      return;
    }
    if (here === '') throw new Slip(at, 'a value is missing here', 'the text is not complete');
    if (found === 'NaN' || found === 'Infinity') {
      throw new Slip(at, 'not a number as JSON writes it', 'write the number, or leave the whole entry out');
    }
    throw found === undefined
      ? new Slip(at, 'a value is missing here', signAdvice(here))
      : new Slip(at, 'a text without quotes', `write "${found}"`);
  }

  blanks();
  if (at >= text.length) throw new Slip(at, 'nothing in it', 'start from one of the example files');
  if (/^[^{}[\]"\n]*\.json\s*$/i.test(text)) {
    throw new Slip(at, 'the name of a file, not what is in it', 'read the file, and give its text');
  }
  value([]);
  blanks();
  if (at < text.length)
    throw new Slip(at, 'more text after the end', 'take it out, or look for a bracket that closes too early');
}

/** What to do about quotation marks that are none to JSON. */
function quotesAdvice(here: string): string | undefined {
  return /['‘’“”„`]/.test(here) ? 'write straight double quotes: "' : undefined;
}

/** What to do about a sign where a value belongs. */
function signAdvice(here: string): string | undefined {
  if (/[−–—]/.test(here)) return 'write the short minus of the keyboard: -';
  if (here === '(') return 'write square brackets round a point: [y, z]';
  if (/[,\]}]/.test(here)) return 'write one, or take the whole entry out';
  if (here === '?') return 'leave the whole entry out if you do not know it';
  return quotesAdvice(here) ?? 'a sign that JSON has not, perhaps one that is not seen: take it out';
}

/** What to do about signs after a number that ends at a place: `5 3/4`, `24.5 in`. */
function bareNumberAdvice(text: string, end: number): string {
  const [before] = /[-\d.]+$/.exec(text.slice(Math.max(0, end - 40), end)) ?? [''];
  const [after] = /^[^,\]}\r\n]*/.exec(text.slice(end, end + 40)) ?? [''];
  const advice = adviceForText(before + after, undefined).replace(', without quotes', '');
  return `${advice}; "units" says once what all of them are in`;
}
