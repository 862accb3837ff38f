// What the library knows of a kind of corner as an input. Each kind has one such descriptor in `kinds`, and one drawing in
// `corner`; whatever reads corners by their points reads these two, so that nothing of a kind stands anywhere else.

import type * as z from 'zod';

/** What a kind of corner is as an input. Points and parts go by their paths in it: `lowerArm.inner`. */
export interface CornerKind<Schema extends z.ZodObject = z.ZodObject, Path extends string = PathIn<Schema>> {
  /** Its name in files. */
  readonly kind: string;
  /** What its input is called where it is refused. */
  readonly what: string;
  /** What an editor says after its name: `pushrod, for ...`. */
  readonly about: string;
  readonly schema: Schema;
  /**
   * The name of each hardpoint. All of a coilover's stand under `coilover`, with the fixed end as `chassisMount`; a point called `mount`
   * moves with the part that `on` beside it names.
   */
  readonly points: Readonly<Record<Path, string>>;
  /** Points that must not lie in one place, beside those of arms, wheel and coilover; a fault is reported at the first. */
  readonly apart: readonly (readonly [first: Path, second: Path])[];
  /** Arms that may carry a mount, each from its pivot on the chassis to its outer joint. */
  readonly arms: Readonly<Record<string, readonly [pivot: Path, outer: Path]>>;
  /** The line of an upright that may carry a mount, from its lower joint up; null without one. */
  readonly upright: readonly [lower: Path, upper: Path] | null;
  /**
   * The part along which spring and damper act where an input has no `coilover`; their body is then part of the upright. Null where
   * there always is one.
   */
  readonly strut: (keyof z.input<Schema> & string) | null;
  /** Usual sizes beside those of arms and wheel: bounds in mm, and what the number is, which `sentences/checks.ts` words. */
  readonly sizes: readonly {
    readonly at: string;
    readonly between: readonly [Path, Path];
    readonly what: 'length' | 'pivotDistance' | 'mountDistance';
    readonly least: number;
    readonly most: number;
  }[];
  /** How the two ends of a part lie to each other; if they do not, they were exchanged. */
  readonly ends: readonly (readonly [Path, lies: 'above' | 'outboardOf', Path])[];
  /** Ball joints and rod ends, by point: what can hold the housing of each (`arm` for the arm that meets the upright); null without any. */
  readonly ballJoints: {
    readonly about: string;
    readonly holders: Readonly<Record<string, readonly [string, ...string[]]>>;
  } | null;
}

/** The kind of a file's corner that names none. */
export const UNNAMED_KIND = 'doubleWishbone';

/** Paths of the points that inputs of a schema may have; any text for a schema that is not known. */
type PathIn<Schema extends z.ZodObject> = z.ZodObject extends Schema ? string : PointPath<z.input<Schema>>;

/** Paths of the points in an input. */
export type PointPath<Input> = {
  [Key in keyof Input & string]-?: Below<Key, NonNullable<Input[Key]>>;
}[keyof Input & string];

/** The same of the points that every input has. */
export type RequiredPath<Input> = {
  [Key in keyof Input & string]-?: Record<never, never> extends Pick<Input, Key>
    ? never
    : RequiredBelow<Key, NonNullable<Input[Key]>>;
}[keyof Input & string];

type Pair = readonly [unknown, unknown];
type Below<Key extends string, T> = T extends Pair
  ? Key
  : T extends object
    ? `${Key}.${PointPath<T>}`
    : never;
type RequiredBelow<Key extends string, T> = T extends Pair
  ? Key
  : T extends object
    ? `${Key}.${RequiredPath<T>}`
    : never;

/** Names of the hardpoints of a kind. */
export type PointOf<Kind extends CornerKind> = Kind['points'][keyof Kind['points']];

/** Names of those that every corner of the kind has; a contact patch that is not given follows from the camber. */
export type RequiredPointOf<Kind extends CornerKind> = Kind['points'][keyof Kind['points'] &
  (RequiredPath<z.input<Kind['schema']>> | 'wheel.contactPatch')];

/** Parts of a kind that a mount may be bolted to. */
export type PartOf<Kind extends CornerKind> =
  | (keyof Kind['arms'] & string)
  | (Kind['upright'] extends null ? never : 'upright');

/** Where an input of a kind says what a mount is on. */
export type OnPath<Kind extends CornerKind> = keyof Kind['points'] extends infer Path
  ? Path extends `${infer Part}.mount`
    ? `${Part}.on`
    : never
  : never;

/** Where the other end of a coilover stands: on the chassis, or on a part that moves too. */
const OTHER_END: readonly string[] = ['coilover.chassisMount', 'coilover.otherEnd.mount'];

/** Whether a point is that end of a coilover that the wheel moves. */
export function isMovingEnd(path: string): boolean {
  return path.startsWith('coilover.') && !OTHER_END.includes(path);
}

/** Parts of a kind that may carry a drop link. */
export function linkBodies({ arms, upright, points }: CornerKind): string[] {
  return [
    ...Object.keys(arms),
    ...(upright === null ? [] : ['upright']),
    ...('rocker.pivot' in points ? ['rocker'] : []),
  ];
}

/** Whether a point is the other end of a coilover. */
export function isOtherEnd(path: string): boolean {
  return OTHER_END.includes(path);
}

/** Where an input says what a point is on; undefined where the kind says it. */
export function onPathOf(path: string): string | undefined {
  return path.endsWith('.mount') ? path.replace(/mount$/, 'on') : undefined;
}
