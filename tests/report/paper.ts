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

export interface Paper {
  readonly width: number;
  readonly height: number;
  readonly words: readonly Words[];
  /** Ends and corners of all shapes. */
  readonly places: readonly (readonly [number, number])[];
}

const ASCENT = 0.76;
const DESCENT = 0.24;

export function readPaper(svg: string): Paper {
  const root = parseXml(svg);
  const [, , width, height] = root.attributes.viewBox.split(' ').map(Number);
  const words: Words[] = [];
  const places: [number, number][] = [];
  visit(root, 0, 0);
  return { width, height, words, places };

  function visit({ name, attributes, children }: Node, dx: number, dy: number): void {
    const number = (key: string) => {
      const value = Number(attributes[key]);
      if (!Number.isFinite(value)) throw new Error(`${name}: ${key} is ${attributes[key]}`);
      return value;
    };
    const add = (x: number, y: number) => places.push([x + dx, y + dy]);
    switch (name) {
      case 'line':
        add(number('x1'), number('y1'));
        add(number('x2'), number('y2'));
        break;
      case 'rect':
        if (attributes.x === undefined) break;
        add(number('x'), number('y'));
        add(number('x') + number('width'), number('y') + number('height'));
        break;
      case 'circle':
        add(number('cx') - number('r'), number('cy') - number('r'));
        add(number('cx') + number('r'), number('cy') + number('r'));
        break;
      case 'path':
        for (const [x, y] of pathPlaces(attributes.d)) add(x, y);
        break;
      case 'text': {
        const [text] = children;
        if (typeof text !== 'string' || children.length !== 1) throw new Error('text without words');
        const size = number('font-size');
        const span = textWidth(text, size, attributes['font-weight'] === 'bold');
        const share = { start: 0, middle: 0.5, end: 1 }[attributes['text-anchor'] ?? 'start'] ?? Number.NaN;
        const left = number('x') + dx - share * span;
        const base = number('y') + dy;
        words.push({
          text,
          left,
          right: left + span,
          top: base - ASCENT * size,
          bottom: base + DESCENT * size,
        });
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
