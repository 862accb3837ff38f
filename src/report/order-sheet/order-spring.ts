// Block 4 of the order: spring, helper and bump stop.

import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { Quantity } from '../../units.ts';
import { printedSpringLength } from '../margins.ts';
import type { Block } from './blocks.ts';
import type { Cells } from './on-paper.ts';
import {
  bare,
  joined,
  known,
  type OrderPage,
  orderBlock,
  percentage,
  type Row,
  row,
  rowsOf,
  slashed,
  wordRow,
} from './order-rows.ts';

export function spring(page: OrderPage): Block[] {
  return [
    ...orderBlock(page, '4 Spring and bump stop', [...springRows(page), ...stopRows(page)]),
    ...stopTable(page),
  ];
}

function springRows({ sized, paper, isBought }: OrderPage): Row[] {
  const { spring, input, figure } = sized;
  if (spring === null) return [row('spring', null)];
  const { order = {}, helper } = input.sizing ?? {};
  const { name, rate, freeLength, solidLength, innerDiameter, minLength, minLengthSource } = spring;
  const isListed = name !== '' && minLengthSource !== 'wire';
  const value = (of: number | null, quantity: Quantity) =>
    known(of, (one) => (isListed ? paper.givenCells(one, quantity) : paper.cells(one, quantity)));
  const figureCells = (of: AxleFigureName, quantity: Quantity) =>
    known(figure(of).value, (one) => paper.cells(one, quantity));
  const tolerance =
    isBought && order.rateTolerance === undefined ? '' : ` ${percentage(order.rateTolerance)}`;
  const preload = figure('preload').value;
  const isMinKnown = minLengthSource === 'given' || minLengthSource === 'wire';
  return [
    row(
      name === '' ? 'spring rate' : `spring "${name}": rate`,
      known(value(rate, 'rate'), ([own, other]): Cells => [`${own}${tolerance}`, other]),
    ),
    row('free length', value(freeLength, 'length')),
    row('inner diameter', value(innerDiameter, 'length')),
    row('solid length', value(solidLength, 'length')),
    row('minimum permissible length', isMinKnown ? value(minLength, 'length') : null),
    ...(helper === undefined
      ? []
      : [
          row('helper spring: rate', paper.givenCells(helper.rate, 'rate')),
          row(
            'helper: free / solid length',
            slashed(
              paper.givenCells(helper.freeLength, 'length'),
              paper.givenCells(helper.solidLength, 'length'),
            ),
          ),
          ...rowsOf(helper.separatorHeight, (mm) =>
            row('separator between the springs', paper.givenCells(mm, 'length')),
          ),
        ]),
    preload !== null && preload < 0
      ? row('loose at full extension, by', paper.cells(-preload, 'length'))
      : row(
          'preload at full extension',
          joined(
            known(preload, (mm) => paper.finerCells(mm, 'length')),
            figureCells('preloadForce', 'force'),
          ),
        ),
    row(
      'spring length at ride height',
      paper.cellsOf((of) => printedSpringLength(sized, of), 'length'),
    ),
    row('spring travel at full bump', figureCells('springTravelRequired', 'length')),
    wordRow('spring: supplied by', order.springSupplier),
  ];
}

function stopRows({ sized: { input }, paper }: OrderPage): Row[] {
  const stop = input.limits.bumpStop;
  if (stop === undefined) return [row('bump stop', null)];
  const [height, solid] = [stop.height, stop.solidHeight].map((mm) => paper.givenCells(mm, 'length'));
  return [
    row('bump stop: free / solid height', slashed(height, solid)),
    wordRow('bump stop: supplied by', input.sizing?.order?.bumpStopSupplier),
  ];
}

function stopTable({ sized: { input }, paper: { units, unit, number, givenCells } }: OrderPage): Block[] {
  const points = input.sizing?.bumpStopTable ?? [];
  if (input.limits.bumpStop === undefined || points.length === 0) return [];
  const [own, other] = units;
  const line = (name: string, quantity: Quantity, cells: readonly Cells[]) => [
    `${name}, ${unit(quantity, own)} (${unit(quantity, other)})`,
    ...cells.map(([given, converted]) => `${given} (${converted})`),
  ];
  const compressions = points.map(([mm]): Cells => {
    const [given, converted] = givenCells(mm, 'length').map(bare);
    return [given, converted];
  });
  const forces = points.map(
    ([, force]): Cells => [number(force, 'force', own), number(force, 'force', other)],
  );
  return [
    {
      kind: 'table',
      head: [],
      rows: [line('compression', 'length', compressions), line('force', 'force', forces)],
      figures: points.map((_, k) => k + 1),
      label: 'Bump stop: force at compression',
    },
  ];
}
