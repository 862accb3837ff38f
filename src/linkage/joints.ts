import { type Diagnostic, fault, show } from '../diagnostic.ts';

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
}

/** What a joint is checked with; each adds a fault, at a place in the drawing, where the answer is no. */
export interface JointCheck {
  readonly faults: Diagnostic[];
  /** Whether a name is that of a point, or of something that has a direction. */
  known(path: string, name: string, what?: 'point' | 'body'): boolean;
  /** Whether two names are those of points that lie apart; if not, `code` says so of `of`. */
  apart(path: string, pair: readonly [string, string], code: string, of?: string): boolean;
  /** Whether the ground or one body has all these points. */
  share(names: readonly string[]): boolean;
}

/** A joint where it stands in a drawing, and all that is to be known of it. */
export interface Joint {
  readonly kind: JointKind;
  /** Its name, or its number in a list. */
  readonly name: string;
  readonly path: string;
  /** What it is called in messages. */
  readonly label: string;
  /** Points that it holds. */
  readonly points: readonly string[];
  /** The two points, as drawn, of a direction that it has of its own. */
  readonly direction?: readonly [string, string];
  /** Adds its faults, where its shape is good. */
  check(check: JointCheck, path: string): void;
  /** The constraint that it is: it takes one degree of freedom. */
  constraint<C>(make: ConstraintMaker<C>): C;
}

/** A kind of joint; what one looks like is said in sentences/linkage.ts. */
interface JointType<One, IsListed> {
  /** Whether a drawing has a list of them, or has them by name. */
  readonly isListed: IsListed;
  /** Whether a value has the shape of one. */
  isShaped(one: unknown): boolean;
  /** A joint of that shape by its name. */
  joint(one: One, name: string): Omit<Joint, 'kind' | 'name' | 'path'>;
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
    isShaped: (one) => isRecord(one) && (typeof one.x === 'string' || typeof one.y === 'string'),
    joint(one) {
      const [axis, point] = 'x' in one ? (['x', one.x] as const) : (['y', one.y] as const);
      return {
        label: `fixed ${axis} of ${point}`,
        points: [point],
        check: (check, path) => check.known(`${path}.${axis}`, point),
        constraint: (make) => make.coordinate(axis, point),
      };
    },
  },
  sliders: {
    isListed: false,
    isShaped: (one) => isRecord(one) && typeof one.point === 'string' && isPair(one.on),
    joint: ({ point, on }, name) => ({
      label: `slider ${name}`,
      points: [point, ...on],
      check(check, path) {
        const isKnown = check.known(`${path}.point`, point);
        if (!check.apart(`${path}.on`, on, 'coincidentPoints', 'line') || !isKnown) return;
        if (!check.share(on)) check.faults.push(fault('lineBetweenBodies', `${path}.on`, { got: show(on) }));
        else if (check.share([...on, point])) {
          check.faults.push(fault('slidesOnItsOwnBody', `${path}.point`, { got: show(point) }));
        }
      },
      constraint: (make) => make.distance(point, on),
    }),
  },
  telescopes: {
    isListed: false,
    isShaped: isPair,
    joint: ([a, b], name) => ({
      label: `telescope ${name}`,
      points: [a, b],
      direction: [a, b],
      check: (check, path) => check.apart(path, [a, b], 'telescopeOfNoLength'),
      constraint: (make) => make.distance(b, [a, endOf(name)]),
    }),
  },
  fixedAngles: {
    isListed: false,
    isShaped: (one) =>
      Array.isArray(one) &&
      (one.length === 1 || one.length === 2) &&
      one.every((direction) => typeof direction === 'string' || isPair(direction)),
    joint: (directions, name) => ({
      label: `fixed angle ${name}`,
      points: directions.flatMap((direction) => (typeof direction === 'string' ? [] : direction)),
      check: (check, path) =>
        directions.forEach((direction, k) => {
          const at = `${path}[${k}]`;
          if (typeof direction === 'string') check.known(at, direction, 'body');
          else check.apart(at, direction, 'coincidentPoints', 'direction');
        }),
      constraint(make) {
        const [first, second] = directions;
        return make.angle(first, second);
      },
    }),
  },
};

export const JOINT_KINDS = Object.keys(JOINTS) as JointKind[];

/** The end of a direction that a joint has of its own, as a point; no name of a drawing can be it. */
export function endOf(name: string): string {
  return `${name}\u0000end`;
}

/** All joints of a drawing. */
export function jointsIn(joints: Joints): Joint[] {
  return JOINT_KINDS.flatMap((kind) => {
    const { joint }: JointType<never, boolean> = JOINTS[kind];
    return placesIn(kind, joints[kind] ?? {}).map(({ one, ...place }) => ({
      kind,
      ...place,
      ...joint(one as never, place.name),
    }));
  });
}

/** What a part of a drawing holds, each with its place. */
export function placesIn(part: string, all: object): { name: string; path: string; one: unknown }[] {
  return Object.entries(all).map(([name, one]) => {
    return { name, path: Array.isArray(all) ? `${part}[${name}]` : `${part}.${name}`, one };
  });
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

/** Points that joints hold. */
export function heldPoints(joints: Joints): string[] {
  return jointsIn(joints).flatMap(({ points }) => points);
}
