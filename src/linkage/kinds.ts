import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { unknownKeys } from './former-names.ts';

/** Kinds of an object, each by the key that makes it one, with the further keys that it may have. */
export type Kinds = Readonly<Record<string, readonly string[]>>;

/** Which of the kinds an object is of. */
export function kindsOf(value: object, kinds: Kinds): string[] {
  return Object.keys(kinds).filter((kind) => kind in value);
}

/** Faults for an object that is of two kinds at once, or has keys that its kind has not; `what` it is: `measure`. */
export function kindFaults(what: string, value: object, kinds: Kinds, path: string): Diagnostic[] {
  const [kind, ...others] = kindsOf(value, kinds);
  if (others.length > 0) {
    return [fault('severalInOne', path, { what, kinds: [kind, ...others], got: show(value) })];
  }
  return kind === undefined ? [] : unknownKeys(what, value, [kind, ...kinds[kind]], path);
}
