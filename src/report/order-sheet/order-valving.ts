// Block 5 of the order: the force of the damper at its shaft speeds, with its gas.

import {
  COMPRESSION_FRACTION,
  type DampingRow,
  isSplitAssumed,
  kneeOf,
} from '../../coilover/sizing/damping.ts';
import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import { isAdjustable, isGasAssumed } from '../../coilover/sizing/unsettled.ts';
import { axleName } from '../../corner/axles.ts';
import type { UncertainNumber } from '../../document/inputs.ts';
import { certain } from '../../document/uncertain.ts';
import { fromMetric, type Quantity, type Units } from '../../units.ts';
import { printed } from '../text.ts';
import { type Block, heading, paragraph } from './blocks.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import {
  bare,
  known,
  type OrderPage,
  percentage,
  type Row,
  row,
  rowsOf,
  rowTable,
  slashed,
  wordRow,
} from './order-rows.ts';
import { valvingCurve } from './valving-curve.ts';

/** Rows of the force table at most; more are thinned evenly, and the knee kept. */
const ROWS = 9;
/** Forces below so much are printed with a decimal: those in lbf and those in N agree, and a tolerance of a tenth outweighs rounding. */
const SMALL: Readonly<Record<Units, number>> = { imperial: 100, metric: 20 };

/** What stands for the two fractions: `40 : 60`. */
const ASSUMED_SPLIT = [COMPRESSION_FRACTION, 1 - COMPRESSION_FRACTION]
  .map((fraction) => (100 * fraction).toFixed(0))
  .join(' : ');

export function valving(page: OrderPage): Block[] {
  return [heading(2, '5 Valving'), ...forces(page), rowTable(page, 'Valving', valvingRows(page))];
}

/** Curve and table side by side. */
function forces(page: OrderPage): Block[] {
  const { sized, paper, unknown } = page;
  const { input, dampingTable } = sized;
  if (dampingTable.length === 0) return [paragraph(`Forces: ${unknown}. ${gasWords(page)}`)];
  const { damping }: CornerSizing = certain(input.sizing ?? {});
  const bought = input.ordered?.valving;
  const { units, unit, number, givenCells } = paper;
  const [own, other] = units;
  const given = ([mine, converted]: Cells) => `${bare(mine)} (${bare(converted)})`;
  const isMeasured = bought?.forceTable !== undefined;
  const forced = (newtons: number) => {
    const [mine, converted] = units.map((of) => forceIn(newtons, of, number));
    return isMeasured ? given([givenCells(newtons, 'force')[0], converted]) : `${mine} (${converted})`;
  };
  const knee = kneeOf(input);
  const speedOf = ({ speed }: DampingRow) =>
    `${speed === knee?.speed ? 'knee ' : ''}${given(givenCells(speed, 'shaftSpeed'))}`;
  const head = (name: string, quantity: Quantity) =>
    `${name}, ${unit(quantity, own)}\u00a0(${unit(quantity, other)})`;
  const target =
    bought === undefined && damping !== undefined
      ? [`target damping ratio ${damping.ratio} at ride height`]
      : [];
  const mark = page.isBought ? '' : ' *';
  const split = isSplitAssumed(sized) ? [`compression to rebound ${ASSUMED_SPLIT}, assumed${mark}`] : [];
  const title = `${axleName(sized.axle)}: damper force at each shaft speed`;
  const rows = thinned(dampingTable, ({ speed }) => speed === knee?.speed);
  return [
    {
      kind: 'columns',
      columns: [
        [{ kind: 'picture', title, ...valvingCurve(dampingTable, title, paper) }],
        [
          {
            kind: 'table',
            head: [head('speed', 'shaftSpeed'), head('compression', 'force'), head('rebound', 'force')],
            rows: rows.map((one) => [speedOf(one), forced(one.compression), forced(one.rebound)]),
            figures: [0, 1, 2],
            label: title,
          },
        ],
      ],
    },
    paragraph(`${['Without gas force and friction', ...target, ...split].join('; ')}. ${gasWords(page)}`),
  ];
}

function valvingRows(page: OrderPage): Row[] {
  const { sized, paper } = page;
  const { input, dampingTable } = sized;
  const { gas, order = {} }: CornerSizing = certain(input.sizing ?? {});
  const { forceTolerance } = order;
  return [
    ...(dampingTable.length === 0
      ? []
      : [
          wordRow(
            'tolerance of forces',
            forceTolerance === undefined ? null : `${percentage(forceTolerance)} of each force`,
          ),
          ...(isAdjustable(order) ? [wordRow('table at adjuster setting', order.adjusterSetting)] : []),
        ]),
    ...slopeRows(page),
    row('gas force at ride height', gas === undefined ? null : gasForce(page)),
    ...rowsOf(input.sizing?.gas?.pressure, (pressure) =>
      row('gauge pressure there, cold', withInterval(pressure, page)),
    ),
    row(
      'shaft diameter',
      known(gas?.shaftDiameter, (mm) => paper.givenCells(mm, 'length')),
    ),
  ];
}

/** What the gas force is counted in, and who chooses it. */
function gasWords({ sized: { input }, isBought }: OrderPage): string {
  const { gas } = input.sizing ?? {};
  if (gas === undefined) return isBought ? '' : 'Spring loads leave the gas force out: to be agreed.';
  const counted = 'Spring loads allow for the gas force below, taken as constant through the stroke';
  if (isBought) return `${counted}.`;
  if (isGasAssumed(input)) return `${counted}: an assumption, to be agreed.`;
  return typeof gas.pressure === 'number'
    ? `${counted}: charge to its pressure.`
    : `${counted}: the maker chooses the charge within its range.`;
}

/** The gas force, with its range; one that is an assumption is said to be one. */
function gasForce({ sized: { figure, input }, paper, isBought }: OrderPage): Cells | null {
  const { value, lower, upper } = figure('gasForce');
  if (value === null) return null;
  const [own, other] = paper.cells(value, 'force');
  const assumed = !isBought && isGasAssumed(input) ? ', assumed *' : '';
  if (lower === null || upper === null || lower === upper) return [`${own}${assumed}`, `${other}${assumed}`];
  const [low, high] = [paper.cells(lower, 'force'), paper.cells(upper, 'force')];
  return [
    `${own} (${bare(low[0])} to ${bare(high[0])})${assumed}`,
    `${other} (${bare(low[1])} to ${bare(high[1])})${assumed}`,
  ];
}

/** Slopes of the force below and above the knee, and the knee; where no knee is given, that there is none. */
function slopeRows({ sized: { figure, dampingTable, input }, paper, isBought }: OrderPage): Row[] {
  const knee = kneeOf(input);
  const [compression, rebound] = [figure('compressionDamping').value, figure('reboundDamping').value];
  const slopes = (times: number) =>
    compression === null || rebound === null
      ? null
      : slashed(paper.cells(times * compression, 'damping'), paper.cells(times * rebound, 'damping'));
  const low = row('low-speed slope, comp. / reb.', slopes(1));
  if (knee !== null) {
    return [low, row('high-speed slope, comp. / reb.', slopes(knee.highSpeedFraction))];
  }
  const last = dampingTable.at(-1)?.speed;
  if (last === undefined || input.ordered?.valving?.forceTable !== undefined) return [low];
  return [
    low,
    wordRow('knee', `none given${isBought ? '' : ' *'}; linear to ${paper.given(last, 'shaftSpeed')}`),
  ];
}

/** A pressure of the file, with its 95 % interval where it is an estimate. */
function withInterval(pressure: number | UncertainNumber, { paper: { givenCells } }: OrderPage): Cells {
  if (typeof pressure === 'number') return givenCells(pressure, 'pressure');
  const { value, plusMinus } = pressure;
  const [own, other] = givenCells(value, 'pressure');
  const [low, high] = [value - plusMinus, value + plusMinus].map((bar) => givenCells(bar, 'pressure'));
  return [`${own} (${bare(low[0])} to ${bare(high[0])})`, `${other} (${bare(low[1])} to ${bare(high[1])})`];
}

/** A force as a number in a unit, with a decimal where it is small. */
function forceIn(newtons: number, units: Units, number: OnPaper['number']): string {
  const value = fromMetric(newtons, 'force', units);
  return Math.abs(value) < SMALL[units] ? printed(value.toFixed(1)) : number(newtons, 'force', units);
}

/** So many of some rows at most, evenly: the first, the last and those to be kept among them. */
function thinned<T>(rows: readonly T[], isKept: (row: T) => boolean): readonly T[] {
  if (rows.length <= ROWS) return rows;
  const most = ROWS - rows.filter(isKept).length;
  const even = new Set(
    Array.from({ length: most }, (_, k) => Math.round((k * (rows.length - 1)) / (most - 1))),
  );
  return rows.filter((row, k) => even.has(k) || isKept(row));
}
