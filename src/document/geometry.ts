import type { Finding } from './parse.ts';

type Point = readonly [number, number];

/** The points of a corner, as far as they are known. */
export interface Geometry {
  readonly lowerArm: Ends;
  readonly upperArm: Ends;
  readonly wheel: { readonly centre?: Point | undefined; readonly contactPatch?: Point | undefined };
  readonly coilover: { readonly mount?: Point | undefined; readonly chassisMount?: Point | undefined };
}

interface Ends {
  readonly inner?: Point | undefined;
  readonly outer?: Point | undefined;
}

/** What keeps points from being a corner: two in one place, or a wheel in the ground. `unit` is theirs. */
export function geometryFindings(geometry: Geometry, unit: string): Finding[] {
  return [...coincidences(geometry), ...unsoundWheel(geometry.wheel, unit)];
}

const PLACES = {
  lowerInner: ['lowerArm', 'inner'],
  lowerOuter: ['lowerArm', 'outer'],
  upperInner: ['upperArm', 'inner'],
  upperOuter: ['upperArm', 'outer'],
  centre: ['wheel', 'centre'],
  patch: ['wheel', 'contactPatch'],
  mount: ['coilover', 'mount'],
  chassisMount: ['coilover', 'chassisMount'],
} as const;

/** Pairs of points that must lie apart for the corner to have a geometry. */
function coincidences({ lowerArm, upperArm, wheel, coilover }: Geometry): Finding[] {
  const findings: Finding[] = [];
  const apart = (
    first: (typeof PLACES)[keyof typeof PLACES],
    a: Point | undefined,
    second: (typeof PLACES)[keyof typeof PLACES],
    b: Point | undefined,
  ) => {
    if (a === undefined || b === undefined || a[0] !== b[0] || a[1] !== b[1]) return;
    findings.push({
      at: first,
      problem: `in the same place as ${second.join('.')}`,
      got: `[${a[0]}, ${a[1]}]`,
      advice: 'measure the two again: they must lie apart',
    });
  };
  apart(PLACES.lowerInner, lowerArm.inner, PLACES.lowerOuter, lowerArm.outer);
  apart(PLACES.upperInner, upperArm.inner, PLACES.upperOuter, upperArm.outer);
  apart(PLACES.lowerOuter, lowerArm.outer, PLACES.upperOuter, upperArm.outer);
  apart(PLACES.centre, wheel.centre, PLACES.patch, wheel.contactPatch);
  apart(PLACES.mount, coilover.mount, PLACES.chassisMount, coilover.chassisMount);
  return findings;
}

/** The wheel stands on the ground: its centre is above that, and above its contact patch. */
function unsoundWheel({ centre, contactPatch }: Geometry['wheel'], unit: string): Finding[] {
  if (centre === undefined) return [];
  const ground = contactPatch === undefined ? 0 : contactPatch[1];
  // In one place is told as such.
  const together = contactPatch?.[0] === centre[0] && contactPatch[1] === centre[1];
  if (centre[1] > ground || together) return [];
  return [
    {
      at: ['wheel', 'centre', 1],
      problem:
        contactPatch === undefined
          ? 'wheel centre not above the ground'
          : 'wheel centre not above its contact patch',
      got: `${centre[1]} ${unit}`,
      allowed: `more than ${ground} ${unit}`,
      advice: 'z counts up from the ground at the drawn ride height',
    },
  ];
}
