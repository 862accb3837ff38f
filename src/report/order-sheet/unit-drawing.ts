// A coilover to scale in three lengths, standing as it stands in the car, seen from the front.

import type { AxleSizing } from '../../coilover/sizing/result.ts';
import { axleName } from '../../corner/axles.ts';
import { printedSpringLength } from '../margins.ts';
import {
  type Attributes,
  type Element,
  element,
  line,
  type Place,
  svgDocument,
  text,
  through,
} from '../svg.ts';
import { textWidth } from '../text.ts';
import type { Cells, OnPaper } from './on-paper.ts';
import {
  type EndShape,
  SHORTEST,
  type SpringShape,
  springLengths,
  type UnitShape,
  unitShape,
} from './unit-shape.ts';

/** A drawing, its width on paper in mm, and the scale 1 : n that it has at that width. */
export interface UnitDrawing {
  readonly svg: string;
  readonly title: string;
  readonly width: number;
  readonly scale: number;
}

/** Units of the picture in a mm of paper. */
const MM = 96 / 25.4;
/** Paper, mm: its width, what the longest unit may take, and what is kept for captions above. */
const WIDTH = 90;
const TALLEST = 55;
const WIDEST = 20;
const HEAD = 9;
/** Scales that a ruler reads well. */
const SCALES = [2, 2.5, 3, 4, 5, 6, 7.5, 8, 10, 12.5, 15, 20, 25, 50, 100];
/** Base line of the captions, and what half of the longest takes. */
const CAPTION = 13;
const CAPTION_ROOM = 38;
/** From the lower end to the base line of the note below it. */
const NOTE = 12;
/** Font size, 7.5 pt. */
const FONT = 10;

const OUTLINE: Attributes = { fill: '#fff', stroke: '#000', 'stroke-width': 1.1, 'stroke-linejoin': 'round' };
const METAL: Attributes = { ...OUTLINE, fill: '#ddd' };
const RUBBER: Attributes = { ...OUTLINE, fill: '#888' };
const HAIRLINE: Attributes = { fill: 'none', stroke: '#000', 'stroke-width': 0.55 };
const AXIS: Attributes = { ...HAIRLINE, 'stroke-dasharray': '9 2 2 2' };
const HIDDEN: Attributes = { ...HAIRLINE, 'stroke-dasharray': '3 2' };

/** One of the three lengths. */
interface Pose {
  readonly name: string;
  readonly length: number;
  readonly withStop: boolean;
}

/** The unit of an axle, drawn; null while its lengths are not known. */
export function drawUnit(sized: AxleSizing, paper: OnPaper): UnitDrawing | null {
  const shape = unitShape(sized);
  if (shape === null) return null;
  const { extended, ride, compressed, spring, bodyUp, bodyEnd, shaftEnd } = shape;
  const [upper, lower] = bodyUp ? [bodyEnd, shaftEnd] : [shaftEnd, bodyEnd];
  // A unit that does not fit is longer at ride height than it can be.
  const longest = Math.max(extended, ride);
  const across = 2 * Math.max(spring.radius + spring.wire / 2 + 3, shape.bodyRadius + 5);
  const scale =
    SCALES.find((by) => longest / by <= TALLEST && across / by <= WIDEST) ?? SCALES[SCALES.length - 1];
  const px = MM / scale;
  const half = Math.max(CAPTION_ROOM, (across / 2) * px);
  const poses: readonly Pose[] = [
    { name: 'extended', length: extended, withStop: true },
    { name: 'ride height', length: ride, withStop: true },
    { name: 'compressed', length: compressed, withStop: false },
  ];
  // Centres of the three units: each has its length on the right; the second has its spring on the left.
  const room = WIDTH * MM - 6 * half;
  const [gap, edge] = [room / 4.6, 4];
  const centres = [edge + half, edge + 3 * half + 1.9 * gap, edge + 5 * half + 3 * gap];
  const top = Math.max(HEAD * MM, CAPTION + 6 + reachOf(upper) * px);
  const foot = top + longest * px;
  const title = titleOf(sized, poses, scale, paper);
  const datum = shape.chassisUp ? top : foot;
  const content = poses.flatMap((pose, k): Element[] => {
    const length = pose.length * px;
    const start = shape.chassisUp ? top : foot - length;
    const at = placeIn(centres[k], start, length, shape.bodyUp, px);
    return [
      ...unitAt(shape, pose, at),
      text(pose.name, [centres[k], CAPTION], {
        'font-size': FONT,
        'font-weight': 'bold',
        'text-anchor': 'middle',
      }),
      ...(pose.withStop
        ? []
        : [text('no bump stop', [centres[k], start + length + reachOf(lower) * px + NOTE], SMALL_MIDDLE)]),
      ...dimension(
        centres[k] + half + 0.5 * gap,
        centres[k],
        [start, start + length],
        paper.cellsOf(() => pose.length, 'length'),
      ),
      ...(k === 1 && shape.seatsKnown
        ? seats(
            shape,
            pose,
            at,
            centres[k] - half - 0.5 * gap,
            paper.cellsOf((of) => printedSpringLength(sized, of, paper.rounding), 'length'),
          )
        : []),
    ];
  });
  // Below the compressed unit stands that it is without a bump stop.
  const noted = (shape.chassisUp ? top + compressed * px : foot) + NOTE;
  const height = reachOf(lower) * px + Math.max(foot + 3, noted + 4);
  return {
    title,
    width: WIDTH,
    scale,
    svg: svgDocument({
      width: WIDTH * MM,
      height,
      title,
      content: [line([0, datum], [WIDTH * MM, datum], AXIS), ...content],
    }),
  };
}

/** How far an end reaches beyond its middle, with its centre line, mm. */
function reachOf({ type, radius, bore }: EndShape): number {
  if (type === 'stud') return 3 * bore;
  return type === 'clamp' ? CLAMP : radius + 4;
}

/** Half of what the upright clamps of a strut, mm. */
const CLAMP = 26;

const SMALL_MIDDLE: Attributes = { 'font-size': FONT, 'text-anchor': 'middle' };

function titleOf({ axle }: AxleSizing, poses: readonly Pose[], scale: number, { both }: OnPaper): string {
  const lengths = poses.map(({ name, length }) => `${name} ${both(length, 'length')}`);
  return `${axleName(axle)} coilover, scale 1:${scale}, eye to eye: ${lengths.join(', ')}`;
}

/** From mm along the unit (from the eye of the body) and across it, to the picture. */
interface At {
  (along: number, across: number): Place;
  readonly px: number;
  readonly turn: 1 | -1;
}

function placeIn(centre: number, start: number, length: number, bodyUp: boolean, px: number): At {
  const place = (along: number, across: number): Place => [
    centre + across * px,
    bodyUp ? start + along * px : start + length - along * px,
  ];
  return Object.assign(place, { px, turn: bodyUp ? (1 as const) : (-1 as const) });
}

/** A rectangle across the axis. */
function block(at: At, from: number, to: number, radius: number, attributes: Attributes, round = 0): Element {
  const [[x, y1], [, y2]] = [at(from, -radius), at(to, -radius)];
  return element('rect', {
    x,
    y: Math.min(y1, y2),
    width: 2 * radius * at.px,
    height: Math.abs(y2 - y1),
    ...(round === 0 ? {} : { rx: round }),
    ...attributes,
  });
}

/** Thickness of seats, and by how much they are wider than the spring, mm. */
const SEAT = 5;
const PERCH = 11;
const BRIM = 3;

function unitAt(shape: UnitShape, { length, withStop }: Pose, at: At): Element[] {
  const { bodyEnd, shaftEnd, bodyRadius, shaftRadius, seat, bodyLength, perch, thread, bumpStop } = shape;
  const { spring, helper } = shape;
  const face = length - seat;
  const outer = spring.radius + spring.wire / 2 + BRIM;
  const bodyStart = bodyEnd.radius + 3;
  const lengths = springLengths(shape, face - perch);
  const isSpringShown = withStop || lengths.main > Math.max(spring.solid, SHORTEST * spring.free);
  // A spring that is not known, or shorter than it may be, is dashed.
  const isWhole = shape.seatsKnown && !(lengths.main < (spring.minimum ?? 0) - 1e-9);
  const ring = perch + lengths.helper;
  const mainFrom = helper === null ? perch : ring + helper.separator;
  const coils = (front: boolean): Element[] =>
    !isSpringShown
      ? []
      : [
          ...coil(at, spring, mainFrom, mainFrom + lengths.main, front, isWhole),
          ...(helper === null ? [] : coil(at, helper, perch, ring, front, isWhole)),
        ];
  const stopHeight = bumpStop === null ? 0 : Math.min(bumpStop.height, length - bodyLength - seat);
  return [
    ...coils(false),
    block(at, bodyLength - 2, length - shaftEnd.radius * 0.8, shaftRadius, METAL),
    ...(bumpStop !== null && withStop && stopHeight > 0
      ? [block(at, face - stopHeight, face, Math.max(shaftRadius + 6, 0.75 * bodyRadius), RUBBER, 3)]
      : []),
    block(at, bodyStart, bodyLength, bodyRadius, OUTLINE, 1.5),
    ...(thread === null ? [] : threads(at, thread, bodyRadius)),
    neck(at, bodyEnd, bodyRadius, bodyStart),
    block(at, face, face + SEAT, outer, METAL, 1),
    block(at, face + SEAT, length - 0.8 * shaftEnd.radius, shaftRadius + 3, METAL),
    block(
      at,
      perch - PERCH,
      perch,
      outer,
      { ...METAL, ...(shape.seatsKnown ? {} : { ...HIDDEN, fill: '#fff' }) },
      1,
    ),
    ...(helper === null || !isSpringShown || helper.separator === 0
      ? []
      : [block(at, ring, mainFrom, outer - BRIM, METAL)]),
    ...coils(true),
    ...end(at, bodyEnd, 0, 1),
    ...end(at, shaftEnd, length, -1),
  ];
}

/** What joins the body to its eye. */
function neck(at: At, { radius, type }: EndShape, bodyRadius: number, bodyStart: number): Element {
  const [near, far] = [type === 'clamp' ? bodyRadius : 0.6 * radius, 0.9 * bodyRadius];
  const corners = [at(0.5 * radius, -near), at(bodyStart, -far), at(bodyStart, far), at(0.5 * radius, near)];
  return element('path', { ...METAL, d: through(corners, true) });
}

/** Threads for the perch, over the range that it is set in. */
function threads(at: At, [from, to]: readonly [number, number], radius: number): Element[] {
  const marks: Element[] = [];
  const step = 2 / at.px;
  for (let along = from; along <= to; along += step) {
    marks.push(line(at(along, -radius), at(along, -0.72 * radius), HAIRLINE));
    marks.push(line(at(along, 0.72 * radius), at(along, radius), HAIRLINE));
  }
  return marks;
}

/** The half of a spring's coils that lies in front of the body, or behind it: together they reach from seat to seat. */
function coil(
  at: At,
  { radius, wire, coils }: SpringShape,
  from: number,
  to: number,
  front: boolean,
  isWhole: boolean,
): Element[] {
  const pitch = (to - from - wire) / coils;
  if (!(pitch > 0)) return [];
  const width = Math.max(1.4, Math.min(wire, pitch * 1.5) * at.px);
  return Array.from({ length: coils }, (_, k): Element[] => {
    const start = from + wire / 2 + k * pitch;
    const [a, b] = front
      ? [at(start, -radius), at(start + pitch / 2, radius)]
      : [at(start + pitch / 2, radius), at(start + pitch, -radius)];
    const caps: Attributes = { 'stroke-linecap': 'round' };
    if (!isWhole) return [line(a, b, HIDDEN)];
    return [
      line(a, b, { stroke: '#000', 'stroke-width': width + 1.1, ...caps }),
      line(a, b, { stroke: front ? '#fff' : '#ddd', 'stroke-width': Math.max(0.5, width - 0.9), ...caps }),
    ];
  }).flat();
}

/** One end: `along` is its middle, `inward` the way to the rest of the unit. */
function end(at: At, shape: EndShape, along: number, inward: 1 | -1): Element[] {
  const { type, bore, radius, width, boltAcross } = shape;
  const [cx, cy] = at(along, 0);
  const middle = [
    line(at(along, -radius - 4), at(along, radius + 4), AXIS),
    line(at(along - radius - 4, 0), at(along + radius + 4, 0), AXIS),
  ];
  switch (type) {
    case 'eye':
      return boltAcross
        ? [
            block(at, along - radius, along + radius, width / 2, METAL, 1),
            line(at(along - bore / 2, -width / 2), at(along - bore / 2, width / 2), HIDDEN),
            line(at(along + bore / 2, -width / 2), at(along + bore / 2, width / 2), HIDDEN),
            ...middle,
          ]
        : [
            element('circle', { cx, cy, r: radius * at.px, ...METAL }),
            element('circle', { cx, cy, r: (bore / 2) * at.px, ...OUTLINE }),
            ...middle,
          ];
    case 'clevis':
      return boltAcross
        ? [
            block(at, along - inward * radius, along + inward * radius, width / 2 + 6, METAL, 1),
            block(at, along - inward * radius, along + 0.7 * inward * radius, width / 2, OUTLINE),
            line(at(along, -width / 2 - 10), at(along, width / 2 + 10), AXIS),
          ]
        : [
            block(
              at,
              along - inward * radius,
              along + 1.2 * inward * radius,
              radius,
              METAL,
              radius * at.px * 0.8,
            ),
            element('circle', { cx, cy, r: (bore / 2) * at.px, ...OUTLINE }),
            ...middle,
          ];
    case 'stud':
      return [
        block(at, along, along + inward * 5, bore, METAL, 1),
        block(at, along - inward * 2.2 * bore, along, bore / 2, OUTLINE),
        ...[0.5, 1, 1.5, 2].map((k) =>
          line(
            at(along - inward * k * bore, -bore / 2),
            at(along - inward * (k + 0.2) * bore, bore / 2),
            HAIRLINE,
          ),
        ),
        line(at(along - inward * 3 * bore, 0), at(along + inward * radius, 0), AXIS),
      ];
    case 'clamp':
      return [
        block(at, along - CLAMP, along + CLAMP, 20, METAL, 1.5),
        ...[-14, 14].map((off) => {
          const [x, y] = at(along + off, 0);
          return element('circle', { cx: x, cy: y, r: (bore / 2) * at.px, ...OUTLINE });
        }),
        line(at(along, -26), at(along, 26), AXIS),
      ];
  }
}

/** A length beside a unit, its figures in both systems written along it. */
function dimension(
  x: number,
  from: number,
  [y1, y2]: readonly [number, number],
  cells: Cells | null,
  of = '',
): Element[] {
  const way = Math.sign(x - from);
  const [own, other] = (cells ?? ['–', '–']).map((cell) => cell.split(' ')[0]);
  const room = y2 - y1 - 16;
  const sizeOf = ([bold, plain]: readonly [string, string]) =>
    textWidth(bold, FONT, true) + textWidth(plain, FONT) + 10;
  const figures = [own, ` (${other})`] as const;
  const named = [`${of}${own}`, figures[1]] as const;
  // What it is the length of is said where there is room.
  const words = room > sizeOf(named) ? named : figures;
  const size = sizeOf(words);
  const middle = (y1 + y2) / 2;
  const isInside = room > size;
  // Where the line is too short for its figures they stand beside it, clear of the lines at its ends.
  const beside = way > 0 ? 3 + 0.76 * FONT : -3 - 0.24 * FONT;
  return [
    ...[y1, y2].map((y) => line([from + way * 2, y], [isInside ? x + way * 4 : x, y], HAIRLINE)),
    ...(isInside
      ? [line([x, y1], [x, middle - size / 2], HAIRLINE), line([x, middle + size / 2], [x, y2], HAIRLINE)]
      : [line([x, y1], [x, y2], HAIRLINE)]),
    arrow([x, y1], -1),
    arrow([x, y2], 1),
    element(
      'text',
      {
        'font-size': FONT,
        'text-anchor': 'middle',
        transform: `translate(${(x + (isInside ? 3.5 : beside)).toFixed(2)} ${middle.toFixed(2)}) rotate(-90)`,
      },
      element('tspan', { 'font-weight': 'bold' }, words[0]),
      words[1],
    ),
  ];
}

function arrow([x, y]: Place, way: 1 | -1): Element {
  return element('path', {
    d: through(
      [
        [x, y],
        [x - 1.8, y - way * 7],
        [x + 1.8, y - way * 7],
      ],
      true,
    ),
  });
}

/** The length of the spring between its seats. */
function seats(shape: UnitShape, { length }: Pose, at: At, x: number, cells: Cells | null): Element[] {
  const face = length - shape.seat;
  const [[centre, y1], [, y2]] = [at(shape.perch, 0), at(face, 0)];
  const outer = (shape.spring.radius + shape.spring.wire / 2) * at.px;
  return dimension(x, centre - outer, [Math.min(y1, y2), Math.max(y1, y2)], cells, 'spring ');
}
