// Frequency at each spring rate, with the spring that is chosen and the target.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { isBought } from '../../coilover/sizing/unsettled.ts';
import { fromMetric, type Units, unitName } from '../../units.ts';
import { type PlotLayout, plot } from '../plot.ts';
import { svgDocument } from '../svg.ts';
import { inBrackets } from '../text.ts';

const WIDTH = 700;
const LAYOUT: PlotLayout = {
  left: 46,
  right: WIDTH - 160,
  words: 46,
  top: 0,
  height: 150,
  between: 0,
  size: 11,
  small: 11,
  names: 'right',
};
/** The same for a narrow screen. */
const NARROW_WIDTH = 360;
const NARROW: PlotLayout = { ...LAYOUT, right: NARROW_WIDTH - 8, names: 'above' };
/** What is shown beyond the least and the greatest frequency, Hz. */
const ROOM = 0.05;

/** The curve of a rate table; null where it has no curve. */
export function rateCurve(
  { rateTable, springFit, input }: AxleSizing,
  title: string,
  units: Units,
  isNarrow = false,
): string | null {
  const rows = rateTable.flatMap(({ springRate, frequency, frequencyWithTyre, fitted }) =>
    frequency === null
      ? []
      : [{ rate: fromMetric(springRate, 'rate', units), frequency, frequencyWithTyre, fitted }],
  );
  if (rows.length < 2) return null;
  const target = springFit?.requiredFrequency ?? null;
  const heights = [
    ...rows.flatMap(({ frequency, frequencyWithTyre }) => [frequency, frequencyWithTyre]),
    target,
  ].filter((value) => value !== null);
  const { content, bottom } = plot(
    {
      label: `spring rate${inBrackets(unitName('rate', units))}; dot: the spring ${isBought(input) ? 'fitted' : 'chosen'}`,
      low: rows[0].rate,
      high: rows[rows.length - 1].rate,
      ticks: 6,
    },
    [
      {
        y: {
          label: 'ride frequency [Hz]',
          low: Math.min(...heights) - ROOM,
          high: Math.max(...heights) + ROOM,
          ticks: 5,
        },
        curves: [
          {
            points: rows.map(({ rate, frequency }) => [rate, frequency]),
            style: 'solid',
            name: 'suspension alone',
          },
          {
            points: rows.map(({ rate, frequencyWithTyre }) => [rate, frequencyWithTyre]),
            style: 'dashed',
            name: 'with the tyre',
          },
        ],
        horizontals:
          target === null ? [] : [{ at: target, style: 'dotted', words: `target ${target.toFixed(2)} Hz` }],
        dots: rows.flatMap(({ rate, frequency, fitted }) => (fitted ? [[rate, frequency] as const] : [])),
      },
    ],
    isNarrow ? NARROW : LAYOUT,
  );
  return svgDocument({ width: isNarrow ? NARROW_WIDTH : WIDTH, height: bottom + 2, title, content });
}
