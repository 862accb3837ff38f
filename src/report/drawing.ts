// A corner drawn in its plane: the ride pose in heavy lines, droop and bump over it in broken ones, all from the
// positions of a sweep. The drawing knows bodies, points and roles of a corner's model, not which kind of corner it is.

import { type Corner, modelOf } from '../corner/corner.ts';
import type { CornerModel } from '../corner/model.ts';
import type { Sweep } from '../corner/sweep.ts';
import type { Point } from '../linkage/drawing.ts';
import { type Box, type LabelWish, type Obstacles, placeLabels } from './labels.ts';
import { type Pose, type PoseName, placesAt, posesOf, sweepOf, type WheelSizes } from './poses.ts';
import {
  type Attributes,
  type Element,
  element,
  line,
  type Picture,
  type Place,
  RIMMED,
  rounded,
  svgDocument,
  text,
  through,
} from './svg.ts';
import {
  describeEnd,
  endMark,
  figure,
  fittingSize,
  fold,
  printed,
  signedTravel,
  textWidth,
  words,
} from './text.ts';
import { roundStep } from './ticks.ts';

/** How a corner is drawn; all optional. */
export interface DrawingOptions extends WheelSizes {
  /** Heading; default says what is shown. */
  readonly title?: string;
}

/**
 * A corner at droop, ride and bump over each other, as a self-contained SVG document in black and white.
 *
 * `motion` is a sweep of this corner (its two ends and ride are shown), or travels in mm, bump positive. The chassis
 * stands still and the ground moves; y is outboard, z up, lengths in mm.
 *
 * @throws InputError for a sweep without the columns of the moving points, and for travels out of the corner's reach.
 */
export function drawCorner(
  corner: Corner,
  motion: Sweep | readonly number[],
  options: DrawingOptions = {},
): string {
  return svgDocument(cornerPicture(corner, motion, options));
}

const WIDTH = 900;
const EDGE = 24;
/** Where the drawing itself begins, what is left free for words on its right, and its greatest height. */
const LEFT = 36;
const TOP = 112;
const RIGHT = 170;
const MOST_HEIGHT = 560;
/** Font sizes. */
const SIZE = 13;
const SMALL = 12;
const LINE = 16;

/** Lines of a pose: told apart by their dashes, so that a black-and-white print will do. */
const STROKES: Readonly<Record<PoseName, Attributes>> = {
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
const THIN: Attributes = { fill: 'none', stroke: '#000', 'stroke-width': 0.9 };
const FAINT: Attributes = { fill: 'none', stroke: '#777', 'stroke-width': 0.7 };
const BODY_FILL = '#e2e2e2';

/** Cost of hiding a unit of line behind a label: of the ride pose, of the others. */
const HEAVY = 1.5;
const LIGHT = 0.25;

/** A drawing's place on the paper. */
interface Paper {
  /** From mm to the paper. */
  readonly to: (point: Point) => Place;
  /** Units of paper a mm. */
  readonly scale: number;
  readonly right: number;
  readonly bottom: number;
}

/** Something written on the paper, and the room that it takes. */
interface Written {
  readonly element: Element;
  readonly box: Box;
}

/** The picture behind `drawCorner`. */
export function cornerPicture(
  corner: Corner,
  motion: Sweep | readonly number[],
  options: DrawingOptions,
): Picture {
  const model = modelOf(corner);
  const swept = sweepOf(corner, motion);
  const poses = posesOf(corner, motion, swept, options);
  const ride = poses.find(({ name }) => name === 'ride') as Pose;
  const ends = 'end' in motion ? motion.end : null;
  const paper = fit(poses);

  const names = [...new Set(poses.map(({ name }) => name))].reverse();
  const title = options.title ?? `Corner at ${names.join(', ').replace(/, (\w+)$/, ' and $1')}`;
  const written = [...frameWords(paper, model, ride), ...groundWords(paper, model, poses, ends)];
  const footer = paper.bottom + 52;
  const noteTop = footer + 60 + poses.length * 20 + 26;
  const notes = notesOn(corner, ends, options, model).flatMap((note) => fold(note, 118));
  return {
    width: WIDTH,
    height: noteTop + notes.length * LINE,
    title,
    content: [
      text(title, [EDGE, 38], {
        'font-size': fittingSize(title, 19, WIDTH - 2 * EDGE, true),
        'font-weight': 'bold',
      }),
      text(
        'Seen from the front, left-hand wheel. The chassis is held still: the ground goes up and down with the wheel.',
        [EDGE, 60],
        { 'font-size': SMALL },
      ),
      ...frame(paper, model, ride),
      ...traces(paper, model, swept, poses),
      ...grounds(paper, model, poses),
      ...poses.filter((pose) => pose !== ride).flatMap((pose) => inLines(paper, model, pose)),
      ...inFull(paper, model, ride, poses),
      ...written.map((each) => each.element),
      ...labels(paper, model, poses, ride, written),
      ...scaleBar(paper, footer),
      ...symbols(footer),
      ...poseTable(poses, swept, ends, footer + 60),
      ...notes.map((note, k) => text(note, [EDGE, noteTop + k * LINE], { 'font-size': SMALL })),
    ],
  };
}

/** Scale and place of the drawing: everything that moves, the wheels and the centreline. */
function fit(poses: readonly Pose[]): Paper {
  const all = poses.flatMap(({ points, tyre }) => [...Object.values(points), ...tyre]);
  const ys = [0, ...all.map(([y]) => y)];
  const zs = all.map(([, z]) => z);
  const [inboard, outboard] = [Math.min(...ys), Math.max(...ys)];
  const [low, high] = [Math.min(...zs), Math.max(...zs)];
  const room = WIDTH - LEFT - RIGHT;
  const scale = Math.min(room / (outboard - inboard), MOST_HEIGHT / (high - low));
  const left = LEFT + (room - scale * (outboard - inboard)) / 2;
  return {
    to: ([y, z]) => [left + scale * (y - inboard), TOP + scale * (high - z)],
    scale,
    right: left + scale * (outboard - inboard),
    bottom: TOP + scale * (high - low),
  };
}

/** Centreline and axes, at the origin: where the centreline meets the ground at ride. */
function frame({ to, bottom }: Paper, model: CornerModel, ride: Pose): Element[] {
  const [x, y] = to([0, ride.points[model.contactPatch][1]]);
  const head = (tip: Place, back: Place, side: Place) =>
    element('path', {
      d: through(
        [
          tip,
          [tip[0] + back[0] + side[0], tip[1] + back[1] + side[1]],
          [tip[0] + back[0] - side[0], tip[1] + back[1] - side[1]],
        ],
        true,
      ),
    });
  return [
    line([x, TOP - 22], [x, bottom + 14], { ...THIN, 'stroke-dasharray': '14 4 2 4' }),
    line([x, y], [x + AXIS, y], { ...THIN, 'stroke-width': 1.8 }),
    line([x, y], [x, y - AXIS], { ...THIN, 'stroke-width': 1.8 }),
    head([x + AXIS + 4, y], [-10, 0], [0, 4]),
    head([x, y - AXIS - 4], [0, 10], [4, 0]),
  ];
}

const AXIS = 42;

function frameWords({ to }: Paper, model: CornerModel, ride: Pose): Written[] {
  const [x, y] = to([0, ride.points[model.contactPatch][1]]);
  return [
    writtenAt('vehicle centreline', [x + 7, TOP - 14], SMALL),
    writtenAt('y outboard', [x + 7, y + 16], SMALL),
    writtenAt('z up', [x + 8, y - AXIS + 6], SMALL),
  ];
}

/** The ground of each pose, under the wheel; at ride across to the centreline. */
function grounds({ to, right }: Paper, model: CornerModel, poses: readonly Pose[]): Element[] {
  return poses.map(({ name, points, tyre }) => {
    const [, y] = to(points[model.contactPatch]);
    const from = name === 'ride' ? to([0, 0])[0] : Math.min(...tyre.map((corner) => to(corner)[0])) - 12;
    return line([from, y], [right + 14, y], {
      ...STROKES[name],
      'stroke-width': name === 'droop' ? 1.9 : 1.2,
    });
  });
}

/** What the ground lines are, on the right of them, spread as far as the words need. */
function groundWords(
  { to, right }: Paper,
  model: CornerModel,
  poses: readonly Pose[],
  ends: Sweep['end'] | null,
): Written[] {
  const height = 2 * LINE + 6;
  const wanted = poses.map(({ points }) => to(points[model.contactPatch])[1]);
  const spread = wanted.reduce<number[]>((ys, y) => [...ys, Math.max(y, (ys.at(-1) ?? -1e9) + height)], []);
  const shift = spread.reduce((sum, y, k) => sum + wanted[k] - y, 0) / spread.length;
  return poses.flatMap(({ name, travel }, k) => {
    const y = spread[k] + shift;
    const x = right + 34;
    const end = name === 'ride' || ends === null ? '' : endMark(ends[name]);
    const figures = name === 'ride' ? 'as drawn' : `${printed(signedTravel(travel))} mm`;
    return [
      {
        element: line([right + 14, wanted[k]], [x - 4, y], THIN),
        box: { x: right, y: Math.min(y, wanted[k]) - 1, width: 30, height: Math.abs(y - wanted[k]) + 2 },
      },
      writtenAt(`ground at ${name}`, [x, y - 1], SIZE),
      writtenAt(end === '' ? figures : `${figures}, ${end}`, [x, y + LINE - 2], SMALL),
    ];
  });
}

/** The ways of the moving points between the outermost poses. */
function traces({ to }: Paper, model: CornerModel, swept: Sweep, poses: readonly Pose[]): Element[] {
  const [high, low] = [poses[0].travel, poses[poses.length - 1].travel];
  if (high === low) return [];
  const stages = Array.from({ length: TRACE_STAGES + 1 }, (_, k) =>
    placesAt(model, swept.at(low + ((high - low) * k) / TRACE_STAGES)),
  );
  return Object.keys(model.drawing.points)
    .filter((name) => !model.drawing.ground.includes(name))
    .map((name) => element('path', { ...FAINT, d: through(stages.map((points) => to(points[name]))) }));
}

const TRACE_STAGES = 24;

/** A pose in single lines: tyre, bodies, shock, joints. */
function inLines({ to }: Paper, model: CornerModel, { name, points, tyre }: Pose): Element[] {
  const stroke = STROKES[name];
  const { inner, outer } = model.shock;
  return [
    element('path', { ...stroke, d: rounded(tyre.map(to), TYRE_CORNER) }),
    ...outlines(model, points).map((outline) =>
      element('path', { ...stroke, d: through(outline.map(to), outline.length > 2) }),
    ),
    line(to(points[outer]), to(points[inner]), stroke),
    ...moving(model).map((point) => joint(to(points[point]), 2.4, 1)),
  ];
}

/** Radius of the tyre's corners on the paper. */
const TYRE_CORNER = 16;

/** The ride pose: tyre and rim, bodies as plates, shock with its spring, pivots. */
function inFull(
  { to, scale }: Paper,
  model: CornerModel,
  { points, tyre, rim }: Pose,
  poses: readonly Pose[],
): Element[] {
  const { ground } = model.drawing;
  const { inner, outer } = model.shock;
  const shortest = Math.min(...poses.map((pose) => distance(pose.points[inner], pose.points[outer])));
  const centre = to(points[model.wheelCentre]);
  const patch = to(points[model.contactPatch]);
  return [
    element('path', {
      ...STROKES.ride,
      fill: 'none',
      'stroke-width': 1.5,
      d: rounded(tyre.map(to), TYRE_CORNER),
    }),
    element('path', { ...THIN, d: through(rim.map(to), true) }),
    ...outlines(model, points).map((outline) =>
      outline.length > 2
        ? element('path', {
            ...STROKES.ride,
            fill: BODY_FILL,
            'fill-opacity': 0.8,
            d: through(outline.map(to), true),
          })
        : element('path', { ...STROKES.ride, fill: 'none', 'stroke-width': 4, d: through(outline.map(to)) }),
    ),
    ...shock(to(points[inner]), to(points[outer]), shortest * scale, scale),
    ...moving(model).map((name) => joint(to(points[name]), 4.4, 1.6)),
    ...ground.flatMap((name) => pivot(to(points[name]))),
    line([centre[0] - 8, centre[1]], [centre[0] + 8, centre[1]], THIN),
    line([centre[0], centre[1] - 8], [centre[0], centre[1] + 8], THIN),
    element('path', {
      d: through([patch, [patch[0] - 5, patch[1] + 9], [patch[0] + 5, patch[1] + 9]], true),
    }),
  ];
}

/** Joints that move and are not marked otherwise. */
function moving({ drawing, wheelCentre, contactPatch }: CornerModel): string[] {
  return Object.keys(drawing.points).filter(
    (name) => !drawing.ground.includes(name) && name !== wheelCentre && name !== contactPatch,
  );
}

function joint([cx, cy]: Place, r: number, width: number): Element {
  return element('circle', { cx, cy, r, fill: '#fff', stroke: '#000', 'stroke-width': width });
}

function pivot([cx, cy]: Place): Element[] {
  return [joint([cx, cy], 6.5, 1.6), element('circle', { cx, cy, r: 3 })];
}

/** Bodies as the hulls of their points, the contact patch left out: the tyre shows it. */
function outlines({ drawing, contactPatch }: CornerModel, points: Pose['points']): Point[][] {
  return Object.values(drawing.bodies).map((members) =>
    hull(members.filter((name) => name !== contactPatch).map((name) => points[name])),
  );
}

/** Convex hull, counter-clockwise, without points on its sides (A. M. Andrew 1979: monotone chain). */
function hull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const turnsLeft = (a: Point, b: Point, c: Point) =>
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0;
  const chain = (row: readonly Point[]) => {
    const kept: Point[] = [];
    for (const point of row) {
      while (kept.length > 1 && !turnsLeft(kept[kept.length - 2], kept[kept.length - 1], point)) kept.pop();
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

/** Proportions of the shock, mm on the car; as shares of its shortest shown length where that is short. */
const BODY_WIDTH = 34;
const SPRING_WIDTH = 62;
const COILS = 7;

/** A shock: body from the chassis end, rod to the other, spring around both. */
function shock(top: Place, foot: Place, shortest: number, scale: number): Element[] {
  const length = Math.hypot(foot[0] - top[0], foot[1] - top[1]);
  const along: Place = [(foot[0] - top[0]) / length, (foot[1] - top[1]) / length];
  const at = (way: number, side: number): Place => [
    top[0] + along[0] * way - along[1] * side,
    top[1] + along[1] * way + along[0] * side,
  ];
  const body = Math.min(BODY_WIDTH * scale, 0.2 * shortest) / 2;
  const spring = Math.min(SPRING_WIDTH * scale, 0.36 * shortest) / 2;
  const [from, to] = [0.14 * shortest, length - 0.14 * shortest];
  const coil: Place[] = [at(from, -spring), at(from, spring)];
  for (let k = 1; k <= 2 * COILS; k++) {
    coil.push(at(from + ((to - from) * k) / (2 * COILS), k % 2 === 1 ? -spring : spring));
  }
  coil.push(at(to, -spring));
  const tube = [at(from, -body), at(from, body), at(0.6 * shortest, body), at(0.6 * shortest, -body)];
  return [
    line(top, foot, { ...STROKES.ride, 'stroke-width': 2.4 }),
    element('path', { ...THIN, fill: '#fff', 'stroke-width': 1.2, d: through(tube, true) }),
    element('path', { ...THIN, 'stroke-width': 1.2, 'stroke-linejoin': 'round', d: through(coil) }),
  ];
}

/** Points and bodies by the trade's words, beside the ride pose. */
function labels(
  { to, bottom }: Paper,
  model: CornerModel,
  poses: readonly Pose[],
  ride: Pose,
  written: readonly Written[],
): Element[] {
  const { points } = ride;
  const { bodies } = model.drawing;
  const { inner, outer } = model.shock;
  const named: { words: string; anchor: Place; clear: number }[] = [
    ...Object.keys(points).map((name) => ({
      words: pointWords(model, name),
      anchor: to(points[name]),
      clear: 8,
    })),
    ...Object.keys(bodies).map((name) => ({
      words: words(name),
      anchor: to(middle(hull(bodies[name].filter((p) => p !== model.contactPatch).map((p) => points[p])))),
      clear: 4,
    })),
    { words: 'shock', anchor: to(middle([points[inner], points[outer]])), clear: 12 },
  ];
  const size = (label: string) => ({ width: textWidth(label, SIZE), height: SIZE + 2 });
  const wishes: LabelWish[] = named.map(({ words: label, anchor, clear }) => ({
    ...size(label),
    anchor,
    clear,
  }));
  const places = placeLabels(wishes, obstacles(to, model, poses, written), {
    x: 8,
    y: TOP - 30,
    width: WIDTH - 16,
    height: bottom + 36 - (TOP - 30),
  });
  return places.flatMap(({ box, leader }, k) => [
    ...(leader === null ? [] : [line(...leader, THIN)]),
    rimmed(named[k].words, [box.x, box.y + SIZE - 1.5], SIZE),
  ]);
}

/** A point by the part it plays. */
function pointWords(
  { drawing, shock, kingpin, wheelCentre, contactPatch }: CornerModel,
  name: string,
): string {
  const { bodies, ground } = drawing;
  const body = Object.keys(bodies).find((each) => bodies[each].includes(name));
  if (name === wheelCentre) return 'wheel centre';
  if (name === contactPatch) return 'contact patch';
  if (name === kingpin.lower) return 'lower ball joint';
  if (name === kingpin.upper) return 'upper ball joint';
  if (name === shock.inner || name === shock.outer) {
    return `shock mount, ${body === undefined ? 'chassis' : words(body)}`;
  }
  return ground.includes(name) && body !== undefined ? `${words(body)} pivot` : words(name);
}

/** What labels should not cover. */
function obstacles(
  to: Paper['to'],
  model: CornerModel,
  poses: readonly Pose[],
  written: readonly Written[],
): Obstacles {
  const lines: { from: Place; to: Place; weight: number }[] = [];
  const add = (outline: readonly Point[], weight: number) =>
    outline.forEach((point, k) =>
      lines.push({ from: to(point), to: to(outline[(k + 1) % outline.length]), weight }),
    );
  for (const pose of poses) {
    const weight = pose.name === 'ride' ? HEAVY : LIGHT;
    const { inner, outer } = model.shock;
    for (const outline of outlines(model, pose.points)) add(outline, weight / 2);
    add(pose.tyre, weight / 2);
    if (pose.name === 'ride') add(pose.rim, LIGHT);
    add([pose.points[inner], pose.points[outer]], weight);
  }
  const ride = poses.find(({ name }) => name === 'ride') as Pose;
  const ground = ride.points[model.contactPatch][1];
  lines.push({ from: to([0, ground]), to: to([ride.points[model.contactPatch][0], ground]), weight: HEAVY });
  return {
    lines,
    boxes: written.map(({ box }) => box),
    dots: Object.values(ride.points).map(to),
  };
}

function middle(points: readonly Point[]): Point {
  const sum = points.reduce<Point>(([y, z], [py, pz]) => [y + py, z + pz], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

/** A bar of a round length in mm, in two halves. */
function scaleBar({ scale }: Paper, y: number): Element[] {
  const length = roundStep(110 / scale);
  const half = (length * scale) / 2;
  const x = EDGE + 8;
  const at = (share: number) => x + 2 * half * share;
  return [
    element('rect', { x, y: y - 4, width: half, height: 8, stroke: '#000', 'stroke-width': 1 }),
    element('rect', {
      x: x + half,
      y: y - 4,
      width: half,
      height: 8,
      fill: '#fff',
      stroke: '#000',
      'stroke-width': 1,
    }),
    ...[0, 0.5, 1].map((share) =>
      text(share === 1 ? `${length}` : `${length * share}`, [at(share), y + 20], {
        'font-size': SMALL,
        'text-anchor': 'middle',
      }),
    ),
    text('mm', [at(1) + textWidth(`${length}`, SMALL) / 2 + 6, y + 20], { 'font-size': SMALL }),
  ];
}

/** What the marks mean. */
function symbols(y: number): Element[] {
  const items: [Element[], string][] = [
    [pivot([0, 0]), 'pivot on the chassis'],
    [[joint([0, 0], 4.4, 1.6)], 'joint that moves'],
    [[line([-12, 0], [12, 0], FAINT)], 'way of a moving point'],
  ];
  let x = 330;
  return items.flatMap(([marks, meaning]) => {
    const group = element('g', { transform: `translate(${x} ${y})` }, ...marks);
    const label = text(meaning, [x + 17, y + 4], { 'font-size': SMALL });
    x += 17 + textWidth(meaning, SMALL) + 34;
    return [group, label];
  });
}

/** Each pose with its line and its figures. */
function poseTable(poses: readonly Pose[], swept: Sweep, ends: Sweep['end'] | null, y: number): Element[] {
  const columns = swept.info.filter(({ name }) => TABLE_COLUMNS.includes(name));
  const right = (k: number) => 240 + 158 * k;
  const heads = columns.map(({ name, unit }, k) =>
    text(unit === '' ? words(name) : `${words(name)} [${unit}]`, [right(k), y], {
      'font-size': SMALL,
      'text-anchor': 'end',
    }),
  );
  const rows = poses.flatMap(({ name, travel, row }, i) => {
    const base = y + 24 + 20 * i;
    const end = name === 'ride' || ends === null ? '' : endMark(ends[name]);
    return [
      line([EDGE + 8, base - 4], [EDGE + 58, base - 4], STROKES[name]),
      text(name, [EDGE + 70, base], { 'font-size': SIZE }),
      ...columns.map(({ name: column, unit }, k) =>
        text(
          printed(column === 'travel' ? signedTravel(travel) : figure(row[column], unit)),
          [right(k), base],
          {
            'font-size': SIZE,
            'text-anchor': 'end',
          },
        ),
      ),
      ...(end === '' ? [] : [text(end, [right(columns.length - 1) + 24, base], { 'font-size': SIZE })]),
    ];
  });
  return [...heads, line([EDGE, y + 7], [WIDTH - EDGE, y + 7], { ...THIN, 'stroke-width': 0.6 }), ...rows];
}

const TABLE_COLUMNS = ['travel', 'shockLength', 'installationRatio', 'camber'];

function notesOn(
  corner: Corner,
  ends: Sweep['end'] | null,
  { tyreWidth, rimDiameter }: DrawingOptions,
  { shock }: CornerModel,
): string[] {
  const guessed = [
    ...(tyreWidth === undefined ? ['width of the tyre'] : []),
    ...(rimDiameter === undefined ? ['the rim'] : []),
  ].join(' and ');
  return [
    ...(ends === null
      ? []
      : (['bump', 'droop'] as const)
          .filter((side) => ends[side].how !== 'reached')
          .map((side) => `On the ${side} side: ${printed(describeEnd(ends[side]))}.`)),
    `Wheel: centre, camber and loaded radius are the corner's${guessed === '' ? '' : `; ${guessed} for the eye only`}.`,
    ...(shock.offset === 0
      ? []
      : [
          `The shock's ends lie ${Math.abs(shock.offset)} mm apart fore and aft: it is longer than it looks from the front.`,
        ]),
    ...(corner.mirrored ? ['Measured on the right-hand side, drawn mirrored as a left-hand corner.'] : []),
  ];
}

function rimmed(content: string, place: Place, size: number): Element {
  return text(content, place, { 'font-size': size, ...RIMMED });
}

function writtenAt(content: string, [x, y]: Place, size: number): Written {
  return {
    element: rimmed(content, [x, y], size),
    box: { x, y: y - size * 0.8, width: textWidth(content, size), height: size },
  };
}
