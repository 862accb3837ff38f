// Any flat rows, as a table and as curves of each number over the first: for results that have no picture of their own.

import { FRAME, GRID, heading, LINE, SIZE, SMALL, WIDTH } from './marks.ts';
import {
  type Attributes,
  type Element,
  element,
  line,
  type Place,
  svgDocument,
  text,
  through,
} from './svg.ts';
import { printed, textWidth } from './text.ts';
import { ticks } from './ticks.ts';
import type { VegaLite } from './vega.ts';

/** A row of a table: flat. */
export type FlatRow = Readonly<Record<string, number | string | boolean | null>>;

/** Numbers in a table for reading. */
const DIGITS = 6;

/** The columns of some rows, in the order in which they come up. */
export function columnsOf(rows: readonly FlatRow[]): string[] {
  return [...new Set(rows.flatMap((row) => Object.keys(row)))];
}

/** A cell for reading: numbers to six digits, a dash where there is none. */
export function cell(value: FlatRow[string] | undefined): string {
  if (value === null || value === undefined) return '-';
  return typeof value === 'number' ? String(Number(value.toPrecision(DIGITS))) : String(value);
}

/** Rows as a fixed-width table. */
export function textTable(rows: readonly FlatRow[]): string {
  const set = columnsOf(rows).map((name) => {
    const cells = [name, ...rows.map((row) => cell(row[name]))];
    const width = Math.max(...cells.map(({ length }) => length));
    return cells.map((words) => words.padStart(width));
  });
  return [-1, ...rows.keys()].map((k) => `${set.map((column) => column[k + 1]).join('  ')}\n`).join('');
}

/** The columns that can be drawn over the first: its numbers grow from row to row, theirs are numbers or gaps. */
export function curvesIn(rows: readonly FlatRow[]): { over: string; drawn: string[] } | null {
  const [over, ...others] = columnsOf(rows);
  const grows = rows.every(({ [over]: at }, k) => {
    if (typeof at !== 'number' || !Number.isFinite(at)) return false;
    return k === 0 || at > (rows[k - 1][over] as number);
  });
  const isDrawn = (name: string) =>
    rows.every((row) => row[name] == null || typeof row[name] === 'number') &&
    rows.some((row) => Number.isFinite(row[name]));
  const drawn = others.filter(isDrawn);
  return rows.length > 1 && grows && drawn.length > 0 ? { over, drawn } : null;
}

/** Columns by panel, from the top. */
export type Panels = readonly (readonly string[])[];

/** Curves of rows as a Vega-Lite v5 specification. */
export function vegaRows(rows: readonly FlatRow[], over: string, panels: Panels): VegaLite {
  const drawn = panels.flat();
  // Names as fields may hold dots and brackets, which a specification would read as paths.
  const values = rows.map((row) =>
    Object.fromEntries([['x', row[over]], ...drawn.map((name, k) => [`y${k}`, row[name] ?? null])]),
  );
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v5.json',
    data: { values },
    vconcat: panels.map((names) => ({
      width: 560,
      height: 180,
      layer: names.map((name) => ({
        mark: { type: 'line', tooltip: true, invalid: 'break-paths-show-domains' },
        encoding: {
          x: { field: 'x', type: 'quantitative', title: over, scale: { zero: false } },
          y: {
            field: `y${drawn.indexOf(name)}`,
            type: 'quantitative',
            title: names.length === 1 ? name : null,
            scale: { zero: false },
          },
          ...(names.length === 1 ? {} : { strokeDash: { datum: name } }),
        },
      })),
    })),
    config: { axis: { gridColor: '#ddd' }, line: { color: 'black' } },
  };
}

const LEFT = 92;
const RIGHT = 40;
const TOP = 84;
const PANEL = 170;
const BETWEEN = 44;
/** Length of the piece of a curve before its name with the gap behind it, and how far names are apart. */
const SAMPLE = 46;
const APART = 26;
/** How the curves of one panel are told apart, the first whole. */
const DASHES: readonly Attributes[] = [
  {},
  { 'stroke-dasharray': '9 4.5' },
  { 'stroke-dasharray': '0.1 4.4', 'stroke-linecap': 'round' },
  { 'stroke-dasharray': '12 4 2 4' },
  { stroke: '#888' },
];
const CURVE: Attributes = { ...FRAME, 'stroke-width': 2, 'stroke-linejoin': 'round' };

/** Curves of rows as an SVG document, told apart in a panel by their dashes. */
export function plotRows(
  rows: readonly FlatRow[],
  over: string,
  panels: Panels,
  title = titleOf(over, panels.flat()),
): string {
  const at = rows.map((row) => row[over] as number);
  const x = axis(at, LEFT, WIDTH - RIGHT, 12);
  let bottom = TOP - BETWEEN;
  const drawn = panels.map((names) => {
    const keys = keysOf(names);
    const top = bottom + BETWEEN + (keys.lines - 1) * LINE;
    bottom = top + PANEL;
    const columns = names.map((name) =>
      rows.map((row) => (Number.isFinite(row[name]) ? (row[name] as number) : null)),
    );
    const present = columns.flat().filter((value) => value !== null);
    return panel(
      keys,
      x,
      axis(present, bottom, top, 6),
      columns.map((values) => parts(at, values)),
    );
  });
  const middle: Attributes = { 'text-anchor': 'middle', 'font-size': SMALL };
  return svgDocument({
    width: WIDTH,
    height: bottom + 4 * LINE,
    title,
    content: [
      heading(title),
      ...drawn.flat(),
      ...x.marks.map(({ value, words }) => text(words, [x.on(value), bottom + 18], middle)),
      text(over, [(LEFT + WIDTH - RIGHT) / 2, bottom + 44], { ...middle, 'font-size': SIZE }),
    ],
  });
}

function titleOf(over: string, drawn: readonly string[]): string {
  return `${drawn.length > 3 ? 'Curves' : drawn.join(', ')} over ${over}`;
}

/** What stands above a panel: the name of its one curve, or of each with a piece of it before. */
interface Keys {
  readonly lines: number;
  readonly items: readonly { readonly name: string; readonly x: number; readonly line: number }[];
  /** Width of the pieces. */
  readonly sample: number;
}

function keysOf(names: readonly string[]): Keys {
  const sample = names.length > 1 ? SAMPLE : 0;
  let x = LEFT;
  let line = 0;
  const items = names.map((name) => {
    const width = sample + textWidth(name, SIZE);
    if (x > LEFT && x + width > WIDTH - RIGHT) {
      x = LEFT;
      line++;
    }
    const item = { name, x, line };
    x += width + APART;
    return item;
  });
  return { lines: line + 1, items, sample };
}

interface Axis {
  readonly from: number;
  readonly to: number;
  readonly on: (value: number) => number;
  readonly marks: readonly { readonly value: number; readonly words: string }[];
}

/** A range of values on the paper; a constant, which has no range, in the middle of one. */
function axis(values: readonly number[], from: number, to: number, about: number): Axis {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? 0 : Math.max(1, Math.abs(least)) / 100;
  const [low, high] = [least - room, most + room];
  const { at, decimals } = ticks(low, high, about);
  return {
    from,
    to,
    on: (value) => from + ((value - low) / (high - low)) * (to - from),
    marks: at.map((value) => ({ value, words: printed(value.toFixed(decimals)) })),
  };
}

/** A curve in pieces without gaps. */
function parts(at: readonly number[], values: readonly (number | null)[]): [number, number][][] {
  const pieces: [number, number][][] = [[]];
  values.forEach((value, k) => {
    if (value === null) pieces.push([]);
    else pieces[pieces.length - 1].push([at[k], value]);
  });
  return pieces.filter(({ length }) => length > 1);
}

function panel(
  { lines, items, sample }: Keys,
  x: Axis,
  y: Axis,
  curves: readonly (readonly [number, number][])[][],
): Element[] {
  const place = ([at, value]: [number, number]): Place => [x.on(at), y.on(value)];
  const stroke = (k: number): Attributes => ({ ...CURVE, ...DASHES[k % DASHES.length] });
  return [
    ...items.flatMap(({ name, x: left, line: down }, k) => {
      const base = y.to - 10 - (lines - 1 - down) * LINE;
      const piece = line([left, base - 4], [left + sample - 8, base - 4], stroke(k));
      return [...(sample === 0 ? [] : [piece]), text(name, [left + sample, base], { 'font-size': SIZE })];
    }),
    ...y.marks.map(({ value }) => line([x.from, y.on(value)], [x.to, y.on(value)], GRID)),
    ...x.marks.map(({ value }) => line([x.on(value), y.from], [x.on(value), y.to], GRID)),
    element('rect', { x: x.from, y: y.to, width: x.to - x.from, height: PANEL, ...FRAME }),
    ...y.marks.map(({ value, words }) =>
      text(words, [x.from - 8, y.on(value) + 4], { 'font-size': SMALL, 'text-anchor': 'end' }),
    ),
    ...curves.flatMap((pieces, k) =>
      pieces.map((piece) => element('path', { ...stroke(k), d: through(piece.map(place)) })),
    ),
  ];
}
