// A corner through its travel.

import { type DocumentCorner, issueLines, readCorner } from '../index.ts';
import { toMetric, type Units } from '../units.ts';
import { type CornerLooks, cornerCurves, cornerView, titleOf, writeCorner } from './corner-files.ts';
import { cornerOf, folderOf, numbersOf, readFile, stemOf, textOf, unitsOf } from './files.ts';
import { type Given, UsageFault } from './job.ts';
import { answers } from './lines.ts';
import { folded, print, printData } from './terminal.ts';

export async function run({ operands: [file], options }: Given): Promise<number> {
  const [given] = numbersOf('step', options.step) ?? [];
  const stepIn = (units: Units) => (given === undefined ? {} : { step: toMetric(given, 'length', units) });
  if (options.lines) {
    if (options.axle !== undefined)
      throw new UsageFault('--lines reads files of one corner: leave out --axle.');
    return answers(file, (value) => {
      const one = readCorner(value);
      return dataOf(one, stepIn(unitsOf(options.units, one.units)));
    });
  }
  if (file === undefined) throw new UsageFault('corner takes a car file or a file of one corner.');
  const { corners, units: written, notes, name, car } = readFile(textOf(file));
  const units = unitsOf(options.units, written);
  if (options.axle !== undefined && car === null)
    throw new UsageFault('This is a file of one corner: leave out --axle.');
  const looks = { units, ...stepIn(units) };
  const chosen =
    options.axle === undefined
      ? Object.entries(corners)
      : [[String(options.axle), cornerOf(corners, options.axle)] as const];
  if (options.json) {
    printData(Object.fromEntries(chosen.map(([axle, one]) => [axle || 'corner', dataOf(one, looks)])));
    return 0;
  }
  if (notes.length > 0) print('Check these inputs\n');
  for (const note of notes) print(`${folded(issueLines(note, units))}\n`);
  for (const [axle, one] of chosen) {
    const stem = [stemOf(file), axle].filter((part) => part !== '').join('-');
    const title = car === null ? (name ?? titleOf(stem)) : titleOf(stem);
    const view = cornerView(stem, one, { ...looks, title });
    print(`${view.text}\n`);
    if (options.out === undefined) continue;
    const written = await writeCorner(folderOf(String(options.out)), view);
    print(`Written: ${written.flatMap(({ files }) => files).join(', ')}\n`);
  }
  return 0;
}

/** Columns and limits as data. */
function dataOf(given: DocumentCorner, looks: Pick<CornerLooks, 'step'>) {
  const { limits, curves } = cornerCurves(given, looks);
  return { columns: curves.columns, info: curves.info, end: curves.end, limits };
}
