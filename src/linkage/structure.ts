// What of a drawing does not depend on its coordinates: which points are unknown, which follow from a body's two
// basic points, what the constraint rows are made of. Drawings of one structure (corners of one kind) share it.

import { distance } from '../numerics/plane.ts';
import type { Summand } from './couplings.ts';
import { checkDrawing, type Drawing, PARTS, samePlace } from './drawing.ts';
import { type ConstraintMaker, type Direction, endOf, jointsIn } from './joints.ts';

/** A body by the indices of its points; `a` and `b` are its basic points. */
export interface Member {
  readonly name: string;
  readonly points: readonly number[];
  readonly a: number;
  readonly b: number;
}

/** A form that rows are made of. */
export type FormPlan =
  | { readonly kind: 'one' }
  /** The place of a point. */
  | { readonly kind: 'place'; readonly point: number }
  /** The line from one point to another. */
  | { readonly kind: 'line'; readonly from: number; readonly to: number }
  /** How far a point is off its place in a body. */
  | { readonly kind: 'tie'; readonly body: Member; readonly point: number }
  /** A line turned by the angle drawn between it and the line of form `along`. */
  | { readonly kind: 'turned'; readonly from: number; readonly to: number; readonly along: number };

/**
 * A row Re(k conj(W_a) W_b) = constant of two forms by index, k = re + i im. Divided by the drawn length of W_a (of the shorter of the
 * two, for an angle) its residual is a length.
 */
export interface RowPlan {
  /** In the drawing's names; of the rows that keep a body rigid, which body. */
  readonly of: { readonly constraint: string; readonly body?: string };
  readonly a: number;
  readonly b: number;
  readonly re: number;
  readonly im: number;
  readonly isAngle?: boolean;
  /** Of a row that says what an unknown measure is (measure-rows.ts): which, and whether it is a turn. Such rows take no freedom. */
  readonly defines?: 'value' | 'turn' | 'direction';
  /** Unknown measures beside the product, by index, with factors; of a row that defines one, that one with -1. */
  readonly measures?: readonly (readonly [measure: number, factor: number])[];
}

/** A direction of its own, from a point: along the line drawn to another, or touching a circle of radius |aside| about that. */
export interface DirectionPlan {
  readonly from: number;
  readonly to: number;
  /** How far the other point lies to the left of the direction. */
  readonly aside: number;
}

/** See the head of this file. */
export interface Structure {
  readonly names: readonly string[];
  readonly index: ReadonlyMap<string, number>;
  /** What was drawn, but for the coordinates. */
  readonly drawn: Omit<Drawing, 'points'>;
  /** Whether a point never moves. Behind the named points stand the ends of joints' own directions. */
  readonly fixed: readonly boolean[];
  /** Bodies, and joints with a direction of their own. */
  readonly bodies: ReadonlyMap<string, Member>;
  /** For each such direction, and those of straight parts of rope, how it is drawn; its end is a point of its own. */
  readonly directions: readonly DirectionPlan[];
  /** The body that gives a point its place, undefined for fixed and for free points. */
  readonly definition: readonly (Member | undefined)[];
  readonly freePoints: readonly number[];
  readonly forms: readonly FormPlan[];
  readonly rows: readonly RowPlan[];
  /** Unknown measures, real unknowns behind those of the free points: whether each is a turn. */
  readonly measures: readonly boolean[];
  /** Rows that define lengths which cannot be less than nothing. */
  readonly straight: readonly number[];
  /** Pairs of ground points on one body, taken to lie apart, so that they hold it. */
  readonly apart: readonly (readonly [number, number])[];
}

/** Structures of drawings that cannot change, by their bodies: finding one again costs nothing. */
const known = new WeakMap<Drawing['bodies'], Structure>();

/**
 * The structure of a drawing, which is checked first. The basic points of a body are its first fixed point, if it has
 * one, and then its first points as listed.
 *
 * @throws InputError as `checkDrawing`.
 */
export function structureOf(drawing: Drawing): Structure {
  const before = isKnown(drawing) ? known.get(drawing.bodies) : undefined;
  if (before !== undefined && sameParts(before.drawn, drawing) && sameNames(before.names, drawing.points))
    return before;
  checkDrawing(drawing);
  const structure = build(
    drawing,
    (points) => points,
    () => true,
  );
  if (cannotChange(drawing)) known.set(drawing.bodies, structure);
  return structure;
}

/**
 * The structure with a view to the coordinates, for drawings that the usual one does not suit: in each body the two
 * points farthest apart are basic (a fixed one and the farthest from it), and ground points in one place hold no body.
 */
export function fittedStructureOf(drawing: Drawing): Structure {
  const places = Object.values(drawing.points);
  const choose = (points: number[], hasFixed: boolean) => {
    let most = -1;
    let pair = points;
    for (const a of hasFixed ? points.slice(0, 1) : points) {
      for (const b of points) {
        const length = distance(places[a], places[b]);
        if (length > most) {
          most = length;
          pair = [a, b];
        }
      }
    }
    return pair;
  };
  return build(drawing, choose, (a, b) => !samePlace(places[a], places[b]));
}

/** Whether a structure may have been kept for the drawing; `drawing` may be anything. */
function isKnown(drawing: Drawing): boolean {
  return typeof drawing?.bodies === 'object' && drawing.bodies !== null && drawing.points != null;
}

/** What a structure is made from. */
function sameParts(before: Omit<Drawing, 'points'>, drawing: Drawing): boolean {
  for (const part of PARTS) if (before[part] !== drawing[part]) return false;
  // A part under a wrong name is left to checkDrawing.
  for (const name in drawing)
    if (name !== 'points' && !(PARTS as readonly string[]).includes(name)) return false;
  return true;
}

function sameNames(names: readonly string[], points: Drawing['points']): boolean {
  let at = 0;
  for (const name in points) if (names[at++] !== name) return false;
  return at === names.length;
}

function cannotChange(drawing: Drawing): boolean {
  return PARTS.every((part) => isDeepFrozen(drawing[part]));
}

function isDeepFrozen(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return true;
  return Object.isFrozen(value) && Object.values(value).every(isDeepFrozen);
}

function build(
  drawing: Drawing,
  basicPoints: (points: number[], hasFixed: boolean) => number[],
  lieApart: (a: number, b: number) => boolean,
): Structure {
  const names = Object.keys(drawing.points);
  const index = new Map(names.map((name, p) => [name, p]));
  const joints = jointsIn(drawing);
  const all = new Map(index);
  for (const { at, direction } of joints) if (direction !== undefined) all.set(endOf(at.name), all.size);
  const indexOf = (name: string) => all.get(name) as number;
  const drawnBodies = Object.entries(drawing.bodies).map(([name, members]) => {
    return { name, points: members.map(indexOf) };
  });
  const { fixed, moving, apart } = fixBodies(all.size, drawing.ground.map(indexOf), drawnBodies, lieApart);
  const bodies = new Map<string, Member>();
  for (const { name, points } of drawnBodies) {
    const first = points.find((p) => fixed[p]);
    const ordered = first === undefined ? points : [first, ...points.filter((p) => p !== first)];
    const [a, b] = basicPoints(ordered, first !== undefined);
    bodies.set(name, { name, points, a, b });
  }
  const members = [...bodies.values()].filter(({ name }) => moving.has(name));
  const directions: DirectionPlan[] = [];
  for (const { at, direction } of joints) {
    if (direction === undefined) continue;
    const [a, b] = [indexOf(direction[0]), indexOf(endOf(at.name))];
    const member = { name: at.name, points: [a, b], a, b };
    bodies.set(at.name, member);
    members.push(member);
    directions.push({ from: a, to: indexOf(direction[1]), aside: 0 });
  }
  const definition = definePoints(members, fixed);
  const freePoints = fixed.map((_, p) => p).filter((p) => !fixed[p] && definition[p] === undefined);

  const forms: FormPlan[] = [{ kind: 'one' }];
  const rows: RowPlan[] = [];
  const line = (from: number, to: number) => forms.push({ kind: 'line', from, to }) - 1;
  for (const body of members) {
    const { name, a, b } = body;
    const bar = line(a, b);
    rows.push({ of: { constraint: `body ${name}`, body: name }, a: bar, b: bar, re: 0.5, im: 0 });
    for (const point of body.points) {
      if (point === a || point === b || definition[point] === body) continue;
      const tie = forms.push({ kind: 'tie', body, point }) - 1;
      const of = { constraint: `body ${name} at ${names[point]}`, body: name };
      rows.push({ of, a: 0, b: tie, re: 1, im: 0 }, { of, a: 0, b: tie, re: 0, im: -1 });
    }
  }
  const directionOf = (direction: Direction): [number, number] => {
    if (typeof direction !== 'string') return [indexOf(direction[0]), indexOf(direction[1])];
    const { a, b } = bodies.get(direction) as Member;
    return [a, b];
  };
  const measures: boolean[] = [];
  const straight: number[] = [];
  const turns = new Map<string, number>();
  /** Adds an unknown measure and the row that defines it, a product as a row has it. */
  const define = (constraint: string, a: number, b: number, [re, im]: readonly [number, number]): number => {
    const isTurn = a === b;
    const measure = measures.push(isTurn) - 1;
    const defines = isTurn ? 'turn' : 'value';
    rows.push({ of: { constraint }, a, b, re, im, defines, measures: [[measure, -1]] });
    return measure;
  };
  /** The unknown turn of what has a direction: one for all couplings. */
  const turnOf = (name: string, { a, b }: Member): number => {
    const known = turns.get(name);
    if (known !== undefined) return known;
    const bar = line(a, b);
    const measure = define(`turn of ${name}`, bar, bar, ASIDE);
    turns.set(name, measure);
    return measure;
  };
  /** A direction of its own from a point, and the row that keeps its length. */
  const directed = (constraint: string, from: number, to: number, aside: number): number => {
    const end = fixed.push(false) - 1;
    definition.push(undefined);
    freePoints.push(end);
    directions.push({ from, to, aside });
    const bar = line(from, end);
    rows.push({ of: { constraint }, a: bar, b: bar, re: 0.5, im: 0, defines: 'direction' });
    rows.push({ of: { constraint }, a: bar, b: line(from, to), re: 0, im: -1, defines: 'direction' });
    return bar;
  };
  /** A summand as unknown measures with factors; nothing where it never changes. */
  const measuresOf = (constraint: string, of: Summand): [measure: number, factor: number][] => {
    if ('turn' in of) {
      const body = bodies.get(of.turn) as Member;
      return fixed[body.a] && fixed[body.b] ? [] : [[turnOf(of.turn, body), 1]];
    }
    if ('travel' in of) {
      const [from, to] = of.along.map(indexOf);
      return [[define(constraint, line(from, to), line(from, indexOf(of.travel)), ALONG), 1]];
    }
    if (!('length' in of)) {
      const isX = 'x' in of;
      const place = forms.push({ kind: 'place', point: indexOf(isX ? of.x : of.y) }) - 1;
      return [[define(constraint, 0, place, isX ? ALONG : ASIDE), 1]];
    }
    const [from, to] = of.length.map(indexOf);
    if (fixed[from] && fixed[to]) return [];
    const bar = directed(constraint, from, to, of.aside);
    straight.push(rows.length);
    const length = define(constraint, bar, line(from, to), ALONG);
    if (of.aside === 0) return [[length, 1]];
    const turn = define(constraint, bar, bar, ASIDE);
    return [
      [length, 1],
      [turn, -of.aside],
    ];
  };
  const rowOf = (constraint: string): ConstraintMaker<RowPlan> => ({
    coordinate(axis, point) {
      const place = forms.push({ kind: 'place', point: indexOf(point) }) - 1;
      const [re, im] = axis === 'x' ? [1, 0] : [0, -1];
      return { of: { constraint }, a: 0, b: place, re, im };
    },
    // Cross products: k = -i.
    distance(point, [from, to]) {
      const [a, b] = [line(indexOf(from), indexOf(to)), line(indexOf(from), indexOf(point))];
      return { of: { constraint }, a, b, re: 0, im: -1 };
    },
    // The angle drawn is taken out of the first line beforehand.
    angle(first, second) {
      const along = second === undefined ? 0 : line(...directionOf(second));
      const [from, to] = directionOf(first);
      const turned = forms.push({ kind: 'turned', from, to, along }) - 1;
      return { of: { constraint }, a: along, b: turned, re: 0, im: -1, isAngle: true };
    },
    sum(terms) {
      const summed = new Map<number, number>();
      for (const [of, factor] of terms) {
        for (const [measure, times] of measuresOf(constraint, of)) {
          summed.set(measure, (summed.get(measure) ?? 0) + factor * times);
        }
      }
      return { of: { constraint }, a: 0, b: 0, re: 0, im: 0, measures: [...summed] };
    },
  });
  for (const { label, constraint } of joints) rows.push(constraint(rowOf(label)));
  const { points: _, ...drawn } = drawing;
  return {
    names,
    index,
    drawn,
    fixed,
    bodies,
    directions,
    definition,
    freePoints,
    forms,
    rows,
    measures,
    straight,
    apart,
  };
}

/** k of a product along the first form, and across it. */
const ALONG = [1, 0] as const;
const ASIDE = [0, -1] as const;

/** A body held at two fixed points that lie apart never moves, nor does any point of it; and so on. */
function fixBodies(
  count: number,
  ground: readonly number[],
  bodies: readonly { name: string; points: readonly number[] }[],
  lieApart: (a: number, b: number) => boolean,
): { fixed: boolean[]; moving: Set<string>; apart: [number, number][] } {
  const fixed = new Array<boolean>(count).fill(false);
  for (const p of ground) fixed[p] = true;
  const moving = new Set(bodies.map(({ name }) => name));
  const apart: [number, number][] = [];
  for (let before = -1; before !== moving.size; ) {
    before = moving.size;
    for (const { name, points } of bodies) {
      const known = points.filter((p) => fixed[p]);
      const other = known.find((p) => p !== known[0] && lieApart(known[0], p));
      if (other === undefined || !moving.has(name)) continue;
      apart.push([known[0], other]);
      for (const p of points) fixed[p] = true;
      moving.delete(name);
    }
  }
  return { fixed, moving, apart };
}

/** Most bodies in a row by which points get their places: a longer row would make dense equations of a long chain. */
const MOST_IN_A_ROW = 3;

/** Gives each point that is not basic in some body its place from that body, as long as no circle comes of it. */
function definePoints(moving: readonly Member[], fixed: readonly boolean[]): (Member | undefined)[] {
  const definition = new Array<Member | undefined>(fixed.length).fill(undefined);
  const rowAbove = fixed.map(() => 0);
  const raise = (p: number, to: number): void => {
    if (rowAbove[p] >= to) return;
    rowAbove[p] = to;
    const by = definition[p];
    if (by !== undefined) for (const q of [by.a, by.b]) raise(q, to + 1);
  };
  const rowBelow = (p: number): number => {
    const by = definition[p];
    return by === undefined ? 0 : 1 + Math.max(rowBelow(by.a), rowBelow(by.b));
  };
  const dependsOn = (p: number, on: number): boolean => {
    if (p === on) return true;
    const by = definition[p];
    return by !== undefined && (dependsOn(by.a, on) || dependsOn(by.b, on));
  };
  for (const body of moving) {
    const { a, b } = body;
    for (const p of body.points) {
      if (p === a || p === b || fixed[p] || definition[p] !== undefined) continue;
      if (dependsOn(a, p) || dependsOn(b, p)) continue;
      const above = rowAbove[p] + 1;
      if (above + Math.max(rowBelow(a), rowBelow(b)) > MOST_IN_A_ROW) continue;
      definition[p] = body;
      for (const q of [a, b]) raise(q, above);
    }
  }
  return definition;
}
