import type { Diagnostic } from '../diagnostic.ts';

/** A place as keys from the outside in. */
export type Place = readonly PropertyKey[];

/** An error of an input by its place, before that is written as a path; its values are those of the diagnostic. */
export interface Finding {
  readonly at: Place;
  readonly code: string;
  readonly values: Diagnostic['values'];
}

export function found(at: Place, code: string, values: Finding['values'] = {}): Finding {
  return { at, code, values };
}
