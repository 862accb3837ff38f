// What makes figures uncertain: a bar for each, its pieces the contributions to the variance, largest first.

import type { Figure } from '../../coilover/sizing/result.ts';
import { spaced } from '../../words.ts';
import { type Attributes, type Element, element, svgDocument, text } from '../svg.ts';
import { textWidth } from '../text.ts';
import { type Block, table } from './blocks.ts';

/** Width of the picture on paper, and on a narrow screen. */
const WIDTH = 700;
export const NARROW_WIDTH = 360;
/** Room for the outline of a bar at either end, and how long all pieces of a bar are. */
const EDGE = 0.5;
const FONT = 11;
/** Of places in the file. */
const SMALL = 10;
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
export function contributionBars(
  figures: readonly Figure[],
  title: string,
  width: number = WIDTH,
): string | null {
  const rows = figures.filter(isUncertain);
  if (rows.length === 0) return null;
  let height = 0;
  const content = rows.flatMap((figure) => {
    const row = rowOf(figure, height, width);
    height = row.bottom;
    return row.content;
  });
  return svgDocument({ width, height, title, content });
}

/** Whether a figure has an interval, which something makes. */
function isUncertain({ lower, upper, contributions }: Figure): boolean {
  return contributions.length > 0 && lower !== null && upper !== null && lower < upper;
}

function rowOf(
  { label, contributions }: Figure,
  top: number,
  width: number,
): { readonly content: Element[]; readonly bottom: number } {
  const bar = (x: number, length: number, fill: string) =>
    element('rect', { x: EDGE + x, y: top + HEAD, width: length, height: BAR, fill, ...THIN });
  const bars = width - 2 * EDGE;
  let from = 0;
  let [x, line] = [0, top + HEAD + WORDS];
  const pieces: Element[] = [];
  const words: Element[] = [];
  largest(contributions).forEach(({ name: what, input, fraction, shown }, k) => {
    pieces.push(bar(from * bars, fraction * bars, FILLS[k]));
    from += fraction;
    const name = `${what} ${percent(shown)}`;
    const path = MARK + AFTER_MARK + textWidth(name, FONT) + BEFORE_PATH;
    const end = input === '' ? path - BEFORE_PATH : path + textWidth(input, SMALL);
    if (x > 0 && x + end > width) [x, line] = [0, line + LINE];
    // A place that does not fit beside its name stands below it.
    const isBelow = input !== '' && end > width;
    words.push(
      element('rect', { x, y: line - MARK, width: MARK, height: MARK, fill: FILLS[k], ...THIN }),
      text(name, [x + MARK + AFTER_MARK, line], { 'font-size': FONT }),
      ...(input === ''
        ? []
        : [
            text(input, isBelow ? [MARK + AFTER_MARK, line + LINE] : [x + path, line], {
              'font-size': SMALL,
              fill: '#555',
            }),
          ]),
    );
    [x, line] = isBelow ? [width, line + LINE] : [x + end + AFTER_WORDS, line];
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
  const all = others > LEAST ? [...named, { name: 'others', input: '', fraction: others }] : named;
  return inPercent(all);
}

/** Fractions of 1 with whole percents that add up to 100: the others, or the largest, take what rounding leaves over. */
function inPercent<One extends { readonly input: string; readonly fraction: number }>(
  all: readonly One[],
): (One & { readonly shown: number })[] {
  const shown = all.map(({ fraction }) => Math.round(100 * fraction));
  const left = 100 - shown.reduce((sum, one) => sum + one, 0);
  const last = all.length - 1;
  const taker = all[last].input === '' && shown[last] + left >= 0 ? last : 0;
  return all.map((one, k) => ({ ...one, shown: shown[k] + (k === taker ? left : 0) }));
}

/** `42 %`; nothing as `under 1 %`. */
function percent(shown: number): string {
  return `${shown === 0 ? 'under 1' : shown} %`;
}

/** The same as a table. */
export function contributionTable(figures: readonly Figure[], title: string): Block {
  return table(
    title,
    ['figure', 'what makes it uncertain', 'place in the file', 'fraction of its variance'],
    figures
      .filter(isUncertain)
      .flatMap(({ label, contributions }) =>
        largest(contributions).map(({ name, input, shown }, k) => [
          k === 0 ? label : '',
          name,
          input,
          percent(shown),
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
