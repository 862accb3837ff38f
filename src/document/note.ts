/** Something a reader of a file should look at, though it is no error: where, and what, in a sentence. */
export interface Note {
  /** Place in the file, as `corners.front.wheel.centre`. */
  readonly path: string;
  readonly text: string;
}
