// Block 3 of the order: the body with its perch, and what can be adjusted.

import type { CornerSizing } from '../../coilover/sizing/inputs.ts';
import type { PerchLimitCause } from '../../coilover/sizing/perch.ts';
import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { ENDS, holdOf } from '../../coilover/sizing/unsettled.ts';
import { strutOf } from '../../corner/corner.ts';
import { certain } from '../../document/uncertain.ts';
import type { Block } from './blocks.ts';
import { paragraph } from './blocks.ts';
import { endNames } from './end-names.ts';
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
import { isLying, standOf } from './unit-stand.ts';

export function body(page: OrderPage): Block[] {
  const { sized, paper, isBought } = page;
  const { input } = sized;
  const { order = {}, perch = {} } = input.sizing ?? {};
  const { unitMass }: CornerSizing = certain(input.sizing ?? {});
  const size = (value: number | undefined) => known(value, (mm) => paper.givenCells(mm, 'length'));
  const [low, high] = [size(perch.min), size(perch.max)];
  const isStrut = strutOf(input.corner) !== null;
  return [
    ...orderBlock(page, '3 Body', [
      wordRow('position', position(page)),
      row('body diameter inside the spring', size(order.bodyDiameter)),
      row('maximum spring outer diameter', size(order.maxSpringOuterDiameter)),
      ...rowsOf(size(order.springClearance), (cells) => row('clearance, spring to body', cells)),
      perchSetting(page),
      row('perch setting, range', low === null || high === null ? null : ranged(low, high)),
      ...usableRange(page),
      seats(page),
      row('perch thread pitch', size(perch.threadPitch)),
      order.lengthAdjustment === 0
        ? wordRow('length adjustment', 'none: the perch only')
        : row('length adjustment', size(order.lengthAdjustment)),
      wordRow('adjusters', order.adjusters),
      wordRow('reservoir', order.reservoir),
      ...rowsOf(unitMass?.new, (mass) =>
        row(`mass with spring${isBought ? '' : ', expected'}`, paper.givenCells(mass, 'mass')),
      ),
    ]),
    paragraph(
      [
        `Perch setting = ${isStrut ? 'length' : 'eye to eye'} − spring length, at ride height.`,
        ...(isLevelled(page)
          ? ['For the mean of left and right; the builder levels the car with the perches.']
          : []),
      ].join(' '),
    ),
  ];
}

/** Whether left and right wheel carry different masses, as they are printed. */
function isLevelled({ sized: { figure }, paper }: OrderPage): boolean {
  const [left, right] = [figure('leftWheelMass').value, figure('rightWheelMass').value];
  return left !== null && right !== null && paper.both(left, 'mass') !== paper.both(right, 'mass');
}

/** Which end the body is at. */
function position({ sized }: OrderPage): string | null {
  if (strutOf(sized.input.corner) !== null) return 'strut: body down';
  const bodyEnd = sized.input.sizing?.order?.bodyEnd;
  if (bodyEnd === undefined) return null;
  if (!isLying(sized)) return bodyEnd === 'up' ? 'body up, shaft down' : 'body down, shaft up';
  const [chassis, moving] = endNames(sized);
  const [bodyAt, shaftAt] =
    (bodyEnd === 'up') === standOf(sized).chassisUp ? [chassis, moving] : [moving, chassis];
  return `body at the ${bodyAt}, shaft at the ${shaftAt}`;
}

function perchSetting({ sized: { figure, spring }, paper }: OrderPage): Row {
  const setting = figure('perchSetting').value;
  if (setting === null)
    return wordRow('perch setting', spring === null ? null : 'follows from the free length');
  return row('perch setting', paper.cells(setting, 'length'));
}

/** What ends the usable range of a perch. */
const ENDED_BY: Readonly<Record<PerchLimitCause, string>> = {
  thread: 'end of range',
  droopTravel: 'droop travel short',
  springMinLength: 'spring at minimum length',
  springSolid: 'spring solid',
  bumpTravel: 'bump travel short',
  springLoose: 'spring loose',
};

/** For the mean of both sides. */
const USABLE = 'perch setting, usable';

/** Settings at which travel and spring are right, and what is not below and above them. */
function usableRange({ sized: { perch }, paper }: OrderPage): Row[] {
  if (perch === null) return [];
  const { usable, limits } = perch;
  // Sorted by setting: the highest of the lower ends, and the lowest of the upper ones.
  const [low, high] = [
    limits.filter(({ end }) => end === 'min').at(-1),
    limits.find(({ end }) => end === 'max'),
  ];
  const ends = [low, high].map((one) => (one === undefined ? '–' : ENDED_BY[one.cause]));
  return [
    usable === null
      ? wordRow(USABLE, 'none')
      : row(USABLE, ranged(paper.cells(usable.min, 'length'), paper.cells(usable.max, 'length'))),
    wordRow('below / above that', ends.join(' / ')),
  ];
}

/** The two distances that make up the perch setting. */
function seats({ sized, paper, isBought }: OrderPage): Row {
  const given = sized.input.ordered?.perch?.seatDistances;
  const [chassis, moving] = endNames(sized);
  if (given === undefined) {
    const ends = isEyes(sized.input) ? 'eye centre' : 'end';
    return wordRow(`${ends} to seat, each end`, isBought ? null : 'maker’s choice; sum = perch setting');
  }
  const [from, to] = [given.mount, given.chassis].map((mm) => paper.givenCells(mm, 'length'));
  return row(`seat from ${moving} / ${chassis}`, slashed(from, to));
}

/** Whether lengths go from bolt to bolt. */
function isEyes(input: AxleSizing['input']): boolean {
  return ENDS.every((end) => holdOf(input, end) === 'bolt');
}
