// A linkage drawn in its plane: x to the right, y up, the drawn pose in heavy lines, further poses over it in broken ones.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/report.ts';
import { straightParts } from '../linkage/couplings.ts';
import { endOfDirection } from '../linkage/direction-ends.ts';
import { type CheckedDrawing, checkDrawing, type Drawing, isPoint, type Point } from '../linkage/drawing.ts';
import { between, cross, distance, dot } from '../numerics/plane.ts';
import { type Obstacles, placeLabels } from './labels.ts';
import {
  acrossFrom,
  EDGE,
  FAINT,
  heading,
  joint,
  pivot,
  rimmed,
  SIZE,
  STROKES,
  THIN,
  WIDTH,
} from './marks.ts';
import { hull, middle, slidesIn } from './poses.ts';
import { type Attributes, type Element, element, line, type Place, svgDocument, through } from './svg.ts';
import { textWidth } from './text.ts';

type OnPaper = (point: Point) => Place;

/** How a linkage is drawn; all optional. */
export interface DrawLinkageOptions {
  /** Further poses: places of all points, as `motion.at(...)` gives them, or the points of another drawing. */
  readonly poses?: readonly Drawing['points'][];
  /** Curves in fine lines, each by its points: a coupler curve, a pitch circle. */
  readonly curves?: readonly (readonly Point[])[];
  /** Heading; default "Linkage". */
  readonly title?: string;
}

/** Room above and below the drawing, and beside it, for words; its greatest height. */
const TOP = 84;
const BELOW = 44;
const BESIDE = EDGE + 70;
const MOST_HEIGHT = 520;
/** Room that a label leaves around a joint, and around the middle of a body. */
const JOINT_ROOM = 8;
const BODY_ROOM = 4;
/** Weight of a line of a further pose as an obstacle to names. */
const OTHER_POSE = 0.4;

/** A telescope's tube: half its width, how far it begins from its point, and to which share of the drawn length it reaches. */
const TUBE = { half: 6, start: 9, end: 0.6 };
/** A block that slides: half its length and half its width; a guide along an axis goes so far to either side. */
const BLOCK = { length: 11, width: 7.5, guide: 40 };

const BOX: Attributes = { ...THIN, fill: '#fff', 'stroke-width': 1.5 };

const PLATE: Attributes = { ...STROKES.ride, fill: '#e2e2e2', 'fill-opacity': 0.8 };

/**
 * A linkage as a self-contained SVG document in black and white: bodies as bars and plates, telescopes as cylinders, sliding points as
 * blocks on their guides, ropes as lines round their pulleys, ground points ringed. Points, bodies and telescopes have their names.
 * Points are in the drawing's own unit.
 *
 * @throws InputError for a faulty drawing, for unknown options, and for a pose without a place for each point or a curve with a point that
 * is none.
 */
export function drawLinkage(drawing: Drawing, options: DrawLinkageOptions = {}): string {
  checkDrawing(drawing);
  refuse('linkage options', optionFaults(drawing, options));
  const { poses = [], curves = [], title = 'Linkage' } = options as CheckedOptions;
  const { ground, points } = drawing;
  const { to, scale, height } = paperFor([
    ...[points, ...poses].flatMap((pose) => Object.values(pose)),
    ...curves.flat(),
  ]);
  const { bodies, telescopes = {} } = drawing;
  const outlines = (pose: CheckedDrawing['points'], parts: CheckedDrawing['bodies'] = bodies) =>
    Object.values(parts).map((members) => slim(hull(members.map((name) => pose[name])).map(to)));
  const moving = Object.keys(points).filter((name) => !ground.includes(name));

  const others = poses.map((pose) => outlines(pose, { ...bodies, ...telescopes }));
  const over = poses.flatMap((pose, k) => [
    ...others[k].map((outline) =>
      element('path', { ...STROKES.bump, d: through(outline, outline.length > 2) }),
    ),
    ...moving.map((name) => joint(to(pose[name]), 2.4, 1)),
  ]);
  const drawn = outlines(points);
  const rods = Object.values(telescopes).map(([a, b]): [Place, Place] => [to(points[a]), to(points[b])]);
  const boxes = [...rods.map(tube), ...blocks(drawing, to)];
  const strands = [...strandsOf(drawing, to), ...guides(drawing, to)];
  const full = drawn.map((outline) =>
    outline.length > 2
      ? element('path', { ...PLATE, d: through(outline, true) })
      : element('path', { ...STROKES.ride, fill: 'none', 'stroke-width': 4, d: through(outline) }),
  );
  return svgDocument({
    width: WIDTH,
    height: TOP + height + BELOW,
    title,
    content: [
      heading(title),
      ...curves.map((curve) => element('path', { ...FAINT, d: through(curve.map(to)) })),
      ...over,
      ...full,
      ...rods.map(([a, b]) => line(a, b, { ...STROKES.ride, 'stroke-width': 2.4 })),
      ...strands.map(([a, b]) => line(a, b, THIN)),
      ...pulleys(drawing, to, scale),
      ...boxes.map((box) => element('path', { ...BOX, d: through(box, true) })),
      ...moving.map((name) => joint(to(points[name]), 4.4, 1.6)),
      ...ground.flatMap((name) => pivot(to(points[name]))),
      ...names(drawing, to, [...drawn, ...rods, ...boxes, ...strands], others.flat(), height),
    ],
  });
}

/** Options whose poses have a place for each point. */
type CheckedOptions = Omit<DrawLinkageOptions, 'poses'> & {
  readonly poses?: readonly CheckedDrawing['points'][];
};

function optionFaults({ points }: Drawing, options: unknown): Diagnostic[] {
  const faults = unknownOptions(options, ['poses', 'curves', 'title']);
  const { poses = [], curves = [], title = '' }: Record<string, unknown> = { ...(options as object | null) };
  if (!Array.isArray(poses)) faults.push(fault('notPoses', 'poses', { got: show(poses) }));
  else
    poses.forEach((pose, k) => {
      for (const name of Object.keys(points)) {
        if (isPoint(pose?.[name])) continue;
        faults.push(fault('noPlace', `poses[${k}].${name}`, { got: show(pose?.[name]), onCurve: false }));
      }
    });
  const offCurve = (path: string, got: unknown) =>
    faults.push(fault('noPlace', path, { got: show(got), onCurve: true }));
  if (!Array.isArray(curves)) faults.push(fault('notCurves', 'curves', { got: show(curves) }));
  else
    curves.forEach((curve: unknown, k) => {
      if (!Array.isArray(curve)) offCurve(`curves[${k}]`, curve);
      else curve.forEach((point, i) => isPoint(point) || offCurve(`curves[${k}][${i}]`, point));
    });
  if (typeof title !== 'string') faults.push(fault('notATitle', 'title', { got: show(title) }));
  return faults;
}

/** Scale and place of the drawing, both axes alike. */
function paperFor(places: readonly Point[]): {
  to: OnPaper;
  scale: number;
  height: number;
} {
  const [left, right] = [Math.min(...places.map(([x]) => x)), Math.max(...places.map(([x]) => x))];
  const [low, high] = [Math.min(...places.map(([, y]) => y)), Math.max(...places.map(([, y]) => y))];
  const room = WIDTH - 2 * BESIDE;
  const scale = Math.min(room / (right - left || 1), MOST_HEIGHT / (high - low || 1));
  const from = BESIDE + (room - scale * (right - left)) / 2;
  return {
    to: ([x, y]) => [from + scale * (x - left), TOP + scale * (high - y)],
    scale,
    height: scale * (high - low),
  };
}

/** Straight parts of ropes as drawn. */
function strandsOf({ points, ropes = {} }: CheckedDrawing, to: OnPaper): [Place, Place][] {
  return Object.values(ropes).flatMap((rope) => {
    const radii = rope.map((stop) => {
      if (typeof stop === 'string') return 0;
      return stop.side === 'left' ? stop.radius : -stop.radius;
    });
    return straightParts(rope).map(({ length: [a, b], aside }, k): [Place, Place] => {
      const [from, towards] = [points[a], points[b]];
      const [x, y] = endOfDirection(from, towards, aside);
      const length = Math.hypot(x - from[0], y - from[1]);
      // Square to the rope, to its right.
      const [nx, ny] = [(y - from[1]) / length, (from[0] - x) / length];
      const touching = ([px, py]: Point, radius: number) => to([px + radius * nx, py + radius * ny]);
      return [touching(from, radii[k]), touching(towards, radii[k + 1])];
    });
  });
}

/** Pulleys of ropes, round. */
function pulleys({ points, ropes = {} }: CheckedDrawing, to: OnPaper, scale: number): Element[] {
  return Object.values(ropes).flatMap((rope) =>
    rope.flatMap((stop) => {
      if (typeof stop === 'string') return [];
      const [cx, cy] = to(points[stop.about]);
      return [element('circle', { ...THIN, cx, cy, r: scale * stop.radius })];
    }),
  );
}

/** The tube of a telescope between two places. */
function tube([from, towards]: [Place, Place]): Place[] {
  const at = acrossFrom(from, towards);
  const end = TUBE.end * distance(from, towards);
  const { half, start } = TUBE;
  return [at(start, -half), at(start, half), at(end, half), at(end, -half)];
}

/** Points held on a straight line, each with a place farther along: of sliders, of fixed coordinates. */
function sliding({ points, sliders = {}, fixedCoordinates = [] }: CheckedDrawing, to: OnPaper) {
  const from = ([x, y]: Place, [dx, dy]: Place): [Place, Place] => [
    [x, y],
    [x + dx, y + dy],
  ];
  return {
    onLines: Object.values(sliders).map(({ point, on: [a, b] }) =>
      from(to(points[point]), between(to(points[a]), to(points[b]))),
    ),
    onAxes: fixedCoordinates.map((one) =>
      'x' in one ? from(to(points[one.x]), [0, 1]) : from(to(points[one.y]), [1, 0]),
    ),
  };
}

/** Blocks about the points that slide. */
function blocks(drawing: CheckedDrawing, to: OnPaper): Place[][] {
  const { onLines, onAxes } = sliding(drawing, to);
  const { length, width } = BLOCK;
  return [...onLines, ...onAxes].map(([from, towards]) => {
    const at = acrossFrom(from, towards);
    return [at(-length, -width), at(-length, width), at(length, width), at(length, -width)];
  });
}

/** What points slide along, and distances that a ratio couples. */
function guides(drawing: CheckedDrawing, to: OnPaper): [Place, Place][] {
  const lines = slidesIn({ ...drawing, ropes: {}, telescopes: {} });
  return [
    ...lines.map(({ ends: [a, b] }): [Place, Place] => [to(drawing.points[a]), to(drawing.points[b])]),
    ...sliding(drawing, to).onAxes.map(([from, towards]): [Place, Place] => {
      const at = acrossFrom(from, towards);
      return [at(-BLOCK.guide, 0), at(BLOCK.guide, 0)];
    }),
  ];
}

/** Sides of outlines as obstacles. */
function edges(outlines: readonly (readonly Place[])[], weight: number): Obstacles['lines'] {
  return outlines.flatMap((outline) =>
    outline.map((from, k) => ({ from, to: outline[(k + 1) % outline.length], weight })),
  );
}

/** An outline without width, but for rounding, is the line between its ends. */
function slim(outline: readonly Place[]): readonly Place[] {
  const farthest = (from: Place) => outline.reduce((a, b) => (distance(from, b) > distance(from, a) ? b : a));
  const start = farthest(outline[0]);
  const end = farthest(start);
  const way = between(start, end);
  const isFlat = outline.every((place) => Math.abs(cross(way, between(start, place))) < 1e-6 * dot(way, way));
  return isFlat ? [start, end] : outline;
}

/** Names of points and bodies, clear of the drawn pose and, where there is room, of the others. */
function names(
  { points, bodies, telescopes = {} }: CheckedDrawing,
  to: OnPaper,
  drawn: readonly (readonly Place[])[],
  others: readonly (readonly Place[])[],
  height: number,
): Element[] {
  const named = [
    ...Object.keys(points).map((name) => ({ name, anchor: to(points[name]), clear: JOINT_ROOM })),
    ...Object.entries({ ...bodies, ...telescopes }).map(([name, members]) => ({
      name,
      anchor: to(middle(members.map((member) => points[member]))),
      clear: BODY_ROOM,
    })),
  ];
  const obstacles: Obstacles = {
    lines: [...edges(drawn, 1), ...edges(others, OTHER_POSE)],
    boxes: [],
    dots: Object.values(points).map((point) => ({ at: to(point), weight: 1 })),
  };
  const wishes = named.map(({ name, anchor, clear }) => ({
    width: textWidth(name, SIZE),
    height: SIZE + 2,
    anchor,
    clear,
  }));
  const frame = { x: EDGE, y: TOP - 30, width: WIDTH - 2 * EDGE, height: height + 30 + BELOW - 8 };
  return placeLabels(wishes, obstacles, frame).flatMap(({ box, leader }, k) => [
    ...(leader === null ? [] : [line(...leader, THIN)]),
    rimmed(named[k].name, [box.x, box.y + SIZE - 1.5], SIZE),
  ]);
}
