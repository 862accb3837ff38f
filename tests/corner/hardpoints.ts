/** Coordinates of a corner's input, of any kind, by the names that sensitivities have. */
import type { KINDS, Kind } from '../../src/corner/kinds.ts';
import type { PointOf } from '../../src/document/corner-kind.ts';
import type { Point } from '../judges/plane.ts';
import { deepFreeze } from '../support/freeze.ts';

type Drawn = { [Name in Kind]: PointOf<(typeof KINDS)[Name]['input']> }[Kind];

/** Where an input has its points, in the order of the drawings. */
const PLACES: Readonly<Record<Drawn, readonly string[]>> = {
  lowerInner: ['lowerArm', 'inner'],
  lowerOuter: ['lowerArm', 'outer'],
  upperInner: ['upperArm', 'inner'],
  upperOuter: ['upperArm', 'outer'],
  strutLower: ['strut', 'lowerMount'],
  strutTop: ['strut', 'topMount'],
  wheelCentre: ['wheel', 'centre'],
  contactPatch: ['wheel', 'contactPatch'],
  rodMount: ['rod', 'mount'],
  rodRockerMount: ['rod', 'rockerMount'],
  rockerPivot: ['rocker', 'pivot'],
  shockRockerMount: ['coilover', 'rockerMount'],
  shockMount: ['coilover', 'mount'],
  shockChassisMount: ['coilover', 'chassisMount'],
  shockOtherMount: ['coilover', 'otherEnd', 'mount'],
};

interface Parts {
  [name: string]: Parts | Point | undefined;
}

/** What stands at a place of an input; undefined where that has no such place. */
function pointAt(input: object, path: readonly string[]): Point | undefined {
  const found = path.reduce<Parts[string]>(
    (part, name) => (part as Parts | undefined)?.[name],
    input as Parts,
  );
  return found as Point | undefined;
}

/** Names and values of the coordinates that an input gives. */
export function coordinatesOf(input: object): [name: string, value: number][] {
  return Object.entries(PLACES).flatMap(([point, path]): [string, number][] => {
    const at = pointAt(input, path);
    return at === undefined
      ? []
      : [
          [`${point}Y`, at[0]],
          [`${point}Z`, at[1]],
        ];
  });
}

/** The input with what `coordinate` makes of each coordinate, by name, in its place. */
export function withCoordinates<In extends object>(
  input: In,
  coordinate: (name: string, value: number) => unknown,
): In {
  const copy = structuredClone(input);
  for (const [point, path] of Object.entries(PLACES)) {
    const at = pointAt(input, path);
    if (at === undefined) continue;
    const part = pointAt(copy, path.slice(0, -1)) as unknown as Record<string, unknown>;
    part[path[path.length - 1]] = [coordinate(`${point}Y`, at[0]), coordinate(`${point}Z`, at[1])];
  }
  return deepFreeze(copy);
}

/** The input with one coordinate moved by so many mm. */
export function moved<In extends object>(input: In, coordinate: string, mm: number): In {
  return withCoordinates(input, (name, value) => (name === coordinate ? value + mm : value));
}
