// Block 4 of the order: spring, helper and bump stop.

import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { Quantity } from '../../units.ts';
import { printedMargin, printedSpringLength } from '../margins.ts';
import type { Block } from './blocks.ts';
import type { Cells } from './on-paper.ts';
import { designSpringForce } from './order-loads.ts';
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
    ...orderBlock(page, '4 Spring and bump stop', [...springRows(page), ...stopRows(page), supplied(page)]),
    ...stopTable(page),
  ];
}

function springRows(page: OrderPage): Row[] {
  const { sized, paper, isBought, unknown } = page;
  const { spring, input, figure } = sized;
  if (spring === null) return [row('spring', null)];
  const { order = {}, helper } = input.sizing ?? {};
  const { name, rate, freeLength, solidLength, innerDiameter, outerDiameter, minLength, minLengthSource } =
    spring;
  const isListed = name !== '' && minLengthSource !== 'wire';
  const value = (of: number | null, quantity: Quantity) =>
    known(of, (one) => (isListed ? paper.givenCells(one, quantity) : paper.cells(one, quantity)));
  const figureCells = (of: AxleFigureName, quantity: Quantity) =>
    known(figure(of).value, (one) => paper.cells(one, quantity));
  const tolerance =
    isBought && order.rateTolerance === undefined ? '' : ` ${percentage(order.rateTolerance)}`;
  const preload = figure('preload').value;
  return [
    row(
      name === '' ? 'spring rate' : `spring "${name}": rate`,
      known(value(rate, 'rate'), ([own, other]): Cells => [`${own}${tolerance}`, other]),
    ),
    row('free length', value(freeLength, 'length')),
    row('inner diameter', value(innerDiameter, 'length')),
    ...rowsOf(value(outerDiameter, 'length'), (cells) => row('outer diameter', cells)),
    // The spring's maker can say it until delivery where the minimum permissible length is known.
    row('solid length', value(solidLength, 'length') ?? (minLength === null ? null : [unknown, ''])),
    minimum(page, value),
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
            known(preload, (mm) => paper.cells(mm, 'length')),
            figureCells('preloadForce', 'force'),
          ),
        ),
    atRideHeight(page),
    ...atFullBump(page),
  ];
}

/** The minimum permissible length; one that is no more than an estimate is said to be one. */
function minimum(
  { sized: { spring }, paper, isBought }: OrderPage,
  value: (of: number | null, quantity: Quantity) => Cells | null,
): Row {
  const label = 'minimum permissible length';
  const { minLength = null, minLengthSource = null } = spring ?? {};
  if (minLength === null || minLengthSource === 'given' || minLengthSource === 'wire') {
    return row(label, value(minLength, 'length'));
  }
  const taken = `taken as ${paper.both(minLength, 'length')}`;
  return wordRow(label, isBought ? taken : `${taken}; spring maker confirms`);
}

/** Length of the spring at design ride height, and the force that it has there. */
function atRideHeight({ sized, paper }: OrderPage): Row {
  const label = 'spring length at ride height';
  const { figure, spring, input } = sized;
  const force = designSpringForce(sized);
  const load = known(force, (newtons) => paper.cells(newtons, 'force'));
  const length = paper.cellsOf((of) => printedSpringLength(sized, of, paper.rounding), 'length');
  if (length !== null) return row(label, joined(length, load));
  const compression = figure('staticSpringCompression').value;
  if (spring === null || compression === null) return row(label, null);
  if (input.sizing?.helper !== undefined) return wordRow(label, 'follows from the free length');
  const [own, other] = paper.cells(compression, 'length');
  return row(label, joined([`free length − ${own}`, `free length − ${other}`], load));
}

/** Compression at the bump limit, with the upper end of its interval, which the spring must have too. */
function atFullBump({ sized: { figure, spring, input }, paper }: OrderPage): Row[] {
  const { value, upper } = figure('springTravelRequired');
  const cells = (mm: number) => paper.cells(mm, 'length');
  const free = input.sizing?.helper === undefined ? (spring?.freeLength ?? null) : null;
  const length =
    value === null || free === null
      ? null
      : paper.cellsOf((of) => printedMargin(value, free, of, paper.rounding), 'length');
  return [
    row('spring travel, free to full bump', known(value, cells)),
    ...rowsOf(length, (at) => row('spring length at full bump', at)),
    ...(upper === value ? [] : rowsOf(upper, (mm) => row('spring travel, at most (95 %)', cells(mm)))),
  ];
}

function stopRows({ sized: { input }, paper }: OrderPage): Row[] {
  const stop = input.limits.bumpStop;
  if (stop === undefined) return [row('bump stop', null)];
  const [height, solid] = [stop.height, stop.solidHeight].map((mm) => paper.givenCells(mm, 'length'));
  return [row('bump stop: free / solid height', slashed(height, solid))];
}

/** Who supplies spring and bump stop. */
function supplied({ sized: { input }, unknown }: OrderPage): Row {
  const { springSupplier = unknown, bumpStopSupplier = unknown } = input.sizing?.order ?? {};
  if (springSupplier === bumpStopSupplier) return wordRow('spring, bump stop: supplied by', springSupplier);
  return wordRow('spring / bump stop: supplied by', `${springSupplier} / ${bumpStopSupplier}`);
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
