// The kinds of joint as the laws know them, from the places of points alone.

import type {
  CheckedDrawing,
  CoupledMeasure,
  Drawing,
  FixedCoordinate,
  Joints,
  Point,
  Rope,
} from '../linkage/index.ts';
import { direction, distance, offset, type Places, pairs, turnsAside } from './plane.ts';

type Kind = keyof Joints;
type All<K extends Kind> = NonNullable<Joints[K]>;
type One<K extends Kind> = All<K> extends { readonly [name: number]: infer One } ? One : never;
type Line = readonly [string, string];

/** A length that every pose keeps. */
export interface Kept {
  /** In words. */
  readonly what: string;
  /** From the places of points, and what places do not tell: the revolutions of parts and of lines. */
  of(places: Places, whole: Turned): number;
}

/** The turn of a part and the direction of a line, with all revolutions. */
export interface Turned {
  turn(part: string): number;
  angle(line: Line): number;
}

/** How a drawing is changed: what becomes of places, lengths and angles. */
interface Change {
  place(at: Point): Point;
  readonly lengths: number;
  readonly sense: 1 | -1;
}

interface Joint<One, All> {
  /** One of them in words, so that two drawings can be told apart by it. */
  words(one: One, name: string): string;
  /** What one of them keeps; null for what follows from its ends. */
  kept(one: One, name: string, drawing: CheckedDrawing): Kept | null;
  /** Of joints with a direction of their own, the line that has it, or the opposite one. */
  line?(one: One): Line;
  /** Whether some go by the axes: the drawing can then be turned by quarters only. */
  goByAxes?(all: All): boolean;
  /** What they are in a changed drawing, if something else. */
  changed?(all: All, change: Change): All;
}

const JOINTS: { readonly [K in Kind]-?: Joint<One<K>, All<K>> } = {
  fixedCoordinates: {
    words: (one) => ('x' in one ? `fixed x of ${one.x}` : `fixed y of ${one.y}`),
    kept: (one, name) => ({
      what: JOINTS.fixedCoordinates.words(one, name),
      of: (places) => ('x' in one ? places[one.x][0] : places[one.y][1]),
    }),
    goByAxes: () => true,
    changed: (all, change) => all.map((one) => changedCoordinate(one, change)[0]),
  },
  sliders: {
    words: ({ point, on }, name) => `slider ${name} (${point} on ${on.join('-')})`,
    // How far the point has left its line: the less, the shorter the line is beside the way along it.
    kept({ point, on: [a, b] }, name, { points }) {
      const drawn = offset(points[point], points[a], points[b]);
      return {
        what: `way of ${point} off the line ${a}-${b} of slider ${name}`,
        of(places) {
          const [P, A, B] = [places[point], places[a], places[b]];
          return (offset(P, A, B) - drawn) / Math.max(1, distance(A, P) / distance(A, B));
        },
      };
    },
  },
  fixedAngles: {
    words(directions, name) {
      const words = directions.map((one) => (typeof one === 'string' ? one : one.join('-')));
      return `fixed angle ${name} (${words.join(' to ')})`;
    },
    // By how much the angle has changed, as what that is worth at the end of the shorter of its two lines.
    kept(directions, name, drawing) {
      const lines = directions.map((one) => (typeof one === 'string' ? lineThrough(drawing, one) : one));
      const between = (places: Places) => {
        const [first, second = 0] = lines.map((line) => direction(places, line));
        return first - second;
      };
      const drawn = between(drawing.points);
      const turn = directions.some((one) => typeof one === 'string' && isReversible(drawing, one)) ? 1 : 2;
      return {
        what: `fixed angle ${name} (${lines.map((line) => line.join('-')).join(' to ')})`,
        of: (places) =>
          turnsAside(between(places) - drawn, turn * Math.PI) *
          Math.min(...lines.map(([a, b]) => distance(places[a], places[b]))),
      };
    },
  },
  telescopes: {
    words: (ends, name) => `telescope ${name} (${ends.join('-')})`,
    kept: () => null,
    line: (ends) => ends,
  },
  ratios: {
    words: ({ of }, name) => `ratio ${name} (${of.map(measureInWords).join(' to ')})`,
    kept(one, name, drawing) {
      const {
        of: [first, second],
        ratio,
      } = one;
      // As a length, that of a turn at the end of the part's own line.
      const unit = 'turn' in first ? ('turn' in second ? armOf(drawing, first.turn) : 1 / ratio) : 1;
      return {
        what: JOINTS.ratios.words(one, name),
        of(places, { turn }) {
          const [one, other] = [first, second].map((measure) => coupledValue(measure, places, turn));
          return (unit * (one - ratio * other)) / Math.max(1, 'turn' in first ? Math.abs(ratio) : 1);
        },
      };
    },
    goByAxes: (all) => Object.values(all).some(({ of }) => of.some((one) => 'x' in one || 'y' in one)),
    changed: (all, change) =>
      renewed(all, ({ of: [first, second], ratio }) => {
        const [[one, times], [other, by]] = [changedMeasure(first, change), changedMeasure(second, change)];
        return { of: [one, other], ratio: (ratio * times) / by };
      }),
  },
  ropes: {
    words: (rope, name) => `rope ${name} (${rope.map(stopInWords).join(', ')})`,
    kept: (rope, name) => ({
      what: JOINTS.ropes.words(rope, name),
      of: (places, { angle }) => lengthOf(rope, places, angle),
    }),
    changed: (all, { lengths, sense }) =>
      renewed(all, (rope) =>
        rope.map((stop) => {
          if (typeof stop === 'string') return stop;
          const { radius, side } = stop;
          const other = side === 'left' ? 'right' : 'left';
          return { ...stop, radius: lengths * radius, side: sense < 0 ? other : side };
        }),
      ),
  },
};

function renewed<T>(all: Readonly<Record<string, T>>, renew: (one: T) => T): Record<string, T> {
  return Object.fromEntries(Object.entries(all).map(([name, one]) => [name, renew(one)]));
}

/** A coordinate of a changed drawing that is one of the drawing, times a factor. */
function changedCoordinate(one: FixedCoordinate, change: Change): [FixedCoordinate, number] {
  const [point, axis]: [string, Point] = 'x' in one ? [one.x, [1, 0]] : [one.y, [0, 1]];
  const [[x0, y0], [x1, y1]] = [change.place([0, 0]), change.place(axis)];
  const isX = Math.abs(x1 - x0) > Math.abs(y1 - y0);
  return [isX ? { x: point } : { y: point }, change.lengths * Math.sign(isX ? x1 - x0 : y1 - y0)];
}

function changedMeasure(measure: CoupledMeasure, change: Change): [CoupledMeasure, number] {
  if ('turn' in measure) return [measure, change.sense];
  return 'x' in measure || 'y' in measure ? changedCoordinate(measure, change) : [measure, change.lengths];
}

function measureInWords(measure: CoupledMeasure): string {
  if ('turn' in measure) {
    const { turn, relativeTo } = measure;
    return relativeTo === undefined ? `turn of ${turn}` : `turn of ${turn} relative to ${relativeTo}`;
  }
  if ('travel' in measure) return `travel of ${measure.travel} along ${measure.along.join('-')}`;
  if ('length' in measure) return `length ${measure.length.join('-')}`;
  return 'x' in measure ? `x of ${measure.x}` : `y of ${measure.y}`;
}

function stopInWords(stop: Rope[number]): string {
  return typeof stop === 'string' ? stop : `round ${stop.about}`;
}

/** The length of the line that a part turns with. */
function armOf(drawing: CheckedDrawing, part: string): number {
  const [a, b] = lineThrough(drawing, part).map((name) => drawing.points[name]);
  return distance(a, b);
}

function coupledValue(measure: CoupledMeasure, places: Places, turn: (part: string) => number): number {
  if ('turn' in measure) {
    return turn(measure.turn) - (measure.relativeTo === undefined ? 0 : turn(measure.relativeTo));
  }
  if ('travel' in measure) {
    const [[x, y], [ax, ay], [bx, by]] = [measure.travel, ...measure.along].map((name) => places[name]);
    return ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / Math.hypot(bx - ax, by - ay);
  }
  if ('length' in measure) return distance(places[measure.length[0]], places[measure.length[1]]);
  return 'x' in measure ? places[measure.x][0] : places[measure.y][1];
}

/** The length of a rope but for a constant: straight parts, and what the change of their directions winds on pulleys. */
function lengthOf(rope: Rope, places: Places, angle: Turned['angle']): number {
  const stops = rope.map((stop) => {
    if (typeof stop === 'string') return { point: stop, radius: 0 };
    return { point: stop.about, radius: stop.side === 'left' ? stop.radius : -stop.radius };
  });
  return stops.slice(1).reduce((sum, { point, radius }, k) => {
    const from = stops[k];
    const aside = radius - from.radius;
    // At its end a part that is used up has no length, but for rounding.
    const straight = Math.sqrt(Math.max(0, distance(places[from.point], places[point]) ** 2 - aside ** 2));
    const way = direction(places, [from.point, point]);
    const revolutions = Math.round((angle([from.point, point]) - way) / (2 * Math.PI));
    return sum + straight - aside * (way + 2 * Math.PI * revolutions - Math.atan2(aside, straight));
  }, 0);
}

const KINDS = Object.keys(JOINTS) as Kind[];

/** What something says of each joint of a drawing, but for null. */
function ofJoints<T>(
  drawing: Drawing,
  say: (kind: Joint<never, All<Kind>>, one: never, name: string) => T | null,
): T[] {
  return KINDS.flatMap((kind) =>
    Object.entries(drawing[kind] ?? {}).map(([name, one]) => say(JOINTS[kind], one as never, name)),
  ).filter((said) => said !== null);
}

/** The joints of a drawing in words. */
export function jointsInWords(drawing: Drawing): string[] {
  return ofJoints(drawing, (kind, one, name) => kind.words(one, name));
}

/** What the joints of a drawing keep. */
export function keptByJoints(drawing: CheckedDrawing): Kept[] {
  return ofJoints(drawing, (kind, one, name) => kind.kept(one, name, drawing));
}

/** Whether joints of a drawing go by the axes. */
export function goByAxes(drawing: Drawing): boolean {
  return KINDS.some((kind) => {
    const { goByAxes }: Joint<never, All<Kind>> = JOINTS[kind];
    const all = drawing[kind];
    return goByAxes !== undefined && all !== undefined && goByAxes(all);
  });
}

/** The joints that are something else in a changed drawing. */
export function changedJoints(drawing: Drawing, change: Change): Joints {
  const all = KINDS.map((kind): Joints => {
    const { changed }: Joint<never, All<Kind>> = JOINTS[kind];
    const drawn = drawing[kind];
    return changed === undefined || drawn === undefined ? {} : { [kind]: changed(drawn, change) };
  });
  return Object.assign({}, ...all);
}

/** Lines with the directions of joints that have one, by their names. */
function linesOfJoints(drawing: Drawing): Record<string, Line> {
  return Object.fromEntries(
    ofJoints(drawing, ({ line }, one, name) => (line === undefined ? null : ([name, line(one)] as const))),
  );
}

/** The two points of a body that are farthest apart as drawn: its base line. */
export function baseOf({ points, bodies }: CheckedDrawing, body: string): [string, string] {
  const length = ([a, b]: [string, string]) => distance(points[a], points[b]);
  return pairs(bodies[body]).reduce((base, pair) => (length(pair) > length(base) ? pair : base));
}

/** Two points on a line that turns with a body, or with a joint that has a direction. */
export function lineThrough(drawing: CheckedDrawing, part: string): Line {
  return linesOfJoints(drawing)[part] ?? baseOf(drawing, part);
}

/** All that has a direction: bodies, and joints with one of their own. */
export function partsOf(drawing: CheckedDrawing): string[] {
  return [...Object.keys(drawing.bodies), ...Object.keys(linesOfJoints(drawing))];
}

/** Whether a part's direction is known by its ends up to half a turn: a joint may have turned inside out. */
export function isReversible(drawing: CheckedDrawing, part: string): boolean {
  return part in linesOfJoints(drawing);
}
