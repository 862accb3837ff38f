// A small SVG writer: elements as plain records, written out once, words with true minus signs. Nothing here knows what is drawn.

import { printed } from './text.ts';

/** An SVG element as a plain record; text children are escaped when it is written. */
export interface Element {
  readonly name: string;
  readonly attributes: Attributes;
  readonly children: readonly (Element | string)[];
}

/** Attribute values; numbers are rounded to a hundredth of a unit. */
export type Attributes = Readonly<Record<string, string | number>>;

/** A place on the paper, x to the right, y down. */
export type Place = readonly [x: number, y: number];

/** What is to be shown on a paper of a size. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Name of the whole, for those who can't see it. */
  readonly title: string;
  readonly content: readonly Element[];
}

/** Fonts asked for; widths are reckoned by the first (text.ts), which is wider than the others. */
const FONTS = "'DejaVu Sans', Arial, Helvetica, sans-serif";

/** An element. */
export function element(
  name: string,
  attributes: Attributes = {},
  ...children: (Element | string)[]
): Element {
  return { name, attributes, children };
}

/** A straight line. */
export function line([x1, y1]: Place, [x2, y2]: Place, attributes: Attributes): Element {
  return element('line', { x1, y1, x2, y2, ...attributes });
}

/** A text from its place on the base line. */
export function text(content: string, [x, y]: Place, attributes: Attributes): Element {
  return element('text', { x, y, ...attributes }, content);
}

/** A white rim around letters, so that lines behind them don't disturb. */
export const RIMMED: Attributes = {
  stroke: '#fff',
  'stroke-width': 3.5,
  'stroke-linejoin': 'round',
  'paint-order': 'stroke',
};

/** Path data through points in order. */
export function through(points: readonly Place[], closed = false): string {
  const steps = points.map((place, k) => `${k === 0 ? 'M' : 'L'}${pair(place)}`);
  return steps.join('') + (closed ? 'Z' : '');
}

/** Path data of a polygon whose corners are rounded by curves that begin `radius` before them. */
export function rounded(corners: readonly Place[], radius: number): string {
  const steps = corners.map((corner, k) => {
    const enter = towards(corner, corners[(k + corners.length - 1) % corners.length], radius);
    const leave = towards(corner, corners[(k + 1) % corners.length], radius);
    return `${k === 0 ? 'M' : 'L'}${pair(enter)}Q${pair(corner)} ${pair(leave)}`;
  });
  return `${steps.join('')}Z`;
}

/** A place `way` from one place towards another, half way at most. */
function towards([x, y]: Place, [toX, toY]: Place, way: number): Place {
  const share = Math.min(0.5, way / (Math.hypot(toX - x, toY - y) || 1));
  return [x + share * (toX - x), y + share * (toY - y)];
}

/** A picture as a self-contained SVG document: black on white, no script, no style sheet, no reference. */
export function svgDocument({ width, height, title, content }: Picture): string {
  const root = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${number(width)} ${number(height)}`,
      role: 'img',
      'font-family': FONTS,
      fill: '#000',
    },
    element('title', {}, title),
    element('rect', { width, height, fill: '#fff' }),
    ...content,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${write(root, '')}`;
}

/** Pictures one under the other as one. */
export function stacked(title: string, pictures: readonly Picture[]): Picture {
  let height = 0;
  const content = pictures.map((picture) => {
    const group = element('g', { transform: `translate(0 ${number(height)})` }, ...picture.content);
    height += picture.height;
    return group;
  });
  return { width: Math.max(...pictures.map(({ width }) => width)), height, title, content };
}

/** Pictures side by side as one. */
export function beside(title: string, pictures: readonly Picture[]): Picture {
  let width = 0;
  const content = pictures.map((picture) => {
    const group = element('g', { transform: `translate(${number(width)} 0)` }, ...picture.content);
    width += picture.width;
    return group;
  });
  return { width, height: Math.max(...pictures.map(({ height }) => height)), title, content };
}

function write({ name, attributes, children }: Element, indent: string): string {
  const given = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? number(value) : escaped(value)}"`)
    .join('');
  if (children.length === 0) return `${indent}<${name}${given}/>\n`;
  if (children.some((child) => typeof child === 'string')) {
    const inner = children.map((child) =>
      typeof child === 'string' ? escaped(printed(child)) : write(child, ''),
    );
    return `${indent}<${name}${given}>${inner.join('')}</${name}>\n`;
  }
  const inner = children.map((child) => write(child as Element, `${indent} `)).join('');
  return `${indent}<${name}${given}>\n${inner}${indent}</${name}>\n`;
}

function pair([x, y]: Place): string {
  return `${number(x)} ${number(y)}`;
}

/** Rounded to a hundredth, without a minus before zero. */
function number(value: number): string {
  return String(Math.round(value * 100) / 100 || 0);
}

const ENTITIES: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text for XML 1.0: markup escaped, characters that it does not know replaced. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '\uFFFD')
    .replace(/[&<>"]/g, (character) => ENTITIES[character]);
}
