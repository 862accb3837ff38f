// Block 2 of the order: both ends, each with what an end of its kind has. A dash stands for what the other kind has.

import { bearingOf, ENDS, type End, type Hold, holdOf } from '../../coilover/sizing/unsettled.ts';
import { modelOf } from '../../corner/corner.ts';
import { type BearingUse, bearingUses } from '../../corner/limits/misalignment.ts';
import { fromMetric, INCH } from '../../units.ts';
import type { Block } from './blocks.ts';
import { endNames } from './end-names.ts';
import { type OrderPage, orderBlock, type Row } from './order-rows.ts';

const TYPES: Readonly<Record<string, string>> = {
  eye: 'eye',
  clevis: 'clevis',
  fork: 'clevis',
  stud: 'stud',
  clamp: 'clamped by the upright',
  weldOn: 'welded to the upright',
};
const BOLTS: Readonly<Record<string, string>> = {
  longitudinal: 'longitudinal',
  inPlane: 'transverse plane, square to coilover',
};

export function mounts(page: OrderPage): Block[] {
  const { sized, paper } = page;
  const { input } = sized;
  const ends = input.sizing?.order?.mounts ?? {};
  const [chassis, moving] = endNames(sized);
  const both = ENDS.map((end) => ({
    end,
    shape: ends[end],
    hold: holdOf(input, end),
    bearing: bearingOf(input, end),
  }));
  type Of = (typeof both)[number];
  const size = (value: number | undefined) => (value === undefined ? null : paper.given(value, 'length'));
  /** A row for ends that are held so; none where there is no such end. */
  const rows = (hold: Hold, label: string, words: (end: Of) => string | null): Row[] =>
    both.some((one) => one.hold === hold)
      ? [[label, ...both.map((one) => (one.hold === hold ? words(one) : '–'))]]
      : [];
  return orderBlock(
    page,
    '2 Mounts',
    [
      ['type', ...both.map(({ shape }) => (shape?.type === undefined ? null : TYPES[shape.type]))],
      ...rows('bolt', 'bore for the bolt', ({ shape }) => size(shape?.bore)),
      ...rows('bolt', 'width in bracket, with spacers', ({ shape }) => size(shape?.width)),
      ...(both.some(({ hold, shape }) => hold === 'bolt' && shape?.bearing !== undefined)
        ? rows('bolt', 'bearing', ({ shape }) => shape?.bearing ?? page.unknown)
        : []),
      ...rows('bolt', 'spacers', ({ shape }) => shape?.spacers ?? null),
      ...rows('nut', 'thread', ({ shape }) => size(shape?.bore)),
      ...rows('nut', 'thread pitch', ({ shape }) => pitch(shape?.threadPitch, page)),
      ...rows('nut', 'nut and bushes', ({ shape }) => shape?.fixing ?? page.unknown),
      ...rows('upright', 'diameter at the clamp', ({ shape }) =>
        shape?.type === 'weldOn' ? '–' : size(shape?.clampDiameter),
      ),
      ...(chassis === 'top mount' ? [['top bearing', '–', ends.chassis?.bearing ?? null] as const] : []),
      ...rows('bolt', 'bolt axis', ({ bearing }) => (bearing === undefined ? null : BOLTS[bearing.boltAxis])),
      ['misalignment used, either way', ...both.map(({ end, hold }) => misalignment(useOf(page, end, hold)))],
      ...rows('bolt', 'bearing rating, each side', ({ bearing }) =>
        bearing === undefined ? null : `±${bearing.maxMisalignment} deg`,
      ),
    ],
    ['', `${moving} (moves)`, chassis],
  );
}

/** What an end is turned by, from ride height: a stud has no bolt to turn on, so that it is tilted with the coilover. */
function useOf({ sized }: OrderPage, end: End, hold: Hold): BearingUse | null | undefined {
  const { bearings, limits, input } = sized;
  if (hold === 'bolt') return end === 'mount' ? bearings.mount : (bearings.chassis ?? bearings.otherEnd);
  if (hold === 'upright') return null;
  const { bump, droop } = limits;
  if (bump === null || droop === null) return undefined;
  const tilted = { [end]: { boltAxis: 'inPlane', maxMisalignment: 0 } } as const;
  return bearingUses(modelOf(input.corner), tilted, { bump: bump.travel, droop: droop.travel })[end];
}

/** Threads per inch that a pitch may be off from a whole number, by its rounding. */
const WHOLE = 0.06;

/** The pitch of a thread; in inches also as threads per inch. */
function pitch(mm: number | undefined, { paper }: OrderPage): string | null {
  if (mm === undefined) return null;
  const perInch = INCH / mm;
  const isWhole = paper.units[0] === 'imperial' && Math.abs(perInch - Math.round(perInch)) < WHOLE;
  return isWhole
    ? `${Math.round(perInch)} threads per inch (${fromMetric(mm, 'length', 'metric').toFixed(2)} mm)`
    : paper.given(mm, 'length');
}

function misalignment(use: BearingUse | null | undefined): string | null {
  if (use === undefined) return null;
  if (use === null) return '–';
  const [one, other] = [-use.misalignment.min, use.misalignment.max].map((angle) =>
    Math.max(0, angle).toFixed(1),
  );
  return one === other ? `${one} deg` : `${one} / ${other} deg`;
}
