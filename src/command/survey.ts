// Hardpoints from tape readings.

import { type Survey, sentence, survey as solve, writeSurveyedCorner } from '../index.ts';
import { numberIn, unitName } from '../units.ts';
import { spaced } from '../words.ts';
import { textOf, write } from './files.ts';
import { type Given, UsageFault } from './job.ts';
import { folded, print, printData } from './terminal.ts';

export function run({ operands: [file], options }: Given): number {
  const { into, corner, out } = options;
  if (corner !== undefined && corner !== 'front' && corner !== 'rear')
    throw new UsageFault(`--corner is front or rear, not "${corner}".`);
  const found = solve(textOf(file));
  if (options.json) printData(found);
  if (into === undefined) {
    if (!options.json) print(textFor(found));
    return 0;
  }
  const changed = writeSurveyedCorner(textOf(String(into)), found, corner === undefined ? {} : { corner });
  const text = `${JSON.stringify(changed, null, 2)}\n`;
  if (out === undefined) print(text.trimEnd());
  else {
    print(textFor(found));
    print(`Written: ${write('.', String(out), text)}`);
  }
  return 0;
}

/** What a survey has to say, and its points. */
function textFor({ notes, diagnostics, points, units, name }: Survey): string {
  const unit = unitName('length', units);
  const length = (mm: number | null) => (mm === null ? '?' : numberIn(mm, 'length', units));
  const rows = Object.entries(points).map(([point, { at, plusMinus }]) => {
    const each = at.map((value, k) => `${length(value)} ± ${length(plusMinus[k])}`.padStart(18));
    return `  ${spaced(point).padEnd(24)}${each.join('')}`;
  });
  return [
    ...(name === undefined ? [] : [`${name}\n`]),
    ...[...notes, ...diagnostics].map((one) => `${folded([sentence(one, units)])}\n`),
    `  ${`point [${unit}]`.padEnd(24)}${['y', 'z'].map((axis) => axis.padStart(18)).join('')}`,
    ...rows,
    '',
  ].join('\n');
}
