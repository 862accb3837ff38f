// Block 6 of the order: what the maker must know of the car.

import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { certain } from '../../document/uncertain.ts';
import type { Quantity } from '../../units.ts';
import { type Block, heading } from './blocks.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import { ratiosOf } from './order-data.ts';
import { type MaximumAxialForce, maximumAxialForce } from './order-loads.ts';
import {
  known,
  type OrderPage,
  type Row,
  ranged,
  row,
  rowsOf,
  rowTable,
  slashed,
  sumWords,
  wordRow,
} from './order-rows.ts';
import { springsBetweenRows } from './springs-between.ts';

const MASSES = {
  estimate: 'masses estimated, not weighed',
  parts: 'masses summed from parts',
  scales: 'masses weighed',
} as const;

/** The heading, and the rows in two tables side by side. */
export function car(page: OrderPage): Block[] {
  const rows = carRows(page);
  const half = Math.ceil(rows.length / 2);
  const tables = [rows.slice(0, half), rows.slice(half)].map((part) => [rowTable(page, 'Car', part)]);
  const { massesFrom } = page;
  const masses = massesFrom === null ? '' : `: ${MASSES[massesFrom]}`;
  return [heading(2, `6 Car${masses}`), { kind: 'columns', columns: tables }];
}

function carRows({ sized, paper }: OrderPage): Row[] {
  const { figure, input } = sized;
  const cells = (name: AxleFigureName, quantity: Quantity) =>
    known(figure(name).value, (one) => paper.cells(one, quantity));
  const sizing: CornerSizing = certain(input.sizing ?? {});
  const given = (name: 'unsprungMass' | 'tyreRate', quantity: Quantity) =>
    known(sizing[name], (one) => paper.givenCells(one, quantity));
  const [left, right] = [cells('leftWheelMass', 'mass'), cells('rightWheelMass', 'mass')];
  const [alone, withTyre] = [cells('frequency', 'frequency'), cells('frequencyWithTyre', 'frequency')];
  const { ride, droop, bump } = ratiosOf(sized);
  const [atRide, atDroop, atBump] = [ride, droop, bump].map((ratio) => ratio?.toFixed(3) ?? '–');
  const largest = maximumAxialForce(sized);
  const { lower, upper } = figure('sprungMass');
  const isUncertain = lower !== null && upper !== null && lower !== upper;
  const where = staticOffset(sized, paper) === null ? 'ride height' : 'static ride height';
  return [
    wordRow(
      'installation ratio (shock ÷ wheel)',
      droop === null && bump === null ? atRide : `${atRide}; full droop / full bump ${atDroop} / ${atBump}`,
    ),
    row('mass on left / right wheel', left === null || right === null ? null : slashed(left, right)),
    row(
      left === null ? 'sprung mass of a corner' : 'sprung mass, mean of both sides',
      cells('sprungMass', 'mass'),
    ),
    ...(isUncertain
      ? [row('sprung mass, 95 % interval', ranged(paper.cells(lower, 'mass'), paper.cells(upper, 'mass')))]
      : []),
    row('unsprung mass of a corner', given('unsprungMass', 'mass')),
    barRow(sized, paper),
    row(`wheel rate at ${where}`, cells('wheelRate', 'rate')),
    ...springsBetweenRows(sized, paper),
    row('tyre rate', given('tyreRate', 'rate')),
    wordRow(
      'frequency, suspension alone',
      alone === null ? null : `${alone[0]}${withTyre === null ? '' : `; with the tyre ${withTyre[0]}`}`,
    ),
    row(
      'maximum axial force, static',
      known(largest, ({ force }) => paper.cells(force, 'force')),
    ),
    ...rowsOf(largest, (one) =>
      wordRow(
        `made up of at ${paper.cells(one.length, 'length')[0]}, ${paper.unit('force', paper.units[0])}`,
        sumWords(paper, one.parts),
      ),
    ),
    ...rowsOf(largest, (one) => wordRow('load case, no damping forces', caseWords(one))),
  ];
}

/** The anti-roll bar: its stiffness as given, or that of its drawing. */
function barRow({ input, figure }: AxleSizing, paper: OnPaper): Row {
  const { antiRollBarStiffness }: CornerSizing = certain(input.sizing ?? {});
  if (antiRollBarStiffness !== undefined)
    return row('anti-roll bar', paper.givenCells(antiRollBarStiffness, 'rollStiffness'));
  const [alone, both] = [figure('rollStiffness').value, figure('rollStiffnessWithBar').value];
  if (input.bar === undefined || alone === null || both === null)
    return wordRow('anti-roll bar', input.bar === undefined ? 'none given' : null);
  return row('anti-roll bar, at design ride height', paper.cells(both - alone, 'rollStiffness'));
}

/** A load case with what its force leaves out. */
function caseWords({ loadCase, wheelLoads, bumpStopForce }: MaximumAxialForce): string {
  const stop =
    bumpStopForce === null
      ? []
      : [bumpStopForce === 'notCounted' ? 'without that of the bump stop' : 'bump stop force extrapolated'];
  const wheel = wheelLoads === null ? [] : [`wheel load ${wheelLoads.toFixed(1)} × static`];
  return [loadCase, ...wheel, ...stop].join('; ');
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
