// Every constraint is one bilinear row in forms (see form.ts):
//
//   Re(k conj(W_a) W_b) = constant,   k a complex constant;
//
// a bar of fixed length has a = b and k = 1/2; a linear row has W_a = 1. Written in the displacements w = W - d the
// drawn pose drops out,
//
//   f(z) = Re(k (conj(d_a) w_b + conj(w_a) d_b + conj(w_a) w_b)) = 0,
//
// so that z = 0 solves it exactly and a drawing far from its origin loses nothing.

import { type Arena, arena } from '../numerics/arena.ts';
import { type Elimination, elimination } from '../numerics/elimination.ts';
import { checkDrawing, type Drawing } from './drawing.ts';
import { addForms, constantForm, type Form, type Forms, packForms } from './form.ts';

/** A drawing turned into unknowns and rows; made by `compile`, never changed afterwards but for `workspace`. */
export interface System {
  readonly drawing: Drawing;
  /** Index of each point by name. */
  readonly index: ReadonlyMap<string, number>;
  /** Place of each point as a form. */
  readonly places: readonly Form[];
  /** For each body its name and two basic points, as point indices. */
  readonly bodies: ReadonlyMap<string, { readonly a: number; readonly b: number }>;
  /** Number of unknowns: x and y of each free point. */
  readonly unknowns: number;
  /** Point index of each free point. */
  readonly freePoints: readonly number[];
  readonly forms: Forms;
  readonly rows: Rows;
  /** Largest distance between two points of one body: the length to which tolerances refer. */
  readonly size: number;
}

/** The constraint rows in flat arrays. */
export interface Rows {
  readonly count: number;
  /** What a row stands for, in the user's names: `body upright`. */
  readonly name: readonly string[];
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Residual divided by this is a length. */
  readonly scale: Float64Array;
  /** Jacobian: row i has an entry pair (x, y) for each free point `jacobianFree[q]`, q in start[i] .. start[i+1]-1. */
  readonly jacobianStart: Int32Array;
  readonly jacobianFree: Int32Array;
  /** Entry of form a and of form b behind each Jacobian pair, -1 for none. */
  readonly entryA: Int32Array;
  readonly entryB: Int32Array;
}

interface RowDraft {
  readonly name: string;
  readonly a: number;
  readonly b: number;
  readonly re: number;
  readonly im: number;
  readonly scale: number;
}

interface Body {
  readonly name: string;
  readonly points: number[];
  a: number;
  b: number;
}

/**
 * Checks a drawing and turns it into unknowns and constraint rows.
 *
 * @throws InputError as `checkDrawing`.
 */
export function compile(drawing: Drawing): System {
  checkDrawing(drawing);
  const names = Object.keys(drawing.points);
  const index = new Map<string, number>();
  const x: number[] = [];
  const y: number[] = [];
  for (let p = 0; p < names.length; p++) {
    index.set(names[p], p);
    const at = drawing.points[names[p]];
    x.push(at[0]);
    y.push(at[1]);
  }
  const distance = (a: number, b: number) => {
    const dx = x[b] - x[a];
    const dy = y[b] - y[a];
    return Math.sqrt(dx * dx + dy * dy);
  };

  const ground = new Uint8Array(names.length);
  for (const name of drawing.ground) ground[index.get(name) as number] = 1;
  const bodies: Body[] = Object.entries(drawing.bodies).map(([name, members]) => ({
    name,
    points: members.map((member) => index.get(member) as number),
    a: -1,
    b: -1,
  }));
  const moving = withoutFixedBodies(bodies, ground, distance);
  let size = 0;
  for (const body of bodies) {
    chooseBasicPoints(body, ground, distance);
    size = Math.max(size, distance(body.a, body.b));
  }

  const definition = definePoints(moving, ground, names.length);
  const freePoints: number[] = [];
  const places = new Array<Form>(names.length);
  const place = (p: number): Form => {
    if (places[p] !== undefined) return places[p];
    const by = definition[p];
    if (ground[p] === 1) places[p] = constantForm(x[p], y[p]);
    else if (by === undefined) {
      places[p] = { x: x[p], y: y[p], free: [freePoints.length], re: [1], im: [0] };
      freePoints.push(p);
    } else {
      const [cRe, cIm] = share(x, y, by.a, by.b, p);
      const fromA = addForms(place(by.a), place(by.a), -cRe, -cIm, 0, 0);
      places[p] = addForms(fromA, place(by.b), cRe, cIm, x[p], y[p]);
    }
    return places[p];
  };
  for (let p = 0; p < names.length; p++) place(p);

  const forms: Form[] = [constantForm(1, 0)];
  const drafts: RowDraft[] = [];
  for (const body of moving) {
    const { name, a, b } = body;
    forms.push(differenceForm(places, x, y, a, b));
    const bar = forms.length - 1;
    drafts.push({ name: `body ${name}`, a: bar, b: bar, re: 0.5, im: 0, scale: distance(a, b) });
    for (const p of body.points) {
      if (p === a || p === b || definition[p] === body) continue;
      const [cRe, cIm] = share(x, y, a, b, p);
      const offset = addForms(places[p], places[a], -1, 0, 0, 0);
      forms.push(addForms(offset, differenceForm(places, x, y, a, b), -cRe, -cIm, 0, 0));
      const tie = forms.length - 1;
      const label = `body ${name} at ${names[p]}`;
      drafts.push({ name: label, a: 0, b: tie, re: 1, im: 0, scale: 1 });
      drafts.push({ name: label, a: 0, b: tie, re: 0, im: -1, scale: 1 });
    }
  }
  const memory = arena();
  return {
    drawing,
    index,
    places,
    bodies: new Map(bodies.map(({ name, a, b }) => [name, { a, b }])),
    unknowns: 2 * freePoints.length,
    freePoints,
    forms: packForms(forms, memory),
    rows: packRows(forms, drafts, memory),
    size,
  };
}

/** The form b - a of two points, its drawn value exact in the difference. */
export function difference(system: System, a: number, b: number): Form {
  const from = system.places[a];
  const to = system.places[b];
  return addForms(to, from, -1, 0, to.x - from.x, to.y - from.y);
}

/** Workspace for the elimination of a system's Jacobian. */
export function jacobianElimination(system: System, memory: Arena): Elimination {
  const { jacobianStart, jacobianFree } = system.rows;
  const start = memory.ints(jacobianStart.length);
  for (let i = 0; i < start.length; i++) start[i] = 2 * jacobianStart[i];
  const column = memory.ints(2 * jacobianFree.length);
  for (let q = 0; q < column.length; q++) column[q] = 2 * jacobianFree[q >> 1] + (q & 1);
  return elimination({ columns: system.unknowns, start, column }, memory);
}

function differenceForm(
  places: Form[],
  x: readonly number[],
  y: readonly number[],
  a: number,
  b: number,
): Form {
  return addForms(places[b], places[a], -1, 0, x[b] - x[a], y[b] - y[a]);
}

/** Constant c with p = a + c (b - a). */
function share(
  x: readonly number[],
  y: readonly number[],
  a: number,
  b: number,
  p: number,
): [number, number] {
  const bx = x[b] - x[a];
  const by = y[b] - y[a];
  const px = x[p] - x[a];
  const py = y[p] - y[a];
  const square = bx * bx + by * by;
  return [(px * bx + py * by) / square, (py * bx - px * by) / square];
}

/** Bodies held at two different fixed points are ground themselves, with all their points, until none is left. */
function withoutFixedBodies(
  bodies: readonly Body[],
  ground: Uint8Array,
  distance: (a: number, b: number) => number,
): Body[] {
  let moving = [...bodies];
  for (;;) {
    const fixed = moving.filter((body) => {
      const held = body.points.filter((p) => ground[p] === 1);
      return held.some((p) => distance(p, held[0]) > 0);
    });
    if (fixed.length === 0) return moving;
    for (const body of fixed) for (const p of body.points) ground[p] = 1;
    moving = moving.filter((body) => !fixed.includes(body));
  }
}

/** A fixed point, if the body has one, and the point farthest from it; else the two points farthest apart. */
function chooseBasicPoints(body: Body, ground: Uint8Array, distance: (a: number, b: number) => number): void {
  const fixed = body.points.find((p) => ground[p] === 1);
  const starts = fixed === undefined ? body.points : [fixed];
  let farthest = -1;
  for (const a of starts) {
    for (const b of body.points) {
      if (distance(a, b) <= farthest) continue;
      farthest = distance(a, b);
      body.a = a;
      body.b = b;
    }
  }
}

/** For each point the body that defines it from its basic points; undefined for fixed and for free points. */
function definePoints(moving: readonly Body[], ground: Uint8Array, count: number): (Body | undefined)[] {
  const definition = new Array<Body | undefined>(count).fill(undefined);
  const dependsOn = (p: number, on: number): boolean => {
    if (p === on) return true;
    const by = definition[p];
    return by !== undefined && (dependsOn(by.a, on) || dependsOn(by.b, on));
  };
  for (const body of moving) {
    for (const p of body.points) {
      if (p === body.a || p === body.b || ground[p] === 1 || definition[p] !== undefined) continue;
      if (!dependsOn(body.a, p) && !dependsOn(body.b, p)) definition[p] = body;
    }
  }
  return definition;
}

function packRows(forms: readonly Form[], drafts: readonly RowDraft[], memory: Arena): Rows {
  const count = drafts.length;
  const rows = {
    count,
    name: drafts.map((draft) => draft.name),
    a: memory.ints(count),
    b: memory.ints(count),
    re: memory.floats(count),
    im: memory.floats(count),
    scale: memory.floats(count),
    jacobianStart: memory.ints(count + 1),
  };
  const start = entryStarts(forms);
  const jacobianFree: number[] = [];
  const entryA: number[] = [];
  const entryB: number[] = [];
  for (let i = 0; i < count; i++) {
    const { a, b, re, im, scale } = drafts[i];
    rows.a[i] = a;
    rows.b[i] = b;
    rows.re[i] = re;
    rows.im[i] = im;
    rows.scale[i] = scale;
    const from = jacobianFree.length;
    for (let k = 0; k < forms[b].free.length; k++) {
      jacobianFree.push(forms[b].free[k]);
      entryA.push(-1);
      entryB.push(start[b] + k);
    }
    for (let k = 0; k < forms[a].free.length; k++) {
      const free = forms[a].free[k];
      let at = jacobianFree.indexOf(free, from);
      if (at < 0) {
        at = jacobianFree.push(free) - 1;
        entryA.push(-1);
        entryB.push(-1);
      }
      entryA[at] = start[a] + k;
    }
    rows.jacobianStart[i + 1] = jacobianFree.length;
  }
  const packed = (list: readonly number[]) => {
    const array = memory.ints(list.length);
    for (let q = 0; q < list.length; q++) array[q] = list[q];
    return array;
  };
  return { ...rows, jacobianFree: packed(jacobianFree), entryA: packed(entryA), entryB: packed(entryB) };
}

function entryStarts(forms: readonly Form[]): number[] {
  const start = [0];
  for (const form of forms) start.push(start[start.length - 1] + form.free.length);
  return start;
}
