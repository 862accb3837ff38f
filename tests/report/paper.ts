// What an SVG document of the library puts on its paper: words with the room they take, and places of lines.
//
// Room of words: font size times the advance widths that src/report/text.ts takes for DejaVu Sans (text.test.ts holds
// them against that font's own), 0.76 em above the base line and 0.24 em below it.
import { textWidth } from '../../src/report/text.ts';
import { type Node, parseXml } from './xml.ts';

export interface Words {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

type Spot = readonly [x: number, y: number];

export interface Paper {
  readonly width: number;
  readonly height: number;
  readonly words: readonly Words[];
  /** Ends and corners of all shapes. */
  readonly places: readonly (readonly [number, number])[];
  /** Lines and the edges of shapes. */
  readonly strokes: readonly Stroke[];
}

export interface Stroke {
  readonly from: Spot;
  readonly to: Spot;
  readonly ink: string;
  readonly width: number;
  readonly isDashed: boolean;
}

/** The lines that carry a drawing: whole and black, thicker than leaders and frames. */
export const isHeavy = ({ ink, width, isDashed }: Stroke): boolean =>
  ink === '#000' && width > 1 && !isDashed;

/** Every line but those of the grid. */
export const isNoGrid = ({ ink }: Stroke): boolean => ink !== '#ccc';

const ASCENT = 0.76;
const DESCENT = 0.24;

export function readPaper(svg: string): Paper {
  const root = parseXml(svg);
  const [, , width, height] = root.attributes.viewBox.split(' ').map(Number);
  const words: Words[] = [];
  const places: [number, number][] = [];
  const strokes: Stroke[] = [];
  visit(root, 0, 0);
  return { width, height, words, places, strokes };

  function visit({ name, attributes, children }: Node, dx: number, dy: number): void {
    const number = (key: string) => {
      const value = Number(attributes[key]);
      if (!Number.isFinite(value)) throw new Error(`${name}: ${key} is ${attributes[key]}`);
      return value;
    };
    const add = (x: number, y: number) => places.push([x + dx, y + dy]);
    /** A shape by its corners. */
    const outline = (...corners: Spot[]) => {
      const moved = corners.map(([x, y]): Spot => [x + dx, y + dy]);
      moved.slice(1).forEach((corner, k) => {
        strokes.push({
          from: moved[k],
          to: corner,
          ink: attributes.stroke ?? 'none',
          width: Number(attributes['stroke-width'] ?? 1),
          isDashed: attributes['stroke-dasharray'] !== undefined,
        });
      });
    };
    switch (name) {
      case 'line':
        add(number('x1'), number('y1'));
        add(number('x2'), number('y2'));
        outline([number('x1'), number('y1')], [number('x2'), number('y2')]);
        break;
      case 'rect':
        if (attributes.x === undefined) break;
        add(number('x'), number('y'));
        add(number('x') + number('width'), number('y') + number('height'));
        outline(...cornersOf(number('x'), number('y'), number('width'), number('height')));
        break;
      case 'circle':
        add(number('cx') - number('r'), number('cy') - number('r'));
        add(number('cx') + number('r'), number('cy') + number('r'));
        outline(
          ...cornersOf(
            number('cx') - number('r'),
            number('cy') - number('r'),
            2 * number('r'),
            2 * number('r'),
          ),
        );
        break;
      case 'path':
        for (const [x, y] of pathPlaces(attributes.d)) add(x, y);
        outline(...pathPlaces(attributes.d));
        break;
      case 'text': {
        const size = number('font-size');
        const pieces = children.map((child) =>
          typeof child === 'string'
            ? {
                text: children.length > 1 ? child.replace(/\s+/g, ' ') : child,
                isBold: attributes['font-weight'] === 'bold',
              }
            : { text: child.children.join(''), isBold: child.attributes['font-weight'] === 'bold' },
        );
        const text = pieces.map((piece) => piece.text).join('');
        if (text === '') throw new Error('text without words');
        const span = pieces.reduce((sum, piece) => sum + textWidth(piece.text, size, piece.isBold), 0);
        const share = { start: 0, middle: 0.5, end: 1 }[attributes['text-anchor'] ?? 'start'] ?? Number.NaN;
        const turned = /^translate\(([-\d.]+) ([-\d.]+)\) rotate\(-90\)$/.exec(attributes.transform ?? '');
        if (turned === null) {
          if (attributes.transform !== undefined) throw new Error(`transform ${attributes.transform}`);
          const left = number('x') + dx - share * span;
          const base = number('y') + dy;
          words.push({
            text,
            left,
            right: left + span,
            top: base - ASCENT * size,
            bottom: base + DESCENT * size,
          });
        } else {
          // Read from below.
          const [base, bottom] = [Number(turned[1]) + dx, Number(turned[2]) + dy + share * span];
          words.push({
            text,
            left: base - ASCENT * size,
            right: base + DESCENT * size,
            top: bottom - span,
            bottom,
          });
        }
        break;
      }
      case 'g':
      case 'svg': {
        const move = /^translate\(([^ ]+) ([^ ]+)\)$/.exec(attributes.transform ?? 'translate(0 0)');
        if (move === null) throw new Error(`transform ${attributes.transform}`);
        for (const child of children) {
          if (typeof child === 'string') throw new Error(`loose words: ${child}`);
          visit(child, dx + Number(move[1]), dy + Number(move[2]));
        }
        break;
      }
      case 'title':
        break;
      default:
        throw new Error(`unknown element ${name}`);
    }
  }
}

/** A rectangle from its corner round to it again. */
function cornersOf(x: number, y: number, width: number, height: number): Spot[] {
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
    [x, y],
  ];
}

/** Places of `M x y`, `L x y`, `Q x y x y` and `Z`; anything else throws. */
function pathPlaces(d: string): [number, number][] {
  if (!/^M[-\d. ]+(?:[LQ][-\d. ]+)*Z?$/.test(d)) throw new Error(`path ${d}`);
  return d
    .replace('Z', '')
    .slice(1)
    .split(/[LQ]/)
    .flatMap((step) => {
      const values = step.split(' ').map(Number);
      if (!values.every(Number.isFinite) || values.length % 2 !== 0) throw new Error(`path ${step}`);
      return values.length === 2
        ? [[values[0], values[1]] as [number, number]]
        : [[values[0], values[1]] as [number, number], [values[2], values[3]] as [number, number]];
    });
}

/** What is wrong with a paper: things off it, words on words. */
export function faults({ width, height, words, places }: Paper): string[] {
  const found: string[] = [];
  for (const { text, left, right, top, bottom } of words) {
    if (left < 0 || right > width || top < 0 || bottom > height) found.push(`off the paper: ${text}`);
  }
  for (const [x, y] of places) {
    if (!(x >= 0 && x <= width && y >= 0 && y <= height)) found.push(`off the paper: ${x} ${y}`);
  }
  words.forEach((a, k) => {
    for (const b of words.slice(k + 1)) {
      if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom) {
        found.push(`on each other: ${a.text} | ${b.text}`);
      }
    }
  });
  return found;
}

/** Words that a line or an edge runs through, of those lines that count. */
export function struck(
  { words, strokes }: Paper,
  counts: (stroke: Stroke) => boolean = () => true,
): string[] {
  const lines = strokes.filter(counts);
  return words.flatMap(({ text, left, right, top, bottom }) =>
    lines
      .filter(({ from, to }) => crosses(from, to, [left, right], [top, bottom]))
      .map(({ from, to }) => `struck: ${text} by ${from} ${to}`),
  );
}

/** Whether a line meets the inside of a rectangle: what is left of it between each pair of sides. */
function crosses(from: Spot, to: Spot, ...sides: readonly (readonly [low: number, high: number])[]): boolean {
  let [start, end] = [0, 1];
  for (const [k, [low, high]] of sides.entries()) {
    const [a, way] = [from[k], to[k] - from[k]];
    if (way === 0) {
      if (a <= low || a >= high) return false;
      continue;
    }
    const [first, last] = [(low - a) / way, (high - a) / way].sort((x, y) => x - y);
    start = Math.max(start, first);
    end = Math.min(end, last);
  }
  return start < end;
}
