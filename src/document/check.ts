import type { Diagnostic } from '../diagnostic.ts';

/**
 * Something that looks wrong in a file that was read: where, what, and in a sentence. `severity` is `error` where no car can be
 * so (nothing that follows can be ordered by), `check` where it may be right, `note` where it only should be known.
 */
export interface Check extends Diagnostic {
  /** Place in the file, as `corners.front.wheel.centre`. */
  readonly path: string;
  readonly text: string;
}
