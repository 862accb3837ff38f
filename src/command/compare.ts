// What a change of a car file changes.

import { compareSizings, comparisonSheet, readCar, sheetMarkdown, sizeCoilovers } from '../index.ts';
import { textOf } from './files.ts';
import type { Given } from './job.ts';
import { print, printData, saying } from './terminal.ts';

export function run({ operands: [before, after], options }: Given): number {
  const sized = [before, after].map((file) => {
    const car = readCar(textOf(file));
    return saying(`Sizing ${file}`, () => sizeCoilovers(car));
  });
  const comparison = compareSizings(sized[0], sized[1]);
  if (options.json) printData(comparison);
  else print(unescaped(sheetMarkdown(comparisonSheet(comparison))));
  return 0;
}

/** Markdown as it is read on a terminal: brackets without backslashes. */
function unescaped(markdown: string): string {
  return markdown.replace(/\\([^\w\s])/g, '$1');
}
