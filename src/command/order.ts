// The order for the coilover maker and the report for the builder, from a car file.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fault } from '../diagnostic.ts';
import { refusal } from '../errors/report.ts';
import {
  adviceLines,
  type OrderSheet,
  orderSheet,
  readCar,
  reportSheet,
  type Sizing,
  sheetHtml,
  sheetJson,
  sheetMarkdown,
  sizeCoilovers,
  sizingSummary,
} from '../index.ts';
import { reportData } from '../report/order-sheet/report-sheet.ts';
import { cornerView, writeCorner } from './corner-files.ts';
import { folderOf, stemOf, textOf, write } from './files.ts';
import { type Given, IN_CONFLICT, UsageFault } from './job.ts';
import { answers } from './lines.ts';
import { folded, print, printData, saying } from './terminal.ts';

/** Files that belong together, and what they are. */
interface Paper {
  readonly what: string;
  readonly files: readonly { readonly file: string; readonly text: string }[];
}

const CAUTION = `
These figures are for planning. The model is planar and rigid: no steering, no compliance, nothing
fore and aft but the offset of the shock. Strength, welds, steering, brakes and whether a car may go
on the road are matters of local codes and of a licensed engineer or inspector.`;

export async function run({ operands: [file], options }: Given): Promise<number> {
  if (options.lines) return answers(file, (value) => reportData(sizeCoilovers(readCar(value))));
  if (file === undefined)
    throw new UsageFault('order takes a car file. `jounce start` writes one to fill in.');
  const car = readCar(textOf(file));
  const sizing = saying('Sizing', () => sizeCoilovers(car));
  if (options.json) printData(reportData(sizing));
  else await writeAll(stemOf(file), String(options.out ?? '.'), car, sizing);
  return sizing.conflicts.some(({ severity }) => severity === 'conflict' || severity === 'error')
    ? IN_CONFLICT
    : 0;
}

async function writeAll(
  name: string,
  out: string,
  car: ReturnType<typeof readCar>,
  sizing: Sizing,
): Promise<void> {
  const folder = folderOf(out);
  const papers = papersOf(name, sizing);
  if (sizing.order !== null) refuseOtherOrder(name, folder, sizing.order, papers);
  print(sizingSummary(sizing));
  printAdvice(sizing);
  const written: { readonly what: string; readonly files: readonly string[] }[] = papers.map(
    ({ what, files }) => {
      return { what, files: files.map(({ file, text }) => write(folder, file, text)) };
    },
  );
  for (const [axle, given] of Object.entries(car.corners)) {
    const sized = sizing.axles.find(({ input }) => input.corner === given.corner);
    const view = cornerView(`${name}-${axle}`, given, { units: sizing.units, sized });
    written.push(...(await writeCorner(folder, view)));
  }
  print('Written:');
  for (const { files, what } of written) {
    for (const one of files) print(`  ${one}`);
    print(`    ${what}`);
  }
  print(CAUTION);
}

/** Order and report, each in three forms: drafts, which each run writes anew, or of a revision with its date, which are never written over. */
function papersOf(name: string, sizing: Sizing): Paper[] {
  const { order } = sizing;
  // Of a revision that has a date of its own nothing may depend on the day.
  const of = { file: `${name}.json`, ...(order === null ? { date: today() } : {}) };
  const revision = order === null ? '' : `-${order.revision}-${order.date}`;
  const files = (kind: string, sheet: OrderSheet) => [
    { file: `${name}-${kind}${revision}.html`, text: sheetHtml(sheet) },
    { file: `${name}-${kind}${revision}.md`, text: sheetMarkdown(sheet) },
    { file: `${name}-${kind}${revision}.json`, text: sheetJson(sheet) },
  ];
  return [
    {
      what: 'the order for the maker, to open in a browser and print; the same as Markdown and as data',
      files: files('order', orderSheet(sizing)),
    },
    {
      what: 'the report for you, with everything else; the same as Markdown and as data',
      files: files('report', reportSheet(sizing, of)),
    },
  ];
}

/** Stops where the same revision was written before and is not the same. */
function refuseOtherOrder(
  name: string,
  folder: string,
  { revision, date }: { readonly revision: string; readonly date: string },
  papers: readonly Paper[],
): void {
  const isOther = ({ file, text }: Paper['files'][number]) =>
    existsSync(join(folder, file)) && readFileSync(join(folder, file), 'utf8') !== text;
  const differs = papers.flatMap(({ files }) => files).find(isOther);
  const start = `${name}-order-${revision}-`;
  const otherDay = readdirSync(folder).find(
    (file) =>
      file.startsWith(start) &&
      /^\d{4}-\d\d-\d\d\.html$/.test(file.slice(start.length)) &&
      file !== `${start}${date}.html`,
  );
  const there = differs?.file ?? otherDay;
  if (there === undefined) return;
  throw refusal('order', [
    fault('revisionWritten', 'order.revision', { revision, there: join(folder, there) }),
  ]);
}

/** What a car that stands asks of what was bought: what to do first, then what can't be cured. */
function printAdvice({ axles, crossWeight, units }: Sizing): void {
  const bought = axles.filter(({ afterOrder }) => afterOrder !== null);
  if (bought.length === 0) return;
  print(bought.some(({ afterOrder }) => afterOrder?.weighed) ? 'After weighing' : 'With what was ordered');
  for (const { advice } of [...bought, ...(crossWeight === null ? [] : [crossWeight])])
    for (const line of adviceLines(advice, units)) print(folded([`  ${line}`]));
  print('');
}

/** Today's date, as `2026-05-17`. */
function today(): string {
  const now = new Date();
  const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()];
  return parts.map((part) => String(part).padStart(2, '0')).join('-');
}
