// The kinds of joint as the laws know them, from the places of points alone.

import type { CheckedDrawing, Drawing, Joints } from '../linkage/index.ts';
import { direction, distance, offset, type Places, pairs, turnsAside } from './plane.ts';

type Kind = keyof Joints;
type All<K extends Kind> = NonNullable<Joints[K]>;
type One<K extends Kind> = All<K> extends { readonly [name: number]: infer One } ? One : never;
type Line = readonly [string, string];

/** A length that every pose keeps. */
export interface Kept {
  /** In words. */
  readonly what: string;
  of(places: Places): number;
}

interface Joint<One, All> {
  /** One of them in words, so that two drawings can be told apart by it. */
  words(one: One, name: string): string;
  /** What one of them keeps; null for what follows from its ends. */
  kept(one: One, name: string, drawing: CheckedDrawing): Kept | null;
  /** Of joints with a direction of their own, the line that has it, or the opposite one. */
  line?(one: One): Line;
  /** Of joints that go by the axes, what they are when the drawing is turned by a quarter. */
  quarterTurned?(all: All): All;
}

const JOINTS: { readonly [K in Kind]-?: Joint<One<K>, All<K>> } = {
  fixedCoordinates: {
    words: (one) => ('x' in one ? `fixed x of ${one.x}` : `fixed y of ${one.y}`),
    kept: (one, name) => ({
      what: JOINTS.fixedCoordinates.words(one, name),
      of: (places) => ('x' in one ? places[one.x][0] : places[one.y][1]),
    }),
    quarterTurned: (all) => all.map((one) => ('x' in one ? { y: one.x } : { x: one.y })),
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
};

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

/** The joints that go by the axes, as they are when the drawing is turned by a quarter. */
export function quarterTurned(drawing: Drawing): Joints {
  const turned = KINDS.map((kind): Joints => {
    const { quarterTurned }: Joint<never, All<Kind>> = JOINTS[kind];
    const all = drawing[kind];
    return quarterTurned === undefined || all === undefined ? {} : { [kind]: quarterTurned(all) };
  });
  return Object.assign({}, ...turned);
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
