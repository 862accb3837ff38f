// Any flat rows, as a table and as curves of each number over the first: for results that have no picture of their own.

import { heading, WIDTH } from './marks.ts';
import { type PlotLayout, plot, STYLES, WIDE } from './plot.ts';
import { svgDocument } from './svg.ts';
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

const LAYOUT: PlotLayout = { ...WIDE, height: 170 };

/** Curves of rows as an SVG document, told apart in a panel by their dashes. */
export function plotRows(
  rows: readonly FlatRow[],
  over: string,
  panels: Panels,
  title = titleOf(over, panels.flat()),
): string {
  const at = rows.map((row) => row[over] as number);
  const { content, bottom } = plot(
    { label: over, ...rangeOf(at), ticks: 12 },
    panels.map((names) => {
      const columns = names.map((name) =>
        rows.map((row) => (Number.isFinite(row[name]) ? (row[name] as number) : null)),
      );
      const present = columns.flat().filter((value) => value !== null);
      const isAlone = names.length === 1;
      return {
        y: { label: isAlone ? names[0] : '', ...rangeOf(present), ticks: 6 },
        curves: columns.map((values, k) => ({
          points: values.map((value, i) => [at[i], value] as const),
          style: STYLES[k % STYLES.length],
          ...(isAlone ? {} : { name: names[k] }),
        })),
      };
    }),
    LAYOUT,
  );
  return svgDocument({ width: WIDTH, height: bottom + 14, title, content: [heading(title), ...content] });
}

function titleOf(over: string, drawn: readonly string[]): string {
  return `${drawn.length > 3 ? 'Curves' : drawn.join(', ')} over ${over}`;
}

/** A range of values; a constant, which has no range, in the middle of one. */
function rangeOf(values: readonly number[]): { readonly low: number; readonly high: number } {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const room = most > least ? 0 : Math.max(1, Math.abs(least)) / 100;
  return { low: least - room, high: most + room };
}
