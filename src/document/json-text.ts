// JSON as RFC 8259 has it, read for its mistakes: where the text goes wrong, what stands there, what to do. The value
// itself comes from JSON.parse, which says too little about what it refuses and nothing about a name written twice.

import { cut, type Diagnostic, fault } from '../diagnostic.ts';
import { refusal } from '../errors/file.ts';
import { numbersMeant } from './number-meant.ts';
import { type Finding, found, type Place } from './parse.ts';

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
    const { at, code, values } = error instanceof Slip ? error : new Slip(0, 'notJson');
    const path = pathInText(placeInText(text, at));
    throw refusal(what, [fault(code, path, { ...values, ...standing(text, at) })], 'metric');
  }
}

/** Where a text stops being JSON. */
class Slip extends Error {
  readonly at: number;
  readonly code: string;
  readonly values: Values;

  constructor(at: number, code: string, values: Values = {}) {
    super(code);
    this.at = at;
    this.code = code;
    this.values = values;
  }
}

type Values = Diagnostic['values'];

/** A place in a text, both counted from 1. */
type TextPlace = { readonly line: number; readonly column: number };

function placeInText(text: string, at: number): TextPlace {
  const before = text.slice(0, at).split(/\r\n|\n|\r/);
  return { line: before.length, column: before[before.length - 1].length + 1 };
}

function pathInText({ line, column }: TextPlace): string {
  return `line ${line}, column ${column}`;
}

/** The rest of the line, cut to a readable length, or what ends there. */
function standing(text: string, at: number): Values {
  const rest = /^[^\r\n]*/.exec(text.slice(at, at + 200))?.[0].trimEnd() ?? '';
  if (at >= text.length) return { endOf: 'text' };
  return rest === '' ? { endOf: 'line' } : { got: `\`${cut(rest, 30)}\`` };
}

/** Places in a text that are asked for from its start to its end, so that each line is counted once. */
function placesAlong(text: string): (at: number) => TextPlace {
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
    return { line, column: at - start + 1 };
  };
}

function scan(text: string, twice: Finding[]): void {
  let at = 0;
  const placeAlong = placesAlong(text);

  function blanks(): void {
    while (/[ \t\r\n]/.test(text.charAt(at))) at++;
    const two = text.slice(at, at + 2);
    if (two === '//' || two === '/*' || two.startsWith('#')) {
      throw new Slip(at, 'jsonComment');
    }
  }

  function value(place: Place): void {
    blanks();
    if (place.length > DEEPEST) throw new Slip(at, 'jsonTooDeep');
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
        twice.push(found([...place, name], 'jsonNameTwice', placeAlong(from)));
      }
      names.add(name);
      blanks();
      if (text.charAt(at) !== ':') throw new Slip(at, 'jsonColonMissing', { name });
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
      throw new Slip(at, 'jsonOtherBracket', { ...bracketAt(opened), close });
    }
    const sameLine = !/[\r\n]/.test(text.slice(end, at));
    if (sameLine && /[\d./"'”″°a-z]/i.test(here) && /\d/.test(text.charAt(end - 1))) {
      throw new Slip(at, 'jsonNumberGoesOn', { meant: numbersAround(text, end) });
    }
    if (here === ';') throw new Slip(at, 'jsonSemicolon');
    throw new Slip(at, 'jsonCommaMissing', { line: placeInText(text, end).line });
  }

  function commaTooMany(close: string): Slip {
    return new Slip(text.lastIndexOf(',', at), 'jsonCommaTooMany', { close });
  }

  function unclosed(opened: number): Slip {
    const close = text.charAt(opened) === '{' ? '}' : ']';
    return new Slip(text.length, 'jsonBracketNotClosed', { ...bracketAt(opened), close });
  }

  function bracketAt(opened: number): Values {
    return { open: text.charAt(opened), ...placeInText(text, opened) };
  }

  function unnamed(opened: number): Slip {
    const here = text.charAt(at);
    if (here === '') return unclosed(opened);
    if (here === ',') return new Slip(at, 'jsonCommaTooMany');
    const bareName = /^[A-Za-z_$][\w$]*/.exec(text.slice(at, at + 60))?.[0];
    return bareName === undefined
      ? new Slip(at, 'jsonNameMissing', { sign: here })
      : new Slip(at, 'jsonNameWithoutQuotes', { name: bareName });
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
        throw new Slip(from, 'jsonTextNotClosed');
      }
      if (here < ' ') throw new Slip(at, 'jsonControlSign');
      if (here === '\\') {
        if (!/^\\(["\\/bfnrt]|u[\da-fA-F]{4})/.test(text.slice(at, at + 6))) {
          throw new Slip(at, 'jsonBackslash');
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
      throw new Slip(at, 'jsonNumber', { meant: Number.isFinite(plain) ? plain : null });
    }
    at += all.length;
  }

  function word(): void {
    const here = text.charAt(at);
    const bare = /^[A-Za-z_]+/.exec(text.slice(at, at + 60))?.[0];
    if (bare === 'true' || bare === 'false' || bare === 'null') {
      at += bare.length;
      return;
    }
    if (here === '') throw new Slip(at, 'jsonValueMissing', { sign: '' });
    if (bare === 'NaN' || bare === 'Infinity') {
      throw new Slip(at, 'jsonNotFinite');
    }
    throw bare === undefined
      ? new Slip(at, 'jsonValueMissing', { sign: here })
      : new Slip(at, 'jsonTextWithoutQuotes', { text: bare });
  }

  blanks();
  if (at >= text.length) throw new Slip(at, 'jsonEmpty');
  if (/^[^{}[\]"\n]*\.json\s*$/i.test(text)) {
    throw new Slip(at, 'jsonFileName');
  }
  value([]);
  blanks();
  if (at < text.length) throw new Slip(at, 'jsonMoreText');
}

/** The numbers that may be meant by one that ends at a place and the signs after it: `5 3/4`, `24.5 in`. */
function numbersAround(text: string, end: number): number[] {
  const [before] = /[-\d.]+$/.exec(text.slice(Math.max(0, end - 40), end)) ?? [''];
  const [after] = /^[^,\]}\r\n]*/.exec(text.slice(end, end + 40)) ?? [''];
  return numbersMeant(before + after, undefined);
}
