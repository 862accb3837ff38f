// What makes figures uncertain: a bar for each, its pieces the contributions to the variance, largest first.

import type { Figure } from '../../coilover/sizing/result.ts';
import { spaced } from '../../words.ts';
import { type Element, element, svgDocument, text } from '../svg.ts';
import { fittingSize } from '../text.ts';

const WIDTH = 700;
const FONT = 11;
const BAR = 13;
const ROW = 46;
/** Pieces that are named; the rest is one piece without a name. */
const NAMED = 3;
const FILLS = ['#555', '#999', '#ccc'];

/** Figures with what makes them uncertain; those that nothing does are left out, and null is for none. */
export function contributionBars(figures: readonly Figure[], title: string): string | null {
  const rows = figures.filter(({ contributions }) => contributions.length > 0);
  if (rows.length === 0) return null;
  return svgDocument({
    width: WIDTH,
    height: rows.length * ROW + 4,
    title,
    content: rows.flatMap((figure, k) => rowOf(figure, k * ROW)),
  });
}

function rowOf({ label, contributions }: Figure, top: number): Element[] {
  const named = contributions.slice(0, NAMED);
  let from = 0;
  const pieces = named.map(({ fraction }, k): Element => {
    const x = from * WIDTH;
    from += fraction;
    return element('rect', {
      x,
      y: top + 15,
      width: fraction * WIDTH,
      height: BAR,
      fill: FILLS[k],
      stroke: '#000',
      'stroke-width': 0.7,
    });
  });
  let x = 0;
  const words = named.flatMap(({ input, fraction }, k): Element[] => {
    const start = x;
    const text1 = `${(100 * fraction).toFixed(0)} % ${wordsOf(input)}`;
    const size = Math.min(FONT, fittingSize(text1, FONT, WIDTH / NAMED - 16));
    x += Math.max(WIDTH / NAMED, 0);
    return [
      element('rect', {
        x: start,
        y: top + 33,
        width: 7,
        height: 7,
        fill: FILLS[k],
        stroke: '#000',
        'stroke-width': 0.5,
      }),
      text(text1, [start + 11, top + 40], { 'font-size': size }),
    ];
  });
  return [
    text(label, [0, top + 11], { 'font-size': FONT, 'font-weight': 'bold' }),
    element('rect', {
      x: 0,
      y: top + 15,
      width: WIDTH,
      height: BAR,
      fill: '#fff',
      stroke: '#000',
      'stroke-width': 0.7,
    }),
    ...pieces,
    ...words,
  ];
}

/** An input in words: its own name first, then where it stands. */
export function wordsOf(input: string): string {
  const parts = input
    .split('.')
    .map((part) => spaced(part.replace(/\[(\d+)\]/g, (_, k) => ` ${Number(k) + 1}`)));
  const own = parts.pop() ?? input;
  const where = parts.filter((part) => !['corners', 'sizing', 'limits'].includes(part)).join(' ');
  return where === '' ? own : `${own} (${where})`;
}
