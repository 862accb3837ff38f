// The force of a damper at its shaft speeds, small enough for the order.

import type { DampingRow } from '../../coilover/sizing/damping.ts';
import { fromMetric } from '../../units.ts';
import {
  type Attributes,
  type Element,
  element,
  line,
  type Place,
  svgDocument,
  text,
  through,
} from '../svg.ts';
import { printed, textWidth } from '../text.ts';
import { ticks } from '../ticks.ts';
import type { OnPaper } from './on-paper.ts';

const MM = 96 / 25.4;
/** Paper, mm. */
const WIDTH = 43;
const HEIGHT = 34;
/** What is kept free around the curves. */
const AROUND = { left: 30, right: 10, top: 30, bottom: 28 };
/** 7.1 pt. */
const FONT = 9.5;
const SAMPLE = 14;
const GRID: Attributes = { stroke: '#bbb', 'stroke-width': 0.6 };
const WAYS = {
  compression: { fill: 'none', stroke: '#000', 'stroke-width': 1.6 },
  rebound: { fill: 'none', stroke: '#000', 'stroke-width': 1.6, 'stroke-dasharray': '6 3' },
} as const;

/** Both curves of a valving, in the units of the file; its width on paper in mm. */
export function valvingCurve(
  rows: readonly DampingRow[],
  title: string,
  { units: [own], unit }: OnPaper,
): { readonly svg: string; readonly width: number } {
  const shown = [{ speed: 0, compression: 0, rebound: 0 }, ...rows].map((row) => ({
    speed: fromMetric(row.speed, 'shaftSpeed', own),
    compression: fromMetric(row.compression, 'force', own),
    rebound: fromMetric(row.rebound, 'force', own),
  }));
  const last = shown[shown.length - 1];
  const most = Math.max(1, ...shown.flatMap(({ compression, rebound }) => [compression, rebound]));
  const fastest = last.speed || 1;
  const [right, bottom] = [WIDTH * MM - AROUND.right, HEIGHT * MM - AROUND.bottom];
  const at = (speed: number, force: number): Place => [
    AROUND.left + ((right - AROUND.left) * speed) / fastest,
    bottom - ((bottom - AROUND.top) * force) / most,
  ];
  const [across, up] = [ticks(0, fastest, 4), ticks(0, most, 4)];
  let x = 0;
  const names = (['compression', 'rebound'] as const).flatMap((way): Element[] => {
    const start = x;
    x += SAMPLE + 4 + textWidth(way, FONT) + 6;
    return [
      line([start, FONT - 4], [start + SAMPLE, FONT - 4], WAYS[way]),
      text(way, [start + SAMPLE + 4, FONT - 1], { 'font-size': FONT }),
    ];
  });
  const axis = `shaft speed, ${unit('shaftSpeed', own)}`;
  return {
    width: WIDTH,
    svg: svgDocument({
      width: WIDTH * MM,
      height: HEIGHT * MM,
      title,
      content: [
        ...up.at.map((force) => line(at(0, force), at(fastest, force), GRID)),
        ...across.at.map((speed) => line(at(speed, 0), at(speed, most), GRID)),
        line(at(0, 0), at(fastest, 0), { stroke: '#000', 'stroke-width': 0.8 }),
        line(at(0, 0), at(0, most), { stroke: '#000', 'stroke-width': 0.8 }),
        ...(['compression', 'rebound'] as const).map((way) =>
          element('path', { ...WAYS[way], d: through(shown.map((row) => at(row.speed, row[way]))) }),
        ),
        ...names,
        ...up.at.map((force) =>
          text(printed(force.toFixed(up.decimals)), [AROUND.left - 4, at(0, force)[1] + 3.5], {
            'font-size': FONT,
            'text-anchor': 'end',
          }),
        ),
        ...across.at.map((speed) =>
          text(speed.toFixed(across.decimals), [at(speed, 0)[0], bottom + 12], {
            'font-size': FONT,
            'text-anchor': 'middle',
          }),
        ),
        text(`force, ${unit('force', own)}`, [0, AROUND.top - 7], { 'font-size': FONT }),
        text(axis, [WIDTH * MM, bottom + 25], { 'font-size': FONT, 'text-anchor': 'end' }),
      ],
    }),
  };
}
