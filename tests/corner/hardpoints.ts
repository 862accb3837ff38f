/** Coordinates of a corner's input by the names that sensitivities have. */
import type { CornerInput, Point } from '../judges/circle-intersection.ts';
import { deepFreeze } from '../support/freeze.ts';

const PLACES: Readonly<Record<string, readonly [part: string, end: string]>> = {
  lowerInner: ['lowerArm', 'inner'],
  lowerOuter: ['lowerArm', 'outer'],
  upperInner: ['upperArm', 'inner'],
  upperOuter: ['upperArm', 'outer'],
  wheelCentre: ['wheel', 'centre'],
  contactPatch: ['wheel', 'contactPatch'],
  shockMount: ['coilover', 'mount'],
  shockChassisMount: ['coilover', 'chassisMount'],
};

type Parts = Record<string, Record<string, Point>>;

/** Names and values of the coordinates that an input gives. */
export function coordinatesOf(input: CornerInput): [name: string, value: number][] {
  return Object.entries(PLACES).flatMap(([point, [part, end]]) => {
    const at = (input as unknown as Parts)[part][end];
    return at === undefined
      ? []
      : [
          [`${point}Y`, at[0]],
          [`${point}Z`, at[1]],
        ];
  });
}

/** The input with one coordinate moved by so many mm. */
export function moved(input: CornerInput, coordinate: string, mm: number): CornerInput {
  const copy = structuredClone(input) as unknown as Parts;
  const [part, end] = PLACES[coordinate.slice(0, -1)];
  const [y, z] = copy[part][end];
  copy[part][end] = coordinate.endsWith('Y') ? [y + mm, z] : [y, z + mm];
  return deepFreeze(copy as unknown as CornerInput);
}
