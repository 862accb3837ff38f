// The axis below a picture of wheel travel: a line with ticks in the units of the file, bump positive.

import { fromMetric, type Units, unitName } from '../../units.ts';
import { type Attributes, type Element, line, text } from '../svg.ts';
import { ticks } from '../ticks.ts';

/** Width of a picture of wheel travel, and the size of its words. */
export const WIDTH = 700;
export const FONT = 11;
export const THIN: Attributes = { stroke: '#000', 'stroke-width': 0.8 };
/** About how many ticks. */
const TICKS = 8;

/** The axis from one travel to another, mm, at a height; `x` places a travel, the unit stands `gap` beyond the right end. */
export function travelAxis(
  x: (mm: number) => number,
  [from, to]: readonly [number, number],
  y: number,
  units: Units,
  gap: number,
): Element[] {
  const scale = ticks(fromMetric(from, 'length', units), fromMetric(to, 'length', units), TICKS);
  return [
    line([x(from), y], [x(to), y], THIN),
    ...scale.at.flatMap((shown): Element[] => {
      const at = x(shown / fromMetric(1, 'length', units));
      return [
        line([at, y], [at, y + 5], THIN),
        text(`${shown > 0 ? '+' : ''}${shown.toFixed(scale.decimals)}`, [at, y + 16], {
          'font-size': FONT,
          'text-anchor': 'middle',
        }),
      ];
    }),
    text(`${unitName('length', units)}, bump +`, [x(to) + gap, y + 16], { 'font-size': FONT }),
  ];
}
