// A file of an earlier version in the present format.

import { type MigratedFile, migrateFile } from '../index.ts';
import { textOf, write } from './files.ts';
import type { Given } from './job.ts';
import { folded, print } from './terminal.ts';

export function run({ operands: [name], options: { out } }: Given): number {
  const { file, renamed } = migrateFile(textOf(name));
  const text = `${JSON.stringify(file, null, 2)}\n`;
  if (out === undefined) {
    print(text.trimEnd());
    return 0;
  }
  print(renamed.length === 0 ? 'No field has a former name.' : folded(renamed.map(change)));
  print(`Written: ${write('.', String(out), text)}`);
  return 0;
}

/** A former name, where it stood, and the name of today. */
function change({ path, values: { is } }: MigratedFile['renamed'][number]): string {
  return `  ${path} -> ${is}`;
}
