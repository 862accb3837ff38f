import type { CornerSizingFile, LimitOptions } from './inputs.ts';
import type { Certain } from './uncertain.ts';

export type Point = readonly [number, number];

interface Ends {
  readonly inner: Point;
  readonly outer: Point;
}

type Part = 'lowerArm' | 'upperArm' | 'upright';

/** The parts that a corner of any kind may have, in the library's units. */
export interface Written {
  readonly lowerArm: Ends;
  readonly upperArm?: Ends | undefined;
  readonly strut?: { readonly topMount: Point; readonly lowerMount: Point } | undefined;
  readonly wheel: {
    readonly centre: Point;
    readonly camber?: number | undefined;
    readonly contactPatch?: Point | undefined;
  };
  readonly rod?: { readonly on: Part; readonly mount: Point; readonly rockerMount: Point } | undefined;
  readonly rocker?: { readonly pivot: Point } | undefined;
  readonly coilover?:
    | {
        readonly on?: Part | undefined;
        readonly mount?: Point | undefined;
        readonly rockerMount?: Point | undefined;
        readonly chassisMount?: Point | undefined;
        readonly otherEnd?: { readonly on: Part; readonly mount: Point } | undefined;
      }
    | undefined;
  readonly sprungMass?: number | undefined;
  readonly limits?: LimitOptions | undefined;
  readonly sizing?: Certain<CornerSizingFile> | undefined;
}

/** All points but the wheel's, with their paths. */
export function pointsOf(written: Written): [path: string, point: Point][] {
  const { lowerArm, upperArm, strut, rod, rocker, coilover } = written;
  const points: [string, Point | undefined][] = [
    ['lowerArm.inner', lowerArm.inner],
    ['lowerArm.outer', lowerArm.outer],
    ['upperArm.inner', upperArm?.inner],
    ['upperArm.outer', upperArm?.outer],
    ['strut.topMount', strut?.topMount],
    ['strut.lowerMount', strut?.lowerMount],
    ['rod.mount', rod?.mount],
    ['rod.rockerMount', rod?.rockerMount],
    ['rocker.pivot', rocker?.pivot],
    ['coilover.mount', coilover?.mount],
    ['coilover.rockerMount', coilover?.rockerMount],
    ['coilover.chassisMount', coilover?.chassisMount],
    ['coilover.otherEnd.mount', coilover?.otherEnd?.mount],
  ];
  return points.flatMap(([path, point]) => (point === undefined ? [] : [[path, point]]));
}

/** Points of the wheel arch, with their paths. */
export function archOf({ limits }: Written): [path: string, point: Point][] {
  return (limits?.arch ?? []).map((point, k) => [`limits.arch[${k}]`, point]);
}

/** The two ends of the coilover. */
export function endsOf({ coilover }: Written): readonly [Point, Point] | undefined {
  const one = coilover?.mount ?? coilover?.rockerMount;
  const other = coilover?.chassisMount ?? coilover?.otherEnd?.mount;
  return one && other && [one, other];
}

/** Distance of two points. */
export function apart([y, z]: Point, other: Point): number {
  return Math.hypot(other[0] - y, other[1] - z);
}
