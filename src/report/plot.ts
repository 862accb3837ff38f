// Lines in frames with ticks: panels one under the other that share their x axis, drawn from plain data. Every label stands inside its
// frame where it covers no line and no other label, or beyond the right edge at the end of its curve.

import { type Box, freest, type Segment } from './labels.ts';
import { FRAME, GRID, SIZE, SMALL, WIDTH } from './marks.ts';
import { type Attributes, type Element, element, line, type Place, RIMMED, text, through } from './svg.ts';
import { textWidth } from './text.ts';
import { ticks } from './ticks.ts';

/** A range of values. */
export interface PlotAxis {
  readonly label: string;
  readonly low: number;
  readonly high: number;
  /** About how many ticks. */
  readonly ticks: number;
}

/** The x axis that all panels share. */
export interface PlotBase extends PlotAxis {
  /** Whether numbers above 0 have a plus. */
  readonly signed?: boolean;
  /** Words below the numbers; those that would meet an earlier one are left out. */
  readonly words?: readonly { readonly at: number; readonly words: string }[];
}

/** How a line is drawn: curves are told apart by their dashes, so that a black-and-white print will do. */
export type LineStyle = keyof typeof DASHES;

/** Dashes and gaps of each style, in the thickness of the line. */
const DASHES = {
  solid: [],
  dashed: [4.5, 2.25],
  dotted: [0.05, 2.2],
  chain: [6, 2, 1, 2],
  grey: [],
} as const;

/** The styles of the curves in one panel, in their order. */
export const STYLES = Object.keys(DASHES) as readonly LineStyle[];

/** A curve through points from left to right, with gaps. */
export interface PlotCurve {
  readonly points: readonly (readonly [x: number, y: number | null])[];
  readonly style: LineStyle;
  readonly name?: string;
}

/** A thin straight line across a panel, with words beside it; without a style the words alone. */
export interface PlotLine {
  readonly at: number;
  readonly style?: LineStyle;
  readonly words?: string;
  /** Side of a vertical on which its words stand if they can; default right. */
  readonly side?: 'left' | 'right';
}

export interface PlotPanel {
  readonly y: PlotAxis;
  readonly curves: readonly PlotCurve[];
  /** Shaded from the lower edge to the upper one. */
  readonly band?: { readonly upper: readonly PlotPoint[]; readonly lower: readonly PlotPoint[] };
  readonly horizontals?: readonly PlotLine[];
  readonly verticals?: readonly PlotLine[];
  /** Ranges of x that are shaded. */
  readonly shades?: readonly (readonly [from: number, to: number])[];
  /** Points that stand out, each with a line down to the axis. */
  readonly dots?: readonly PlotPoint[];
  /** Words for a panel without a curve. */
  readonly empty?: string;
}

type PlotPoint = readonly [x: number, y: number];

/** Where panels stand on the paper. */
export interface PlotLayout {
  /** Sides of the frames. */
  readonly left: number;
  readonly right: number;
  /** Where the words above the frames begin. */
  readonly words: number;
  /** Upper edge of the words above the first frame. */
  readonly top: number;
  /** Height of a frame, and from a frame to the words above the next one. */
  readonly height: number;
  readonly between: number;
  /** Font sizes of labels and of numbers. */
  readonly size: number;
  readonly small: number;
  /** Where curves are named: beyond their right ends, or above the frame with a piece of each. */
  readonly names: 'right' | 'above';
}

/** The layout of all plots as wide as a picture. */
export const WIDE: PlotLayout = {
  left: 92,
  words: 92,
  right: WIDTH - 40,
  top: 58,
  height: 190,
  between: 20,
  size: SIZE,
  small: SMALL,
  names: 'above',
};

/** A range and its length on the paper. */
interface Scale {
  readonly low: number;
  readonly high: number;
  readonly from: number;
  readonly to: number;
}

/** From a label to what it belongs to, and from a label to the frame. */
const BESIDE = 6;
const INSIDE = 4;
/** A label farther than this from its line has a leader. */
const NEAR = 12;
const SHADE: Attributes = { fill: '#000', 'fill-opacity': 0.1, stroke: 'none' };
const BAND: Attributes = { ...SHADE, 'fill-opacity': 0.16 };
/** Numbers of the y axis stand no nearer than this, in font sizes. */
const LEAST_PITCH = 1.25;
/** Share of a font size from its base line to the upper edge of its letters, and to the lower one. */
const ASCENT = 0.8;
const DESCENT = 0.25;

/** Panels as elements, and the lower edge of the words below them. */
export function plot(
  x: PlotBase,
  panels: readonly PlotPanel[],
  layout: PlotLayout,
): { readonly content: Element[]; readonly bottom: number } {
  const across: Scale = { low: x.low, high: x.high, from: layout.left, to: layout.right };
  let edge = layout.top - layout.between;
  const content = panels.flatMap((panel) => {
    const head = headOf(panel, layout);
    const top = edge + layout.between + head.height;
    edge = top + layout.height;
    return [...head.at(top), ...panelAt(panel, across, x.ticks, top, layout)];
  });
  const base = baseOf(x, across, edge, layout);
  return { content: [...content, ...base.content], bottom: base.bottom };
}

/** What stands above a frame: names of curves with a piece of each, the label of the y axis. */
function headOf(
  { y, curves }: PlotPanel,
  { words, right, size, small, names }: PlotLayout,
): { readonly height: number; readonly at: (top: number) => Element[] } {
  const row = size + 3;
  const sample = 1.4 * small;
  let [x, rows] = [words, 0];
  const keys = (names === 'above' ? curves : []).flatMap(({ name, style }) => {
    if (name === undefined) return [];
    const width = sample + 5 + textWidth(name, size);
    if (rows === 0) rows = 1;
    else if (x + width > right) [x, rows] = [words, rows + 1];
    const key = { name, style, x, row: rows };
    x += width + size;
    return [key];
  });
  const labels = y.label === '' ? 0 : 1;
  return {
    height: (rows + labels) * row + 6,
    at: (top) => [
      ...keys.flatMap(({ name, style, x, row: k }) => {
        const base = top - 7 - (rows + labels - k) * row;
        return [
          line([x, base - 0.35 * size], [x + sample, base - 0.35 * size], stroke(style, small)),
          text(name, [x + sample + 5, base], { 'font-size': size }),
        ];
      }),
      ...(labels === 0 ? [] : [text(y.label, [words, top - 7], { 'font-size': size })]),
    ],
  };
}

/** A frame with its grid and numbers, what is in it, and the labels. */
function panelAt(panel: PlotPanel, x: Scale, stations: number, top: number, layout: PlotLayout): Element[] {
  const { small, height } = layout;
  const { curves, horizontals = [], verticals = [], dots = [], shades = [] } = panel;
  const y: Scale = { ...panel.y, from: top + height, to: top };
  const levels = ticks(y.low, y.high, Math.min(panel.y.ticks, height / (LEAST_PITCH * small)));
  const drawn = curves.map((curve) => ({ ...curve, parts: inFrame(curve.points, x, y) }));
  const stems = dots.map(([at, value]): [Place, Place] => [
    [on(x, at), on(y, value)],
    [on(x, at), y.from],
  ]);
  const lines = [
    ...horizontals.map((one) => ({ ...one, ends: level(on(y, one.at), x) })),
    ...verticals.map((one) => ({ ...one, ends: level(on(x, one.at), y, true) })),
  ].filter(({ style }) => style !== undefined);
  const covered: Segment[] = [
    ...drawn.flatMap(({ parts }) => parts.flatMap(segments)),
    ...lines.map(({ ends }) => ends),
    ...shades.flat().map((at) => level(on(x, at), y, true)),
    ...stems,
  ];
  return [
    ...levels.at.map((value) => line(...level(on(y, value), x), GRID)),
    ...ticks(x.low, x.high, stations).at.map((at) => line(...level(on(x, at), y, true), GRID)),
    ...shades.flatMap(([from, to]) => shaded(from, to, x, top, height)),
    ...bandAt(panel.band, x, y),
    ...lines.map(({ style = 'solid', ends }) =>
      line(...ends, stroke(style, small, style === 'solid' ? 0.8 : 1.2)),
    ),
    element('rect', { x: x.from, y: top, width: x.to - x.from, height, ...FRAME }),
    ...levels.at.map((value) =>
      text(value.toFixed(levels.decimals), [x.from - 0.6 * small, on(y, value) + 0.35 * small], {
        'font-size': small,
        'text-anchor': 'end',
      }),
    ),
    ...drawn.flatMap(({ style, parts }) =>
      parts.map((part) => element('path', { ...stroke(style, small), d: through(part) })),
    ),
    ...stems.flatMap(([[cx, cy], foot]) => [
      line([cx, cy], foot, { stroke: '#000', 'stroke-width': 0.8 }),
      element('circle', { cx, cy, r: 0.4 * small, fill: '#000' }),
    ]),
    ...(drawn.some(({ parts }) => parts.length > 0) || panel.empty === undefined
      ? []
      : [text(panel.empty, [x.from + small, top + 2 * small], { 'font-size': small })]),
    ...labels(panel, x, y, covered, layout),
  ];
}

/** A curve is a sixth as thick as its numbers are high. */
function stroke(style: LineStyle, small: number, thickness = small / 6): Attributes {
  const dashes = DASHES[style].map((length) => Number((length * (small / 6)).toFixed(1)));
  return {
    fill: 'none',
    stroke: style === 'grey' ? '#888' : '#000',
    'stroke-width': thickness,
    'stroke-linejoin': 'round',
    'stroke-linecap': style === 'dashed' || style === 'chain' ? 'butt' : 'round',
    ...(DASHES[style].length === 0 ? {} : { 'stroke-dasharray': dashes.join(' ') }),
  };
}

/** A line right across a scale at a place of the other one. */
function level(at: number, { from, to }: Scale, upright = false): [Place, Place] {
  return upright
    ? [
        [at, from],
        [at, to],
      ]
    : [
        [from, at],
        [to, at],
      ];
}

function segments(part: readonly Place[]): Segment[] {
  return part.slice(1).map((place, k) => [part[k], place]);
}

function shaded(from: number, to: number, x: Scale, y: number, height: number): Element[] {
  const [left, right] = [Math.max(on(x, from), x.from), Math.min(on(x, to), x.to)];
  return right > left ? [element('rect', { x: left, y, width: right - left, height, ...SHADE })] : [];
}

function bandAt(band: PlotPanel['band'], x: Scale, y: Scale): Element[] {
  if (band === undefined || band.upper.length < 2) return [];
  const within = (value: number) => Math.min(y.high, Math.max(y.low, value));
  const places = [...band.upper, ...[...band.lower].reverse()].map(
    ([at, value]): Place => [on(x, at), on(y, within(value))],
  );
  return [element('path', { ...BAND, d: through(places, true) })];
}

/** A curve in pieces that lie in the frame; where it leaves it is cut, and a leap from side to side is no curve. */
function inFrame(points: PlotCurve['points'], x: Scale, y: Scale): Place[][] {
  const parts: Place[][] = [];
  let part: Place[] = [];
  const close = () => {
    if (part.length > 1) parts.push(part);
    part = [];
  };
  const inside = (value: number) => value >= y.low && value <= y.high;
  points.forEach(([at, value], k) => {
    const [before, was] = k === 0 ? [at, null] : points[k - 1];
    if (value === null) return close();
    if (was !== null && inside(was) !== inside(value)) {
      const edge = (inside(value) ? was : value) > y.high ? y.high : y.low;
      part.push([on(x, before + ((edge - was) / (value - was)) * (at - before)), on(y, edge)]);
    }
    if (inside(value)) part.push([on(x, at), on(y, value)]);
    else close();
  });
  close();
  return parts;
}

/** A label as it would stand, and how far from where it belongs. */
interface Spot {
  readonly box: Box;
  readonly away: number;
  readonly leader: Segment | null;
}

/** Words of verticals and horizontals in the frame, and names of curves beyond it. */
function labels(
  { curves, horizontals = [], verticals = [] }: PlotPanel,
  x: Scale,
  y: Scale,
  covered: readonly Segment[],
  layout: PlotLayout,
): Element[] {
  const { small } = layout;
  const height = (ASCENT + DESCENT) * small;
  const taken: Box[] = [];
  const place = (words: string, spots: readonly Spot[]): Element[] => {
    const { box, leader } = freest(spots, covered, taken);
    taken.push(box);
    return [
      ...(leader === null ? [] : [line(...leader, { stroke: '#000', 'stroke-width': 0.6 })]),
      text(words, [box.x, box.y + ASCENT * small], { 'font-size': small, ...RIMMED }),
    ];
  };
  const rows = steps(y.to + INSIDE, y.from - INSIDE - height, 0.75 * height);
  const besideVertical = ({ at, words = '', side = 'right' }: PlotLine): Spot[] => {
    const [here, width] = [on(x, at), textWidth(words, small)];
    return steps(x.from + INSIDE, x.to - INSIDE - width, small, [
      here + BESIDE,
      here - BESIDE - width,
    ]).flatMap((left) => {
      const gap = Math.max(left - here, here - left - width);
      if (gap < BESIDE - 1e-9) return [];
      const isWanted = left > here === (side === 'right');
      return rows.map((top): Spot => {
        const middle = top + height / 2;
        const end = left > here ? left - 2 : left + width + 2;
        return {
          box: { x: left, y: top, width, height },
          away: gap + 0.3 * (top - y.to) + (isWanted ? 0 : 20),
          leader:
            gap > NEAR
              ? [
                  [here, middle],
                  [end, middle],
                ]
              : null,
        };
      });
    });
  };
  const onHorizontal = ({ at, words = '' }: PlotLine): Spot[] => {
    const [here, width] = [on(y, at), textWidth(words, small)];
    return steps(x.from + BESIDE, x.to - BESIDE - width, small).flatMap((left) =>
      [here - height - 1, here + 3]
        .filter((top) => top >= y.to && top + height <= y.from)
        .map(
          (top, k): Spot => ({
            box: { x: left, y: top, width, height },
            away: Math.min(left - x.from, x.to - left - width) + 10 * k,
            leader: null,
          }),
        ),
    );
  };
  return [
    ...verticals.flatMap((one) => (one.words === undefined ? [] : place(one.words, besideVertical(one)))),
    ...(layout.names === 'right' ? [] : horizontals).flatMap((one) =>
      one.words === undefined ? [] : place(one.words, onHorizontal(one)),
    ),
    ...(layout.names === 'right' ? endNames(curves, horizontals, x, y, small) : []),
  ];
}

/** Places from one end to the other, and those given that lie between. */
function steps(from: number, to: number, step: number, given: readonly number[] = []): number[] {
  const count = Math.max(0, Math.floor((to - from) / step));
  const even = Array.from({ length: count + 1 }, (_, k) => from + k * step);
  return [...given.filter((at) => at >= from && at <= to), ...even];
}

/** Names beyond the right ends of curves and horizontals, moved down as far as they would meet. */
function endNames(
  curves: readonly PlotCurve[],
  horizontals: readonly PlotLine[],
  x: Scale,
  y: Scale,
  small: number,
): Element[] {
  const ends = [
    ...curves.flatMap(({ name, points }) => {
      const value = points.filter(([, one]) => one !== null).at(-1)?.[1];
      return name === undefined || value == null ? [] : [{ words: name, wanted: on(y, value) }];
    }),
    ...horizontals.flatMap(({ at, words }) => (words === undefined ? [] : [{ words, wanted: on(y, at) }])),
  ].sort((a, b) => a.wanted - b.wanted);
  let before = Number.NEGATIVE_INFINITY;
  return ends.map(({ words, wanted }) => {
    before = Math.max(wanted, before + (ASCENT + DESCENT) * small + 1);
    return text(words, [x.to + BESIDE, before + 0.35 * small], { 'font-size': small });
  });
}

/** Numbers, words and label of the x axis. */
function baseOf(
  { label, ticks: count, signed = false, words = [] }: PlotBase,
  x: Scale,
  edge: number,
  { size, small }: PlotLayout,
): { readonly content: Element[]; readonly bottom: number } {
  const centred: Attributes = { 'font-size': small, 'text-anchor': 'middle' };
  const { at, decimals } = ticks(x.low, x.high, count);
  const number = (value: number) =>
    !signed
      ? value.toFixed(decimals)
      : value === 0
        ? '0'
        : `${value > 0 ? '+' : ''}${value.toFixed(decimals)}`;
  const numbers = edge + 1.5 * small;
  const taken: (readonly [number, number])[] = [];
  const shown = words.flatMap(({ at: value, words: one }) => {
    const half = textWidth(one, small) / 2;
    const middle = Math.min(x.to - half, Math.max(x.from + half, on(x, value)));
    if (taken.some(([from, to]) => middle + half + small > from && middle - half - small < to)) return [];
    taken.push([middle - half, middle + half]);
    return [text(one, [middle, numbers + 1.4 * small], centred)];
  });
  const base = numbers + (shown.length === 0 ? 0 : 1.4 * small) + 1.7 * small;
  const wide = textWidth(label, size) / 2;
  // A narrow plot has its label as far to the right as its paper goes.
  const middle = Math.max((x.from + x.to) / 2, wide);
  return {
    content: [
      ...at.map((value) => text(number(value), [on(x, value), numbers], centred)),
      ...shown,
      text(label, [middle, base], { ...centred, 'font-size': size }),
    ],
    bottom: base + DESCENT * size,
  };
}

function on({ low, high, from, to }: Scale, value: number): number {
  return from + ((value - low) / (high - low)) * (to - from);
}
