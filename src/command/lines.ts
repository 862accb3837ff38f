// Many documents, one on each line, and a line of data for each: for other programs, and for many processes side by side.

import { InputError } from '../index.ts';
import { textOf } from './files.ts';
import { dataLine, print } from './terminal.ts';

/** Prints the answer to each line: `{ id, result }`, or `{ id, issues }` for one that is refused. `id` is that of the document, or the number of its line. */
export function answers(file = '-', answer: (document: unknown) => unknown): number {
  let refused = 0;
  textOf(file)
    .split('\n')
    .forEach((line, k) => {
      if (line.trim() === '') return;
      const { id, document } = jobOf(line, k + 1);
      try {
        print(dataLine({ id, result: answer(document) }));
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        refused += 1;
        print(dataLine({ id, issues: error.issues }));
      }
    });
  return refused === 0 ? 0 : 1;
}

/** A line is a document, or `{ id, document }`. */
function jobOf(line: string, number: number): { id: unknown; document: unknown } {
  try {
    const value: unknown = JSON.parse(line);
    if (typeof value === 'object' && value !== null && 'document' in value) {
      return { id: 'id' in value ? value.id : number, document: value.document };
    }
    return { id: number, document: value };
  } catch {
    // The reader of documents says where the text is no JSON.
    return { id: number, document: line };
  }
}
