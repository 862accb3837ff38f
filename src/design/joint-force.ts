// The force in a joint as the corner stands still, and its exact derivatives. With R the force on a body at each of its points p, L the loads,
// and F = S u what joints that are no pins and the coilover do, S times a unit u of each at a place q on a body or a pin, equilibrium is
//
//   on each body  sum R + L + F = 0,  sum p x (R + L) + q x F = 0,      on each pin  sum -R + F = 0.
//
// When a coordinate moves, places go with p' and q', units with u', and R', S' solve the very same equations under other loads,
//
//   on each body the moment  sum p' x (R + L) + q' x F,      and S u' where F acts,
//
// so that statics/statics.ts finds them as it finds R.

import { equilibriumLoads } from '../coilover/forces/static-equilibrium.ts';
import type { Summand } from '../linkage/couplings.ts';
import { endOfDirection, endRate } from '../linkage/direction-ends.ts';
import type { CheckedDrawing, Drawing, Point } from '../linkage/drawing.ts';
import { type ConstraintMaker, type Direction, endOf, type Joint, jointsIn } from '../linkage/joints.ts';
import type { Measure } from '../linkage/measure.ts';
import {
  constant,
  type Dual,
  dual,
  length,
  minus,
  over,
  plus,
  times as product,
  scaled,
} from '../numerics/dual.ts';
import type { Load } from '../statics/loads.ts';
import { type Forces, forces, forcesUnder } from '../statics/statics.ts';
import { GRAVITY } from '../units.ts';
import { type DualPoint, rowAt, type Station, type Trial } from './trial.ts';

/** A joint or mount of a corner that stands still, and what it stands on. */
export interface JointForce {
  /** By its point, as `lowerOuter` or `shockMount`. */
  readonly joint: string;
  /** Force of the ground on the tyre, `[y, z]` in N. */
  readonly tyre: Point;
  /** Default as drawn. */
  readonly station?: Station;
  /** Its weight hangs at the wheel's centre, kg; default 0. */
  readonly unsprungMass?: number;
}

/** What is held between the end eyes. */
interface Coilover {
  readonly length: readonly [string, string];
  readonly offset: number;
}

/** Size of the force in a joint, N; null where it is not determined, its derivatives NaN where they are not. */
export function jointForce(
  { joint, tyre, station = 'design', unsprungMass = 0 }: JointForce,
  trial: Trial,
): Dual | null {
  const { model } = trial;
  const row = rowAt(trial, station);
  const places = Object.fromEntries(
    Object.keys(model.drawing.points).map((point) => [point, trial.place(point, row)]),
  );
  const drawing: CheckedDrawing = {
    ...model.drawing,
    points: Object.fromEntries(
      Object.entries(places).map(([point, [y, z]]) => [point, [y.value, z.value] as const]),
    ),
  };
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const driver: Measure & Coilover = { length: [outer, inner], offset };
  const loads = equilibriumLoads(model, unsprungMass * GRAVITY, tyre);
  const found = forces(drawing, loads, { driver });
  const force = forceIn(found, joint);
  if (force === null) return null;
  const size = Math.hypot(...force);
  return dual(size, () => {
    const own = innerForces(drawing, places, found, driver);
    return places[joint][0].by.map((_, k) => {
      const virtual = own && virtualLoads(places, found, loads, own, k);
      const change = virtual && forceIn(forcesUnder(drawing, virtual, { driver }), joint);
      if (change === null) return Number.NaN;
      return size === 0 ? 0 : (force[0] * change[0] + force[1] * change[1]) / size;
    });
  });
}

/** The force in a joint: on the first body that it is a point of, or on the chassis. */
function forceIn({ on, ground }: Forces, joint: string): Point | null {
  const body = Object.keys(on).find((name) => on[name][joint] !== undefined);
  return body === undefined ? ground[joint] : on[body][joint];
}

/** A force that is part of the linkage: on a pin, or on a body that has `point`, at the place `at`; with its derivatives. */
interface Inner {
  readonly on: string | null;
  readonly point: string;
  readonly at: DualPoint;
  readonly force: DualPoint;
}

type DualPlaces = Readonly<Record<string, DualPoint>>;

/**
 * What keeps the constraints of joints: the forces of a unit of each, but for those that no coordinate changes, which are moments on bodies and
 * forces along an axis.
 */
function unitsOf(
  places: DualPlaces,
  bodies: Readonly<Record<string, readonly string[]>>,
): ConstraintMaker<Inner[]> {
  const on = (point: string, force: DualPoint): Inner => ({ on: null, point, at: places[point], force });
  const pair = (a: string, b: string, force: DualPoint) => [on(b, force), on(a, times(force, -1))];
  const turning = (direction: Direction | undefined, factor: number): Inner[] => {
    if (direction === undefined || typeof direction === 'string') return [];
    const [a, b] = direction;
    const [y, z] = between(places[a], places[b]);
    const square = plus(product(y, y), product(z, z));
    return pair(a, b, [scaled(over(z, square), -factor), scaled(over(y, square), factor)]);
  };
  const press = (point: string, [a, b]: readonly [string, string], force: DualPoint): Inner[] => {
    const own = on(point, force);
    const holder = Object.keys(bodies).find((name) => bodies[name].includes(a) && bodies[name].includes(b));
    return holder === undefined ? [own] : [own, { ...own, on: holder, point: a, force: times(force, -1) }];
  };
  const growing = (of: Summand, factor: number): Inner[] => {
    if ('travel' in of) {
      const [a, b] = of.along;
      return press(of.travel, of.along, times(unit(between(places[a], places[b])), factor));
    }
    if (!('length' in of)) return [];
    const [a, b] = of.length;
    return pair(a, b, times(unit(between(places[a], endFrom(places[a], places[b], of.aside))), factor));
  };
  return {
    coordinate: () => [],
    distance(point, line) {
      const [y, z] = unit(between(places[line[0]], places[line[1]]));
      return press(point, line, [scaled(z, -1), y]);
    },
    angle: (first, second) => [...turning(first, 1), ...turning(second, -1)],
    sum: (terms) => terms.flatMap(([of, factor]) => growing(of, factor)),
  };
}

/** The forces of joints and coilover; null where one is not determined. */
function innerForces(
  drawing: Drawing,
  places: DualPlaces,
  found: Forces,
  { length: [a, b], offset }: Coilover,
): Inner[] | null {
  const { driver } = found;
  if (driver === null) return null;
  const joints = jointsIn(drawing);
  const members = Object.fromEntries(
    joints.flatMap(({ at: { name }, direction }) =>
      direction === undefined ? [] : [[name, [direction[0], endOf(name)]] as const],
    ),
  );
  const ends = joints.flatMap(({ at: { name }, direction }) =>
    direction === undefined ? [] : [[endOf(name), places[direction[1]]] as const],
  );
  const moving = Object.entries(drawing.bodies).filter(([name]) => name in found.on);
  const make = unitsOf(
    { ...places, ...Object.fromEntries(ends) },
    { ...Object.fromEntries(moving), ...members },
  );
  const [y, z] = between(places[a], places[b]);
  const flat = length(y, z);
  const whole = length(flat, constant(offset, flat));
  const push: DualPoint = times([over(y, whole), over(z, whole)], driver);
  // A telescope between the eyes carries the force from its first point on.
  const telescope = Object.keys(drawing.telescopes ?? {}).find((name) =>
    drawing.telescopes?.[name].every((point) => point === a || point === b),
  );
  const eye = (point: string, force: DualPoint): Inner => {
    const isFirst = telescope !== undefined && members[telescope][0] === point;
    return { on: isFirst ? telescope : null, point, at: places[point], force };
  };
  const inner = [eye(b, push), eye(a, times(push, -1))];
  for (const joint of joints) {
    const units = joint.constraint(make);
    if (units.length === 0) continue;
    const size = sizeIn(found, joint, places);
    if (size === null) return null;
    inner.push(...units.map((one) => ({ ...one, force: times(one.force, size) })));
  }
  return inner;
}

/** So many units of what keeps its constraint a joint has. */
function sizeIn(found: Forces, { at: { kind, name }, direction }: Joint, places: DualPlaces): number | null {
  if (kind === 'telescopes') {
    // What its second point does to it, square to it, its first one bears.
    const [a, b] = direction as readonly [string, string];
    const held = found.on[name][a];
    const [y, z] = unit(between(places[a], places[b]));
    return held === null ? null : y.value * held[1] - z.value * held[0];
  }
  if (kind === 'fixedCoordinates') return found.fixedCoordinates[Number(name)];
  const size = found[kind][name];
  return size !== null && kind === 'ropes' ? -size : size;
}

/** The loads under which the linkage has the forces' derivatives with respect to input k; null where a force is not determined. */
function virtualLoads(
  places: DualPlaces,
  found: Forces,
  loads: readonly Load[],
  inner: readonly Inner[],
  k: number,
): Load[] | null {
  const moments = new Map(Object.keys(found.on).map((body) => [body, 0]));
  const turn = (body: string, moment: number) => moments.set(body, (moments.get(body) ?? 0) + moment);
  /** Moment of a force on a place that moves with the input. */
  const carried = ([y, z]: DualPoint, [fy, fz]: Point) => y.by[k] * fz - z.by[k] * fy;
  for (const [body, points] of Object.entries(found.on)) {
    for (const [point, force] of Object.entries(points)) {
      if (force === null) return null;
      turn(body, carried(places[point], force));
    }
  }
  for (const load of loads) {
    if ('at' in load && load.on !== undefined) turn(load.on, carried(places[load.at], load.force));
  }
  const virtual: Load[] = [];
  for (const { on, point, at, force } of inner) {
    const change: Point = [force[0].by[k], force[1].by[k]];
    if (on === null) virtual.push({ at: point, force: change });
    else {
      const [dy, dz] = between(places[point], at);
      virtual.push({ at: point, on, force: change });
      turn(on, dy.value * change[1] - dz.value * change[0] + carried(at, [force[0].value, force[1].value]));
    }
  }
  return [...virtual, ...[...moments].map(([on, moment]) => ({ on, moment }))];
}

/** From one place to another. */
function between([ay, az]: DualPoint, [by, bz]: DualPoint): DualPoint {
  return [minus(by, ay), minus(bz, az)];
}

function unit([y, z]: DualPoint): DualPoint {
  const whole = length(y, z);
  return [over(y, whole), over(z, whole)];
}

function times([y, z]: DualPoint, factor: number): DualPoint {
  return [scaled(y, factor), scaled(z, factor)];
}

/** The end of a direction that leaves another place so far to its left. */
function endFrom(a: DualPoint, b: DualPoint, aside: number): DualPoint {
  if (aside === 0) return b;
  const value = ([y, z]: DualPoint): Point => [y.value, z.value];
  const end = endOfDirection(value(a), value(b), aside);
  const rates = a[0].by.map((_, k) => {
    const rate = ([y, z]: DualPoint): Point => [y.by[k], z.by[k]];
    return endRate(value(a), value(b), aside, rate(a), rate(b));
  });
  return [dual(end[0], () => rates.map(([y]) => y)), dual(end[1], () => rates.map(([, z]) => z))];
}
