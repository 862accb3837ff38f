import type { CornerKind, PointOf, RequiredPointOf } from '../document/corner-kind.ts';
import type { CheckedDrawing, Point } from '../linkage/drawing.ts';
import type { Measure } from '../linkage/measure.ts';

/** A drawing of a corner (`x` is y of the car, `y` is z, mm) with the parts that its points play. */
export interface CornerModel {
  readonly drawing: CheckedDrawing;
  /** Body that carries the wheel. */
  readonly upright: string;
  readonly wheelCentre: string;
  readonly contactPatch: string;
  /** End eyes of the shock, and their constant fore-aft distance in mm; `inner` is fixed, or moves with another body. */
  readonly shock: { readonly outer: string; readonly inner: string; readonly foreAftOffset: number };
  /** Points of the axis that the wheel steers about; null where none are named. */
  readonly kingpin: { readonly lower: string; readonly upper: string } | null;
  /** The rocker between wheel and shock; null without one. */
  readonly rocker: Rocker | null;
  /** Camber as drawn, degrees, top outboard positive. */
  readonly camber: number;
  /** What was given to say where the wheel stands; of camber and contact patch the other follows. */
  readonly standsBy: 'camber' | 'contactPatch' | 'both';
  /** Further angles to report, by column name; degrees in the columns. */
  readonly angles: Readonly<Record<string, Measure>>;
}

/** The model of a corner of a kind: of its hardpoints it has those that every such corner has, and maybe others. */
export type ModelOf<Kind extends CornerKind> = Omit<CornerModel, 'drawing' | 'shock' | 'kingpin'> & {
  readonly drawing: Omit<CheckedDrawing, 'points' | 'ground'> & {
    readonly points: { readonly [Name in RequiredPointOf<Kind>]: Point } & {
      readonly [Name in Exclude<PointOf<Kind>, RequiredPointOf<Kind>>]?: Point;
    };
    readonly ground: readonly PointOf<Kind>[];
  };
  readonly shock: CornerModel['shock'] & {
    readonly outer: PointOf<Kind>;
    readonly inner: PointOf<Kind>;
  };
  readonly kingpin: { readonly lower: PointOf<Kind>; readonly upper: PointOf<Kind> } | null;
};

/** A rocker, and the rod that works it. */
export interface Rocker {
  readonly body: string;
  /** Where it is pinned to the chassis. */
  readonly pivot: string;
  /** Ends of the rod: on the part that moves with the wheel, and on the rocker. */
  readonly rod: { readonly outer: string; readonly inner: string };
}

/** The moving body that carries a point, one with a pivot on the chassis first; null for a point that never moves. */
export function carrierOf({ drawing: { ground, bodies } }: CornerModel, point: string): string | null {
  if (ground.includes(point)) return null;
  const carriers = Object.keys(bodies).filter((body) => bodies[body].includes(point));
  return carriers.find((body) => pivotOf(bodies[body], ground) !== undefined) ?? carriers[0] ?? null;
}

/** The point at which a body is pinned to the chassis, if it is. */
export function pivotOf(points: readonly string[], ground: readonly string[]): string | undefined {
  return points.find((point) => ground.includes(point));
}
