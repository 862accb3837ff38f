// Block 6 of the order: what the maker must know of the car.

import { hardestCase } from '../../coilover/forces/corner-forces.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import type { Quantity } from '../../units.ts';
import { type Block, heading } from './blocks.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import { ratiosOf } from './order-data.ts';
import {
  known,
  type OrderPage,
  type Row,
  ranged,
  row,
  rowsOf,
  rowTable,
  slashed,
  wordRow,
} from './order-rows.ts';

/** The heading, and the rows in two tables side by side. */
export function car(page: OrderPage): Block[] {
  const rows = carRows(page);
  const half = Math.ceil(rows.length / 2);
  const tables = [rows.slice(0, half), rows.slice(half)].map((part) => [rowTable(page, 'Car', part)]);
  return [heading(2, '6 Car'), { kind: 'columns', columns: tables }];
}

function carRows({ sized, paper }: OrderPage): Row[] {
  const { figure, forces } = sized;
  const cells = (name: AxleFigureName, quantity: Quantity) =>
    known(figure(name).value, (one) => paper.cells(one, quantity));
  const [left, right] = [cells('leftWheelMass', 'mass'), cells('rightWheelMass', 'mass')];
  const [alone, withTyre] = [cells('frequency', 'frequency'), cells('frequencyWithTyre', 'frequency')];
  const { ride, droop, bump } = ratiosOf(sized);
  const [atRide, atDroop, atBump] = [ride, droop, bump].map((ratio) => ratio?.toFixed(3) ?? '–');
  const largest = forces === null ? null : hardestCase(forces.cases);
  const { lower, upper } = figure('sprungMass');
  const isUncertain = lower !== null && upper !== null && lower !== upper;
  const where = staticOffset(sized, paper) === null ? 'ride height' : 'static ride height';
  return [
    wordRow(
      'installation ratio (shock ÷ wheel)',
      droop === null && bump === null ? atRide : `${atRide}; full droop / full bump ${atDroop} / ${atBump}`,
    ),
    row('mass on left / right wheel', left === null || right === null ? null : slashed(left, right)),
    row('sprung mass of a corner', cells('sprungMass', 'mass')),
    ...(isUncertain
      ? [row('sprung mass, 95 % interval', ranged(paper.cells(lower, 'mass'), paper.cells(upper, 'mass')))]
      : []),
    row(`wheel rate at ${where}`, cells('wheelRate', 'rate')),
    wordRow(
      'frequency, suspension alone',
      alone === null ? null : `${alone[0]}${withTyre === null ? '' : `; with the tyre ${withTyre[0]}`}`,
    ),
    row(
      'maximum axial force',
      known(largest, ({ shock }) => paper.cells(shock.total, 'force')),
    ),
    ...rowsOf(largest, ({ name }) => wordRow('load case', name)),
  ];
}

/** How far an axle stands from design ride height, and its length there, as printed; null where that is nothing. */
export function staticOffset(
  { figure }: AxleSizing,
  paper: OnPaper,
): { readonly off: string; readonly way: 'lower' | 'higher'; readonly length: string } | null {
  const [travel, spring, setting] = [
    figure('staticTravel').value,
    figure('staticSpringLength').value,
    figure('perchSetting').value,
  ];
  if (travel === null || spring === null || setting === null) return null;
  const cells: Cells = paper.cells(Math.abs(travel), 'length');
  if (cells.every((cell) => Number.parseFloat(cell) === 0)) return null;
  return {
    off: paper.inOne(cells),
    way: travel > 0 ? 'lower' : 'higher',
    length: paper.both(spring + setting, 'length'),
  };
}
