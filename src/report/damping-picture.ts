// Damper force against shaft speed: compression and rebound as two lines from one table.

import type { DampingRow } from '../coilover/sizing/damping.ts';
import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import { fromMetric, type Units, unitName } from '../units.ts';
import { lookFaults, titleFaults } from './looks.ts';
import { heading, WIDTH } from './marks.ts';
import { type PlotLayout, plot, WIDE } from './plot.ts';
import { type Element, svgDocument } from './svg.ts';
import { inBrackets } from './text.ts';
import { roundStep } from './ticks.ts';

const LAYOUT: PlotLayout = { ...WIDE, right: WIDTH - 130, height: 260, names: 'right' };

/**
 * The force table of a damper: force against shaft speed (N, mm/s), compression as a solid line, rebound as a dashed one, as an SVG
 * document labelled in `units`.
 */
export function plotDampingForce(
  rows: readonly DampingRow[],
  title = 'Damper force against shaft speed',
  options: { readonly units?: Units } = {},
): string {
  refuse('damper force plot', [...rowFaults(rows), ...titleFaults(title), ...lookFaults(options, ['units'])]);
  const { content, bottom } = dampingPlot(rows, options.units ?? 'metric', LAYOUT);
  return svgDocument({ width: WIDTH, height: bottom + 14, title, content: [heading(title), ...content] });
}

/** What is wrong with a force table, one fault for each row. */
function rowFaults(rows: unknown): Diagnostic[] {
  if (!Array.isArray(rows)) return [fault('notDampingRows', '', { got: show(rows) })];
  return rows.flatMap((row, k) =>
    [row?.speed, row?.compression, row?.rebound].every(Number.isFinite)
      ? []
      : [fault('notDampingRows', `[${k}]`, { got: show(row) })],
  );
}

/** The force table of a damper as a plot, as wide as its layout. */
export function dampingPlot(
  rows: readonly DampingRow[],
  units: Units,
  layout: PlotLayout,
): { readonly content: Element[]; readonly bottom: number } {
  const points = (way: 'compression' | 'rebound') => [
    [0, 0] as const,
    ...rows.map(
      (row) => [fromMetric(row.speed, 'shaftSpeed', units), fromMetric(row[way], 'force', units)] as const,
    ),
  ];
  const [compression, rebound] = [points('compression'), points('rebound')];
  const most = Math.max(1, ...[...compression, ...rebound].map(([, force]) => force));
  const [speeds, forces] = [axisTo(compression[compression.length - 1][0] || 1), axisTo(most)];
  return plot(
    {
      label: `shaft speed${inBrackets(unitName('shaftSpeed', units))}`,
      ...speeds,
    },
    [
      {
        y: {
          label: `force at the shaft${inBrackets(unitName('force', units))}`,
          ...forces,
        },
        curves: [
          { points: compression, style: 'solid', name: 'compression' },
          { points: rebound, style: 'dashed', name: 'rebound' },
        ],
      },
    ],
    layout,
  );
}

/** Ticks of an axis from zero, which ends at the last of them. */
const TICKS = 4;

/** An axis from zero to the first tick that is not below a value. */
function axisTo(most: number): { readonly low: 0; readonly high: number; readonly ticks: number } {
  const step = roundStep(most / TICKS);
  const count = Math.ceil(most / step - 1e-9);
  return { low: 0, high: count * step, ticks: count };
}
