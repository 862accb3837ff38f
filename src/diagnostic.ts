import { meantName } from './spelling.ts';

/**
 * How serious a diagnostic is: `error`, nothing can be computed from the input; `conflict`, it cannot be made or will not work;
 * `check`, an input that looks wrong; `note`, worth knowing.
 */
export type Severity = 'error' | 'conflict' | 'check' | 'note';

/** A number or name behind a diagnostic, or a list of them. */
export type Value = number | string | boolean | null | readonly (number | string)[];

/** A fact about an input or a result, as data; `sentence(diagnostic, units)` puts it into words. */
export interface Diagnostic {
  /** What it is about, as `wheelRateNotPositive`: stable, for programs. */
  readonly code: string;
  readonly severity: Severity;
  /** Place in the input, as `corners.front.sizing.springs[1]`; empty for the input as a whole. */
  readonly path: string;
  /** The numbers and names behind it, in the library's units (mm, kg, N, N/mm, N·s/m, Hz, degrees). */
  readonly values: Readonly<Record<string, Value>>;
}

/** An error of an input; of its values `got` and `allowed` are written as they stand unless its sentence says otherwise. */
export function fault(code: string, path: string, values: Diagnostic['values'] = {}): Diagnostic {
  return { code, severity: 'error', path, values };
}

/** A name that is none of those known; `what` is a kind of thing: `point`, `body`. */
export function unknownName(path: string, what: string, name: unknown, known: readonly string[]): Diagnostic {
  return fault('unknownName', path, { what, got: show(name), allowed: known });
}

/** A fault for options that are no object, or for each name among them that is none of those known. */
export function unknownOptions(options: unknown, known: readonly string[], under = ''): Diagnostic[] {
  if (typeof options !== 'object' || options === null || Array.isArray(options)) {
    return [fault('notOptions', under, { got: show(options), allowed: known })];
  }
  const faults: Diagnostic[] = [];
  for (const name in options) {
    if (known.includes(name) || !Object.hasOwn(options, name)) continue;
    const meant = meantName(name, known);
    const values = meant === undefined ? { allowed: known } : { allowed: known, meant };
    faults.push(fault('unknownOption', under === '' ? name : `${under}.${name}`, values));
  }
  return faults;
}

/** Signs of a value that a message gives. */
const LONGEST_VALUE = 60;

/** A value as it would be written in the input, cut to a readable length. */
export function show(value: unknown): string {
  if (typeof value === 'number' || value === undefined) return String(value);
  let text: string;
  try {
    text = JSON.stringify(value, (_key, inner) => legible(inner)) ?? typeof value;
  } catch {
    text = typeof value;
  }
  return cut(text.replaceAll(/"\\u0000([^"]*)"/g, '$1'), LONGEST_VALUE);
}

/** JSON writes NaN and Infinity as null; a message must not. They are marked, and the marks and quotes taken out after. */
function legible(value: unknown): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? `\u0000${value}` : value;
}

/** A text cut to a length. */
export function cut(text: string, longest: number): string {
  return text.length > longest ? `${text.slice(0, longest - 3)}...` : text;
}
