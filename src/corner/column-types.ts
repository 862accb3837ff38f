// Which columns a sweep has, and what may be null in them, as types. Tests hold them against the columns that sweeps have.

import type { PointOf, RequiredPointOf } from '../document/corner-kind.ts';
import type { Corner } from './corner.ts';
import type { Kind as Drawn, KINDS, MODELS } from './kinds.ts';

type Kind = Corner['kind'];
type Coordinates<Point extends string> = `${Point}${'Y' | 'Z'}`;

/** Columns with a name of their own; beside them stand the moving hardpoints: `lowerOuterY`, `lowerOuterZ`, `contactPatchY` and so on, mm. */
export interface StandardColumns {
  /** mm, bump +; of what `travelReference` says. */
  readonly travel: Float64Array;
  /** mm, between the end eyes. */
  readonly shockLength: Float64Array;
  /** mm of shock a mm of contact-patch travel, positive where bump shortens the shock. */
  readonly installationRatio: Float64Array;
  /** Derivative of the ratio with respect to contact-patch travel, 1/mm. */
  readonly installationRatioSlope: Float64Array;
  /** Degrees from vertical, top inboard positive. */
  readonly shockInclination: Float64Array;
  /** Degrees, top outboard positive. */
  readonly camber: Float64Array;
  /** Degrees, top inboard positive. */
  readonly kingpinInclination: Float64Array;
  /** mm that the contact patch has moved outboard. */
  readonly halfTrackChange: Float64Array;
  /** mm above the ground of that pose, both wheels moving alike. */
  readonly rollCentreHeight: Float64Array;
  /** mm outboard of the centreline; null where the upright does not turn. */
  readonly instantCentreY: readonly (number | null)[];
  /** mm above the ground as drawn; null where the upright does not turn. */
  readonly instantCentreZ: readonly (number | null)[];
  /** Inverse distance from contact patch to instant centre, 1/mm, positive inboard, 0 for parallel arms. */
  readonly instantCentreCurvature: Float64Array;
  /** Degrees from horizontal, outer end up positive. */
  readonly lowerArmAngle: Float64Array;
  /** Degrees from horizontal, outer end up positive. */
  readonly upperArmAngle: Float64Array;
  /** With a rocker alone: degrees from the drawn pose, counter-clockwise in (y, z) positive. */
  readonly rockerAngle: Float64Array;
  /** Degrees from horizontal, wheel end up positive. */
  readonly rodAngle: Float64Array;
  /** Degrees between the line to the pivot and the rod: 0 or 180 is a dead point. */
  readonly rodRockerAngle: Float64Array;
}

type RockerColumn = 'rockerAngle' | 'rodAngle' | 'rodRockerAngle';
type ArmColumn = 'lowerArmAngle' | 'upperArmAngle';

/** Columns that need a derivative with respect to travel: at a dead point they have no value. */
type RateColumn =
  | 'installationRatio'
  | 'installationRatioSlope'
  | 'rollCentreHeight'
  | 'instantCentreY'
  | 'instantCentreZ'
  | 'instantCentreCurvature';

/** What every corner has. */
type EveryColumn = Exclude<keyof StandardColumns, 'travel' | 'kingpinInclination' | RockerColumn | ArmColumn>;

type Model<K extends Drawn> = ReturnType<(typeof MODELS)[K]>;
type Input<K extends Drawn> = (typeof KINDS)[K]['input'];
/** Columns of those of some points that move. */
type Moving<K extends Drawn, Point> = Coordinates<
  Exclude<Point, Model<K>['drawing']['ground'][number]> & string
>;

/** Columns by kind, beside `travel`, and those that it has where its coilover stands so that the points move. */
type ColumnsOf = {
  [K in Drawn]:
    | EveryColumn
    | (Model<K>['kingpin'] extends null ? never : 'kingpinInclination')
    | (Model<K>['rocker'] extends null ? never : RockerColumn)
    | (keyof Model<K>['angles'] & string)
    | Moving<K, RequiredPointOf<Input<K>>>;
} & { custom: EveryColumn };
type FurtherColumnsOf = {
  [K in Drawn]: Moving<K, Exclude<PointOf<Input<K>>, RequiredPointOf<Input<K>>>>;
} & { custom: never };

/** Names of the columns that all of some kinds have. */
type Common<Names extends Record<Kind, string>, K extends Kind> = string &
  keyof { [One in K]: Record<Names[One], never> }[K];

/** Names of the points and angles of a drawing of one's own. */
type OwnColumn = string & {};

/** Names of the columns that all corners of a kind have beside `travel`; those of several kinds are what all of these have. */
export type ColumnOf<K extends Kind = Kind> = [K] extends ['custom']
  ? EveryColumn | OwnColumn
  : Common<ColumnsOf, K>;

/** Names of the columns that a corner of a kind can have. */
export type ColumnName<K extends Kind = Kind> = [K] extends ['custom']
  ? EveryColumn | OwnColumn
  : Common<{ [One in Kind]: ColumnsOf[One] | FurtherColumnsOf[One] }, K>;

/** `Name` if the corner can have that column, or if `Name` is just a string; otherwise the names that it can have. */
export type AllowedColumn<C extends Corner, Name extends string> = string extends Name
  ? Name
  : [Name] extends [ColumnName<C['kind']>]
    ? Name
    : ColumnName<C['kind']>;

/**
 * Columns by name, one entry per row: travel and the chosen columns. The instant centre has gaps (null) where the arms are
 * parallel.
 */
export type Columns<Name extends string = string> = Pick<
  StandardColumns,
  'travel' | Extract<Name, keyof StandardColumns>
> & {
  readonly [One in Exclude<Name, keyof StandardColumns>]: string extends One
    ? Float64Array | readonly (number | null)[]
    : Float64Array;
};

type Entry<Column> = Column extends Float64Array ? number : number | null;

/** A row as a flat object: what `Columns` holds at one place. */
export type Row<Name extends string = string> = {
  readonly [One in keyof Columns<Name>]: Entry<Columns<Name>[One]>;
};

/** The pose at a travel as a flat object. At a dead point the columns that need a derivative with respect to travel are null. */
export type Pose<Name extends string = string> = {
  readonly [One in keyof Row<Name>]: One extends RateColumn ? Row<Name>[One] | null : Row<Name>[One];
};
