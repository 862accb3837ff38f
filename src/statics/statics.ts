// Forces in a linkage in static equilibrium, as drawn. Two methods that share no equation:
//
// Multipliers. In natural coordinates (form.ts) every body's rigidity is a set of rows in the places of its points: the bar
// |b - a|^2/2, and p - a - c (b - a) for each further point. With every joint that is no pin a row as well, equilibrium of
// every moving point is
//
//   sum_rows lambda grad(row) + mu grad(driver) + loads = 0.
//
// What the rows of a body X do to one of its points p is f, so that at p the others do R = -f - L to X, L being what acts on
// X itself there (J. Garcia de Jalon, E. Bayo, 1994, ch. 6).
//
// Free bodies. Unknown are the forces R on each body at each of its points, one normal force per slider, one moment per fixed
// angle, one force per fixed coordinate, and that of the driver; for each body two forces and a moment vanish, and two forces for
// each moving pin.
//
// Both are solved as least squares by sparse elimination. In a redundant structure a force is undetermined where a vector of the null
// space adds to it.

import { type Diagnostic, fault, show } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import { type CheckedDrawing, checkDrawing, type Drawing, type Point } from '../linkage/drawing.ts';
import { unknownKeys } from '../linkage/former-names.ts';
import type { Direction } from '../linkage/joints.ts';
import { type Measure, measureFaults } from '../linkage/measure.ts';
import { compile } from '../linkage/system.ts';
import { solveSparse, sparse } from '../numerics/sparse-rank.ts';
import { type Applied, applied, type Load, loadFaults } from './loads.ts';

/** How forces are computed. */
export interface StaticsOptions<P extends string = string, B extends string = string> {
  /** What holds the linkage in place under the loads; its force (or moment) is part of the result. */
  readonly driver?: Exclude<Measure<P, B>, { readonly relativeTo: string }>;
  /** Default multipliers. */
  readonly method?: 'multipliers' | 'freeBodies';
}

/** Forces in the drawn pose, in the unit of the loads; null where a redundant structure leaves one undetermined. */
export interface Forces {
  /** On each moving body, from what is joined to it, by body and point. */
  readonly on: Readonly<Record<string, Readonly<Record<string, Point | null>>>>;
  /** On the ground, by point. */
  readonly ground: Readonly<Record<string, Point | null>>;
  /** On each slider's point, square to its line: positive to the left of the way from the line's first point to its second. */
  readonly sliders: Readonly<Record<string, number | null>>;
  /** Moment on the first direction of each fixed angle, counter-clockwise positive. */
  readonly fixedAngles: Readonly<Record<string, number | null>>;
  /** Force on the point of each fixed coordinate, along its axis, in their order. */
  readonly fixedCoordinates: readonly (number | null)[];
  /** Of the driver: a force that would make its measure grow, a moment for an angle or a turn; null without one. */
  readonly driver: number | null;
  /** The largest force out of balance: rounding only, if the linkage is in equilibrium. */
  readonly residual: number;
}

/**
 * Forces in every joint of a linkage in its drawn pose, under loads. For another pose, draw it there: `{ ...drawing, points:
 * motion.at(t) }`.
 *
 * @throws InputError for a faulty drawing, and for loads on what is not there.
 */
export function forces<P extends string, B extends string, T extends string = never>(
  drawing: Drawing<P, B, T>,
  loads: readonly Load<NoInfer<P>, NoInfer<B>>[],
  options?: StaticsOptions<NoInfer<P>, NoInfer<B | T>>,
): Forces;
export function forces(drawing: Drawing, loads: readonly Load[], options: StaticsOptions = {}): Forces {
  checkDrawing(drawing);
  refuse('loads', loadFaults(drawing, loads));
  refuse('options of forces', optionFaults(options));
  const plan = planOf(drawing, options.driver);
  const acting = applied(drawing, loads);
  return options.method === 'freeBodies' ? byFreeBodies(plan, acting) : byMultipliers(plan, acting);
}

function optionFaults(options: unknown): Diagnostic[] {
  const faults = unknownKeys('staticsOption', options, ['driver', 'method']);
  const { driver, method = METHODS[0] } = (options ?? {}) as StaticsOptions;
  if (driver !== undefined) faults.push(...measureFaults(driver, 'driver'));
  if (!METHODS.includes(method)) {
    faults.push(fault('unknownMethod', 'method', { got: show(method), allowed: METHODS }));
  }
  return faults;
}

const METHODS: readonly NonNullable<StaticsOptions['method']>[] = ['multipliers', 'freeBodies'];

/** A place where a unit of something acts: on a pin, or on a body at one of its points. */
interface Act {
  readonly body: string | null;
  readonly point: string;
  readonly force: Point;
}

/** A joint other than a pin, or the driver: the forces of a unit of it, and the moments beside them, by body. */
interface Agent {
  readonly name: string;
  readonly acts: readonly Act[];
  readonly moments: readonly (readonly [body: string, moment: number])[];
}

interface Plan {
  readonly places: Places;
  readonly moving: readonly string[];
  /** Bodies that move, and telescopes by their first point alone. */
  readonly bodies: Readonly<Record<string, readonly string[]>>;
  readonly basic: Readonly<Record<string, readonly [string, string]>>;
  readonly fixed: ReadonlySet<string>;
  readonly sliders: readonly Agent[];
  readonly fixedAngles: readonly Agent[];
  readonly telescopes: readonly Agent[];
  readonly fixedCoordinates: readonly Agent[];
  readonly driver: Agent | null;
  readonly size: number;
}

function planOf(drawing: CheckedDrawing, driver: StaticsOptions['driver']): Plan {
  const { names, fixed: isFixed, bodies: members } = compile(drawing).structure;
  const { telescopes = {} } = drawing;
  const places: Record<string, Point> = { ...drawing.points };
  for (const [name, [, b]] of Object.entries(telescopes)) places[endOf(name)] = drawing.points[b];
  const fixed = new Set(names.filter((_, p) => isFixed[p]));
  const moves = Object.entries(drawing.bodies).filter(([, points]) => !points.every((p) => fixed.has(p)));
  const bodies = Object.fromEntries([
    ...moves,
    ...Object.entries(telescopes).map(([name, [a]]) => [name, [a, endOf(name)]] as const),
  ]);
  const basic = Object.fromEntries(
    Object.keys(bodies).map((name) => {
      if (name in telescopes) return [name, [bodies[name][0], bodies[name][1]]] as const;
      const { a, b } = members.get(name) as { a: number; b: number };
      return [name, [names[a], names[b]]] as const;
    }),
  );
  const holder = (a: string, b: string) =>
    Object.keys(bodies).find((name) => bodies[name].includes(a) && bodies[name].includes(b)) ?? null;
  const slide = (name: string, point: string, a: string, b: string, on: string | null): Agent => {
    const [dx, dy] = across(places, a, b);
    const length = Math.hypot(dx, dy);
    const own = act(point, [-dy / length, dx / length]);
    if (on === null) return { name, acts: [own], moments: [] };
    // The opposite on the body, at the place of the point: moved to the line's first point with its moment.
    const [rx, ry] = across(places, a, point);
    const back: Point = [dy / length, -dx / length];
    return {
      name,
      acts: [own, { body: on, point: a, force: back }],
      moments: [[on, rx * back[1] - ry * back[0]]],
    };
  };
  const turning = (direction: Direction, moment: number): Pick<Agent, 'acts' | 'moments'> => {
    if (typeof direction === 'string') {
      return { acts: [], moments: direction in bodies ? [[direction, moment]] : [] };
    }
    return { acts: couple(places, null, direction, moment), moments: [] };
  };
  const fixedAngles = Object.entries(drawing.fixedAngles ?? {}).map(([name, [first, second]]) => {
    const [one, other] = [turning(first, 1), second === undefined ? NOTHING : turning(second, -1)];
    return { name, acts: [...one.acts, ...other.acts], moments: [...one.moments, ...other.moments] };
  });
  const fixedCoordinates = (drawing.fixedCoordinates ?? []).map((one): Agent => {
    const [point, force]: [string, Point] = 'x' in one ? [one.x, [1, 0]] : [one.y, [0, 1]];
    return { name: `fixed ${point}`, acts: [act(point, force)], moments: [] };
  });
  const all = Object.values(places);
  const size = Math.max(...all.map(([x, y]) => Math.hypot(x - all[0][0], y - all[0][1])), 1e-300);
  return {
    places,
    moving: Object.keys(places).filter((name) => !fixed.has(name)),
    bodies,
    basic,
    fixed,
    sliders: Object.entries(drawing.sliders ?? {}).map(([name, { point, on }]) =>
      slide(name, point, on[0], on[1], holder(on[0], on[1])),
    ),
    fixedAngles,
    telescopes: Object.entries(telescopes).map(([name, [a, b]]) => slide(name, b, a, endOf(name), name)),
    fixedCoordinates,
    driver: driver === undefined ? null : driverOf(driver, places, turning),
    size,
  };
}

const NOTHING: Pick<Agent, 'acts' | 'moments'> = { acts: [], moments: [] };

/** The end of a telescope's own direction; no name of a drawing can be it. */
function endOf(telescope: string): string {
  return `${telescope}\u0000end`;
}

function act(point: string, force: Point): Act {
  return { body: null, point, force };
}

function driverOf(
  measure: Measure,
  places: Places,
  turning: (direction: Direction, moment: number) => Pick<Agent, 'acts' | 'moments'>,
): Agent {
  const name = 'driver';
  if ('x' in measure) return { name, acts: [act(measure.x, [1, 0])], moments: [] };
  if ('y' in measure) return { name, acts: [act(measure.y, [0, 1])], moments: [] };
  if ('turn' in measure) return { name, ...turning(measure.turn, 1) };
  if ('angle' in measure) return { name, ...turning(measure.angle, 1) };
  const [a, b] = measure.length;
  const [dx, dy] = across(places, a, b);
  const length = Math.hypot(dx, dy, measure.offset ?? 0);
  return { name, acts: opposed(null, a, b, [dx / length, dy / length]), moments: [] };
}

/** Agents in one list, the driver last. */
function agentsOf({ sliders, fixedAngles, fixedCoordinates, telescopes, driver }: Plan): Agent[] {
  return [
    ...sliders,
    ...fixedAngles,
    ...fixedCoordinates,
    ...telescopes,
    ...(driver === null ? [] : [driver]),
  ];
}

type Places = Readonly<Record<string, Point>>;

/** The way from one point to another. */
function across(places: Places, a: string, b: string): Point {
  return [places[b][0] - places[a][0], places[b][1] - places[a][1]];
}

/** A force at b, and the opposite one at a. */
function opposed(body: string | null, a: string, b: string, [x, y]: Point): Act[] {
  return [
    { body, point: b, force: [x, y] },
    { body, point: a, force: [-x, -y] },
  ];
}

/** A moment as two forces square to the line between two points. */
function couple(
  places: Places,
  body: string | null,
  [a, b]: readonly [string, string],
  moment: number,
): Act[] {
  const [dx, dy] = across(places, a, b);
  const square = dx * dx + dy * dy;
  return opposed(body, a, b, [(-dy * moment) / square, (dx * moment) / square]);
}

/** A moment on a body as two forces on its basic points. */
function asPair({ places, basic }: Plan, body: string, moment: number): Act[] {
  return couple(places, body, basic[body], moment);
}

/** All that loads do, by point. */
function loadActs(plan: Plan, { pins, bodies, moments }: Applied): Act[] {
  return [
    ...[...pins].map(([point, force]) => act(point, force)),
    ...bodies,
    ...[...moments].flatMap(([body, moment]) => (body in plan.bodies ? asPair(plan, body, moment) : [])),
  ];
}

/** Equations of equilibrium A x = b, filled column by column. */
function equationsOf(count: number) {
  const rows = Array.from({ length: count }, () => new Map<number, number>());
  const right = new Array<number>(count).fill(0);
  return {
    column: (k: number) => (i: number, value: number) => {
      rows[i].set(k, (rows[i].get(k) ?? 0) + value);
    },
    load: (i: number, value: number) => {
      right[i] -= value;
    },
    solve: (columns: number) => solveSparse(sparse(rows, columns), right),
  };
}

function byMultipliers(plan: Plan, acting: Applied): Forces {
  const { places, bodies, basic, moving } = plan;
  const agents = agentsOf(plan);
  /** What a unit of each row's multiplier does to the points of its body. */
  const rigid: Act[][] = [];
  for (const [body, points] of Object.entries(bodies)) {
    const [a, b] = basic[body];
    const [dx, dy] = across(places, a, b);
    const length = Math.hypot(dx, dy);
    const on = (point: string, force: Point): Act => ({ body, point, force });
    rigid.push(opposed(body, a, b, [dx / length, dy / length]));
    for (const p of points) {
      if (p === a || p === b) continue;
      const [px, py] = across(places, a, p);
      const re = (px * dx + py * dy) / (length * length);
      const im = (py * dx - px * dy) / (length * length);
      rigid.push([on(p, [1, 0]), on(b, [-re, im]), on(a, [re - 1, -im])]);
      rigid.push([on(p, [0, 1]), on(b, [-im, -re]), on(a, [im, re - 1])]);
    }
  }
  const agentActs = agents.map(({ acts, moments }) => [
    ...acts,
    ...moments.flatMap(([body, moment]) => asPair(plan, body, moment)),
  ]);
  const first = rigid.length;
  const row = new Map(moving.map((name, k) => [name, 2 * k]));
  const equations = equationsOf(2 * moving.length);
  const direct = loadActs(plan, acting);
  const fill = (acts: readonly Act[], add: (i: number, value: number) => void) => {
    for (const { point, force } of acts) {
      const i = row.get(point);
      if (i === undefined) continue;
      add(i, force[0]);
      add(i + 1, force[1]);
    }
  };
  // R = -f - L of a body at a point.
  const shares = new Map<string, Share>();
  const shareOf = (body: string | null, point: string): Share => {
    const key = `${body}\n${point}`;
    const share = shares.get(key) ?? { terms: [], loads: [0, 0] };
    shares.set(key, share);
    return share;
  };
  [...rigid, ...agentActs].forEach((acts, k) => {
    fill(acts, equations.column(k));
    for (const { body, point, force } of acts) {
      shareOf(body, point).terms.push([k, -force[0], -force[1]]);
    }
  });
  fill(direct, equations.load);
  for (const { body, point, force } of direct) {
    const { loads } = shareOf(body, point);
    loads[0] -= force[0];
    loads[1] -= force[1];
  }
  return gather(plan, acting, equations.solve(first + agents.length), shareOf, first);
}

function byFreeBodies(plan: Plan, acting: Applied): Forces {
  const { places, bodies, moving, size } = plan;
  const agents = agentsOf(plan);
  const names = Object.keys(bodies);
  const rowOfBody = new Map(names.map((name, k) => [name, 3 * k]));
  const rowOfPin = new Map(moving.map((name, k) => [name, 3 * names.length + 2 * k]));
  const equations = equationsOf(3 * names.length + 2 * moving.length);
  /** A force on a body at a point, moments about its first point and over the size. */
  const onBody = (body: string, point: string, [x, y]: Point, add: (i: number, value: number) => void) => {
    const i = rowOfBody.get(body);
    if (i === undefined) return;
    const [ox, oy] = places[bodies[body][0]];
    add(i, x);
    add(i + 1, y);
    add(i + 2, ((places[point][0] - ox) * y - (places[point][1] - oy) * x) / size);
  };
  const onPin = (point: string, [x, y]: Point, add: (i: number, value: number) => void) => {
    const i = rowOfPin.get(point);
    if (i === undefined) return;
    add(i, x);
    add(i + 1, y);
  };
  const shares = new Map<string, Share>();
  let firstAgent = 0;
  for (const [body, points] of Object.entries(bodies)) {
    for (const point of points) {
      const units: [number, number, number][] = [
        [firstAgent++, 1, 0],
        [firstAgent++, 0, 1],
      ];
      shares.set(`${body}\n${point}`, { terms: units, loads: [0, 0] });
      for (const [k, x, y] of units) {
        onBody(body, point, [x, y], equations.column(k));
        onPin(point, [-x, -y], equations.column(k));
      }
    }
  }
  const put = (acts: readonly Act[], moments: Agent['moments'], add: (i: number, value: number) => void) => {
    for (const { body, point, force } of acts) {
      if (body === null) onPin(point, force, add);
      else onBody(body, point, force, add);
    }
    for (const [body, moment] of moments) {
      const i = rowOfBody.get(body);
      if (i !== undefined) add(i + 2, moment / size);
    }
  };
  agents.forEach(({ acts, moments }, k) => {
    put(acts, moments, equations.column(firstAgent + k));
  });
  const { pins, bodies: direct, moments } = acting;
  put([...[...pins].map(([point, force]) => act(point, force)), ...direct], [...moments], equations.load);
  return gather(
    plan,
    acting,
    equations.solve(firstAgent + agents.length),
    (body, point) => shares.get(`${body}\n${point}`) as Share,
    firstAgent,
  );
}

/** A force as a sum over unknowns k of (fx, fy) times the unknown, and a part of the loads' own. */
interface Share {
  readonly terms: (readonly [k: number, fx: number, fy: number])[];
  readonly loads: [number, number];
}

/** A null vector adds nothing to a force when it adds less than this to it. */
const NOTHING_ADDED = 1e-7;

function gather(
  plan: Plan,
  { pins }: Applied,
  { x, residual, nullSpace }: ReturnType<typeof solveSparse>,
  shareOf: (body: string, point: string) => Share,
  firstAgent: number,
): Forces {
  const { bodies, fixed, sliders, fixedAngles, fixedCoordinates, telescopes, driver } = plan;
  const agents = agentsOf(plan);
  const sum = ({ terms }: Share, of: ArrayLike<number>, [fx, fy]: Point): Point => {
    for (const [k, tx, ty] of terms) {
      fx += tx * of[k];
      fy += ty * of[k];
    }
    return [fx, fy];
  };
  const pointForce = (share: Share): Point | null => {
    const open = nullSpace.some((vector) => Math.hypot(...sum(share, vector, [0, 0])) > NOTHING_ADDED);
    return open ? null : sum(share, x, share.loads);
  };
  const single = (agent: number): number | null => {
    const k = firstAgent + agent;
    return nullSpace.some((vector) => Math.abs(vector[k]) > NOTHING_ADDED) ? null : x[k];
  };
  const onBodies = Object.fromEntries(
    Object.entries(bodies).map(([body, points]) => [
      body,
      Object.fromEntries(
        points.filter((p) => !p.includes('\u0000')).map((point) => [point, pointForce(shareOf(body, point))]),
      ),
    ]),
  );
  const ground: Record<string, Point | null> = {};
  for (const point of fixed) {
    const carriers = Object.keys(bodies).filter((body) => bodies[body].includes(point));
    const load = pins.get(point);
    const driven = agents.some(({ acts }) => acts.some((one) => one.point === point));
    if (carriers.length === 0 && load === undefined && !driven) continue;
    const [fx, fy] = load ?? [0, 0];
    const share: Share = { terms: [], loads: [fx, fy] };
    for (const body of carriers) {
      const { terms, loads } = shareOf(body, point);
      for (const [k, tx, ty] of terms) share.terms.push([k, -tx, -ty]);
      share.loads[0] -= loads[0];
      share.loads[1] -= loads[1];
    }
    agents.forEach(({ acts }, k) => {
      for (const one of acts) {
        if (one.body === null && one.point === point) share.terms.push([firstAgent + k, ...one.force]);
      }
    });
    ground[point] = pointForce(share);
  }
  const named = (agents: readonly Agent[], first: number) =>
    Object.fromEntries(agents.map(({ name }, k) => [name, single(first + k)]));
  return {
    on: onBodies,
    ground,
    sliders: named(sliders, 0),
    fixedAngles: named(fixedAngles, sliders.length),
    fixedCoordinates: fixedCoordinates.map((_, k) => single(sliders.length + fixedAngles.length + k)),
    driver:
      driver === null
        ? null
        : single(sliders.length + fixedAngles.length + fixedCoordinates.length + telescopes.length),
    residual,
  };
}
