// Columns of a sweep over its travel, in panels one under the other.

import type { ColumnInfo } from '../corner/columns.ts';
import type { Limit, Limits } from '../corner/limits/limits.ts';
import type { Sweep, SweepEnd } from '../corner/sweep.ts';
import type { UncertaintyBands } from '../corner/uncertainty-bands.ts';
import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import type { Units } from '../units.ts';
import { shownBands, shownCurves, shownLimits, shownUnit } from './in-units.ts';
import { FRAME, GRID, heading, SIZE, SMALL, WIDTH } from './marks.ts';
import {
  type Attributes,
  type Element,
  element,
  line,
  type Picture,
  type Place,
  RIMMED,
  svgDocument,
  text,
  through,
} from './svg.ts';
import { causeWords, endMark, printed, signedTravel, textWidth } from './text.ts';
import { ticks } from './ticks.ts';

/** What of a sweep its curves need. */
export type Curves<At extends FlatPose = FlatPose> = Pick<Sweep, 'info' | 'end'> & {
  readonly at: (travel: number) => At;
};

/** Values by column. */
export type FlatPose = Readonly<Record<string, number | null>>;

/** How curves are plotted; all optional. */
export interface PlotCurvesOptions<Name extends string = string> {
  /** Columns to show, one a panel, from the top; default installation ratio and shock length. */
  readonly panels?: readonly Name[];
  /** Heading; default says what is shown. */
  readonly title?: string;
  /** Where the travel ends: the way beyond is shaded, and the limits are named. */
  readonly limits?: Limits;
  /** How sure the columns are, as `uncertaintyBands` of the same corner has it: shaded to either side of the curve. */
  readonly bands?: Pick<UncertaintyBands, 'travel' | 'columns'>;
  /** A figure to compare with, by the column in whose panel it is drawn: a broken line, and its name. */
  readonly beside?: Readonly<Record<string, { readonly value: number; readonly words: string }>>;
  /** What the picture is labelled in; default metric. Values go in as the library counts them. */
  readonly units?: Units;
}

/**
 * Columns of a sweep against travel (mm, bump positive), in panels that share the travel axis, as a self-contained SVG
 * document in black and white. An end where the linkage could go no farther is marked in words; a curve that grows
 * beyond all bounds there leaves its panel. With `limits` the travel that can't be had is shaded, as far as the sweep
 * goes, and first contact with the bump stop is a dotted line.
 *
 * @throws InputError for an unknown column, and without a panel.
 */
export function plotCurves<At extends FlatPose>(
  sweep: Curves<At>,
  options: PlotCurvesOptions<keyof At & string> = {},
): string {
  return svgDocument(curvesPicture(sweep, options));
}

const LEFT = 92;
const RIGHT = 40;
const TOP = 84;
const PANEL = 190;
const BETWEEN = 44;

/** Places along the travel at which a curve is read. */
const SAMPLES = 200;
/** Share of the range, at an end without a value, that does not count for the height of a panel. */
const RUNAWAY = 0.04;
/** A column with gaps may run to infinity anywhere: its panel shows values from this share of them to the rest. */
const TAIL = 0.1;

const CURVE: Attributes = {
  fill: 'none',
  stroke: '#000',
  'stroke-width': 2,
  'stroke-linejoin': 'round',
  'stroke-linecap': 'round',
};
const MARK: Attributes = { stroke: '#000', 'stroke-width': 1, 'stroke-dasharray': '5 4' };

/** A range of values and its length on the paper. */
interface Axis {
  readonly low: number;
  readonly high: number;
  /** Places on the paper of low and high. */
  readonly from: number;
  readonly to: number;
}

const OPTIONS = ['panels', 'title', 'limits', 'bands', 'beside', 'units'];

/** The picture behind `plotCurves`. */
export function curvesPicture(metric: Curves, metricOptions: PlotCurvesOptions): Picture {
  refuse('curve options', unknownOptions(metricOptions, OPTIONS));
  const { panels = ['installationRatio', 'shockLength'] } = metricOptions;
  const [sweep, options] = inUnits(metric, metricOptions);
  const columns = chosen(sweep, panels);
  const title = options.title ?? titleFor(columns);
  const x = travelAxis(sweep);
  const readings = readCurves(sweep, columns);
  const bottom = TOP + columns.length * PANEL + (columns.length - 1) * BETWEEN;
  const content = [
    heading(title),
    ...columns.flatMap((column, k) => {
      const top = TOP + k * (PANEL + BETWEEN);
      return [
        ...(options.limits === undefined ? [] : limitBands(options.limits, x, top)),
        ...panel(
          column,
          readings,
          readings.values[k],
          x,
          top,
          marksOf(sweep, k === 0),
          options.beside?.[column.name],
          bandOf(sweep, column.name, options.bands),
        ),
        ...(options.limits === undefined || k > 0 ? [] : limitWords(options.limits, sweep, x, top)),
      ];
    }),
    ...travelNumbers(x, sweep.info[0], bottom),
  ];
  return { width: WIDTH, height: bottom + 72, title, content };
}

/** Curves and what is drawn with them, in the units of the picture. */
function inUnits(curves: Curves, options: PlotCurvesOptions): [Curves, PlotCurvesOptions] {
  const { units = 'metric', limits, bands, beside } = options;
  if (units === 'metric') return [curves, options];
  const { info } = curves;
  const figures = Object.entries(beside ?? {}).map(([name, figure]) => {
    const { of } = shownUnit(info.find((column) => column.name === name)?.unit ?? '', units);
    return [name, { ...figure, value: of(figure.value) }];
  });
  return [
    shownCurves(curves, units),
    {
      ...options,
      ...(limits === undefined ? {} : { limits: shownLimits(limits, units) }),
      ...(bands === undefined ? {} : { bands: shownBands(bands, info, units) }),
      beside: Object.fromEntries(figures),
    },
  ];
}

function chosen({ info }: Curves, panels: readonly string[]): ColumnInfo[] {
  const known = info.map(({ name }) => name).filter((name) => name !== 'travel');
  const faults = panels.flatMap((name, k): Diagnostic[] =>
    known.includes(name) ? [] : [fault('notInTheSweep', `panels[${k}]`, { got: show(name), allowed: known })],
  );
  if (panels.length === 0) faults.push(fault('nothingToShow', 'panels', { allowed: known }));
  refuse('curve options', faults);
  return panels.map((name) => info.find((column) => column.name === name) as ColumnInfo);
}

const BAND: Attributes = { fill: '#000', 'fill-opacity': 0.1, stroke: 'none' };
const CONTACT: Attributes = { stroke: '#000', 'stroke-width': 1.2, 'stroke-dasharray': '1 4' };

/** Shades of a panel where a limit takes the travel away, and the line of contact with the bump stop. */
function limitBands({ bump, droop, events }: Limits, x: Axis, top: number): Element[] {
  const shaded: Element[] = [];
  const shade = (from: number, to: number) => {
    const [left, right] = [Math.max(from, x.from), Math.min(to, x.to)];
    if (right > left)
      shaded.push(element('rect', { x: left, y: top, width: right - left, height: PANEL, ...BAND }));
  };
  if (droop !== null) shade(x.from, on(x, droop.travel));
  if (bump !== null) shade(on(x, bump.travel), x.to);
  const contacts = events
    .map(({ travel }) => on(x, travel))
    .filter((at) => at > x.from && at < x.to)
    .map((at) => line([at, top], [at, top + PANEL], CONTACT));
  return [...shaded, ...contacts];
}

/** The limits by name beneath the edge of the first panel, from the middle outward where there is room. */
function limitWords(
  { bump, droop, events }: Limits,
  { end, info: [{ unit }] }: Pick<Curves, 'end' | 'info'>,
  x: Axis,
  top: number,
): Element[] {
  // Where the linkage itself ended the sweep, that is told as its end.
  const told = (limit: Limit) =>
    end[limit.side].status !== 'reached' &&
    Math.abs(limit.travel - end[limit.side].travel) < (ONE_PLACE[unit] ?? 0);
  const marks = [droop, bump].filter((limit) => limit !== null).filter((limit) => !told(limit));
  const named = [
    ...marks.map(({ side, travel, cause }) => ({ side, travel, words: causeWords(cause) })),
    ...events.map(({ side, travel }) => ({ side, travel, words: 'bump stop contact' })),
  ].filter(({ travel }) => on(x, travel) >= x.from && on(x, travel) <= x.to);
  return named.map(({ side, travel, words }, k) => {
    const label = `${words} ${printed(signedTravel(travel, unit))} ${unit}`;
    const at = on(x, travel);
    const width = textWidth(label, SMALL);
    const inward = side === 'bump' ? -1 : 1;
    const edge = Math.min(x.to - 4, Math.max(x.from + 4, at + inward * 6));
    const fits = side === 'bump' ? edge - width >= x.from : edge + width <= x.to;
    return text(
      label,
      [fits ? edge : side === 'bump' ? x.from + 4 + width : x.to - 4 - width, top + 18 + 16 * k],
      {
        'font-size': SMALL,
        'text-anchor': side === 'bump' ? 'end' : 'start',
        ...RIMMED,
      },
    );
  });
}

/** Travels no farther apart are one place in a picture. */
const ONE_PLACE: Readonly<Record<string, number>> = { mm: 0.05, inch: 0.002 };

/** The columns by name, as long as they make a heading. */
function titleFor(columns: readonly ColumnInfo[]): string {
  if (columns.length > 3) return 'Curves through the travel';
  const list = columns.map(({ label }) => label.split(',')[0]).join(', ');
  const words = list.replace(/, ([^,]*)$/, ' and $1');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)} through the travel`;
}

/** The travel, with a little room beyond an end that stopped short. */
function travelAxis({ end: { droop, bump } }: Curves): Axis {
  const room = Math.max(0.03 * (bump.travel - droop.travel), bump.travel === droop.travel ? 1 : 0);
  return {
    low: droop.travel - (droop.status === 'reached' && bump.travel > droop.travel ? 0 : room),
    high: bump.travel + (bump.status === 'reached' && bump.travel > droop.travel ? 0 : room),
    from: LEFT,
    to: WIDTH - RIGHT,
  };
}

interface Readings {
  readonly travel: readonly number[];
  readonly values: readonly (readonly (number | null)[])[];
}

/** Values along the travel, denser towards both ends, where a curve may run steep. */
function readCurves(sweep: Curves, columns: readonly ColumnInfo[]): Readings {
  const { droop, bump } = sweep.end;
  const [middle, half] = [(bump.travel + droop.travel) / 2, (bump.travel - droop.travel) / 2];
  const travel = Array.from({ length: SAMPLES + 1 }, (_, k) => {
    if (k === 0) return droop.travel;
    return k === SAMPLES ? bump.travel : middle - half * Math.cos((Math.PI * k) / SAMPLES);
  });
  const rows = travel.map((t) => sweep.at(t));
  return { travel, values: columns.map(({ name }) => rows.map((row) => row[name])) };
}

/** Least and greatest value to show: without what runs away towards an end or a gap, and never of no height. */
function valueRange(
  column: ColumnInfo,
  travel: readonly number[],
  values: readonly (number | null)[],
): [number, number] {
  const last = travel.length - 1;
  const span = travel[last] - travel[0];
  const counts = (t: number) =>
    (values[0] !== null || t >= travel[0] + RUNAWAY * span) &&
    (values[last] !== null || t <= travel[last] - RUNAWAY * span);
  const shown = values
    .filter((value, k): value is number => value !== null && counts(travel[k]))
    .sort((a, b) => a - b);
  if (shown.length === 0) return [0, 1];
  const tail = column.gaps ? Math.floor(TAIL * shown.length) : 0;
  const [low, high] = [shown[tail], shown[shown.length - 1 - tail]];
  // A constant has rounding, not a shape: show it in the middle of a panel.
  const least = LEAST_HEIGHT[column.unit] ?? 0.01;
  const room = Math.max(0.06 * (high - low), (least - (high - low)) / 2);
  return [low - room, high + room];
}

/** Smallest range worth a panel, in the unit of the column. */
const LEAST_HEIGHT: Readonly<Record<string, number>> = {
  mm: 1,
  inch: 0.04,
  deg: 0.1,
  '': 0.01,
  '1/mm': 1e-5,
  '1/inch': 2.5e-4,
};

function panel(
  column: ColumnInfo,
  { travel }: Readings,
  values: readonly (number | null)[],
  x: Axis,
  top: number,
  marks: readonly EndMark[],
  beside: { readonly value: number; readonly words: string } | undefined,
  band: Band,
): Element[] {
  const edges = [...band.upper, ...band.lower].map(([, value]) => value);
  const more = beside === undefined ? edges : [...edges, beside.value];
  const [low, high] = valueRange(column, [...travel, ...more.map(() => 0)], [...values, ...more]);
  const y: Axis = { low, high, from: top + PANEL, to: top };
  const levels = ticks(low, high, 7);
  const unit = column.unit === '' ? '' : ` [${column.unit}]`;
  const parts = inFrame(travel, values, x, y);
  return [
    text(`${column.label}${unit}`, [x.from, top - 10], { 'font-size': SIZE }),
    ...levels.at.map((value) => line([x.from, on(y, value)], [x.to, on(y, value)], GRID)),
    ...ticks(x.low, x.high, STATIONS).at.map((t) => line([on(x, t), y.from], [on(x, t), y.to], GRID)),
    line([on(x, 0), y.from], [on(x, 0), y.to], { ...FRAME, 'stroke-width': 0.8 }),
    element('rect', { x: x.from, y: top, width: x.to - x.from, height: PANEL, ...FRAME }),
    ...levels.at.map((value) =>
      text(printed(value.toFixed(levels.decimals)), [x.from - 8, on(y, value) + 4], {
        'font-size': SMALL,
        'text-anchor': 'end',
      }),
    ),
    ...shaded(band, x, y),
    ...parts.map((part) => element('path', { ...CURVE, d: through(part) })),
    ...(beside === undefined ? [] : besideLine(beside, x, y, parts.flat())),
    ...marks.flatMap((mark) => endWords(mark, x, y, parts.flat())),
    ...(parts.length > 0 ? [] : [text('not defined here', [x.from + 12, top + 24], { 'font-size': SMALL })]),
  ];
}

/** The edges of what is shaded beside a curve, as travel and value. */
interface Band {
  readonly upper: readonly (readonly [number, number])[];
  readonly lower: readonly (readonly [number, number])[];
}

/** The band of a column, as far as the curves go. */
function bandOf({ at, end }: Curves, name: string, bands: PlotCurvesOptions['bands']): Band {
  const rows = Array.from(bands?.travel ?? []).flatMap((travel, i) => {
    if (travel < end.droop.travel || travel > end.bump.travel) return [];
    const [value, width] = [at(travel)[name], bands?.columns[name]?.[i] ?? null];
    return value === null || width === null ? [] : [{ travel, value, width }];
  });
  return {
    upper: rows.map(({ travel, value, width }) => [travel, value + width]),
    lower: rows.map(({ travel, value, width }) => [travel, value - width]),
  };
}

function shaded({ upper, lower }: Band, x: Axis, y: Axis): Element[] {
  if (upper.length < 2) return [];
  const within = (value: number) => Math.min(y.high, Math.max(y.low, value));
  const places = [...upper, ...[...lower].reverse()].map(
    ([travel, value]): Place => [on(x, travel), on(y, within(value))],
  );
  return [element('path', { ...BAND, 'fill-opacity': 0.16, d: through(places, true) })];
}

const BESIDE_LINE: Attributes = { stroke: '#000', 'stroke-width': 1.4, 'stroke-dasharray': '9 5' };

/** A figure that does not change over the travel, named where the curve leaves most room. */
function besideLine(
  { value, words }: { readonly value: number; readonly words: string },
  x: Axis,
  y: Axis,
  curve: readonly Place[],
): Element[] {
  const height = on(y, value);
  const width = textWidth(words, SMALL);
  const roomAt = (from: number) => {
    const near = curve.filter(([cx]) => cx > from - 4 && cx < from + width + 4);
    return Math.min(...near.map(([, cy]) => Math.abs(cy - height)), PANEL);
  };
  const from = [x.from + 10, x.to - width - 10].reduce((a, b) => (roomAt(b) > roomAt(a) ? b : a));
  const above = height - y.to > 24 ? height - 6 : height + 16;
  return [
    line([x.from, height], [x.to, height], BESIDE_LINE),
    text(words, [from, above], { 'font-size': SMALL, ...RIMMED }),
  ];
}

/** The curve in pieces that lie in the frame; where it leaves it is cut, and a leap from side to side is no curve. */
function inFrame(travel: readonly number[], values: readonly (number | null)[], x: Axis, y: Axis): Place[][] {
  const parts: Place[][] = [];
  let part: Place[] = [];
  const close = () => {
    if (part.length > 1) parts.push(part);
    part = [];
  };
  const inside = (value: number) => value >= y.low && value <= y.high;
  const placeAt = (t: number, value: number): Place => [on(x, t), on(y, value)];
  for (let k = 0; k < values.length; k++) {
    const value = values[k];
    const before = k === 0 ? null : values[k - 1];
    if (value === null) close();
    else {
      if (before !== null && inside(before) !== inside(value)) {
        const edge = (inside(value) ? before : value) > y.high ? y.high : y.low;
        const share = (edge - before) / (value - before);
        part.push(placeAt(travel[k - 1] + share * (travel[k] - travel[k - 1]), edge));
      }
      if (inside(value)) part.push(placeAt(travel[k], value));
      else close();
    }
  }
  close();
  return parts;
}

/** An end where the sweep stopped short, on its side, with or without words. */
interface EndMark {
  readonly end: SweepEnd;
  /** Of the travel. */
  readonly unit: string;
  readonly side: 'droop' | 'bump';
  readonly inWords: boolean;
}

function marksOf(
  { end: { droop, bump }, info: [{ unit }] }: Pick<Curves, 'end' | 'info'>,
  inWords: boolean,
): EndMark[] {
  const marks: EndMark[] = [
    { end: droop, unit, side: 'droop', inWords },
    { end: bump, unit, side: 'bump', inWords },
  ];
  return marks.filter(({ end }) => end.status !== 'reached');
}

/** A broken line at the end, and the words beside it, at the height where the curve is farthest away. */
function endWords(
  { end, unit, side, inWords }: EndMark,
  x: Axis,
  y: Axis,
  curve: readonly Place[],
): Element[] {
  const at = on(x, end.travel);
  const mark = line([at, y.from], [at, y.to], MARK);
  if (!inWords) return [mark];
  const label = `${endMark(end)} at ${printed(signedTravel(end.travel, unit))} ${unit}`;
  const width = textWidth(label, SMALL);
  const edge = side === 'bump' ? at - 8 : at + 8;
  const [from, to] = side === 'bump' ? [edge - width, edge] : [edge, edge + width];
  const nearby = curve.filter(([cx]) => cx > from - 4 && cx < to + 4).map(([, cy]) => cy);
  const room = (base: number) => Math.min(...nearby.map((cy) => Math.abs(cy - (base - 4))));
  const heights = [0, 0.25, 0.5, 0.75, 1].map((share) => y.to + 20 + share * (PANEL - 32));
  const base = heights.reduce((best, height) => (room(height) > room(best) ? height : best));
  return [
    mark,
    text(label, [edge, base], {
      'font-size': SMALL,
      'text-anchor': side === 'bump' ? 'end' : 'start',
      ...RIMMED,
    }),
  ];
}

/** Numbers, words and title of the travel axis. */
function travelNumbers(x: Axis, { label, unit }: ColumnInfo, bottom: number): Element[] {
  const middle: Attributes = { 'font-size': SMALL, 'text-anchor': 'middle' };
  const ride = on(x, 0);
  const { at, decimals } = ticks(x.low, x.high, STATIONS);
  return [
    ...at.map((t) => text(printed(signedFigure(t, decimals)), [on(x, t), bottom + 18], middle)),
    text('ride', [ride, bottom + 35], middle),
    ...(ride - x.from < BESIDE ? [] : [text('droop', [x.from, bottom + 35], { 'font-size': SMALL })]),
    ...(x.to - ride < BESIDE ? [] : [text('bump', [x.to, bottom + 35], { ...middle, 'text-anchor': 'end' })]),
    text(`${label} [${unit}]`, [(x.from + x.to) / 2, bottom + 56], { ...middle, 'font-size': SIZE }),
  ];
}

/** `+10`, `-2.5`, `0`. */
function signedFigure(value: number, decimals: number): string {
  if (value === 0) return '0';
  return `${value > 0 ? '+' : ''}${value.toFixed(decimals)}`;
}

/** Room that two words side by side need. */
const BESIDE = 64;
/** About how many ticks the travel axis has. */
const STATIONS = 12;

function on({ low, high, from, to }: Axis, value: number): number {
  return from + ((value - low) / (high - low)) * (to - from);
}
