// Curves as Vega-Lite v5 specifications: plain objects, for notebooks and web pages that draw them.

import type { ColumnInfo } from '../corner/columns.ts';
import type { Limits } from '../corner/limits/limits.ts';
import type { Sweep } from '../corner/sweep.ts';
import { fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import { refuseOtherThan } from '../errors/result.ts';
import { type Units, unitName } from '../units.ts';
import type { FlatPose } from './curves.ts';
import { shownColumn, shownLength, shownLimits, shownRow } from './in-units.ts';
import { lookFaults } from './looks.ts';
import { causeWords, signedTravel } from './text.ts';

/** A Vega-Lite v5 specification. */
export type VegaLite = Readonly<Record<string, unknown>>;

/** What of a sweep, or of the curves of a sizing, a specification needs. */
export type RowedCurves<At extends FlatPose = FlatPose> = Pick<Sweep, 'info' | 'end'> & {
  readonly rows: () => readonly At[];
};

/** What a specification shows; all optional. */
export interface VegaOptions<Name extends string = string> {
  /** Columns to show, one a panel, from the top; default installation ratio and shock length. */
  readonly panels?: readonly Name[];
  /** Where the travel ends: shaded beyond, and named. */
  readonly limits?: Limits;
  /** What rows, axes and names are in; default metric. */
  readonly units?: Units;
}

const SCHEMA = 'https://vega.github.io/schema/vega-lite/v5.json';
const WIDTH = 560;
const HEIGHT = 180;

/**
 * Columns of a sweep over travel (mm, bump positive) as a Vega-Lite v5 specification with the rows in it: panels one under
 * the other, the travel beyond the limits shaded.
 *
 * @throws InputError for an unknown column.
 */
export function vegaCurves<At extends FlatPose>(
  sweep: RowedCurves<At>,
  options: VegaOptions<keyof At & string> = {},
): VegaLite {
  refuseOtherThan('rows', sweep);
  refuse('options of vegaCurves', lookFaults(options, ['panels', 'limits', 'units']));
  const { panels = ['installationRatio', 'shockLength'], limits, units = 'metric' }: VegaOptions = options;
  const columns = chosen(sweep, panels);
  const [travel] = sweep.info;
  const shown = shownRow([travel, ...columns], units);
  return {
    $schema: SCHEMA,
    data: { values: sweep.rows().map(shown) },
    vconcat: columns.map((column) => ({
      width: WIDTH,
      height: HEIGHT,
      layer: [
        ...(limits === undefined ? [] : limitLayers(limits, sweep, units)),
        curveLayer(shownColumn(travel, units), shownColumn(column, units)),
      ],
    })),
    config: { axis: { gridColor: '#ddd' }, line: { color: 'black' } },
  };
}

function curveLayer(travel: ColumnInfo, column: ColumnInfo) {
  return {
    mark: { type: 'line', tooltip: true, invalid: 'break-paths-show-domains' },
    encoding: {
      x: { field: 'travel', type: 'quantitative', title: titled(travel) },
      y: { field: column.name, type: 'quantitative', title: titled(column), scale: { zero: false } },
    },
  };
}

function limitLayers(limits: Limits, { end: metric }: RowedCurves, units: Units) {
  const { bump, droop, events } = shownLimits(limits, units);
  const end = {
    droop: { travel: shownLength(metric.droop.travel, units) },
    bump: { travel: shownLength(metric.bump.travel, units) },
  };
  const unit = unitName('length', units);
  const bands = [
    ...(droop === null ? [] : [{ from: end.droop.travel, to: droop.travel, what: causeWords(droop.cause) }]),
    ...(bump === null ? [] : [{ from: bump.travel, to: end.bump.travel, what: causeWords(bump.cause) }]),
  ].filter(({ from, to }) => to > from);
  const lines = [
    ...[droop, bump].flatMap((limit) =>
      limit === null ? [] : [{ travel: limit.travel, what: causeWords(limit.cause) }],
    ),
    ...events.map(({ travel }) => ({ travel, what: 'bump stop contact' })),
  ]
    .filter(({ travel }) => travel >= end.droop.travel && travel <= end.bump.travel)
    .map(({ travel, what }) => ({ travel, what: `${what} at ${signedTravel(travel, unit)} ${unit}` }));
  return [
    {
      data: { values: bands },
      mark: { type: 'rect', color: 'black', opacity: 0.1 },
      encoding: {
        x: { field: 'from', type: 'quantitative' },
        x2: { field: 'to' },
        tooltip: { field: 'what' },
      },
    },
    {
      data: { values: lines },
      mark: { type: 'rule', color: 'black', strokeDash: [4, 3] },
      encoding: { x: { field: 'travel', type: 'quantitative' }, tooltip: { field: 'what' } },
    },
  ];
}

function titled({ label, unit }: ColumnInfo): string {
  return unit === '' ? label : `${label} [${unit}]`;
}

function chosen({ info }: RowedCurves, panels: readonly string[]): ColumnInfo[] {
  const known = info.map(({ name }) => name).filter((name) => name !== 'travel');
  const faults = panels.flatMap((name, k) =>
    known.includes(name) ? [] : [fault('notInTheSweep', `panels[${k}]`, { got: show(name), allowed: known })],
  );
  refuse('curve options', faults);
  return panels.map((name) => info.find((column) => column.name === name) as ColumnInfo);
}
