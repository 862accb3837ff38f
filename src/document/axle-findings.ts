import { show } from '../diagnostic.ts';
import { meantName } from '../spelling.ts';
import { toMetric, type Units } from '../units.ts';
import { type CornerKind, linkBodies } from './corner-kind.ts';
import { pointAt } from './geometry.ts';
import { type Finding, found, type Place, valueAt } from './parse.ts';

/** What no single value shows of what is between the wheels of an axle. */
export function axleFindings(kind: CornerKind, corner: unknown, units: Units): Finding[] {
  const bodies = linkBodies(kind);
  const [third, roll] = ['thirdSpring', 'rollSpring'].map((name) => valueAt(corner, [name]));
  return [
    ...barFindings(kind, corner, units),
    ...under('thirdSpring', [...endBodies(third, bodies), ...crossSpringFindings(third, units)]),
    ...under('rollSpring', [...endBodies(roll, bodies), ...crossSpringFindings(roll, units)]),
  ];
}

function endBodies(spring: unknown, bodies: readonly string[]): Finding[] {
  return [
    ...bodyFindings(valueAt(spring, ['on']), bodies),
    ...under('right', bodyFindings(valueAt(spring, ['right', 'on']), bodies)),
  ];
}

/** A spring between the wheels whose ends are in one place, or whose lengths do not hold that of design ride height. */
export function crossSpringFindings(spring: unknown, units: Units): Finding[] {
  const left = pointAt(spring, ['mount']);
  const right = valueAt(spring, ['right']) === undefined ? left : pointAt(spring, ['right', 'mount']);
  if (left === undefined || right === undefined) return [];
  const length = distanceAcross(left, right);
  if (!(length > 0)) return [found(['mount'], 'springWithoutLength', { got: show(left) })];
  const number = (name: string, otherwise: number) => {
    const value = valueAt(spring, [name]);
    return typeof value === 'number' && value > 0 ? value : otherwise;
  };
  const [least, most] = [number('compressedLength', 0), number('extendedLength', Number.POSITIVE_INFINITY)];
  if (least < length && length < most) return [];
  const [name, got] =
    least < length ? (['extendedLength', most] as const) : (['compressedLength', least] as const);
  const values = { got: String(got), length: toMetric(length, 'length', units) };
  return [found([name], 'springNotAtRide', values)];
}

/** From a point of the left corner to one of the right, both y outboard. */
export function distanceAcross(left: Point, right: Point): number {
  return Math.hypot(left[0] + right[0], left[1] - right[1]);
}

/** What no single value of the bar of a corner shows: a body that the corner has not, a tube without a wall, a lever over its centre. */
function barFindings(kind: CornerKind, corner: unknown, units: Units): Finding[] {
  const bar = valueAt(corner, ['bar']);
  if (bar === undefined) return [];
  const stiffness: Place = ['sizing', 'antiRollBarStiffness'];
  return [
    ...under('bar', endBodies(bar, linkBodies(kind))),
    ...under('bar', barShapeFindings(bar, units)),
    ...(valueAt(corner, stiffness) === undefined ? [] : [found(stiffness, 'barTwice')]),
  ];
}

/** What no single value of a bar shows, whatever the corner: a tube without a wall, a lever over its centre, a right end that it has not. */
export function barShapeFindings(bar: unknown, units: Units): Finding[] {
  const right = valueAt(bar, ['right']);
  const overCentre = (end: unknown, axis: Point | undefined) => {
    const [mount, lever] = ['linkMount', 'leverEnd'].map((name) => pointAt(end, [name]));
    if (mount === undefined || lever === undefined || !isOverCentre(mount, lever, axis)) return [];
    return [found(['linkMount'], 'leverOverCentre', { got: show(mount) })];
  };
  const axis = pointAt(bar, ['axis']);
  const isAlong = valueAt(bar, ['axis']) !== undefined;
  if (isAlong && axis === undefined) return [];
  return [
    ...under('roundBar', wallFindings(valueAt(bar, ['roundBar']), units)),
    ...overCentre(bar, axis),
    ...(right === undefined || isAlong ? [] : [found(['right'], 'rightEndAcrossCar')]),
    ...(axis === undefined ? [] : under('right', overCentre(right, [-axis[0], axis[1]]))),
  ];
}

function under(name: string, findings: readonly Finding[]): Finding[] {
  return findings.map((finding) => ({ ...finding, at: [name, ...finding.at] }));
}

function bodyFindings(on: unknown, allowed: readonly string[]): Finding[] {
  if (typeof on !== 'string' || allowed.includes(on)) return [];
  const meant = meantName(on, allowed) ?? null;
  return [found(['on'], 'notAPartOfCorner', { got: show(on), allowed, meant })];
}

/** A tube has a wall. */
export function wallFindings(bar: unknown, units: Units): Finding[] {
  const [outer, inner] = ['diameter', 'innerDiameter'].map((name) => valueAt(bar, [name]));
  if (!(typeof outer === 'number' && outer > 0 && typeof inner === 'number' && inner >= outer)) return [];
  const below = toMetric(outer, 'length', units);
  return [found(['innerDiameter'], 'outOfRange', { got: String(inner), below, quantity: 'length' })];
}

type Point = readonly [number, number];

/** Share of the link that its lever arm about the bar's axis must have; with less the lever is over its centre. */
export const OVER_CENTRE = 1e-6;

/** Whether a lever is over its centre: the drop link goes through its axis, or without one lies across the car, where the lever is level. */
export function isOverCentre(linkMount: Point, leverEnd: Point, axis?: Point): boolean {
  const [y, z] = [linkMount[0] - leverEnd[0], linkMount[1] - leverEnd[1]];
  if (axis === undefined) return !(Math.abs(z) > OVER_CENTRE * Math.hypot(y, z));
  const [ly, lz] = [leverEnd[0] - axis[0], leverEnd[1] - axis[1]];
  const mount = Math.hypot(linkMount[0] - axis[0], linkMount[1] - axis[1]);
  return !(Math.abs(ly * z - lz * y) > OVER_CENTRE * Math.hypot(ly, lz) * mount);
}
