// Forces in a linkage in static equilibrium, as drawn. In natural coordinates (form.ts) every body's rigidity is a set of rows in the
// places of its points: the bar |b - a|^2/2, and p - a - c (b - a) for each further point. With every joint that is no pin a row as
// well, equilibrium of every moving point is
//
//   sum_rows lambda grad(row) + sum_drivers mu grad(driver) + loads = 0.
//
// What the rows of a body X do to one of its points p is f, so that at p the others do R = -f - L to X, L being what acts on
// X itself there (J. Garcia de Jalon, E. Bayo, 1994, ch. 6).
//
// The equations are solved as least squares by sparse elimination. In a redundant structure a force is undetermined where a vector of
// the null space adds to it.

import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import { refuse } from '../errors/linkage.ts';
import type { Summand } from '../linkage/couplings.ts';
import { endOfDirection } from '../linkage/direction-ends.ts';
import { type CheckedDrawing, checkDrawing, type Drawing, type Point } from '../linkage/drawing.ts';
import {
  type ConstraintMaker,
  type Direction,
  endOf,
  type Joint,
  type JointKind,
  jointsIn,
} from '../linkage/joints.ts';
import { bindMeasure, type Measure, measureFaults } from '../linkage/measure.ts';
import { compile } from '../linkage/system.ts';
import { between, cross, dot } from '../numerics/plane.ts';
import { solveSparse, sparse } from '../numerics/sparse-rank.ts';
import { type Applied, applied, type Load, loadFaults } from './loads.ts';

/** What forces are computed with. */
export interface StaticsOptions<P extends string = string, B extends string = string> {
  /** What holds the linkage in place under the loads; its force (or moment) is part of the result. */
  readonly driver?: Measure<P, B>;
  /** Of a linkage of several degrees of freedom all that drives it, as cylinders and motors do. */
  readonly drivers?: readonly Measure<P, B>[];
  /** Measures that are held besides. */
  readonly hold?: readonly Measure<P, B>[];
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
  /**
   * What each ratio does to its first measure: a moment on the body for a turn, a force for a travel or a length, positive where it
   * would make that grow. To the second it does `-ratio` times that.
   */
  readonly ratios: Readonly<Record<string, number | null>>;
  /** Tension of each rope: negative where it would have to push. */
  readonly ropes: Readonly<Record<string, number | null>>;
  /**
   * Of the driver: a force that would make its measure grow, a moment for an angle or a turn; null without one. It acts between what
   * the measure is between, so that a cylinder pushes on the two bodies at its ends.
   */
  readonly driver: number | null;
  /** The same of each of several drivers, in their order. */
  readonly drivers: readonly (number | null)[];
  /** The same of each measure that is held. */
  readonly hold: readonly (number | null)[];
  /** The largest force out of balance: rounding only, if the linkage is in equilibrium. */
  readonly residual: number;
  /**
   * `notInEquilibrium` where the loads move what nothing drives or holds: the forces are then none of a linkage at rest. `slackRope` for
   * each rope that would have to push: it hangs slack, and the linkage does not stay in this pose.
   */
  readonly diagnostics: readonly Diagnostic[];
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
  return forcesUnder(drawing, loads, options);
}

/** The same of what has been checked. Loads may act on a telescope too: a moment, or a force at its first point. */
export function forcesUnder(
  drawing: CheckedDrawing,
  loads: readonly Load[],
  options: StaticsOptions,
): Forces {
  return solve(planOf(drawing, options), applied(drawing, loads));
}

function optionFaults(options: unknown): Diagnostic[] {
  const faults = unknownOptions(options, ['driver', 'drivers', 'hold']);
  const { driver, ...lists } = (options ?? {}) as StaticsOptions;
  if (driver !== undefined) faults.push(...measureFaults(driver, 'driver'));
  for (const name of ['drivers', 'hold'] as const) {
    const list = lists[name];
    if (list === undefined) continue;
    if (!Array.isArray(list)) faults.push(fault('notAListOfMeasures', name, { got: show(list) }));
    else list.forEach((one, k) => faults.push(...measureFaults(one, `${name}[${k}]`)));
  }
  return faults;
}

/** A place where a unit of something acts: on a pin, or on a body at one of its points. */
interface Act {
  readonly body: string | null;
  readonly point: string;
  readonly force: Point;
}

/** A joint other than a pin, or the driver: the forces of a unit of it, and the moments beside them, by body. */
interface Agent {
  readonly acts: readonly Act[];
  readonly moments: readonly (readonly [body: string, moment: number])[];
}

interface Plan {
  readonly places: Places;
  readonly moving: readonly string[];
  /** Bodies that move, and directions that joints have of their own by their first point and their end. */
  readonly bodies: Readonly<Record<string, readonly string[]>>;
  readonly basic: Readonly<Record<string, readonly [string, string]>>;
  readonly fixed: ReadonlySet<string>;
  readonly joints: readonly (Agent & Pick<Joint, 'at'>)[];
  /** The driver, the drivers, and what is held. */
  readonly driving: readonly [driver: readonly Agent[], drivers: readonly Agent[], hold: readonly Agent[]];
}

function planOf(drawing: CheckedDrawing, { driver, drivers = [], hold = [] }: StaticsOptions): Plan {
  const system = compile(drawing);
  const { names, fixed: isFixed, bodies: members } = system.structure;
  const joints = jointsIn(drawing);
  const places: Record<string, Point> = { ...drawing.points };
  const fixed = new Set(names.filter((_, p) => isFixed[p]));
  const bodies: Record<string, readonly string[]> = {};
  const basic: Record<string, readonly [string, string]> = {};
  for (const [name, points] of Object.entries(drawing.bodies)) {
    if (points.every((p) => fixed.has(p))) continue;
    const { a, b } = members.get(name) as { a: number; b: number };
    bodies[name] = points;
    basic[name] = [names[a], names[b]];
  }
  for (const { at, direction } of joints) {
    if (direction === undefined) continue;
    const { name } = at;
    places[endOf(name)] = drawing.points[direction[1]];
    basic[name] = [direction[0], endOf(name)];
    bodies[name] = basic[name];
  }
  const make = agentMaker(places, bodies);
  const driving = (measure: Measure, path: string): Agent => {
    bindMeasure(system, measure, path);
    return driverOf(measure, { places, bodies, telescopes: drawing.telescopes ?? {} }, make);
  };
  return {
    places,
    moving: Object.keys(places).filter((name) => !fixed.has(name)),
    bodies,
    basic,
    fixed,
    joints: joints.map(({ at, constraint }) => ({ ...constraint(make), at })),
    driving: [
      driver === undefined ? [] : [driving(driver, 'driver')],
      drivers.map((one, k) => driving(one, `drivers[${k}]`)),
      hold.map((one, k) => driving(one, `hold[${k}]`)),
    ],
  };
}

/** Makes what keeps the constraints of joints: a unit of the force, or of the moment, of each. */
function agentMaker(places: Places, bodies: Plan['bodies']): ConstraintMaker<Agent> {
  const turning = (direction: Direction | undefined, moment: number): Agent => {
    if (direction === undefined) return { acts: [], moments: [] };
    if (typeof direction !== 'string') return { acts: couple(places, null, direction, moment), moments: [] };
    return { acts: [], moments: direction in bodies ? [[direction, moment]] : [] };
  };
  /** A force on a point, and the opposite one on the body that has a line. */
  const press = (point: string, [a, b]: readonly [string, string], force: Point): Agent => {
    const own = act(point, force);
    const on = Object.keys(bodies).find((name) => bodies[name].includes(a) && bodies[name].includes(b));
    if (on === undefined) return { acts: [own], moments: [] };
    // The opposite at the place of the point: moved to the line's first point with its moment.
    const back: Point = [-force[0], -force[1]];
    return {
      acts: [own, { body: on, point: a, force: back }],
      moments: [[on, cross(between(places[a], places[point]), back)]],
    };
  };
  /** So much of what makes a measure grow. */
  const growing = (of: Summand, factor: number): Agent => {
    const times = ([x, y]: Point): Point => [factor * x, factor * y];
    if ('turn' in of) return turning(of.turn, factor);
    if ('travel' in of) return press(of.travel, of.along, times(along(places, of.along)));
    if ('x' in of) return { acts: [act(of.x, [factor, 0])], moments: [] };
    if ('y' in of) return { acts: [act(of.y, [0, factor])], moments: [] };
    const [a, b] = of.length;
    const end = endOfDirection(places[a], places[b], of.aside);
    const [dx, dy] = between(places[a], end);
    const length = Math.hypot(dx, dy);
    return { acts: opposed(null, a, b, times([dx / length, dy / length])), moments: [] };
  };
  return {
    coordinate: (axis, point) => ({ acts: [act(point, axis === 'x' ? [1, 0] : [0, 1])], moments: [] }),
    distance(point, line) {
      const [x, y] = along(places, line);
      return press(point, line, [-y, x]);
    },
    angle: (first, second) => together([turning(first, 1), turning(second, -1)]),
    sum: (terms) => together(terms.map(([of, factor]) => growing(of, factor))),
  };
}

function together(agents: readonly Agent[]): Agent {
  return { acts: agents.flatMap(({ acts }) => acts), moments: agents.flatMap(({ moments }) => moments) };
}

/** The direction of a line. */
function along(places: Places, [a, b]: readonly [string, string]): Point {
  const [dx, dy] = between(places[a], places[b]);
  const length = Math.hypot(dx, dy);
  return [dx / length, dy / length];
}

function act(point: string, force: Point): Act {
  return { body: null, point, force };
}

/** What drives a measure, or holds it. */
function driverOf(
  measure: Measure,
  { places, bodies, telescopes }: Pick<Plan, 'places' | 'bodies'> & Required<Pick<Drawing, 'telescopes'>>,
  make: ConstraintMaker<Agent>,
): Agent {
  if ('turn' in measure) return make.angle(measure.turn, measure.relativeTo);
  if ('angle' in measure) return make.angle(measure.angle, measure.relativeTo);
  if ('length' in measure) {
    const [a, b] = measure.length;
    const [dx, dy] = between(places[a], places[b]);
    const length = Math.hypot(dx, dy, measure.offset ?? 0);
    // A telescope between the two carries the force from its first point on.
    const member = Object.keys(telescopes).find((name) => telescopes[name].every((p) => p === a || p === b));
    const acts = opposed(null, a, b, [dx / length, dy / length]).map((one) =>
      member !== undefined && one.point === telescopes[member][0] ? { ...one, body: member } : one,
    );
    return { acts, moments: [] };
  }
  const { relativeTo } = measure;
  const own = 'x' in measure ? make.coordinate('x', measure.x) : make.coordinate('y', measure.y);
  if (relativeTo === undefined || !(relativeTo in bodies)) return own;
  // The opposite on the body, at the place of the point: moved to a point of the body with its moment.
  const [{ point, force }] = own.acts;
  const [a] = bodies[relativeTo];
  const back: Point = [-force[0], -force[1]];
  return {
    acts: [...own.acts, { body: relativeTo, point: a, force: back }],
    moments: [[relativeTo, cross(between(places[a], places[point]), back)]],
  };
}

type Places = Readonly<Record<string, Point>>;

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
  const [dx, dy] = between(places[a], places[b]);
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

function solve(plan: Plan, acting: Applied): Forces {
  const { places, bodies, basic, moving, fixed, joints, driving } = plan;
  const agents: readonly Agent[] = [...joints, ...driving.flat()];
  /** What a unit of each row's multiplier does to the points of its body. */
  const rigid: Act[][] = [];
  for (const [body, points] of Object.entries(bodies)) {
    const [a, b] = basic[body];
    const bar = between(places[a], places[b]);
    const [dx, dy] = bar;
    const length = Math.hypot(dx, dy);
    const on = (point: string, force: Point): Act => ({ body, point, force });
    rigid.push(opposed(body, a, b, [dx / length, dy / length]));
    for (const p of points) {
      if (p === a || p === b) continue;
      const way = between(places[a], places[p]);
      const re = dot(way, bar) / (length * length);
      const im = cross(bar, way) / (length * length);
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
  // Equations of equilibrium A x = b, filled column by column.
  const rows = Array.from({ length: 2 * moving.length }, () => new Map<number, number>());
  const right = new Array<number>(rows.length).fill(0);
  const eachRow = (point: string, [x, y]: Point, add: (i: number, value: number) => void) => {
    const i = row.get(point);
    if (i === undefined) return;
    add(i, x);
    add(i + 1, y);
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
    for (const { body, point, force } of acts) {
      eachRow(point, force, (i, value) => rows[i].set(k, (rows[i].get(k) ?? 0) + value));
      shareOf(body, point).terms.push([k, -force[0], -force[1]]);
    }
  });
  for (const { body, point, force } of loadActs(plan, acting)) {
    eachRow(point, force, (i, value) => {
      right[i] -= value;
    });
    const { loads } = shareOf(body, point);
    loads[0] -= force[0];
    loads[1] -= force[1];
  }
  const { x, residual, nullSpace, leftNullSpace } = solveSparse(sparse(rows, first + agents.length), right);

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
  const agentForce = (agent: number): number | null => {
    const k = first + agent;
    return nullSpace.some((vector) => Math.abs(vector[k]) > NOTHING_ADDED) ? null : x[k];
  };
  const on = Object.fromEntries(
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
    const load = acting.pins.get(point);
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
        if (one.body === null && one.point === point) share.terms.push([first + k, ...one.force]);
      }
    });
    ground[point] = pointForce(share);
  }
  const forcesOf = (kind: JointKind) =>
    joints.flatMap((joint, k) => (joint.at.kind === kind ? [[joint.at.name, agentForce(k)] as const] : []));
  // A telescope's force is that on its ends, under `on`.
  const ofJoints: { readonly [K in Exclude<JointKind, 'telescopes'>]: Forces[K] } = {
    sliders: Object.fromEntries(forcesOf('sliders')),
    fixedAngles: Object.fromEntries(forcesOf('fixedAngles')),
    fixedCoordinates: forcesOf('fixedCoordinates').map(([, force]) => force),
    ratios: Object.fromEntries(forcesOf('ratios')),
    // Its force would make it longer.
    ropes: Object.fromEntries(
      forcesOf('ropes').map(([name, force]) => [name, force === null ? null : -force]),
    ),
  };
  let next = joints.length;
  const [[driver = null], drivers, hold] = driving.map((list) => list.map(() => agentForce(next++)));
  const largest = [...x, ...right].reduce((most, force) => Math.max(most, Math.abs(force)), 0);
  const diagnostics = [
    ...unbalanced(residual, largest, leftNullSpace.length),
    ...slackRopes(ofJoints.ropes, largest),
  ];
  return { on, ground, ...ofJoints, driver, drivers, hold, residual, diagnostics };
}

/** A force out of balance, or the push of a rope, of no more than this share of the largest force is none. */
const NONE = 1e-9;

/** That loads move a linkage; `free` is in how many ways it could go. */
function unbalanced(residual: number, largest: number, free: number): Diagnostic[] {
  if (residual <= NONE * largest) return [];
  return [{ code: 'notInEquilibrium', severity: 'conflict', path: '', values: { residual, missing: free } }];
}

function slackRopes(ropes: Forces['ropes'], largest: number): Diagnostic[] {
  return Object.entries(ropes).flatMap(([rope, tension]): Diagnostic[] => {
    if (tension === null || tension >= -NONE * largest) return [];
    return [
      { code: 'slackRope', severity: 'conflict', path: `ropes.${rope}`, values: { rope, push: -tension } },
    ];
  });
}

/** A force as a sum over unknowns k of (fx, fy) times the unknown, and a part of the loads' own. */
interface Share {
  readonly terms: (readonly [k: number, fx: number, fy: number])[];
  readonly loads: [number, number];
}

/** A null vector adds nothing to a force when it adds less than this to it. */
const NOTHING_ADDED = 1e-7;
