// The ruler of wheel travel for a narrow screen: upright, as the wheel moves, with the words of each mark on a line of their own.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import type { Units } from '../../units.ts';
import { type Attributes, type Element, element, line, svgDocument, text, through } from '../svg.ts';
import { textWidth } from '../text.ts';
import { FONT, THIN } from './travel-axis.ts';
import { LEADER, type Mark, type Ruler, rulerOf } from './travel-ruler.ts';

/** Least width, and height of the travel. */
const WIDTH = 360;
const HEIGHT = 260;
const BAR = 16;
const LINE = 15;
const TOP = 24;
/** Edges of the bars, of the axis, and where the words begin. */
const REQUIRED = 8;
const AVAILABLE = REQUIRED + BAR + 8;
const AXIS = AVAILABLE + BAR + 8;
const WORDS = AXIS + 40;
/** Share of a font size from its base line to the middle of its letters. */
const MIDDLE = 0.35;

/** The ruler of an axle, upright; null where neither a limit nor a requirement is known. */
export function uprightRuler(sized: AxleSizing, title: string, units: Units): string | null {
  const ruler = rulerOf(sized, units);
  if (ruler === null) return null;
  const { marks, from, to } = ruler;
  const top = TOP + 14;
  const y = (mm: number) => top + (HEIGHT * (to - mm)) / Math.max(1e-9, to - from);
  const lines = spread(marks, y, top, top + HEIGHT);
  const widest = Math.max(...marks.map(({ words }) => textWidth(words, FONT)));
  return svgDocument({
    width: Math.max(WIDTH, WORDS + widest + 8),
    height: Math.max(top + HEIGHT, ...lines) + 12,
    title,
    content: [
      text('required', [0, 11], { 'font-size': FONT }),
      text('available', [AVAILABLE - 4, TOP + 3], { 'font-size': FONT }),
      ...bar(REQUIRED, ruler.required, y, '#ddd'),
      ...bar(AVAILABLE, ruler.available, y, '#999'),
      line([AXIS, y(to)], [AXIS, y(from)], THIN),
      ...[...marks].reverse().flatMap(({ travel, words }, k): Element[] => [
        element('path', {
          d: through([
            [AXIS, y(travel)],
            [AXIS + 8, y(travel)],
            [WORDS - 12, lines[k]],
            [WORDS - 3, lines[k]],
          ]),
          fill: 'none',
          ...LEADER,
        }),
        text(words, [WORDS, lines[k] + MIDDLE * FONT], { 'font-size': FONT }),
      ]),
    ],
  });
}

function bar(
  x: number,
  [low, high]: Ruler['required'],
  y: (mm: number) => number,
  fill: NonNullable<Attributes['fill']>,
): Element[] {
  if (low === null || high === null) return [];
  return [
    element('rect', { x, y: y(high), width: BAR, height: Math.max(0, y(low) - y(high)), fill, ...THIN }),
  ];
}

/** Heights of lines of words, from the highest travel downward: as near to their marks as leaves each its own line. */
function spread(marks: readonly Mark[], y: (mm: number) => number, top: number, bottom: number): number[] {
  const lines: number[] = [];
  for (const { travel } of [...marks].reverse())
    lines.push(Math.max(y(travel), (lines.at(-1) ?? top - LINE) + LINE));
  for (let k = lines.length - 1; k >= 0; k--)
    lines[k] = Math.min(
      lines[k],
      k === lines.length - 1 ? Math.max(bottom, top + (lines.length - 1) * LINE) : lines[k + 1] - LINE,
    );
  return lines;
}
