// Block 5 of the order: the force of the damper at its shaft speeds, with its gas.

import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import type { AxleFigureName } from '../../coilover/sizing/numbers.ts';
import { isAdjustable } from '../../coilover/sizing/unsettled.ts';
import { axleName } from '../../corner/axles.ts';
import { certain } from '../../document/uncertain.ts';
import type { Quantity } from '../../units.ts';
import { type Block, heading, paragraph } from './blocks.ts';
import {
  joined,
  known,
  type OrderPage,
  percentage,
  type Row,
  row,
  rowsOf,
  rowTable,
  wordRow,
} from './order-rows.ts';
import { valvingCurve } from './valving-curve.ts';

/** Rows of the force table at most; more are thinned evenly. */
const ROWS = 6;
/** The same of speeds that the file gives. */
const GIVEN_ROWS = 9;

export function valving(page: OrderPage): Block[] {
  return [heading(2, '5 Valving'), ...forces(page), rowTable(page, 'Valving', valvingRows(page))];
}

/** Curve and table side by side. */
function forces({ sized, paper, unknown }: OrderPage): Block[] {
  const { input, dampingTable } = sized;
  if (dampingTable.length === 0) return [paragraph(`Forces: ${unknown}.`)];
  const { damping }: CornerSizing = certain(input.sizing ?? {});
  const bought = input.ordered?.valving;
  const { units, unit, number } = paper;
  const [own, other] = units;
  const pair = (value: number, quantity: Quantity) =>
    `${number(value, quantity, own)} (${number(value, quantity, other)})`;
  const head = (name: string, quantity: Quantity) =>
    `${name}, ${unit(quantity, own)} (${unit(quantity, other)})`;
  const target =
    bought === undefined && damping !== undefined
      ? [`target damping ratio ${damping.ratio} at ride height`]
      : [];
  const isGiven = damping?.shaftSpeeds !== undefined || bought?.forceTable !== undefined;
  const title = `${axleName(sized.axle)}: damper force at each shaft speed`;
  const rows = thinned(dampingTable, isGiven ? GIVEN_ROWS : ROWS);
  return [
    {
      kind: 'columns',
      columns: [
        [{ kind: 'picture', title, ...valvingCurve(dampingTable, title, paper) }],
        [
          {
            kind: 'table',
            head: [head('speed', 'shaftSpeed'), head('compression', 'force'), head('rebound', 'force')],
            rows: rows.map(({ speed, compression, rebound }) => [
              pair(speed, 'shaftSpeed'),
              pair(compression, 'force'),
              pair(rebound, 'force'),
            ]),
            figures: [0, 1, 2],
            label: title,
          },
        ],
      ],
    },
    paragraph(`${['Forces without gas force and friction', ...target].join('; ')}.`),
  ];
}

function valvingRows({ sized, paper }: OrderPage): Row[] {
  const { input, figure, dampingTable } = sized;
  const { damping, gas, order = {} }: CornerSizing = certain(input.sizing ?? {});
  const bought = input.ordered?.valving;
  const knee = bought === undefined ? damping?.kneeSpeed : bought.kneeSpeed;
  const figureCells = (of: AxleFigureName, quantity: Quantity) =>
    known(figure(of).value, (one) => paper.cells(one, quantity));
  const { forceTolerance } = order;
  return [
    ...(dampingTable.length === 0
      ? []
      : [
          wordRow('tolerance of forces', forceTolerance === undefined ? null : percentage(forceTolerance)),
          ...(isAdjustable(order) ? [wordRow('table at adjuster setting', order.adjusterSetting)] : []),
        ]),
    row('low-speed compression', figureCells('compressionDamping', 'damping')),
    row('low-speed rebound', figureCells('reboundDamping', 'damping')),
    ...rowsOf(knee, (speed) => row('knee at', paper.givenCells(speed, 'shaftSpeed'))),
    row(
      `${gas?.pressure === undefined ? 'gas force' : 'gas force, pressure'} at ride height`,
      gas === undefined
        ? null
        : joined(
            figureCells('gasForce', 'force'),
            known(gas.pressure, (bar) => paper.givenCells(bar, 'pressure')),
          ),
    ),
    row(
      'shaft diameter',
      known(gas?.shaftDiameter, (mm) => paper.givenCells(mm, 'length')),
    ),
  ];
}

/** So many of some rows at most, the first and the last among them. */
function thinned<T>(rows: readonly T[], most: number): readonly T[] {
  if (rows.length <= most) return rows;
  return Array.from({ length: most }, (_, k) => rows[Math.round((k * (rows.length - 1)) / (most - 1))]);
}
