import { type Diagnostic, fault, show, unknownOptions } from '../diagnostic.ts';
import {
  type CoupledMeasure,
  pointsOf,
  type Ratio,
  type Rope,
  straightParts,
  type Term,
  termsOfRatio,
  termsOfRope,
} from './couplings.ts';
import { type Kinds, kindFaults } from './kinds.ts';

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
  /** Measures that change in a fixed ratio: gears, racks, belts. */
  readonly ratios?: Readonly<Record<string, Ratio<P, B>>>;
  /** Ropes of constant length over pulleys. The mathematics would let them push: `forces` says where one would have to. */
  readonly ropes?: Readonly<Record<string, Rope<P>>>;
}

/** A coordinate of a point that stays as drawn. */
export type FixedCoordinate<P extends string = string> = { readonly x: P } | { readonly y: P };

/** The kinds of joint. */
export type JointKind = keyof Joints;

/** A joint of a kind, as drawn. */
export type JointOf<K extends JointKind> =
  NonNullable<Joints[K]> extends { readonly [name: number]: infer One } ? One : never;

/** What constraints C are made with: rows in structure.ts, the forces that keep them in statics. */
export interface ConstraintMaker<C> {
  /** A coordinate of a point stays as drawn. */
  coordinate(axis: 'x' | 'y', point: string): C;
  /** A point stays as far from a line through two points as drawn. */
  distance(point: string, line: readonly [string, string]): C;
  /** The angle between two directions stays as drawn, or that of one direction. */
  angle(first: Direction, second?: Direction): C;
  /** A sum of measures stays as drawn. */
  sum(terms: readonly Term[]): C;
}

/** What a joint is checked with; each adds a fault, at a place in the drawing, where the answer is no. */
export interface JointCheck {
  readonly faults: Diagnostic[];
  /** Whether a name is that of a point, or of something that has a direction. */
  known(path: string, name: string, what?: 'point' | 'body'): boolean;
  /** Whether two names are those of points that lie apart, by more than `by`; if not, `code` says so of `of`. */
  apart(path: string, pair: readonly [string, string], code: string, of?: string, by?: number): boolean;
  /** Whether the ground or one body has all these points. */
  share(names: readonly string[]): boolean;
}

/** Where a joint stands in a drawing. */
interface Place {
  readonly kind: JointKind;
  /** Its name, or its number in a list. */
  readonly name: string;
  readonly path: string;
}

/** All that is to be known of a joint. */
export interface Joint {
  readonly at: Place;
  /** What it is called in messages. */
  readonly label: string;
  /** Points that it holds. */
  readonly points: readonly string[];
  /** The two points, as drawn, of a direction that it has of its own. */
  readonly direction?: readonly [string, string];
  /** Adds its faults, where its shape is good. */
  check(check: JointCheck): void;
  /** The constraint that it is: it takes one degree of freedom. */
  constraint<C>(make: ConstraintMaker<C>): C;
}

/** A kind of joint; what one looks like is said in sentences/linkage.ts. */
interface JointType<One, IsListed> {
  /** Whether a drawing has a list of them, or has them by name. */
  readonly isListed: IsListed;
  /** Whether a value has the shape of one. */
  isShaped(one: unknown): boolean;
  /** A joint of that shape, at its place. */
  joint(one: One, at: Place): Joint;
}

/** All kinds of joint, in the order of their rows. */
export const JOINTS: {
  readonly [K in JointKind]-?: JointType<
    JointOf<K>,
    NonNullable<Joints[K]> extends readonly unknown[] ? true : false
  >;
} = {
  fixedCoordinates: {
    isListed: true,
    isShaped: isFixedCoordinate,
    joint(one, at) {
      const [axis, point] = 'x' in one ? (['x', one.x] as const) : (['y', one.y] as const);
      return {
        at,
        label: `fixed ${axis} of ${point}`,
        points: [point],
        check(check) {
          check.faults.push(...kindFaults('measure', one, FIXED, at.path));
          check.known(`${at.path}.${axis}`, point);
        },
        constraint: (make) => make.coordinate(axis, point),
      };
    },
  },
  sliders: {
    isListed: false,
    isShaped: (one) => isRecord(one) && typeof one.point === 'string' && isPair(one.on),
    joint: (one, at) => ({
      at,
      label: `slider ${at.name}`,
      points: [one.point, ...one.on],
      check(check) {
        check.faults.push(...unknownOptions(one, ['point', 'on'], at.path));
        checkOnLine(check, [`${at.path}.point`, one.point], [`${at.path}.on`, one.on]);
      },
      constraint: (make) => make.distance(one.point, one.on),
    }),
  },
  telescopes: {
    isListed: false,
    isShaped: isPair,
    joint: ([a, b], at) => ({
      at,
      label: `telescope ${at.name}`,
      points: [a, b],
      direction: [a, b],
      check: (check) => check.apart(at.path, [a, b], 'telescopeOfNoLength'),
      constraint: (make) => make.distance(b, [a, endOf(at.name)]),
    }),
  },
  fixedAngles: {
    isListed: false,
    isShaped: (one) =>
      Array.isArray(one) &&
      (one.length === 1 || one.length === 2) &&
      one.every((direction) => typeof direction === 'string' || isPair(direction)),
    joint: (directions, at) => ({
      at,
      label: `fixed angle ${at.name}`,
      points: directions.flatMap((direction) => (typeof direction === 'string' ? [] : direction)),
      check: (check) =>
        directions.forEach((direction, k) => {
          const path = `${at.path}[${k}]`;
          if (typeof direction === 'string') check.known(path, direction, 'body');
          else check.apart(path, direction, 'coincidentPoints', 'direction');
        }),
      constraint(make) {
        const [first, second] = directions;
        return make.angle(first, second);
      },
    }),
  },
  ratios: {
    isListed: false,
    isShaped: (one) =>
      isRecord(one) &&
      typeof one.ratio === 'number' &&
      Array.isArray(one.of) &&
      one.of.length === 2 &&
      one.of.every(isCoupled),
    joint: (one, at) => ({
      at,
      label: `ratio ${at.name}`,
      points: one.of.flatMap(pointsOf),
      check(check) {
        check.faults.push(...unknownOptions(one, ['of', 'ratio'], at.path));
        one.of.forEach((measure, k) => checkCoupled(check, measure, `${at.path}.of[${k}]`));
        if (Number.isFinite(one.ratio) && one.ratio !== 0) return;
        check.faults.push(fault('notARatio', `${at.path}.ratio`, { got: show(one.ratio) }));
      },
      constraint: (make) => make.sum(termsOfRatio(one)),
    }),
  },
  ropes: {
    isListed: false,
    isShaped: (one) => Array.isArray(one) && one.length >= 2 && one.every(isStop) && areEnds(one),
    joint: (one, at) => ({
      at,
      label: `rope ${at.name}`,
      points: one.map((stop) => (typeof stop === 'string' ? stop : stop.about)),
      check(check) {
        const isGood = one.map((stop, k) => {
          const path = `${at.path}[${k}]`;
          if (typeof stop === 'string') return check.known(path, stop);
          const { about, radius } = stop;
          check.faults.push(...unknownOptions(stop, ['about', 'radius', 'side'], path));
          const isRadius = Number.isFinite(radius) && radius >= 0;
          if (!isRadius) check.faults.push(fault('notARadius', `${path}.radius`, { got: show(radius) }));
          return check.known(`${path}.about`, about) && isRadius;
        });
        straightParts(one).forEach(({ length, aside }, k) => {
          if (isGood[k] && isGood[k + 1]) check.apart(at.path, length, 'ropeOfNoLength', '', Math.abs(aside));
        });
      },
      constraint: (make) => make.sum(termsOfRope(one)),
    }),
  },
};

/** Adds what is wrong with a point that slides on a line. */
function checkOnLine(
  check: JointCheck,
  [pointAt, point]: readonly [string, string],
  [lineAt, line]: readonly [string, readonly [string, string]],
): void {
  const isKnown = check.known(pointAt, point);
  if (!check.apart(lineAt, line, 'coincidentPoints', 'line') || !isKnown) return;
  if (!check.share(line)) check.faults.push(fault('lineBetweenBodies', lineAt, { got: show(line) }));
  else if (check.share([...line, point])) {
    check.faults.push(fault('slidesOnItsOwnBody', pointAt, { got: show(point) }));
  }
}

/** Kinds of fixed coordinate, and of measure that a ratio couples. */
export const FIXED: Kinds = { x: [], y: [] };
const COUPLED: Kinds = { turn: ['relativeTo'], travel: ['along'], x: [], y: [], length: [] };

function checkCoupled(check: JointCheck, measure: CoupledMeasure, path: string): void {
  check.faults.push(...kindFaults('measure', measure, COUPLED, path));
  if ('turn' in measure) {
    check.known(`${path}.turn`, measure.turn, 'body');
    if (measure.relativeTo !== undefined) check.known(`${path}.relativeTo`, measure.relativeTo, 'body');
  } else if ('travel' in measure) {
    checkOnLine(check, [`${path}.travel`, measure.travel], [`${path}.along`, measure.along]);
  } else if ('length' in measure)
    check.apart(`${path}.length`, measure.length, 'coincidentPoints', 'direction');
  else check.known(`${path}.${'x' in measure ? 'x' : 'y'}`, 'x' in measure ? measure.x : measure.y);
}

/** Whether a value has the shape of a fixed coordinate. */
export function isFixedCoordinate(one: unknown): one is FixedCoordinate {
  return isRecord(one) && (typeof one.x === 'string' || typeof one.y === 'string');
}

function isCoupled(value: unknown): boolean {
  if (!isRecord(value)) return false;
  const { turn, relativeTo = '', travel, along, length, x, y } = value;
  if (turn !== undefined) return typeof turn === 'string' && typeof relativeTo === 'string';
  if (travel !== undefined) return typeof travel === 'string' && isPair(along);
  return isPair(length) || typeof x === 'string' || typeof y === 'string';
}

function isStop(value: unknown): boolean {
  if (typeof value === 'string') return true;
  if (!isRecord(value)) return false;
  const { about, radius, side } = value;
  return typeof about === 'string' && typeof radius === 'number' && (side === 'left' || side === 'right');
}

/** Whether a rope begins and ends at points. */
function areEnds(rope: readonly unknown[]): boolean {
  return typeof rope[0] === 'string' && typeof rope[rope.length - 1] === 'string';
}

export const JOINT_KINDS = Object.keys(JOINTS) as JointKind[];

/** The end of a direction that a joint has of its own, as a point; no name of a drawing can be it. */
export function endOf(name: string): string {
  return `${name}\u0000end`;
}

/** All joints of a drawing. */
export function jointsIn(joints: Joints): Joint[] {
  const all: Joint[] = [];
  for (const kind of JOINT_KINDS) {
    const { joint }: JointType<never, boolean> = JOINTS[kind];
    const listed = joints[kind];
    if (listed === undefined) continue;
    for (const [name, path, one] of placesIn(kind, listed))
      all.push(joint(one as never, { kind, name, path }));
  }
  return all;
}

/** What a part of a drawing holds, each by its name and its place in the drawing. */
export function placesIn(part: string, all: object): [name: string, path: string, one: unknown][] {
  const path = (name: string) => (Array.isArray(all) ? `${part}[${name}]` : `${part}.${name}`);
  return Object.entries(all).map(([name, one]) => [name, path(name), one]);
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
