import type { Issue } from '../errors.ts';

/** A place as keys from the outside in. */
export type Place = readonly PropertyKey[];

/** An issue by its place, before that is written as a path. */
export interface Finding extends Omit<Issue, 'path'> {
  readonly at: Place;
}
