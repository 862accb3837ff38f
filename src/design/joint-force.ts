// The force in a joint as the corner stands still, and its exact derivatives. With R the force on a body at each of its points p,
// M the moment of a kept angle and S that of the coilover along u between its end eyes, equilibrium of every body and pin is
//
//   sum R + L = 0,   sum p x R + p x L + M = 0,   sum -R + S u + M w = 0
//
// (w what a unit of M does at a pin, L the loads). When a coordinate moves, places go with p', and R', M', S' solve the
// very same equations under other loads,
//
//   on each body the moment  sum p' x (R + L),    on the pins  S u' and M w',
//
// so that `forces` (statics/statics.ts) finds them as it finds R.

import { equilibriumLoads } from '../coilover/forces/static-equilibrium.ts';
import type { Drawing, Point } from '../linkage/drawing.ts';
import type { ConstraintMaker } from '../linkage/joints.ts';
import { constant, type Dual, dual, length, minus, over, plus, times } from '../numerics/dual.ts';
import type { Load } from '../statics/loads.ts';
import { type Forces, forces } from '../statics/statics.ts';
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

/** Whether the derivatives here know the force that keeps a constraint. */
export const HAS_DERIVATIVE: ConstraintMaker<boolean> = {
  coordinate: () => true,
  distance: () => false,
  angle: () => true,
  sum: () => false,
};

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
  const drawing: Drawing = {
    ...model.drawing,
    points: Object.fromEntries(
      Object.entries(places).map(([point, [y, z]]) => [point, [y.value, z.value] as const]),
    ),
  };
  const { outer, inner, foreAftOffset: offset } = model.shock;
  const driver = { length: [outer, inner] as [string, string], offset };
  const loads = equilibriumLoads(model, unsprungMass * GRAVITY, tyre);
  const found = forces(drawing, loads, { driver });
  const force = forceIn(found, joint);
  if (force === null) return null;
  const size = Math.hypot(...force);
  return dual(size, () =>
    places[joint][0].by.map((_, k) => {
      const virtual = virtualLoads(drawing, places, found, loads, driver, k);
      const change = virtual && forceIn(forces(drawing, virtual, { driver }), joint);
      if (change === null) return Number.NaN;
      return size === 0 ? 0 : (force[0] * change[0] + force[1] * change[1]) / size;
    }),
  );
}

/** The force in a joint: on the first body that it is a point of, or on the chassis. */
function forceIn({ on, ground }: Forces, joint: string): Point | null {
  const body = Object.keys(on).find((name) => on[name][joint] !== undefined);
  return body === undefined ? ground[joint] : on[body][joint];
}

/** The loads under which the linkage has the forces' derivatives with respect to input k; null where a force is not determined. */
function virtualLoads(
  { fixedAngles = {} }: Drawing,
  places: Readonly<Record<string, DualPoint>>,
  found: Forces,
  loads: readonly Load[],
  { length: [a, b], offset }: { readonly length: readonly [string, string]; readonly offset: number },
  k: number,
): Load[] | null {
  const virtual: Load[] = [];
  const moment = (point: string, [fy, fz]: Point) => {
    const [y, z] = places[point];
    return y.by[k] * fz - z.by[k] * fy;
  };
  for (const [body, points] of Object.entries(found.on)) {
    let sum = 0;
    for (const [point, force] of Object.entries(points)) {
      if (force === null) return null;
      sum += moment(point, force);
    }
    for (const load of loads) if ('at' in load && load.on === body) sum += moment(load.at, load.force);
    virtual.push({ on: body, moment: sum });
  }
  /** A pair of opposite forces on two pins, the first on `to`. */
  const pair = (from: string, to: string, times: number, [dy, dz]: Point) => {
    virtual.push(
      { at: to, force: [times * dy, times * dz] },
      { at: from, force: [-times * dy, -times * dz] },
    );
  };
  const { driver } = found;
  if (driver === null) return null;
  const [dy, dz] = between(places, a, b);
  const flat = length(dy, dz);
  const L = length(flat, constant(offset, flat));
  pair(a, b, driver, [over(dy, L).by[k], over(dz, L).by[k]]);
  for (const [name, directions] of Object.entries(fixedAngles)) {
    const size = found.fixedAngles[name];
    if (size === null) return null;
    directions.forEach((direction, i) => {
      if (typeof direction === 'string') return;
      const [p, q] = direction;
      const [y, z] = between(places, p, q);
      const square = plus(times(y, y), times(z, z));
      const w: Point = [-over(z, square).by[k], over(y, square).by[k]];
      pair(p, q, i === 0 ? size : -size, w);
    });
  }
  return virtual;
}

/** From one point to another. */
function between(places: Readonly<Record<string, DualPoint>>, a: string, b: string): DualPoint {
  return [minus(places[b][0], places[a][0]), minus(places[b][1], places[a][1])];
}
