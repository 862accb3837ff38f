// One ruler of wheel travel: what is required, what is available, and each limit and event where it stands.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { numberIn, type Units } from '../../units.ts';
import { type Attributes, type Element, element, line, svgDocument, text } from '../svg.ts';
import { textWidth } from '../text.ts';
import { beyondFirst } from './later-limits.ts';
import { limitWords } from './limit-words.ts';
import { FONT, THIN, travelAxis, WIDTH } from './travel-axis.ts';

const LINE = 15;
/** Kept free for the names of the bars, and for the unit at the right end. */
const LEFT = 84;
const RIGHT = 100;
const BAR = 14;
/** Travel shown on a side that nothing ends, mm. */
const FREE = 60;

export const LEADER: Attributes = { stroke: '#555', 'stroke-width': 0.6 };

/** A mark on a ruler: mm, bump +. */
export interface Mark {
  readonly travel: number;
  readonly words: string;
}

/** What a ruler shows: its range, what is required and available from droop to bump, and its marks from droop to bump; mm. */
export interface Ruler {
  readonly from: number;
  readonly to: number;
  readonly required: readonly [droop: number | null, bump: number | null];
  readonly available: readonly [droop: number, bump: number];
  readonly marks: readonly Mark[];
}

/** The ruler of an axle as data; null where neither a limit nor a requirement is known. */
export function rulerOf(sized: AxleSizing, units: Units): Ruler | null {
  const { limits, travelRequirement: required } = sized;
  const [droop, bump] = [limits.droop?.travel ?? null, limits.bump?.travel ?? null];
  if (droop === null && bump === null && required.bump === null) return null;
  const marks = marksOf(sized, units);
  const all = [
    droop ?? -FREE,
    bump ?? FREE,
    required.droop ?? 0,
    required.bump ?? 0,
    ...marks.map((one) => one.travel),
  ];
  const [from, to] = [Math.min(...all), Math.max(...all)];
  return {
    from,
    to,
    required: [required.droop, required.bump],
    available: [droop ?? from, bump ?? to],
    marks,
  };
}

/** The ruler of an axle; null where neither a limit nor a requirement is known. */
export function travelRuler(sized: AxleSizing, title: string, units: Units): string | null {
  const ruler = rulerOf(sized, units);
  if (ruler === null) return null;
  const { from, to, required, available, marks } = ruler;
  // As wide as leaves room for the words of every mark.
  const width = Math.min(
    WIDTH - LEFT - RIGHT,
    ...marks.map(
      ({ travel, words }) =>
        (WIDTH - LEFT - 4 - textWidth(words, FONT)) / Math.max(1e-9, (travel - from) / (to - from)),
    ),
  );
  const x = (mm: number) => LEFT + (width * (mm - from)) / (to - from);
  const top = 8;
  const axis = top + 2 * (BAR + 6) + 6;
  const bar = (
    name: string,
    k: number,
    ends: readonly [number | null, number | null],
    look: Attributes,
  ): Element[] => {
    const y = top + k * (BAR + 6);
    const [low, high] = ends;
    return [
      text(name, [LEFT - 8, y + 11], { 'font-size': FONT, 'text-anchor': 'end' }),
      ...(low === null || high === null
        ? [text('not known', [LEFT, y + 11], { 'font-size': FONT })]
        : [element('rect', { x: x(low), y, width: Math.max(0, x(high) - x(low)), height: BAR, ...look })]),
    ];
  };
  const placed = lanes(marks, x);
  const lowest = Math.max(0, ...placed.map(({ lane }) => lane));
  const laneY = (lane: number) => axis + 34 + lane * LINE;
  return svgDocument({
    width: WIDTH,
    height: laneY(lowest) + 8,
    title,
    content: [
      ...bar('required', 0, required, { fill: '#ddd', ...THIN }),
      ...bar('available', 1, available, { fill: '#999', ...THIN }),
      ...travelAxis(x, [from, to], axis, units, 26),
      ...placed.flatMap(({ travel, words, lane }): Element[] => [
        line([x(travel), required[1] === null ? top + BAR + 2 : top - 4], [x(travel), axis], {
          ...LEADER,
          'stroke-dasharray': '2 2',
        }),
        line([x(travel), axis + 19], [x(travel), laneY(lane)], LEADER),
        text(words, [x(travel) + 3, laneY(lane)], { 'font-size': FONT }),
      ]),
    ],
  });
}

/** What stands on the ruler, from left to right. */
function marksOf({ limits, loadStates }: AxleSizing, units: Units): Mark[] {
  const { bump, droop, events } = limits;
  const value = (mm: number) => `${mm > 0 ? '+' : ''}${numberIn(mm, 'length', units)}`;
  const mark = (travel: number, words: string): Mark => ({ travel, words: `${words} ${value(travel)}` });
  const beyond = (['bump', 'droop'] as const).flatMap((side) => beyondFirst(limits, side, units));
  return [
    { travel: 0, words: 'design ride height' },
    ...[bump, droop].flatMap((limit) =>
      limit === null ? [] : [mark(limit.travel, `${limitWords(limit)}: limit`)],
    ),
    ...beyond.map((limit) => mark(limit.travel, limitWords(limit))),
    ...events.map(({ travel, event }) =>
      mark(travel, event === 'bumpStopContact' ? 'bump stop contact' : event),
    ),
    ...loadStates.flatMap(({ design, name, staticTravel }) =>
      design || staticTravel === null ? [] : [mark(staticTravel, `"${name}"`)],
    ),
  ].sort((a, b) => a.travel - b.travel);
}

/** Each mark in a lane of its own height where its words meet neither other words nor a leader: from right to left, ever lower. */
function lanes(marks: readonly Mark[], x: (mm: number) => number): (Mark & { readonly lane: number })[] {
  const placed: (Mark & { readonly lane: number })[] = [];
  for (const mark of [...marks].reverse()) {
    const end = x(mark.travel) + 9 + textWidth(mark.words, FONT);
    const below = placed.filter((other) => x(other.travel) < end).map(({ lane }) => lane);
    placed.push({ ...mark, lane: below.length === 0 ? 0 : Math.max(...below) + 1 });
  }
  return placed;
}
