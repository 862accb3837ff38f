// Columns of a sweep over its travel, in panels one under the other.

import type { ColumnInfo } from '../corner/columns.ts';
import type { Limit, Limits } from '../corner/limits/limits.ts';
import type { Sweep } from '../corner/sweep.ts';
import type { UncertaintyBands } from '../corner/uncertainty-bands.ts';
import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import type { Units } from '../units.ts';
import { capital } from '../words.ts';
import { shownBands, shownCurves, shownLimits, shownUnit } from './in-units.ts';
import { lookFaults } from './looks.ts';
import { heading, WIDTH } from './marks.ts';
import { type PlotBase, type PlotLayout, type PlotLine, type PlotPanel, plot, WIDE } from './plot.ts';
import { type Element, type Picture, svgDocument } from './svg.ts';
import { causeWords, endMark, inBrackets, signedTravel } from './text.ts';

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
  /** Where the travel ends: the travel beyond is shaded, and the limits are named. */
  readonly limits?: Limits;
  /** 95 % intervals of the columns, as `uncertaintyBands` of the same corner gives them: shaded on both sides of the curve. */
  readonly bands?: Pick<UncertaintyBands, 'travel' | 'columns'>;
  /** A figure to compare with, by the column in whose panel it is drawn: a dashed line, and its name. */
  readonly beside?: Readonly<Record<string, { readonly value: number; readonly words: string }>>;
  /** Units of the labels; default metric. Values go in as the library counts them. */
  readonly units?: Units;
}

/**
 * Columns of a sweep against travel (mm, bump positive), in panels that share the travel axis, as a self-contained SVG
 * document in black and white. An end where the linkage could go no farther is marked in words; a curve that grows
 * beyond all bounds there leaves its panel. With `limits` the travel that is not available is shaded, as far as the sweep
 * goes, and first contact with the bump stop is a dotted line.
 *
 * @throws InputError for an unknown column, and without a panel.
 */
export function plotCurves<At extends FlatPose>(
  sweep: Curves<At>,
  options: PlotCurvesOptions<keyof At & string> = {},
): string {
  refuseOtherThan('curves', sweep);
  return svgDocument(curvesPicture(sweep, options));
}

/** Places along the travel at which a curve is read. */
const SAMPLES = 200;
/** Share of the range, at an end without a value, that does not count for the height of a panel. */
const RUNAWAY = 0.04;
/** A column with gaps may run to infinity anywhere: its panel shows values from this share of them to the rest. */
const TAIL = 0.1;
/** About how many ticks the axes have. */
const STATIONS = 12;
const LEVELS = 7;

/** Columns that are shown where none are named. */
const PANELS = ['installationRatio', 'shockLength'];

const OPTIONS = ['panels', 'title', 'limits', 'bands', 'beside', 'units'];

/** The picture behind `plotCurves`. */
export function curvesPicture(metric: Curves, metricOptions: PlotCurvesOptions): Picture {
  const { content, bottom } = curvesPlot(metric, metricOptions, WIDE);
  const title = metricOptions.title ?? titleFor(chosen(metric, metricOptions.panels ?? PANELS));
  return { width: WIDTH, height: bottom + 14, title, content: [heading(title), ...content] };
}

/** The panels of curves without a heading, in a layout, and the lower edge of the words below them. */
export function curvesPlot(
  metric: Curves,
  metricOptions: PlotCurvesOptions,
  layout: PlotLayout,
): { readonly content: Element[]; readonly bottom: number } {
  refuse('curve options', lookFaults(metricOptions, OPTIONS));
  const { panels = PANELS } = metricOptions;
  const [sweep, options] = inUnits(metric, metricOptions);
  const columns = chosen(sweep, panels);
  const x = travelAxis(sweep);
  const { travel, values } = readCurves(sweep, columns);
  const marks = marksOf(sweep, options.limits, x);
  return plot(
    x,
    columns.map((column, k): PlotPanel => {
      const band = bandOf(sweep, column.name, options.bands);
      const beside = options.beside?.[column.name];
      const shown = [...band.upper, ...band.lower].map(([, value]) => value);
      if (beside !== undefined) shown.push(beside.value);
      const [low, high] = valueRange(column, travel, values[k], shown);
      return {
        y: { label: `${column.label}${inBrackets(column.unit)}`, low, high, ticks: LEVELS },
        curves: [{ points: travel.map((at, i) => [at, values[k][i]]), style: 'solid' }],
        band,
        horizontals: beside === undefined ? [] : [{ at: beside.value, words: beside.words, style: 'dashed' }],
        verticals: k === 0 ? marks : marks.map(({ words: _, ...mark }) => mark),
        shades: shadesOf(options.limits, x),
        empty: 'not defined here',
      };
    }),
    layout,
  );
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

/** Where a limit takes the travel away. */
function shadesOf(limits: Limits | undefined, { low, high }: PlotBase): (readonly [number, number])[] {
  const { bump = null, droop = null } = limits ?? {};
  return [
    ...(droop === null ? [] : [[low, droop.travel] as const]),
    ...(bump === null ? [] : [[bump.travel, high] as const]),
  ];
}

/** Travels no farther apart are one place in a picture. */
const ONE_PLACE: Readonly<Record<string, number>> = { mm: 0.05, in: 0.002 };

/** Design ride height, ends where the sweep stopped short, limits and events, from left to right. */
function marksOf({ end, info: [{ unit }] }: Curves, limits: Limits | undefined, x: PlotBase): PlotLine[] {
  const { bump = null, droop = null, events = [] } = limits ?? {};
  const inward = { droop: 'right', bump: 'left' } as const;
  const named = (words: string, travel: number) => `${words} ${signedTravel(travel, unit)} ${unit}`;
  const stopped = (['droop', 'bump'] as const).filter((side) => end[side].status !== 'reached');
  // Where the linkage itself ended the sweep, that is reported as its end.
  const isEnd = ({ side, travel }: Limit) =>
    stopped.includes(side) && Math.abs(travel - end[side].travel) < (ONE_PLACE[unit] ?? 0);
  const all: PlotLine[] = [
    { at: 0, style: 'solid' },
    ...stopped.map(
      (side): PlotLine => ({
        at: end[side].travel,
        style: 'dashed',
        words: named(endMark(end[side]), end[side].travel),
        side: inward[side],
      }),
    ),
    ...[droop, bump].flatMap((limit): PlotLine[] =>
      limit === null || isEnd(limit)
        ? []
        : [
            {
              at: limit.travel,
              words: named(causeWords(limit.cause), limit.travel),
              side: inward[limit.side],
            },
          ],
    ),
    ...events.map(
      ({ side, travel }): PlotLine => ({
        at: travel,
        style: 'dotted',
        words: named('bump stop contact', travel),
        side: inward[side],
      }),
    ),
  ];
  return all.filter(({ at }) => at >= x.low && at <= x.high).sort((a, b) => a.at - b.at);
}

/** The columns by name, as long as they make a heading. */
function titleFor(columns: readonly ColumnInfo[]): string {
  if (columns.length > 3) return 'Curves through travel';
  const list = columns.map(({ label }) => label.split(',')[0]).join(', ');
  const words = list.replace(/, ([^,]*)$/, ' and $1');
  return `${capital(words)} through travel`;
}

/** The travel, with a little room beyond an end that stopped short. */
function travelAxis({ end: { droop, bump }, info: [{ label, unit }] }: Curves): PlotBase {
  const isPoint = bump.travel === droop.travel;
  const room = isPoint ? 1 : 0.03 * (bump.travel - droop.travel);
  const beyond = (status: string) => (status === 'reached' && !isPoint ? 0 : room);
  const [low, high] = [droop.travel - beyond(droop.status), bump.travel + beyond(bump.status)];
  return {
    label: `${label}${inBrackets(unit)}`,
    low,
    high,
    ticks: STATIONS,
    signed: true,
    words: [
      { at: 0, words: 'design ride height' },
      { at: low, words: 'droop' },
      { at: high, words: 'bump' },
    ],
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

/** Least and greatest value to show, with those that stand `beside`: without what runs away towards an end or a gap, and never of no height. */
function valueRange(
  column: ColumnInfo,
  travel: readonly number[],
  values: readonly (number | null)[],
  beside: readonly number[],
): [number, number] {
  const last = travel.length - 1;
  const span = travel[last] - travel[0];
  const counts = (t: number) =>
    (values[0] !== null || t >= travel[0] + RUNAWAY * span) &&
    (values[last] !== null || t <= travel[last] - RUNAWAY * span);
  const shown = [...values.filter((_, k) => counts(travel[k])), ...beside]
    .filter((value) => value !== null)
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
  in: 0.04,
  deg: 0.1,
  '': 0.01,
  '1/mm': 1e-5,
  '1/in': 2.5e-4,
};

/** The edges of a column's 95 % interval, as far as the curves go. */
function bandOf(
  { at, end }: Curves,
  name: string,
  bands: PlotCurvesOptions['bands'],
): Required<PlotPanel>['band'] {
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
