// What stands below a drawing: scale, marks, the figures of each pose, notes.

import type { Corner } from '../corner/corner.ts';
import type { Limit, Limits } from '../corner/limits/limits.ts';
import { fromMetric, textIn, toMetric, type Units, unitName } from '../units.ts';
import { spaced } from '../words.ts';
import { shownUnit } from './in-units.ts';
import { EDGE, FAINT, joint, LINE, type Paper, pivot, SIZE, SMALL, STROKES, THIN, WIDTH } from './marks.ts';
import { POSE_WORDS, type Scene, type WheelSizes, wheelSizes } from './poses.ts';
import { type Attributes, type Element, element, line, text } from './svg.ts';
import {
  causeWords,
  describeSweepEnd,
  endMark,
  figure,
  fittingSize,
  fold,
  inBrackets,
  signedTravel,
  textWidth,
} from './text.ts';
import { roundStep } from './ticks.ts';

/** The scale bar is at least this long on the paper. */
const LEAST_BAR = 85;
/** Where the marks begin: beyond the longest scale bar. */
const MARKS = 330;
/** Columns of the table, as far as the sweep has them, and their right edges. */
const COLUMNS = ['travel', 'shockLength', 'installationRatio', 'camber'];
const FIRST_COLUMN = 270;
const COLUMN = 152;
const ROW = 20;
/** Characters in a line of notes. */
const NOTE = 112;

/** The legend from a height on the paper, and the height where it ends. */
export function legend(
  corner: Corner,
  scene: Scene,
  paper: Paper,
  options: WheelSizes & { readonly limits?: Limits; readonly units?: Units },
  top: number,
): { readonly elements: Element[]; readonly bottom: number } {
  const { limits, units = 'metric' } = options;
  const table = top + 60;
  const notes = table + scene.poses.length * ROW + 36;
  const lines = notesOn(corner, scene, options, units).flatMap((note) => fold(note, NOTE));
  return {
    elements: [
      ...scaleBar(paper, top, units),
      ...marks(top),
      ...figures(scene, table, units, limits),
      ...lines.map((note, k) => text(note, [EDGE, notes + k * LINE], { 'font-size': SMALL })),
    ],
    bottom: notes + lines.length * LINE,
  };
}

/** A bar of a length that is round in its unit, in two halves. */
function scaleBar({ scale }: Paper, middle: number, units: Units): Element[] {
  const length = roundStep(fromMetric(LEAST_BAR / scale, 'length', units));
  const width = (toMetric(length, 'length', units) * scale) / 2;
  const x = EDGE + 8;
  const half = { y: middle - 4, width, height: 8, stroke: '#000', 'stroke-width': 1 };
  const small = { 'font-size': SMALL };
  return [
    element('rect', { ...half, x }),
    element('rect', { ...half, x: x + width, fill: '#fff' }),
    ...[0, 1, 2].map((k) =>
      text(String((k * length) / 2), [x + k * width, middle + 20], { ...small, 'text-anchor': 'middle' }),
    ),
    text(
      unitName('length', units),
      [x + 2 * width + textWidth(String(length), SMALL) / 2 + 6, middle + 20],
      small,
    ),
  ];
}

/** What the marks mean. */
function marks(y: number): Element[] {
  const items: [Element[], string][] = [
    [pivot([0, 0]), 'chassis pivot'],
    [[joint([0, 0], 4.4, 1.6)], 'moving joint'],
    [[line([-12, 0], [12, 0], FAINT)], 'path of a moving point'],
  ];
  let x = MARKS;
  return items.flatMap(([mark, meaning]) => {
    const group = element('g', { transform: `translate(${x} ${y})` }, ...mark);
    const label = text(meaning, [x + 17, y + 4], { 'font-size': SMALL });
    x += 17 + textWidth(meaning, SMALL) + 34;
    return [group, label];
  });
}

/** Each pose with its line and its figures. */
function figures({ poses, swept, ends }: Scene, y: number, units: Units, limits?: Limits): Element[] {
  const columns = swept.info
    .filter(({ name }) => COLUMNS.includes(name))
    .map(({ name, unit }) => ({ name, unit: shownUnit(unit, units) }));
  const right = (k: number) => FIRST_COLUMN + COLUMN * k;
  const small: Attributes = { 'font-size': SMALL, 'text-anchor': 'end' };
  const heads = columns.map(({ name, unit }, k) =>
    text(`${spaced(name)}${inBrackets(unit.name)}`, [right(k), y], small),
  );
  const rows = poses.flatMap(({ name, travel, row }, i) => {
    const base = y + 24 + ROW * i;
    const end =
      name === 'ride' ? '' : limitMark(limits?.[name]) || (ends === null ? '' : endMark(ends[name]));
    // Drawn a hair before a dead point, where the ratio grows beyond all bounds.
    const isDead = name !== 'ride' && limits?.[name]?.cause === 'deadPoint';
    const valueAt = (column: string) => (isDead && column === 'installationRatio' ? null : row[column]);
    const room = WIDTH - EDGE - right(columns.length - 1) - 18;
    const cells = columns.map(({ name: column, unit }) => {
      if (column === 'travel') return signedTravel(unit.of(travel), unit.name);
      const value = valueAt(column);
      return figure(value === null ? null : unit.of(value), unit.name);
    });
    return [
      line([EDGE + 8, base - 4], [EDGE + 58, base - 4], STROKES[name]),
      text(POSE_WORDS[name], [EDGE + 70, base], { 'font-size': SIZE }),
      ...cells.map((cell, k) => text(cell, [right(k), base], { 'font-size': SIZE, 'text-anchor': 'end' })),
      ...(end === ''
        ? []
        : [text(end, [right(columns.length - 1) + 18, base], { 'font-size': fittingSize(end, SIZE, room) })]),
    ];
  });
  return [...heads, line([EDGE, y + 7], [WIDTH - EDGE, y + 7], { ...THIN, 'stroke-width': 0.6 }), ...rows];
}

/** What ends the travel at a pose, in a word or two. */
function limitMark(limit: Limit | null | undefined): string {
  return limit == null ? '' : causeWords(limit.cause);
}

function notesOn(corner: Corner, { model, swept, ends }: Scene, sizes: WheelSizes, units: Units): string[] {
  const { foreAftOffset } = model.shock;
  const signs = swept.info.filter(({ name, label }) => COLUMNS.includes(name) && label.includes(', '));
  const { width, rim } = wheelSizes(sizes);
  const guessed = [...(width === null ? ['tyre width'] : []), ...(rim === null ? ['rim diameter'] : [])].join(
    ' and ',
  );
  const notes: string[] = [];
  for (const side of ['bump', 'droop'] as const) {
    const end = ends?.[side];
    if (end !== undefined && end.status !== 'reached') {
      notes.push(`On the ${side} side: ${describeSweepEnd(end, units)}.`);
    }
  }
  notes.push(`Signs: ${signs.map(({ label }) => label).join('; ')}.`);
  if (swept.info.some(({ name }) => name === 'installationRatio')) {
    notes.push('Installation ratio: how far the coilover shortens ÷ how far the contact patch rises.');
  }
  if (guessed !== '') {
    notes.push(`Wheel: centre, camber and loaded radius as given; ${guessed} assumed, for the drawing only.`);
  }
  if (foreAftOffset !== 0) {
    notes.push(
      `The ends of the coilover are ${textIn(Math.abs(foreAftOffset), 'length', units)} apart fore and aft: the coilover is longer than it looks here.`,
    );
  }
  if (corner.mirrored) notes.push('Measured on the right-hand side, drawn mirrored as a left-hand corner.');
  return notes;
}
