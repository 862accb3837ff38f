import type { CornerKind } from './corner-kind.ts';
import { pointAt } from './geometry.ts';
import type {
  AntiRollBarInput,
  CornerSizingFile,
  LimitOptions,
  RollSpringInput,
  ThirdSpringInput,
} from './inputs.ts';
import { placeAt } from './parse.ts';
import type { Certain } from './uncertain.ts';

export type Point = readonly [number, number];

/** What corners of all kinds have, in the library's units. */
export interface Written {
  readonly wheel: {
    readonly centre: Point;
    readonly camber?: number | undefined;
    readonly contactPatch?: Point | undefined;
  };
  readonly sprungMass?: number | undefined;
  readonly bar?: AntiRollBarInput | undefined;
  readonly thirdSpring?: ThirdSpringInput | undefined;
  readonly rollSpring?: RollSpringInput | undefined;
  readonly limits?: LimitOptions | undefined;
  readonly sizing?: Certain<CornerSizingFile> | undefined;
}

/** The points that a corner has, by their paths. */
export function pointsOf({ points }: CornerKind, corner: unknown): ReadonlyMap<string, Point> {
  return new Map(
    Object.keys(points).flatMap((path): [string, Point][] => {
      const point = pointAt(corner, placeAt(path));
      return point === undefined ? [] : [[path, point]];
    }),
  );
}

/** Points of the wheel arch, with their paths. */
export function archOf({ limits }: Written): [path: string, point: Point][] {
  return (limits?.arch ?? []).map((point, k) => [`limits.arch[${k}]`, point]);
}

/** Distance of two points. */
export function apart([y, z]: Point, other: Point): number {
  return Math.hypot(other[0] - y, other[1] - z);
}
