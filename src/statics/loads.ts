// What acts on a linkage, as forces on its points. A measure m with the generalized force F along it does the work F dm, so
// that each point p that m depends on gets the force F grad_p m:
//
//   x, y     the axis itself
//   length   L^2 = |B - A|^2 + offset^2:  (B - A)/L at B, the opposite at A
//   angle    i (B - A)/|B - A|^2 at B, the opposite at A
//   turn     a moment on the body

import { type Diagnostic, fault, show, unknownName } from '../diagnostic.ts';
import { type Drawing, isPoint, type Point, samePlace } from '../linkage/drawing.ts';
import { type Kinds, kindFaults } from '../linkage/kinds.ts';
import { between } from '../numerics/plane.ts';

/**
 * A load on the drawn pose; forces and lengths in any units that fit together (N and mm: moments in N mm).
 *
 * - `{ at: 'P', force: [x, y] }` on a point, and on the body that is named with `on`: where others are pinned there as well,
 *   they get it through the pin;
 * - `{ on: 'body', moment }`, counter-clockwise positive;
 * - `{ between: ['A', 'B'], push, offset? }`: what pushes two points apart when positive (a compressed spring, gas, a stop). With
 *   a constant distance `offset` of the two out of the plane, only its part in the plane acts here.
 */
export type Load<P extends string = string, B extends string = string> =
  | { readonly at: P; readonly force: Point; readonly on?: B }
  | { readonly on: B; readonly moment: number }
  | { readonly between: readonly [P, P]; readonly push: number; readonly offset?: number };

/** Loads by point, by body and point, and by body. */
export interface Applied {
  /** Force on a pin. */
  readonly pins: Map<string, Point>;
  /** Force on a body at one of its points. */
  readonly bodies: { readonly body: string; readonly point: string; readonly force: Point }[];
  readonly moments: Map<string, number>;
}

/** The loads on a drawing, sorted by what they act on. */
export function applied({ points }: Drawing, loads: readonly Load[]): Applied {
  const all: Applied = { pins: new Map(), bodies: [], moments: new Map() };
  const push = (point: string, [x, y]: Point) => {
    const [bx, by] = all.pins.get(point) ?? [0, 0];
    all.pins.set(point, [bx + x, by + y]);
  };
  for (const load of loads) {
    if ('between' in load) {
      const [a, b] = load.between;
      const [dx, dy] = between(points[a], points[b]);
      const length = Math.hypot(dx, dy, load.offset ?? 0);
      const force: Point = [(load.push * dx) / length, (load.push * dy) / length];
      push(b, force);
      push(a, [-force[0], -force[1]]);
    } else if ('moment' in load) {
      all.moments.set(load.on, (all.moments.get(load.on) ?? 0) + load.moment);
    } else if (load.on === undefined) push(load.at, load.force);
    else all.bodies.push({ body: load.on, point: load.at, force: load.force });
  }
  return all;
}

/** The largest load: beyond it products with lengths overflow. */
const MOST = 1e100;

/** Kinds of load. */
const LOADS: Kinds = { between: ['push', 'offset'], moment: ['on'], at: ['force', 'on'] };

/** What is wrong with loads on a drawing. */
export function loadFaults({ points, bodies }: Drawing, loads: unknown): Diagnostic[] {
  if (!Array.isArray(loads)) return [fault('notLoads', '', { got: show(loads) })];
  const faults: Diagnostic[] = [];
  const known = (path: string, name: unknown, among: object, what: string) => {
    if (typeof name === 'string' && Object.hasOwn(among, name)) return true;
    faults.push(unknownName(path, what, name, Object.keys(among)));
    return false;
  };
  const bounded = (path: string, ...values: readonly number[]) => {
    if (values.some((value) => Math.abs(value) > MOST)) {
      faults.push(
        fault('loadOutOfRange', path, { got: show(values.length > 1 ? values : values[0]), max: MOST }),
      );
    }
  };
  const number = (path: string, value: unknown) => {
    if (!Number.isFinite(value)) faults.push(fault('notFinite', path, { got: show(value) }));
    else bounded(path, value as number);
  };
  (loads as readonly Record<string, unknown>[]).forEach((load, k) => {
    const path = `[${k}]`;
    if (typeof load !== 'object' || load === null) {
      faults.push(fault('notALoad', path, { got: show(load) }));
      return;
    }
    faults.push(...kindFaults('load', load, LOADS, path));
    if ('between' in load) {
      const pair =
        Array.isArray(load.between) && load.between.length === 2 ? load.between : [undefined, undefined];
      const good = pair.map((name, i) => known(`${path}.between[${i}]`, name, points, 'point'));
      const [a, b] = pair as string[];
      if (good.every(Boolean) && samePlace(points[a], points[b])) {
        faults.push(fault('coincidentPoints', `${path}.between`, { of: 'load', got: show(pair) }));
      }
      number(`${path}.push`, load.push);
      if (load.offset !== undefined) number(`${path}.offset`, load.offset);
    } else if ('moment' in load) {
      known(`${path}.on`, load.on, bodies, 'body');
      number(`${path}.moment`, load.moment);
    } else if ('at' in load) {
      const there = known(`${path}.at`, load.at, points, 'point');
      if (!isPoint(load.force)) {
        faults.push(fault('notAForce', `${path}.force`, { got: show(load.force) }));
      } else bounded(`${path}.force`, ...load.force);
      if (load.on !== undefined && known(`${path}.on`, load.on, bodies, 'body') && there) {
        if (!bodies[load.on as string].includes(load.at as string)) {
          faults.push(
            fault('pointNotOnBody', `${path}.at`, {
              got: show(load.at),
              allowed: bodies[load.on as string],
            }),
          );
        }
      }
    } else faults.push(fault('notALoad', path, { got: show(load) }));
  });
  return faults;
}
