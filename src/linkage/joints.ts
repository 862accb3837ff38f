import { type Diagnostic, fault, show, unknownName } from '../diagnostic.ts';

/**
 * A point that slides on a line through two points of one body (or of the ground), at the distance from it that it has as
 * drawn. The line has no ends.
 */
export interface Slider<P extends string = string> {
  readonly point: P;
  readonly on: readonly [P, P];
}

/** A direction: that of a body or telescope by its name, or that from one point to another. */
export type Direction<P extends string = string, B extends string = string> = B | readonly [P, P];

/**
 * What joins the parts of a drawing, apart from shared points. Messages use the names that you give. `P`, `B` and `T` are
 * the names of points, of what has a direction, and of telescopes.
 */
export interface Joints<P extends string = string, B extends string = string, T extends string = string> {
  /** Coordinates that stay as drawn, `{ x: 'P' }` or `{ y: 'P' }`: a point on a straight guide along the other axis. */
  readonly fixedCoordinates?: readonly FixedCoordinate<P>[];
  /** Points that slide on lines. */
  readonly sliders?: Readonly<Record<string, Slider<P>>>;
  /**
   * Two directions whose angle stays as drawn (two parallel bodies, a prismatic pair), or one direction that stays as drawn.
   */
  readonly fixedAngles?: Readonly<
    Record<string, readonly [Direction<P, B>] | readonly [Direction<P, B>, Direction<P, B>]>
  >;
  /**
   * Members between two points whose length is free, with a direction of their own: a telescope is a body to `fixedAngles`
   * and `turn`, and where its direction is fixed its length may pass through zero.
   */
  readonly telescopes?: { readonly [Name in T]: readonly [P, P] };
}

/** A coordinate of a point that stays as drawn. */
export type FixedCoordinate<P extends string = string> = { readonly x: P } | { readonly y: P };

/** What joints are checked against. */
export interface Parts {
  readonly bodies: Readonly<Record<string, readonly string[]>>;
  readonly ground: readonly string[];
  /** Adds a fault where a name is no point. */
  readonly checkName: (path: string, name: string) => boolean;
  /** Whether two points are drawn in one place. */
  readonly together: (a: string, b: string) => boolean;
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function isNames(value: unknown): value is string[] {
  return Array.isArray(value) && value.every((name) => typeof name === 'string');
}

function isPair(value: unknown): boolean {
  return isNames(value) && value.length === 2;
}

export function areFixedCoordinates(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.every((one) => isRecord(one) && (typeof one.x === 'string' || typeof one.y === 'string'))
  );
}

/** What joints with names look like: whether a value does, and an example. */
export const JOINT_SHAPES: Readonly<Record<string, readonly [(one: unknown) => boolean, string]>> = {
  sliders: [
    (one) => isRecord(one) && typeof one.point === 'string' && isPair(one.on),
    "{ point: 'P', on: ['A', 'B'] }",
  ],
  telescopes: [isPair, "['A', 'B']"],
  fixedAngles: [
    (one) =>
      Array.isArray(one) &&
      (one.length === 1 || one.length === 2) &&
      one.every((direction) => typeof direction === 'string' || isPair(direction)),
    "['body', ['A', 'B']], or one of the two alone",
  ],
};

/** Faults of joints whose shape is good. */
export function jointFaults(joints: Joints, parts: Parts): Diagnostic[] {
  const { fixedCoordinates = [], sliders = {}, fixedAngles = {}, telescopes = {} } = joints;
  const { bodies, ground, checkName, together } = parts;
  const faults: Diagnostic[] = [];
  fixedCoordinates.forEach((one, k) => {
    checkName(`fixedCoordinates[${k}].${'x' in one ? 'x' : 'y'}`, 'x' in one ? one.x : one.y);
  });
  const pair = (path: string, [a, b]: readonly [string, string], coincident: string, of = '') => {
    const known = [checkName(`${path}[0]`, a), checkName(`${path}[1]`, b)];
    if (!known.every(Boolean) || !together(a, b)) return known.every(Boolean);
    faults.push(fault(coincident, path, { of, got: show([a, b]) }));
    return false;
  };
  const holders = [ground, ...Object.values(bodies)];
  const sharedBy = (names: readonly string[]) =>
    holders.filter((points) => names.every((name) => points.includes(name)));
  for (const [name, { point, on }] of Object.entries(sliders)) {
    const path = `sliders.${name}`;
    const known = checkName(`${path}.point`, point);
    if (!pair(`${path}.on`, on, 'coincidentPoints', 'line') || !known) continue;
    if (sharedBy(on).length === 0) {
      faults.push(fault('lineBetweenBodies', `${path}.on`, { got: show(on) }));
    } else if (sharedBy([...on, point]).length > 0) {
      faults.push(fault('slidesOnItsOwnBody', `${path}.point`, { got: show(point) }));
    }
  }
  for (const [name, ends] of Object.entries(telescopes)) {
    pair(`telescopes.${name}`, ends, 'telescopeOfNoLength');
    if (name in bodies) faults.push(fault('namedAsBody', `telescopes.${name}`, { got: show(name) }));
  }
  const named = [...Object.keys(bodies), ...Object.keys(telescopes)];
  for (const [name, directions] of Object.entries(fixedAngles)) {
    directions.forEach((direction, k) => {
      const path = `fixedAngles.${name}[${k}]`;
      if (typeof direction !== 'string') {
        pair(path, direction, 'coincidentPoints', 'direction');
      } else if (!named.includes(direction)) {
        faults.push(unknownName(path, 'body', direction, named));
      }
    });
  }
  return faults;
}

/** Points of sliders and telescopes, which may be on no body. */
export function jointPoints({ sliders = {}, telescopes = {} }: Joints): string[] {
  return [
    ...Object.values(sliders).flatMap(({ point, on }) => [point, ...on]),
    ...Object.values(telescopes).flat(),
  ];
}

/** Points of a body at which something else holds it. */
export function jointsOf(parts: Joints & Pick<Parts, 'bodies' | 'ground'>, body: string): string[] {
  const { bodies, ground } = parts;
  const joined = jointPoints(parts);
  return bodies[body].filter(
    (name) =>
      ground.includes(name) ||
      joined.includes(name) ||
      Object.entries(bodies).some(([other, points]) => other !== body && points.includes(name)),
  );
}
