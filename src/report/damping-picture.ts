// Damper force against shaft speed: bump and rebound as two lines from one table.

import type { DampingRow } from '../coilover/sizing/damping.ts';
import { fromMetric, type Units, unitName } from '../units.ts';
import { GRID, heading, SIZE, SMALL, WIDTH } from './marks.ts';
import {
  type Attributes,
  type Element,
  element,
  line,
  type Place,
  RIMMED,
  svgDocument,
  text,
  through,
} from './svg.ts';
import { printed, textWidth } from './text.ts';
import { ticks } from './ticks.ts';

const LEFT = 92;
const RIGHT = 130;
const TOP = 84;
const HEIGHT = 260;
const LINES: Readonly<Record<'compression' | 'rebound', Attributes>> = {
  compression: { fill: 'none', stroke: '#000', 'stroke-width': 2 },
  rebound: { fill: 'none', stroke: '#000', 'stroke-width': 2, 'stroke-dasharray': '9 4.5' },
};

/**
 * The force table of a damper: force against shaft speed (N, mm/s), compression in a whole line, rebound in a broken one, as an SVG document labelled in the
 * units asked for.
 */
export function plotDampingForce(
  rows: readonly DampingRow[],
  title = 'Damper force against shaft speed',
  { units = 'metric' }: { readonly units?: Units } = {},
): string {
  const shown = rows.map(({ speed, compression, rebound }) => ({
    speed: fromMetric(speed, 'shaftSpeed', units),
    compression: fromMetric(compression, 'force', units),
    rebound: fromMetric(rebound, 'force', units),
  }));
  const points = [{ speed: 0, compression: 0, rebound: 0 }, ...shown];
  const fastest = points[points.length - 1].speed || 1;
  const most = Math.max(1, ...points.flatMap(({ compression, rebound }) => [compression, rebound]));
  const [right, bottom] = [WIDTH - RIGHT, TOP + HEIGHT];
  const at = (speed: number, force: number): Place => [
    LEFT + ((right - LEFT) * speed) / fastest,
    bottom - (HEIGHT * force) / (1.06 * most),
  ];
  const across = ticks(0, fastest, 10);
  const up = ticks(0, most, 6);
  const curves = (['compression', 'rebound'] as const).flatMap((way): Element[] => {
    const end = at(fastest, points[points.length - 1][way]);
    return [
      element('path', { ...LINES[way], d: through(points.map((row) => at(row.speed, row[way]))) }),
      text(way, [end[0] + 8, end[1] + 4], { 'font-size': SIZE, ...RIMMED }),
    ];
  });
  const axis = `shaft speed [${unitName('shaftSpeed', units)}]`;
  return svgDocument({
    width: WIDTH,
    height: bottom + 60,
    title,
    content: [
      heading(title),
      text(`force at the shaft [${unitName('force', units)}]`, [LEFT, TOP - 10], { 'font-size': SIZE }),
      ...up.at.map((force) => line(at(0, force), at(fastest, force), GRID)),
      ...across.at.map((speed) => line(at(speed, 0), [at(speed, 0)[0], TOP], GRID)),
      element('rect', {
        x: LEFT,
        y: TOP,
        width: right - LEFT,
        height: HEIGHT,
        fill: 'none',
        stroke: '#000',
      }),
      ...up.at.map((force) =>
        text(printed(force.toFixed(up.decimals)), [LEFT - 8, at(0, force)[1] + 4], {
          'font-size': SMALL,
          'text-anchor': 'end',
        }),
      ),
      ...across.at.map((speed) =>
        text(speed.toFixed(across.decimals), [at(speed, 0)[0], bottom + 18], {
          'font-size': SMALL,
          'text-anchor': 'middle',
        }),
      ),
      text(axis, [(LEFT + right - textWidth(axis, SIZE)) / 2, bottom + 42], { 'font-size': SIZE }),
      ...curves,
    ],
  });
}
