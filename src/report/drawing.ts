// A corner drawn in its plane: the pose at design ride height in heavy lines, droop and bump over it in broken ones, all from the
// positions of a sweep. The drawing knows bodies, points and roles of a corner's model, not which kind of corner it is.

import type { Corner } from '../corner/corner.ts';
import type { Limit, Limits } from '../corner/limits/limits.ts';
import type { Sweep } from '../corner/sweep.ts';
import { refuse } from '../errors/report.ts';
import type { Units } from '../units.ts';
import { legend } from './legend.ts';
import { CORNER_LOOKS, lookFaults } from './looks.ts';
import {
  coilover,
  EDGE,
  FAINT,
  heading,
  joint,
  LINE,
  type Paper,
  pivot,
  SMALL,
  STROKES,
  THIN,
  WIDTH,
  type Written,
  writtenAt,
} from './marks.ts';
import { type Label, nameLabels } from './names.ts';
import {
  type BodyEnd,
  isStrut,
  moving,
  outlines,
  POSE_WORDS,
  type Pose,
  paths,
  type Scene,
  sceneOf,
  shortestShock,
  type WheelSizes,
} from './poses.ts';
import { type Element, element, line, type Picture, rounded, svgDocument, text, through } from './svg.ts';
import { endMark, fold, travelIn } from './text.ts';

/** How a corner is drawn; all optional. */
export interface DrawCornerOptions extends WheelSizes {
  /** Heading; default says what is shown. */
  readonly title?: string;
  /** Which end of the coilover the body of the damper is at; default up. A strut has its body down. */
  readonly bodyEnd?: BodyEnd;
  /** Where the travel ends: the corner is drawn there, and what ends it is named. */
  readonly limits?: Limits;
  /** Units of the labels; default metric. */
  readonly units?: Units;
}

/**
 * A corner at droop, design ride height and bump over each other, as a self-contained SVG document in black and white.
 *
 * `motion` is a sweep of this corner (its two ends and design ride height are shown), or travels in mm, bump positive. The chassis
 * stands still and the ground moves; y is outboard, z up.
 *
 * @throws InputError for a sweep without the columns of the moving points, and for travels out of the corner's reach.
 */
export function drawCorner(
  corner: Corner,
  motion: Sweep | readonly number[],
  options: DrawCornerOptions = {},
): string {
  refuse('options of drawCorner', lookFaults(options, CORNER_LOOKS));
  return svgDocument(cornerPicture(corner, motion, options));
}

/** The paper of a drawing: its width, where the drawing begins, what is left free for words on its right, its greatest height. */
export interface DrawingSheet {
  readonly width: number;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly mostHeight: number;
}

const SHEET: DrawingSheet = { width: WIDTH, left: 36, top: 112, right: 180, mostHeight: 560 };
/** How far labels may go beyond the drawing, up and down, and how near to the paper's edge. */
const ABOVE = 30;
const BELOW = 36;
const NEAR_EDGE = 8;
/** Length of the axes' arrows. */
const AXIS = 42;
/** Radius of the tyre's corners on the paper. */
const TYRE_CORNER = 16;

/** The picture behind `drawCorner`; `sheet` sets its size. */
export function cornerPicture(
  corner: Corner,
  motion: Sweep | readonly number[],
  options: DrawCornerOptions,
  sheet: Partial<DrawingSheet> = {},
): Picture {
  const size = { ...SHEET, ...sheet };
  const scene = sceneOf(corner, stations(motion, options.limits), options);
  const { paper, content, lowest } = drawn(scene, options.units ?? 'metric', size);
  const title = titleOf(scene, options);
  const below = legend(corner, scene, paper, options, lowest + 22);
  return {
    width: size.width,
    height: below.bottom,
    title,
    content: [
      heading(title),
      text(SUBTITLE, [EDGE, 60], { 'font-size': SMALL }),
      ...content,
      ...below.elements,
    ],
  };
}

/** The drawing alone, without heading and legend, for a screen on which they would be too small to read. */
export function bareCornerPicture(
  corner: Corner,
  motion: Sweep | readonly number[],
  options: DrawCornerOptions,
  sheet: DrawingSheet,
): Picture {
  const scene = sceneOf(corner, stations(motion, options.limits), options);
  const { content, lowest } = drawn(scene, options.units ?? 'metric', sheet);
  return { width: sheet.width, height: lowest + NEAR_EDGE, title: titleOf(scene, options), content };
}

function titleOf({ poses }: Scene, { title }: DrawCornerOptions): string {
  const names = [...new Set(poses.map(({ name }) => POSE_WORDS[name]))].reverse();
  return title ?? `Corner at ${names.join(', ').replace(/, ([^,]+)$/, ' and $1')}`;
}

/** A scene on its paper with all its words, and how far down it goes. */
function drawn(
  scene: Scene,
  units: Units,
  sheet: DrawingSheet,
): { readonly paper: Paper; readonly content: Element[]; readonly lowest: number } {
  const { poses, ride } = scene;
  const paper = paperFor(poses, NO_ROOM, sheet);
  const { top, bottom } = paper;
  const written = groundWords(scene, paper, units);
  const room = written.map(({ box }) => box);
  return {
    paper,
    lowest: Math.max(bottom + BELOW, ...room.map(({ y, height }) => y + height)),
    content: [
      ...frame(scene, paper),
      ...paths(scene).map((path) => element('path', { ...FAINT, d: through(path.map(paper.to)) })),
      ...grounds(scene, paper),
      ...poses.filter((pose) => pose !== ride).flatMap((pose) => inLines(scene, paper, pose)),
      ...inFull(scene, paper),
      ...written.map((each) => each.element),
      ...nameLabels(scene, paper, frameLabels(scene, paper), room, {
        x: NEAR_EDGE,
        y: top - ABOVE,
        width: sheet.width - 2 * NEAR_EDGE,
        height: ABOVE + bottom - top + BELOW,
      }),
    ],
  };
}

/** Travels at which a corner is drawn: those asked for, or design ride height and the limits where there are any. */
function stations(motion: Sweep | readonly number[], limits?: Limits): Sweep | readonly number[] {
  const { droop, bump } = limits ?? {};
  if (droop == null && bump == null) return motion;
  const place = (limit: Limit | null | undefined) => (limit == null ? [] : [limit.travel * (1 - HAIR)]);
  return [...place(droop), 0, ...place(bump)];
}

/** Share by which a corner is drawn short of a limit: beyond a dead point, were it for rounding, there is no pose. */
const HAIR = 1e-9;

const SUBTITLE =
  'Seen from the front, left-hand wheel. The chassis is held still: the ground moves up and down with the wheel.';

/** Room that is left free round a drawing, on the paper. */
export interface Room {
  readonly left: number;
  readonly right: number;
  readonly above: number;
  readonly below: number;
}

const NO_ROOM: Room = { left: 0, right: 0, above: 0, below: 0 };

/** Scale and place of the drawing: everything that moves, the wheels and the centreline. */
export function paperFor(poses: readonly Pose[], around: Room = NO_ROOM, sheet: DrawingSheet = SHEET): Paper {
  const all = poses.flatMap(({ points, tyre }) => [...Object.values(points), ...tyre]);
  const ys = [0, ...all.map(([y]) => y)];
  const zs = all.map(([, z]) => z);
  const [inboard, outboard] = [Math.min(...ys), Math.max(...ys)];
  const [low, high] = [Math.min(...zs), Math.max(...zs)];
  const start = sheet.left + around.left;
  const room = sheet.width - start - Math.max(sheet.right, around.right);
  const scale = Math.min(room / (outboard - inboard), sheet.mostHeight / (high - low));
  const width = scale * (outboard - inboard);
  const left = start + (room - width) / 2;
  const top = sheet.top + around.above;
  return {
    to: ([y, z]) => [left + scale * (y - inboard), top + scale * (high - z)],
    scale,
    top,
    right: left + width,
    bottom: top + scale * (high - low) + around.below,
  };
}

/** Centreline and axes; their origin is where the centreline meets the ground at design ride height. */
function frame({ model, ride }: Scene, { to, top, bottom }: Paper): Element[] {
  const [x, y] = to([0, ride.points[model.contactPatch][1]]);
  const axis = { ...THIN, 'stroke-width': 1.8 };
  return [
    line([x, top - 22], [x, bottom + 14], { ...THIN, 'stroke-dasharray': '14 4 2 4' }),
    line([x, y], [x + AXIS, y], axis),
    line([x, y], [x, y - AXIS], axis),
    element('path', {
      d: through(
        [
          [x + AXIS + 4, y],
          [x + AXIS - 6, y - 4],
          [x + AXIS - 6, y + 4],
        ],
        true,
      ),
    }),
    element('path', {
      d: through(
        [
          [x, y - AXIS - 4],
          [x - 4, y - AXIS + 6],
          [x + 4, y - AXIS + 6],
        ],
        true,
      ),
    }),
  ];
}

function frameLabels({ model, ride }: Scene, { to, top }: Paper): Label[] {
  const [x, y] = to([0, ride.points[model.contactPatch][1]]);
  return [
    { words: 'vehicle centreline', anchor: [x, top - 18], clear: 5 },
    { words: 'y outboard', anchor: [x + AXIS, y], clear: 7 },
    { words: 'z up', anchor: [x, y - AXIS], clear: 7 },
  ];
}

/** The ground of each pose, under the wheel; at design ride height across to the centreline. */
function grounds({ model, poses, ride }: Scene, { to, right }: Paper): Element[] {
  return poses.map((pose) => {
    const [, y] = to(pose.points[model.contactPatch]);
    const from = pose === ride ? to([0, 0])[0] : Math.min(...pose.tyre.map((corner) => to(corner)[0])) - 12;
    const stroke = STROKES[pose.name];
    return line([from, y], [right + 14, y], pose === ride ? { ...stroke, 'stroke-width': 1.2 } : stroke);
  });
}

/** What the ground lines are, on the right of them, spread as far as the words need. */
function groundWords({ model, poses, ride, ends }: Scene, { to, right }: Paper, units: Units): Written[] {
  const said = poses.map((pose) => {
    const figures = pose === ride ? '' : travelIn(pose.travel, units);
    const mark = pose.name === 'ride' || ends === null ? '' : endMark(ends[pose.name]);
    return [...fold(`ground at ${POSE_WORDS[pose.name]}`, 17), figures, mark].filter((text) => text !== '');
  });
  const wanted = poses.map(({ points }) => to(points[model.contactPatch])[1]);
  const spread: number[] = [];
  let free = Number.NEGATIVE_INFINITY;
  wanted.forEach((y, k) => {
    spread.push(Math.max(y, free));
    free = spread[k] + said[k].length * LINE + 6;
  });
  const shift = spread.reduce((sum, y, k) => sum + wanted[k] - y, 0) / spread.length;
  return poses.flatMap((_, k) => {
    const [x, y] = [right + 34, spread[k] + shift];
    return [
      {
        element: line([right + 14, wanted[k]], [x - 4, y], THIN),
        box: { x: right, y: Math.min(y, wanted[k]) - 1, width: 30, height: Math.abs(y - wanted[k]) + 2 },
      },
      ...said[k].map((words, i) => writtenAt(words, [x, y + 4 + i * LINE], SMALL)),
    ];
  });
}

/** A pose in single lines: tyre, bodies, coilover, joints. */
function inLines({ model }: Scene, { to }: Paper, { name, points, tyre }: Pose): Element[] {
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

/** The drawn pose: tyre and rim, bodies as plates, coilover, pivots. */
export function inFull(
  { model, poses, ride, coilover: [body, shaft] }: Scene,
  { to, scale }: Paper,
): Element[] {
  const { points, tyre, rim } = ride;
  const [x, y] = to(points[model.wheelCentre]);
  const [patchX, patchY] = to(points[model.contactPatch]);
  const stroke = { ...STROKES.ride, fill: 'none' };
  return [
    element('path', { ...stroke, 'stroke-width': 1.5, d: rounded(tyre.map(to), TYRE_CORNER) }),
    element('path', { ...THIN, d: through(rim.map(to), true) }),
    ...outlines(model, points).map((outline) =>
      outline.length > 2
        ? element('path', {
            ...stroke,
            fill: '#e2e2e2',
            'fill-opacity': 0.8,
            d: through(outline.map(to), true),
          })
        : element('path', { ...stroke, 'stroke-width': 4, d: through(outline.map(to)) }),
    ),
    ...coilover(
      to(points[body]),
      to(points[shaft]),
      shortestShock(model, poses) * scale,
      scale,
      isStrut(model),
    ),
    ...moving(model).map((name) => joint(to(points[name]), 4.4, 1.6)),
    ...model.drawing.ground.flatMap((name) => pivot(to(points[name]))),
    line([x - 8, y], [x + 8, y], THIN),
    line([x, y - 8], [x, y + 8], THIN),
    element('path', {
      d: through(
        [
          [patchX, patchY],
          [patchX - 5, patchY + 9],
          [patchX + 5, patchY + 9],
        ],
        true,
      ),
    }),
  ];
}
