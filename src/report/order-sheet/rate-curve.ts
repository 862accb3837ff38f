// Frequency at each spring rate, with the spring that is fitted and the target.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { fromMetric, type Units } from '../../units.ts';
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
import { ticks } from '../ticks.ts';
import { onPaper } from './on-paper.ts';

const WIDTH = 700;
const HEIGHT = 210;
const FONT = 11;
const AROUND = { left: 46, right: 150, top: 20, bottom: 40 };
const GRID: Attributes = { stroke: '#ccc', 'stroke-width': 0.7 };
const SOLID: Attributes = { fill: 'none', stroke: '#000', 'stroke-width': 1.6 };
const DASHED: Attributes = { ...SOLID, 'stroke-dasharray': '6 3' };

/** The curve of a rate table; null where it has no curve. */
export function rateCurve({ rateTable, springFit }: AxleSizing, title: string, units: Units): string | null {
  const rows = rateTable.flatMap(({ springRate, frequency, frequencyWithTyre, fitted }) =>
    frequency === null
      ? []
      : [{ rate: fromMetric(springRate, 'rate', units), frequency, withTyre: frequencyWithTyre, fitted }],
  );
  if (rows.length < 2) return null;
  const [first, last] = [rows[0].rate, rows[rows.length - 1].rate];
  const target = springFit?.requiredFrequency ?? null;
  const heights = [...rows.flatMap(({ frequency, withTyre }) => [frequency, withTyre]), target].filter(
    (value) => value !== null,
  );
  const [low, high] = [Math.min(...heights) - 0.05, Math.max(...heights) + 0.05];
  const [right, bottom] = [WIDTH - AROUND.right, HEIGHT - AROUND.bottom];
  const at = (rate: number, frequency: number): Place => [
    AROUND.left + ((right - AROUND.left) * (rate - first)) / (last - first),
    bottom - ((bottom - AROUND.top) * (frequency - low)) / (high - low),
  ];
  const [across, up] = [ticks(first, last, 6), ticks(low, high, 5)];
  const withTyre = rows.flatMap(({ rate, withTyre }) => (withTyre === null ? [] : [at(rate, withTyre)]));
  const fitted = rows.find((row) => row.fitted);
  const ends = [
    { y: at(last, rows[rows.length - 1].frequency)[1], words: 'suspension alone' },
    ...(withTyre.length < 2 ? [] : [{ y: withTyre[withTyre.length - 1][1], words: 'with the tyre' }]),
    ...(target === null ? [] : [{ y: at(last, target)[1], words: `target ${target.toFixed(2)} Hz` }]),
  ].sort((a, b) => a.y - b.y);
  let before = Number.NEGATIVE_INFINITY;
  const names = ends.map(({ y, words }): Element => {
    before = Math.max(y, before + FONT + 3);
    return text(words, [right + 6, before + 4], { 'font-size': FONT });
  });
  return svgDocument({
    width: WIDTH,
    height: HEIGHT,
    title,
    content: [
      ...up.at.map((hertz) => line(at(first, hertz), at(last, hertz), GRID)),
      ...across.at.map((rate) => line(at(rate, low), at(rate, high), GRID)),
      element('rect', {
        x: AROUND.left,
        y: AROUND.top,
        width: right - AROUND.left,
        height: bottom - AROUND.top,
        fill: 'none',
        stroke: '#000',
        'stroke-width': 0.8,
      }),
      element('path', { ...SOLID, d: through(rows.map(({ rate, frequency }) => at(rate, frequency))) }),
      ...(withTyre.length < 2 ? [] : [element('path', { ...DASHED, d: through(withTyre) })]),
      ...(target === null
        ? []
        : [
            line(at(first, target), at(last, target), {
              stroke: '#000',
              'stroke-width': 0.8,
              'stroke-dasharray': '1.5 2.5',
            }),
          ]),
      ...(fitted === undefined ? [] : fittedMark(at(fitted.rate, fitted.frequency), bottom)),
      ...names,
      ...up.at.map((hertz) =>
        text(hertz.toFixed(up.decimals), [AROUND.left - 5, at(first, hertz)[1] + 4], {
          'font-size': FONT,
          'text-anchor': 'end',
        }),
      ),
      ...across.at.map((rate) =>
        text(rate.toFixed(across.decimals), [at(rate, low)[0], bottom + 17], {
          'font-size': FONT,
          'text-anchor': 'middle',
        }),
      ),
      text('frequency, Hz', [0, FONT], { 'font-size': FONT }),
      text(
        `spring rate, ${onPaper(units).unit('rate', units)}; dot: the spring fitted`,
        [AROUND.left, bottom + 33],
        {
          'font-size': FONT,
        },
      ),
    ],
  });
}

function fittedMark([cx, cy]: Place, bottom: number): Element[] {
  return [
    line([cx, cy], [cx, bottom], { stroke: '#000', 'stroke-width': 0.8 }),
    element('circle', { cx, cy, r: 4.5, fill: '#000' }),
  ];
}
