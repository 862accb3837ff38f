// Both wheels of an axle in heave and roll.

import { type AxleRow, axle, axleLimits, drawAxle, limits, plotAxleLimits, sweepAxle } from '../index.ts';
import { fromMetric, toMetric, unitName } from '../units.ts';
import { withoutLoneStop } from './corner-files.ts';
import { cornerOf, folderOf, numbersOf, readFile, stemOf, textOf, write } from './files.ts';
import type { Given } from './job.ts';
import { print, printData } from './terminal.ts';

const ROLLS = [-3, -2, -1, 0, 1, 2, 3];

export function run({ operands: [file], options }: Given): number {
  const { corners, units } = readFile(textOf(file));
  const { corner, bar, thirdSpring, rollSpring, limits: ends } = cornerOf(corners, options.axle);
  const heave = (numbersOf('heave', options.heave) ?? [0]).map((value) => toMetric(value, 'length', units));
  const roll = numbersOf('roll', options.roll) ?? ROLLS;
  const whole = axle({ left: corner, bar, thirdSpring, rollSpring });
  const swept = sweepAxle(whole, { heave, roll });
  const alone = limits(corner, withoutLoneStop(ends));
  const found = axleLimits(whole, { left: alone, roll });
  if (options.json) {
    printData({ columns: swept.columns, info: swept.info, outOfReach: swept.outOfReach, limits: found });
    return 0;
  }
  const unit = unitName('length', units);
  const length = (mm: number) => fromMetric(mm, 'length', units).toFixed(units === 'imperial' ? 2 : 1);
  const columns: readonly (readonly [string, (row: AxleRow) => string])[] = [
    [`heave [${unit}]`, ({ heave }) => length(heave)],
    ['roll [deg]', ({ roll }) => roll.toFixed(2)],
    ...(['left', 'right'] as const).flatMap((side): (readonly [string, (row: AxleRow) => string])[] => [
      [`${side} travel`, (row) => length(row[`${side}Travel`])],
      ['shock', (row) => length(row[`${side}ShockLength`])],
      ['ratio', (row) => row[`${side}InstallationRatio`].toFixed(3)],
      ['camber', (row) => row[`${side}Camber`].toFixed(2)],
    ]),
    ...(bar === undefined
      ? []
      : [['bar twist', ({ barTwist = 0 }: AxleRow) => barTwist.toFixed(2)] as const]),
    ...(thirdSpring === undefined
      ? []
      : [
          ['third spring', ({ thirdSpringLength = 0 }: AxleRow) => length(thirdSpringLength)] as const,
          ['ratio', ({ thirdSpringRatio = 0 }: AxleRow) => thirdSpringRatio.toFixed(3)] as const,
        ]),
    ...(rollSpring === undefined
      ? []
      : [['roll spring', ({ rollSpringLength = 0 }: AxleRow) => length(rollSpringLength)] as const]),
  ];
  print(
    `Travel and shock length in ${unit}; ratio shock ÷ wheel; camber to the road in deg, top outboard +${bar === undefined ? '' : '; twist of the bar in deg'}.\n`,
  );
  print(columns.map(([head]) => head.padStart(Math.max(8, head.length))).join(' '));
  for (const row of swept.rows())
    print(columns.map(([head, of]) => of(row).padStart(Math.max(8, head.length))).join(' '));
  for (const { heave, roll, side } of swept.outOfReach)
    print(`heave ${length(heave)} ${unit}, roll ${roll} deg: out of reach of the ${side} wheel`);
  if (found.leftUp !== null) {
    const { roll, heave } = found.leftUp;
    print(
      `\nLargest roll ${roll.toFixed(2)} deg, at a heave of ${length(heave)} ${unit}: one wheel at its bump limit,`,
    );
    print('the other at its droop limit.');
  }
  if (options.out !== undefined) {
    const folder = folderOf(String(options.out));
    const stem = [stemOf(file), 'axle'].join('-');
    const most = Math.max(...swept.columns.roll);
    const pictures = [
      write(folder, `${stem}.svg`, drawAxle(whole, { roll: most, units })),
      write(folder, `${stem}-limits.svg`, plotAxleLimits(whole, { left: alone }, { units })),
    ];
    print(`\nWritten: ${pictures.join(', ')}`);
  }
  return 0;
}
