// What makes figures uncertain: a bar for each, its pieces the contributions to the variance, largest first.

import type { Figure } from '../../coilover/sizing/result.ts';
import { spaced } from '../../words.ts';
import { type Attributes, type Element, element, svgDocument, text } from '../svg.ts';
import { textWidth } from '../text.ts';
import { type Block, table } from './blocks.ts';

const WIDTH = 700;
/** Room for the outline of a bar at either end, and how long all pieces of a bar are. */
const EDGE = 0.5;
const BARS = WIDTH - 2 * EDGE;
const FONT = 11;
/** Of places in the file. */
const SMALL = 9.5;
const BAR = 13;
/** From the top of a figure to its bar, from there to the first line of words, and from line to line. */
const HEAD = 15;
const WORDS = 25;
const LINE = 14;
/** Below the last line of a figure. */
const GAP = 7;
/** Pieces that are named; the rest is one piece. */
const NAMED = 3;
/** Fraction of the rest from which it is shown. */
const LEAST = 0.005;
const FILLS = ['#555', '#999', '#ccc', '#fff'];
const THIN: Attributes = { stroke: '#000', 'stroke-width': 0.7 };
/** Side of the mark before words, with the room around both. */
const MARK = 7;
const AFTER_MARK = 4;
const BEFORE_PATH = 4;
const AFTER_WORDS = 16;

/** Figures with what makes them uncertain; those that nothing does are left out, and null is for none. */
export function contributionBars(figures: readonly Figure[], title: string): string | null {
  const rows = figures.filter(({ contributions }) => contributions.length > 0);
  if (rows.length === 0) return null;
  let height = 0;
  const content = rows.flatMap((figure) => {
    const row = rowOf(figure, height);
    height = row.bottom;
    return row.content;
  });
  return svgDocument({ width: WIDTH, height, title, content });
}

function rowOf(
  { label, contributions }: Figure,
  top: number,
): { readonly content: Element[]; readonly bottom: number } {
  const bar = (x: number, width: number, fill: string) =>
    element('rect', { x: EDGE + x, y: top + HEAD, width, height: BAR, fill, ...THIN });
  let from = 0;
  let [x, line] = [0, top + HEAD + WORDS];
  const pieces: Element[] = [];
  const words: Element[] = [];
  largest(contributions).forEach(({ name: what, input, fraction }, k) => {
    pieces.push(bar(from * BARS, fraction * BARS, FILLS[k]));
    from += fraction;
    const name = `${what} ${percent(fraction)}`;
    const path = MARK + AFTER_MARK + textWidth(name, FONT) + BEFORE_PATH;
    const end = input === '' ? path - BEFORE_PATH : path + textWidth(input, SMALL);
    if (x > 0 && x + end > WIDTH) [x, line] = [0, line + LINE];
    words.push(
      element('rect', { x, y: line - MARK, width: MARK, height: MARK, fill: FILLS[k], ...THIN }),
      text(name, [x + MARK + AFTER_MARK, line], { 'font-size': FONT }),
      ...(input === '' ? [] : [text(input, [x + path, line], { 'font-size': SMALL, fill: '#555' })]),
    );
    x += end + AFTER_WORDS;
  });
  return {
    content: [text(label, [0, top + 11], { 'font-size': FONT, 'font-weight': 'bold' }), ...pieces, ...words],
    bottom: line + GAP,
  };
}

/** The largest contributions, by name and place in the file, then all others as one without a place. */
function largest(contributions: Figure['contributions']) {
  const named = contributions.slice(0, NAMED).map((one) => ({ ...one, name: wordsOf(one.input) }));
  const others = 1 - named.reduce((sum, { fraction }) => sum + fraction, 0);
  return others > LEAST ? [...named, { name: 'others', input: '', fraction: others }] : named;
}

/** `42 %`; less than half a percent as `under 1 %`. */
function percent(fraction: number): string {
  const shown = (100 * fraction).toFixed(0);
  return `${shown === '0' ? 'under 1' : shown} %`;
}

/** The same as a table. */
export function contributionTable(figures: readonly Figure[], title: string): Block {
  return table(
    title,
    ['figure', 'what makes it uncertain', 'place in the file', 'fraction of its variance'],
    figures.flatMap(({ label, contributions }) =>
      largest(contributions).map(({ name, input, fraction }, k) => [
        k === 0 ? label : '',
        name,
        input,
        percent(fraction),
      ]),
    ),
    [3],
  );
}

/** Inputs by the last part of their place in the file. */
const INPUTS: Readonly<Record<string, string>> = {
  total: 'total mass',
  frontFraction: 'share on the front axle',
  sprungCentreOfGravityHeight: 'height of the sprung centre of gravity',
  force: 'force',
  rateTolerance: 'spring rate as made',
  lengthTolerance: 'lengths as made',
  pressure: 'gas pressure',
};

/** Where an input belongs, if its name does not say it. */
const OWNERS: Readonly<Record<string, string>> = {
  'downforce.force': 'downforce',
  'downforce.frontFraction': 'share of the downforce in front',
};

/** An input in words, with its axle where it has one. */
function wordsOf(input: string): string {
  const [, axle] = /^corners\.(front|rear)\b/.exec(input) ?? [];
  const parts = input.split(/[. ]/);
  const own = parts.at(-1) ?? input;
  const load = /^masses\.added\[(\d+)\]/.exec(input);
  const words =
    OWNERS[input] ?? INPUTS[own] ?? spaced(own.replace(/\[(\d+)\]/g, (_, k) => ` ${Number(k) + 1}`));
  const of = load === null ? '' : `, load ${Number(load[1]) + 1}`;
  return `${axle === undefined ? '' : `${axle} `}${words}${of}`;
}
