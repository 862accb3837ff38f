// Mounts moved until the corner does what is wanted.

import { readJson } from '../document/json-text.ts';
import { type DesignOptions, design, drawDesign, sentence } from '../index.ts';
import { cornerOf, folderOf, readFile, stemOf, textOf, write } from './files.ts';
import type { Given } from './job.ts';
import { folded, print, printData, saying } from './terminal.ts';

export function run({ operands: [file, goals], options }: Given): number {
  const { corners, units } = readFile(textOf(file));
  const { corner } = cornerOf(corners, options.axle);
  // `design` checks what it is given, whatever that is.
  const wanted = readJson(textOf(goals), 'design options').value as DesignOptions;
  const found = saying('Searching', () => design(corner, wanted));
  if (options.json) {
    printData(found);
    return 0;
  }
  for (const one of found.diagnostics) print(folded([sentence(one, units)]));
  if (options.out !== undefined) {
    const folder = folderOf(String(options.out));
    print(`\nWritten: ${write(folder, `${stemOf(file)}-design.svg`, drawDesign(corner, found, { units }))}`);
  }
  return 0;
}
