// What of a drawing does not depend on its coordinates: which points are unknown, which follow from a body's two
// basic points, what the constraint rows are made of. Drawings of one structure (corners of one kind) share it.

import { checkDrawing, type Drawing } from './drawing.ts';

/** A body by the indices of its points; `a` and `b` are its basic points. */
export interface Member {
  readonly name: string;
  readonly points: readonly number[];
  readonly a: number;
  readonly b: number;
}

/**
 * A form that rows are made of: the constant 1 (neither), the bar between a body's basic points (body alone), how far a
 * point is off its place in a body (both), or the place of a point (point alone).
 */
export interface FormPlan {
  readonly body?: Member;
  readonly point?: number;
}

/** A row Re(k conj(W_a) W_b) = constant of two forms by index, k = re + i im; `name` in the drawing's names. */
export interface RowPlan {
  readonly name: string;
  readonly a: number;
  readonly b: number;
  readonly re: number;
  readonly im: number;
}

/** See the head of this file. */
export interface Structure {
  readonly names: readonly string[];
  readonly index: ReadonlyMap<string, number>;
  readonly ground: readonly string[];
  /** Whether a point never moves. */
  readonly fixed: readonly boolean[];
  readonly bodies: ReadonlyMap<string, Member>;
  /** The body that gives a point its place, undefined for fixed and for free points. */
  readonly definition: readonly (Member | undefined)[];
  readonly freePoints: readonly number[];
  readonly forms: readonly FormPlan[];
  readonly rows: readonly RowPlan[];
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
  if (before !== undefined && before.ground === drawing.ground && sameNames(before.names, drawing.points))
    return before;
  checkDrawing(drawing);
  const structure = build(
    drawing,
    (points) => points.slice(0, 2),
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
    let pair = points.slice(0, 2);
    for (const a of hasFixed ? points.slice(0, 1) : points) {
      for (const b of points) {
        const distance = Math.hypot(places[b][0] - places[a][0], places[b][1] - places[a][1]);
        if (distance > most) {
          most = distance;
          pair = [a, b];
        }
      }
    }
    return pair;
  };
  const lieApart = (a: number, b: number) => places[a][0] !== places[b][0] || places[a][1] !== places[b][1];
  return build(drawing, choose, lieApart);
}

/** Whether a structure may have been kept for the drawing; `drawing` may be anything. */
function isKnown(drawing: Drawing): boolean {
  return typeof drawing?.bodies === 'object' && drawing.held === undefined && drawing.points != null;
}

function sameNames(names: readonly string[], points: Drawing['points']): boolean {
  let at = 0;
  for (const name in points) if (names[at++] !== name) return false;
  return at === names.length;
}

function cannotChange({ ground, bodies, held }: Drawing): boolean {
  return (
    held === undefined &&
    Object.isFrozen(ground) &&
    Object.isFrozen(bodies) &&
    Object.values(bodies).every(Object.isFrozen)
  );
}

function build(
  drawing: Drawing,
  basicPoints: (points: number[], hasFixed: boolean) => number[],
  lieApart: (a: number, b: number) => boolean,
): Structure {
  const names = Object.keys(drawing.points);
  const index = new Map(names.map((name, p) => [name, p]));
  const indexOf = (name: string) => index.get(name) as number;
  const { fixed, moving, apart } = fixBodies(
    names.length,
    drawing.ground.map(indexOf),
    Object.entries(drawing.bodies).map(([name, members]) => ({ name, points: members.map(indexOf) })),
    lieApart,
  );
  const bodies = new Map<string, Member>();
  for (const [name, members] of Object.entries(drawing.bodies)) {
    const points = members.map(indexOf);
    const first = points.find((p) => fixed[p]);
    const ordered = first === undefined ? points : [first, ...points.filter((p) => p !== first)];
    const [a, b] = basicPoints(ordered, first !== undefined);
    bodies.set(name, { name, points, a, b });
  }
  const members = [...bodies.values()].filter(({ name }) => moving.has(name));
  const definition = definePoints(members, fixed);
  const freePoints = names.map((_, p) => p).filter((p) => !fixed[p] && definition[p] === undefined);

  const forms: FormPlan[] = [{}];
  const rows: RowPlan[] = [];
  for (const body of members) {
    const { name, a, b } = body;
    const bar = forms.push({ body }) - 1;
    rows.push({ name: `body ${name}`, a: bar, b: bar, re: 0.5, im: 0 });
    for (const point of body.points) {
      if (point === a || point === b || definition[point] === body) continue;
      const tie = forms.push({ body, point }) - 1;
      const label = `body ${name} at ${names[point]}`;
      rows.push({ name: label, a: 0, b: tie, re: 1, im: 0 }, { name: label, a: 0, b: tie, re: 0, im: -1 });
    }
  }
  for (const held of drawing.held ?? []) {
    const [axis, name] = 'x' in held ? (['x', held.x] as const) : (['y', held.y] as const);
    const point = indexOf(name);
    const place = forms.push({ point }) - 1;
    rows.push({
      name: `held ${axis} of ${name}`,
      a: 0,
      b: place,
      re: axis === 'x' ? 1 : 0,
      im: axis === 'x' ? 0 : -1,
    });
  }
  return { names, index, ground: drawing.ground, fixed, bodies, definition, freePoints, forms, rows, apart };
}

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
      const held = points.filter((p) => fixed[p]);
      const other = held.find((p) => p !== held[0] && lieApart(held[0], p));
      if (other === undefined || !moving.has(name)) continue;
      apart.push([held[0], other]);
      for (const p of points) fixed[p] = true;
      moving.delete(name);
    }
  }
  return { fixed, moving, apart };
}

/** Gives each point that is not basic in some body its place from that body, as long as no circle comes of it. */
function definePoints(moving: readonly Member[], fixed: readonly boolean[]): (Member | undefined)[] {
  const definition = new Array<Member | undefined>(fixed.length).fill(undefined);
  const dependsOn = (p: number, on: number): boolean => {
    if (p === on) return true;
    const by = definition[p];
    return by !== undefined && (dependsOn(by.a, on) || dependsOn(by.b, on));
  };
  for (const body of moving) {
    for (const p of body.points) {
      if (p === body.a || p === body.b || fixed[p] || definition[p] !== undefined) continue;
      if (!dependsOn(body.a, p) && !dependsOn(body.b, p)) definition[p] = body;
    }
  }
  return definition;
}
