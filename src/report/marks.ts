// The paper and the marks on it that drawings and curves share: sizes, lines, joints, the shock, words.

import type { Point } from '../linkage/drawing.ts';
import { distance } from '../numerics/plane.ts';
import type { Box } from './labels.ts';
import type { PoseName } from './poses.ts';
import { type Attributes, type Element, element, line, type Place, RIMMED, text, through } from './svg.ts';
import { fittingSize, textWidth } from './text.ts';

/** Width of a picture, and what is kept free on both sides. */
export const WIDTH = 900;
export const EDGE = 24;
/** Font sizes, and the height of a line. */
export const SIZE = 13;
export const SMALL = 12;
export const LINE = 16;
const HEADING = 19;

/** Lines of a pose: told apart by their dashes, so that a black-and-white print will do. */
export const STROKES: Readonly<Record<PoseName, Attributes>> = {
  bump: { fill: 'none', stroke: '#000', 'stroke-width': 1.2, 'stroke-dasharray': '9 4.5' },
  ride: { stroke: '#000', 'stroke-width': 2, 'stroke-linejoin': 'round', 'stroke-linecap': 'round' },
  droop: {
    fill: 'none',
    stroke: '#000',
    'stroke-width': 1.9,
    'stroke-dasharray': '0.1 4.4',
    'stroke-linecap': 'round',
  },
};
export const THIN: Attributes = { fill: 'none', stroke: '#000', 'stroke-width': 0.9 };
export const FRAME: Attributes = { fill: 'none', stroke: '#000', 'stroke-width': 1 };
export const GRID: Attributes = { stroke: '#ccc', 'stroke-width': 0.8 };
export const FAINT: Attributes = { fill: 'none', stroke: '#777', 'stroke-width': 0.7 };

/** A joint that moves. */
export function joint([cx, cy]: Place, r: number, width: number): Element {
  return element('circle', { cx, cy, r, fill: '#fff', stroke: '#000', 'stroke-width': width });
}

/** A pivot on the chassis. */
export function pivot([cx, cy]: Place): Element[] {
  return [joint([cx, cy], 6.5, 1.6), element('circle', { cx, cy, r: 3 })];
}

/** Proportions of the shock, mm on the car. */
const BODY_WIDTH = 34;
const SPRING_WIDTH = 62;
/** The same as shares of its length, where that is the smaller. */
const BODY_SHARE = 0.2;
const SPRING_SHARE = 0.36;
/** Share of its length that stays free of the spring at either end. */
const EYE_SHARE = 0.14;
/** Shares of its length to which the body reaches from its end, and where a strut has its spring seat. */
const BODY_END = 0.6;
const STRUT_SEAT = 0.42;
const COILS = 7;

/**
 * A coilover from the end of its body to that of its shaft, spring around both; `shortest` is its least length shown. The body of a
 * strut begins where the upright holds it and carries the spring seat.
 */
export function coilover(
  bodyEnd: Place,
  shaftEnd: Place,
  shortest: number,
  scale: number,
  strut: boolean,
): Element[] {
  const length = distance(bodyEnd, shaftEnd);
  const at = acrossFrom(bodyEnd, shaftEnd);
  const body = Math.min(BODY_WIDTH * scale, BODY_SHARE * shortest) / 2;
  const spring = springRadius(shortest, scale);
  const eye = EYE_SHARE * shortest;
  const [from, to] = [strut ? STRUT_SEAT * shortest : eye, length - eye];
  const coil: Place[] = [at(from, -spring), at(from, spring)];
  for (let k = 1; k <= 2 * COILS; k++) {
    coil.push(at(from + ((to - from) * k) / (2 * COILS), k % 2 === 1 ? -spring : spring));
  }
  coil.push(at(to, -spring));
  const end = BODY_END * shortest;
  const start = strut ? -body : eye;
  const tube = [at(start, -body), at(start, body), at(end, body), at(end, -body)];
  return [
    line(bodyEnd, shaftEnd, { ...STROKES.ride, 'stroke-width': 2.4 }),
    element('path', {
      ...THIN,
      fill: strut ? '#e2e2e2' : '#fff',
      'stroke-width': strut ? 2 : 1.2,
      d: through(tube, true),
    }),
    element('path', { ...THIN, 'stroke-width': 1.2, 'stroke-linejoin': 'round', d: through(coil) }),
  ];
}

/** Half the width of the drawn spring, on the paper. */
export function springRadius(shortest: number, scale: number): number {
  return Math.min(SPRING_WIDTH * scale, SPRING_SHARE * shortest) / 2;
}

/** Places by their way along a line and their distance to its side. */
export function acrossFrom(start: Place, end: Place): (way: number, side: number) => Place {
  const length = distance(start, end);
  const [x, y] = [(end[0] - start[0]) / length, (end[1] - start[1]) / length];
  return (way, side) => [start[0] + x * way - y * side, start[1] + y * way + x * side];
}

/** A drawing's place on the paper. */
export interface Paper {
  /** From mm, [y, z], to the paper. */
  readonly to: (point: Point) => Place;
  /** Units of paper a mm. */
  readonly scale: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Something written on the paper, and the room that it takes. */
export interface Written {
  readonly element: Element;
  readonly box: Box;
}

/** A text with a white rim. */
export function rimmed(content: string, place: Place, size: number): Element {
  return text(content, place, { 'font-size': size, ...RIMMED });
}

/** The same with the room that it takes. */
export function writtenAt(content: string, [x, y]: Place, size: number): Written {
  return {
    element: rimmed(content, [x, y], size),
    box: { x, y: y - size * 0.8, width: textWidth(content, size), height: size },
  };
}

/** The heading of a picture, smaller where it is long. */
export function heading(title: string): Element {
  const room = WIDTH - 2 * EDGE;
  const bold = { 'font-size': fittingSize(title, HEADING, room, true), 'font-weight': 'bold' };
  return text(title, [EDGE, 38], bold);
}
