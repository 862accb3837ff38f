// Block 6 of the order: what the maker must know of the car.

import { hardestCase } from '../../coilover/forces/corner-forces.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import type { LimitCause } from '../../corner/limits/limits.ts';
import type { Quantity } from '../../units.ts';
import type { Block } from './blocks.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import { ratiosOf } from './order-data.ts';
import {
  known,
  type OrderPage,
  orderBlock,
  type Row,
  ranged,
  row,
  rowsOf,
  slashed,
  wordRow,
} from './order-rows.ts';

export function car(page: OrderPage): Block[] {
  return [...orderBlock(page, '6 Car', carRows(page)), ...travels(page)];
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
    wordRow('installation ratio (shock ÷ wheel)', atRide),
    ...(droop === null && bump === null
      ? []
      : [wordRow('installation ratio at full droop / full bump', `${atDroop} / ${atBump}`)]),
    row('mass on left / right wheel', left === null || right === null ? null : slashed(left, right)),
    row('sprung mass of a corner', cells('sprungMass', 'mass')),
    ...(isUncertain
      ? [row('sprung mass, 95 % interval', ranged(paper.cells(lower, 'mass'), paper.cells(upper, 'mass')))]
      : []),
    row(`wheel rate at ${where}`, cells('wheelRate', 'rate')),
    row(
      'frequency, suspension alone / with the tyre',
      alone === null ? null : slashed(alone, withTyre ?? ['– Hz', '']),
    ),
    row(
      'maximum axial force',
      known(largest, ({ shock }) => paper.cells(shock.total, 'force')),
    ),
    ...rowsOf(largest, ({ name }) => wordRow('load case', name)),
  ];
}

/** What the wheel's travel meets, in the order of the table. */
const MET: readonly (readonly [cause: LimitCause | 'bumpStopContact', words: string])[] = [
  ['bumpStopContact', 'bump: stop in contact'],
  ['bumpStopSolid', 'bump: stop solid'],
  ['damperCompressed', 'bump: damper compressed'],
  ['damperExtended', 'droop: damper extended'],
];

/** Wheel travel from ride height to what damper and bump stop meet, with the coilover's length there. */
function travels({ sized: { limits }, paper }: OrderPage): Block[] {
  const { bump, droop, later, events } = limits;
  const rows = MET.flatMap(([cause, words]) => {
    const met = [bump, droop, ...later, ...events].find((one) =>
      one === null ? false : 'event' in one ? one.event === cause : one.cause === cause,
    );
    const length = met?.diagnostic.values.length;
    return met == null || typeof length !== 'number'
      ? []
      : [[words, paper.both(Math.abs(met.travel), 'length'), paper.both(length, 'length')]];
  });
  return rows.length === 0
    ? []
    : [
        {
          kind: 'table',
          head: ['from ride height, in', 'wheel travel', 'eye to eye'],
          rows,
          figures: [],
          label: 'Wheel travel from ride height, with the length of the coilover',
          spans: true,
        },
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
